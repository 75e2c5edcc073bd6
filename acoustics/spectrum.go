package acoustics

import (
	"math"

	"lowsone/catalog/quantity"
)

// Plus gives the spectrum with every band d higher.
func (s *Thirds) Plus(d quantity.Decibel) Thirds {
	t := *s
	for i := range t {
		t[i] += float64(d)
	}
	return t
}

// ScaledTo gives the spectrum shifted as a whole so that its A-weighted level
// is a. One without sound has no shape to shift: it stays as it is for an a of
// -Inf, and every band of it is NaN, not known, for any other.
func (s *Thirds) ScaledTo(a quantity.SoundPressureLevel) Thirds {
	now := s.A()
	if math.IsInf(now.DB(), -1) && math.IsInf(a.DB(), -1) {
		return *s
	}
	return s.Plus(a.Above(now))
}

// SumThirds adds the spectra of independent sources at one place, as energies
// band by band. The sum of none is a spectrum without sound. A band that is not
// known in one of them is not known in the sum.
func SumThirds(spectra ...*Thirds) (sum Thirds) {
	for i := range sum {
		loudest := math.Inf(-1)
		for _, s := range spectra {
			loudest = max(loudest, s[i])
		}
		sum[i] = loudest
		if math.IsInf(loudest, 0) || math.IsNaN(loudest) {
			continue
		}
		energy := 0.0
		for _, s := range spectra {
			energy += exp10(s[i] - loudest)
		}
		sum[i] += decibel(energy)
	}
	return sum
}
