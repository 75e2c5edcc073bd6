package acoustics

import (
	"math"

	"lowsone/catalog/quantity"
)

// AtSpeed carries a fan's spectrum to the share r of the speed it was measured
// at, or is typical of. The shape moves along the frequency axis with the speed,
// since the noise of the air keeps its Strouhal number f·D/u, u ∝ n, and blade
// tones go with n anyhow: what was at f is then at r·f. The A-weighted level
// becomes that of the function AtSpeed exactly; extrapolated is as there.
//
// Within a band the energy is taken to slope as it does towards the flatter of
// the two neighbours, not at all in a peak or a valley. So an even slope moves
// as it is; in typical fan spectra a bend loses 0.3 dB, in rough measured ones a
// peak of one band is spread over two. What enters from beyond the last band
// goes on with the slope of the last two, not rising.
//
// Noise that does not move with the speed (a motor's hum, a chopped supply, a
// resonance of the case) moves here too: the result is an estimate. A band that
// counts as silent since nobody measured it moves as silence. r must be
// above 0: at 0 there is no sound; below it, and where nothing of the spectrum
// is left in these bands, every band is NaN.
func (s *Thirds) AtSpeed(r float64) (moved Thirds, extrapolated bool) {
	l, extrapolated := AtSpeed(s.A(), r)
	if r == 0 {
		return SumThirds(), extrapolated
	}
	shifted := s.shifted(10 * math.Log10(r)) // a third octave is a tenth of a decade
	return shifted.ScaledTo(l), extrapolated
}

// wholeBand is how close to a whole number of bands a shift counts as one: what
// would be split off is nothing but rounding.
const wholeBand = 1e-9

// shifted moves the spectrum up by so many bands, with its energy.
func (s *Thirds) shifted(by float64) (t Thirds) {
	if !isFinite(by) {
		return s.Plus(quantity.Decibel(math.NaN()))
	}
	if whole := math.Round(by); math.Abs(by-whole) < wholeBand {
		by = whole
	}
	whole := math.Floor(by)
	crossing := by - whole // the share of each band, at its top, that goes one band further
	if crossing == 0 {
		for i := range t {
			t[i] = s.at(i - int(whole))
		}
		return t
	}
	_, over := s.split(-int(whole)-1, crossing)
	for i := range t {
		stays, goes := s.split(i-int(whole), crossing)
		t[i] = decibel(over + stays)
		over = goes
	}
	return t
}

// split gives the energy of band i below and in the part of its width, at its
// top, that is crossing.
func (s *Thirds) split(i int, crossing float64) (below, above float64) {
	energy := exp10(s.at(i))
	above = energy * topShare(s.slope(i), crossing)
	return energy - above, above
}

// at gives the level of band i, also of one beyond the ends.
func (s *Thirds) at(i int) float64 {
	switch {
	case i < 0:
		return goOn(s[0], s[1], -i)
	case i >= NumThirds:
		return goOn(s[NumThirds-1], s[NumThirds-2], i-NumThirds+1)
	}
	return s[i]
}

// slope gives the rise in dB over band i: towards the neighbour that differs
// less, 0 in a peak or a valley.
func (s *Thirds) slope(i int) float64 {
	here := s.at(i)
	below, above := here-s.at(i-1), s.at(i+1)-here
	switch {
	case below > 0 && above > 0:
		return min(below, above)
	case below < 0 && above < 0:
		return max(below, above)
	}
	return 0
}

// topShare gives the share of a band's energy that lies in the top part of its
// width, where the energy per width rises by slope dB over the band:
// ∫ e^(γx) dx from 1 − part to 1 over that from 0 to 1, γ = slope·ln 10/10.
func topShare(slope, part float64) float64 {
	gamma := slope * math.Ln10 / 10
	switch {
	case math.Abs(gamma) < 1e-9:
		return part
	case gamma > 0:
		return math.Expm1(-gamma*part) / math.Expm1(-gamma)
	}
	return 1 - math.Expm1(gamma*(1-part))/math.Expm1(gamma)
}
