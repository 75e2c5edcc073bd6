package acoustics

import (
	"math"

	"lowsone/catalog/quantity"
)

// The speed law's factor k in dB per tenfold speed, and the band it is known
// to: 50 is the trade's fan law, single fans lie between 40 and 60.
const (
	SpeedExponent     = 50.0
	SpeedExponentLow  = 40.0
	SpeedExponentHigh = 60.0
)

// Below SlowRatio the noise of bearing, motor and chopped supply, which falls
// less, takes over from that of the air: common practice, without a source.
const (
	SlowRatio    = 0.5
	slowExponent = 40.0
)

// labelDensity is the density in kg/m³ that labels are stated for.
const labelDensity = 1.2

// Floor is the least level at 1 m in dB(A) that is stated as a number: below it
// neither laws nor labels hold, and the report is "under 10".
const Floor = 10.0

// UnderFloor says whether a level at 1 m is to be reported as "under 10".
func UnderFloor(l quantity.SoundPressureLevel) bool { return l.DB() < Floor }

// AtSpeed carries a fan's level l to the share r of the speed it was stated
// for:
//
//	L = l + 50·lg r               r ≥ 0.5
//	L = l + 50·lg 0.5 + 40·lg(r/0.5)   r < 0.5, extrapolated
//
// It holds for the same fan on the same system, noise of the air only. r = 0 is
// -Inf dB, below 0 NaN. The factor 50 is the trade's; SpeedBand gives its band.
// Continuing with 40 below half speed is common practice without a source, so
// extrapolated marks it.
func AtSpeed(l quantity.SoundPressureLevel, r float64) (level quantity.SoundPressureLevel, extrapolated bool) {
	if r < SlowRatio {
		return l.Plus(bySpeed(SpeedExponent, SlowRatio) + bySpeed(slowExponent, r/SlowRatio)), true
	}
	return l.Plus(bySpeed(SpeedExponent, r)), false
}

// SpeedBand gives the ends between which AtSpeed's level lies, by the law with
// 40 and with 60 throughout. At r = 1 both are l.
func SpeedBand(l quantity.SoundPressureLevel, r float64) (low, high quantity.SoundPressureLevel) {
	gentle, steep := l.Plus(bySpeed(SpeedExponentLow, r)), l.Plus(bySpeed(SpeedExponentHigh, r))
	if r > 1 {
		return gentle, steep
	}
	return steep, gentle
}

func bySpeed(k, r float64) quantity.Decibel { return quantity.Decibel(k * math.Log10(r)) }

// AtDensity carries a level stated for 1.2 kg/m³ to air of density rho, at the
// same speed: L = l + 20·lg(ρ/1.2). rho must be above 0.
func AtDensity(l quantity.SoundPressureLevel, rho quantity.Density) quantity.SoundPressureLevel {
	return l.Plus(quantity.Decibel(20 * math.Log10(float64(rho)/labelDensity)))
}
