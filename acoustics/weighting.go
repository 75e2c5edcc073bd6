package acoustics

import (
	"math"

	"lowsone/catalog/quantity"
)

// Pole frequencies in Hz of the frequency weightings. [IEC61672] annex E
const (
	pole1 = 20.60 // A and C, twice
	pole2 = 107.7 // A
	pole3 = 737.9 // A
	pole4 = 12194 // A and C, twice
)

// AWeighting gives by how much A-weighting changes a level at frequency f:
//
//	A(f) = 20·lg( R(f)/R(1 kHz) )
//	R(f) = f₄²·f⁴ / ( (f² + f₁²)·√(f² + f₂²)·√(f² + f₃²)·(f² + f₄²) )
//
// with f₁ = 20.60, f₂ = 107.7, f₃ = 737.9 and f₄ = 12194 Hz. It is 0 at 1 kHz,
// -Inf at f = 0, and NaN for a negative f. [IEC61672] annex E.
func AWeighting(f quantity.Frequency) quantity.Decibel {
	return quantity.Decibel(20 * (math.Log10(aResponse(float64(f))) - math.Log10(aResponse(1000))))
}

// CWeighting gives by how much C-weighting changes a level at frequency f:
//
//	C(f) = 20·lg( R(f)/R(1 kHz) ),  R(f) = f₄²·f² / ( (f² + f₁²)·(f² + f₄²) )
//
// with f₁ = 20.60 and f₄ = 12194 Hz. It is 0 at 1 kHz, -Inf at f = 0, and NaN
// for a negative f. [IEC61672] annex E.
func CWeighting(f quantity.Frequency) quantity.Decibel {
	return quantity.Decibel(20 * (math.Log10(cResponse(float64(f))) - math.Log10(cResponse(1000))))
}

// aResponse gives R of the A-weighting.
func aResponse(f float64) float64 {
	f2 := f * f
	return cResponse(f) * f2 / math.Sqrt((f2+pole2*pole2)*(f2+pole3*pole3))
}

// cResponse gives R of the C-weighting.
func cResponse(f float64) float64 {
	if f < 0 {
		return math.NaN()
	}
	f2 := f * f
	return pole4 * pole4 * f2 / ((f2 + pole1*pole1) * (f2 + pole4*pole4))
}

// Weightings of the bands at their exact mid-band frequencies, and none. They
// are only read.
var (
	thirdsA, thirdsC, thirdsZ    = ofThirds(AWeighting), ofThirds(CWeighting), Thirds{}
	octavesA, octavesC, octavesZ = ofOctaves(AWeighting), ofOctaves(CWeighting), Octaves{}
)

func ofThirds(weighting func(quantity.Frequency) quantity.Decibel) (w Thirds) {
	for i := range w {
		w[i] = float64(weighting(ThirdHz(i)))
	}
	return w
}

func ofOctaves(weighting func(quantity.Frequency) quantity.Decibel) (w Octaves) {
	for i := range w {
		w[i] = float64(weighting(OctaveHz(i)))
	}
	return w
}

// A gives the A-weighted level of the spectrum, each band weighted at its
// mid-band frequency. A spectrum without sound gives -Inf, one with a band that
// is not known NaN; so do C and Overall.
func (s *Thirds) A() quantity.SoundPressureLevel {
	return quantity.PressureLevel(weightedSum(s[:], thirdsA[:]))
}

// C gives the C-weighted level of the spectrum. It is a bare number of decibels,
// since SoundPressureLevel is A-weighted.
func (s *Thirds) C() quantity.Decibel { return quantity.Decibel(weightedSum(s[:], thirdsC[:])) }

// Overall gives the unweighted level (Z) of the spectrum.
func (s *Thirds) Overall() quantity.Decibel { return quantity.Decibel(weightedSum(s[:], thirdsZ[:])) }

// A gives the A-weighted level of the spectrum, as that of Thirds. An octave is
// weighted as a whole at its mid-band frequency: where a spectrum falls steeply
// this differs from the thirds by some tenths of a dB.
func (s *Octaves) A() quantity.SoundPressureLevel {
	return quantity.PressureLevel(weightedSum(s[:], octavesA[:]))
}

// C gives the C-weighted level of the spectrum, as that of Thirds.
func (s *Octaves) C() quantity.Decibel { return quantity.Decibel(weightedSum(s[:], octavesC[:])) }

// Overall gives the unweighted level (Z) of the spectrum.
func (s *Octaves) Overall() quantity.Decibel {
	return quantity.Decibel(weightedSum(s[:], octavesZ[:]))
}

// weightedSum adds levels, each weighted, as energies, relative to the loudest:
// no overflow, and never below it.
func weightedSum(levels, weights []float64) float64 {
	loudest := math.Inf(-1)
	for i, l := range levels {
		loudest = max(loudest, l+weights[i])
	}
	if math.IsInf(loudest, 0) || math.IsNaN(loudest) {
		return loudest
	}
	energy := 0.0
	for i, l := range levels {
		energy += exp10(l + weights[i] - loudest)
	}
	return loudest + decibel(energy)
}

// exp10 gives the ratio of energies of db decibels, as fromDecibel but faster:
// it differs in the last digits.
func exp10(db float64) float64 { return math.Exp(db * (math.Ln10 / 10)) }
