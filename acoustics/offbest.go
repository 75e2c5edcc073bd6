package acoustics

import (
	"math"

	"lowsone/catalog/quantity"
)

// Wheel is the kind of fan wheel as far as noise off the best duty goes. The
// zero value is none of them.
type Wheel uint8

// The wheels.
const (
	Axial Wheel = iota + 1
	Centrifugal
	Mixed
)

// Limits of the axial allowance, in q = flow over free delivery. Best efficiency
// is taken at bestShare, which for [VDI2081]'s x = V/V_opt is common practice.
const (
	bestShare  = 0.6
	quietShare = 0.48 // x = 0.8: from here on no louder than the free-air label
	stallShare = 0.3  // x = 0.5: the least duty the curve was published for
	axialMost  = 8    // dB, the most that is added in stall: common practice
)

// OffBest gives how much louder than its free-air label a fan is when it moves
// the share q of its free delivery at that speed, with the band this is known
// to (the ends, not their distance).
//
// Axial: the off-duty curve of [VDI2081] with V_opt = 0.6·Q₀, v = q/0.6:
//
//	0                                     q ≥ 0.48
//	18.9 − 46.6·v + 33·v² − 5.2·v³        0.3 ≤ q < 0.48
//	3.2 + 17.5·(0.5 − v), at most 8       q < 0.3
//
// ±2 dB, below q = 0.3 ±4 dB. There is a step of 0.08 dB at q = 0.48; at 0.3
// value and slope run on. Above q = 0.6 the published curve rises again, but the
// label, which is a free-air figure, holds that already.
//
// Centrifugal: 0, −3 to +2 dB. Mixed: half the axial allowance, the band covers
// that of both. Any other wheel gives NaN. V_opt, the part below q = 0.3, the
// centrifugal figure and the mixed one are common practice, so every result is
// an estimate.
func OffBest(wheel Wheel, q float64) (middle, low, high quantity.Decibel) {
	switch wheel {
	case Axial:
		return axialOffBest(q)
	case Centrifugal:
		return 0, -3, 2
	case Mixed:
		m, l, h := axialOffBest(q)
		return m / 2, min(l, -3), max(h, 2)
	}
	nan := quantity.Decibel(math.NaN())
	return nan, nan, nan
}

func axialOffBest(q float64) (middle, low, high quantity.Decibel) {
	v := q / bestShare
	switch {
	case q >= quietShare:
		return 0, -2, 2
	case q >= stallShare:
		middle = quantity.Decibel(18.9 - 46.6*v + 33*v*v - 5.2*v*v*v)
		return middle, middle - 2, middle + 2
	}
	middle = quantity.Decibel(min(3.2+17.5*(0.5-v), axialMost))
	return middle, middle - 4, middle + 4
}
