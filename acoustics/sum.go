package acoustics

import (
	"math"

	"lowsone/catalog/quantity"
)

// Sum adds the levels of independent sources at one place, as energies:
//
//	L = 10·lg Σ 10^(Lᵢ/10)
//
// The sum of none is -Inf dB, silence. [Bies] ch. 1.
func Sum(levels ...quantity.SoundPressureLevel) quantity.SoundPressureLevel {
	loudest := math.Inf(-1)
	for _, l := range levels {
		loudest = max(loudest, l.DB())
	}
	if math.IsInf(loudest, 0) {
		return quantity.PressureLevel(loudest)
	}
	// Energies relative to the loudest: no overflow, and never below it.
	energy := 0.0
	for _, l := range levels {
		energy += fromDecibel(l.DB() - loudest)
	}
	return quantity.PressureLevel(loudest + decibel(energy))
}

// Identical gives how far n equal sources together lie above one of them:
// 10·lg n. It is -Inf for n = 0 and NaN below. [Bies] ch. 1.
func Identical(n int) quantity.Decibel {
	return quantity.Decibel(decibel(float64(n)))
}

// decibel gives 10·lg of a ratio of energies.
func decibel(ratio float64) float64 { return 10 * math.Log10(ratio) }

// fromDecibel gives the ratio of energies of db decibels.
func fromDecibel(db float64) float64 { return math.Pow(10, db/10) }
