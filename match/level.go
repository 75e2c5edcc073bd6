package match

import (
	"math"

	"lowsone/acoustics"
	"lowsone/catalog/quantity"
)

// levelAt gives the level of the fan at the speed ratio r while it works at
// the point x (m³/s) of its full-speed curve, in air of density rho, offset dB
// from that at 1 m:
//
//	L = L_label + A(x/Q₀) + 50·lg r + 20·lg(ρ/1.2) + offset
//
// with 40 instead of 50 below half speed. Under 10 dB(A) at 1 m it stays at
// 10 and is marked.
func (r *rated) levelAt(ratio, x, rho, offset float64) Level {
	at1m := r.levelAt1m(ratio, x, rho)
	under := acoustics.UnderFloor(quantity.PressureLevel(at1m))
	if under {
		at1m = acoustics.Floor
	}
	return Level{DB: at1m + offset, Under: under}
}

func (r *rated) levelAt1m(ratio, x, rho float64) float64 {
	offBest, low, high := acoustics.OffBest(wheelOf(r.kind), x/r.free)
	l, _ := acoustics.AtSpeed(quantity.PressureLevel(r.level).Plus(offBest+r.by.offBestBy(low-offBest, high-offBest)), ratio)
	return acoustics.AtDensity(l, quantity.Density(rho)).DB() + r.by.speedLaw(ratio)
}

// distanceOffset gives the level at the listener less that at 1 m, free field.
func distanceOffset(listener quantity.Length) float64 {
	return acoustics.AtDistance(quantity.PressureLevel(0), acoustics.LabelDistance, listener).DB()
}

// Floors of the score: quieter than this does not count (common practice).
const (
	quietEnough   = 15.0 // dB(A), where the room is not known
	underTheRoom  = 10.0 // dB below the room's own level
	tieOneKind    = 1.0  // dB between fans of one kind that is a tie
	tieAcrossKind = 3.0  // dB between unlike spectra that is a tie
)

// scoreOf gives the whole decibels a candidate is ordered by.
func scoreOf(l Level, room quantity.Known[quantity.SoundPressureLevel]) int {
	return int(math.Round(math.Max(l.DB, leastHeard(room))))
}

// leastHeard gives the level in dB(A) below which quieter does not count.
func leastHeard(room quantity.Known[quantity.SoundPressureLevel]) float64 {
	if r, ok := room.Get(); ok {
		return r.DB() - underTheRoom
	}
	return quietEnough
}
