package match

import (
	"slices"

	"lowsone/acoustics"
)

// Shapes gives the spectra that contender i may have at the speed it is planned
// at: its own where it was measured, else those typical of its kind, which are an
// estimate. None where none is at hand.
func (s *Study) Shapes(i int) []acoustics.Shape {
	c := &s.fine[i]
	of := s.p.spectrumFor(c)
	out := slices.Clone(of.shapes)
	for k := range out {
		out[k].Thirds, _ = out[k].Thirds.AtSpeed(c.planned / of.ratio)
	}
	return out
}
