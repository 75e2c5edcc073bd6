package acoustics

import (
	"math"

	"lowsone/catalog/quantity"
)

// phonOffsets joins levels in dB(A) to what a fan's loudness level in phon lies
// above them. The knots at 20 to 50 dB(A) are typical of broad-band fan noise.
var phonOffsets = [...]struct{ dba, offset float64 }{{0, 0}, {20, 2}, {30, 11}, {40, 17}, {50, 18}}

// Phon estimates the loudness level in phon of fan noise of the level l at the
// listener: l plus an offset, joined by straight lines through 0 at 0 dB(A), 2
// at 20, 11 at 30, 17 at 40 and 18 at 50; 0 below and 18 above.
//
// An estimate, for spectra differ: at 30 and 40 dB(A) it is right within 0.4 phon
// for typical propeller and axial spectra, and 3.2 to 3.7 phon too high for a
// measured hair dryer. At other levels it was held against nothing. [ISO532-1]
// from third-octave levels is the proper way.
func Phon(l quantity.SoundPressureLevel) float64 {
	db := l.DB()
	last := phonOffsets[len(phonOffsets)-1]
	switch {
	case db <= phonOffsets[0].dba:
		return db + phonOffsets[0].offset
	case db >= last.dba:
		return db + last.offset
	}
	i := 1
	for i < len(phonOffsets)-1 && db > phonOffsets[i].dba {
		i++
	}
	a, b := phonOffsets[i-1], phonOffsets[i]
	return db + a.offset + (b.offset-a.offset)*(db-a.dba)/(b.dba-a.dba)
}

// Sone gives the loudness of a loudness level in phon:
//
//	N = 2^((LN − 40)/10)          LN ≥ 40 phon
//	N = (LN/40)^(1/0.35) − 0.0005  below, never under 0
//
// At 40 phon the two differ by 0.0005 sone. [ISO532-1].
func Sone(phon float64) float64 {
	if phon >= 40 {
		return math.Exp2((phon - 40) / 10)
	}
	return max(0, math.Pow(max(0, phon)/40, 1/0.35)-0.0005)
}

// SoneOf estimates the loudness in sone of fan noise of the level l at the
// listener, by way of Phon: an estimate, to be marked as one. Against the
// spectra that Phon names it is 3 % low to 29 % high.
//
// Ten decibels less is about half as loud near 60 dB(A) and above; at the levels
// of quiet fans it is less than half.
func SoneOf(l quantity.SoundPressureLevel) float64 { return Sone(Phon(l)) }
