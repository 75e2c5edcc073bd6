package loudness

import "math"

// Below 40 phon loudness falls faster than by half every 10 phon.
const (
	quietExponent = 0.35
	quietOffset   = 0.0005 // sone
	leastPhon     = 3
)

// Phon gives the loudness level in phon of a loudness in sone: the level in dB
// of a tone of 1 kHz that sounds as loud.
//
//	LN = 40 + 10·log₂ N             N ≥ 1 sone
//	LN = 40·(N + 0.0005)^0.35       below, never under 3 nor over 40 phon
//
// The standard's program has no upper bound to the second line and reads up to
// 0.007 phon more just below 1 sone. Below 0 and for NaN the result is NaN.
// [ISO532-1] 5.3, A.4.
func Phon(sone float64) float64 {
	switch {
	case sone >= 1:
		return 40 + 10*math.Log2(sone)
	case sone >= 0:
		return min(40, max(leastPhon, 40*math.Pow(sone+quietOffset, quietExponent)))
	}
	return math.NaN()
}

// FromPhon gives the loudness in sone of a loudness level in phon, the inverse
// of Phon:
//
//	N = 2^((LN − 40)/10)            LN ≥ 40 phon
//	N = (LN/40)^(1/0.35) − 0.0005   below, never under 0
//
// [ISO532-1] 5.3, A.4.
func FromPhon(phon float64) float64 {
	if phon >= 40 {
		return math.Exp2((phon - 40) / 10)
	}
	return max(0, math.Pow(max(0, phon)/40, 1/quietExponent)-quietOffset)
}
