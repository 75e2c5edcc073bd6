package acoustics

import (
	"math"

	"lowsone/catalog/quantity"
)

// Octaves gives the spectrum in octaves: the energies of three thirds each. The
// third at 12.5 kHz belongs to none of them and is left out. An octave one of
// whose thirds is not known is not known.
func (s *Thirds) Octaves() (o Octaves) {
	for i := range o {
		o[i] = s.octave(i)
	}
	return o
}

// octave gives the level of octave i.
func (s *Thirds) octave(i int) float64 {
	three := s[perOctave*i : perOctave*(i+1)]
	return weightedSum(three, thirdsZ[:perOctave])
}

// Thirds gives a spectrum of thirds whose octaves are exactly s, and which is
// one line bent only at the octaves' mid-band frequencies, in dB against lg f.
// Before the first octave and after the last the line goes on straight. How the
// energy lies inside a measured octave is not known: each third is an estimate,
// their sum is not.
//
// The third at 12.5 kHz, which lies in none of these octaves, goes on with the
// slope of the two below it, but does not rise. An octave without sound (-Inf)
// or not known (NaN) makes its thirds so, and the line ends beside it.
func (s *Octaves) Thirds() (t Thirds) {
	for first := 0; first < NumOctaves; {
		last := first
		for last < NumOctaves && isFinite(s[last]) {
			last++
		}
		if last == first {
			t[perOctave*first], t[perOctave*first+1], t[perOctave*first+2] = s[first], s[first], s[first]
			first++
			continue
		}
		s.bend(&t, first, last)
		first = last
	}
	t[NumThirds-1] = goOn(t[NumThirds-2], t[NumThirds-3], 1)
	return t
}

func isFinite(x float64) bool { return !math.IsInf(x, 0) && !math.IsNaN(x) }

// goOn gives the level n bands beyond an end band, by the slope from the band
// next to it, which does not rise outwards. Where the end band has no sound,
// neither has what lies beyond it.
func goOn(end, next float64, n int) float64 {
	if !isFinite(end) {
		return end
	}
	return end + float64(n)*min(0, end-next)
}

// Limits of the search for the line: the levels are met to lineClose dB, which
// takes at most lineTurns, since every turn takes away a third of what is off.
const (
	lineClose = 1e-9
	lineTurns = 100
)

// bend fills in the thirds of the octaves from first to before last, all with a
// level. The level of a knot acts on its own octave by at least 2/3 and on its
// neighbours together by what is left, so moving each by what its octave is off
// closes in on the one line that meets all octaves.
func (s *Octaves) bend(t *Thirds, first, last int) {
	knots := *s
	for range lineTurns {
		line(t, &knots, first, last)
		most := 0.0
		for i := first; i < last; i++ {
			off := s[i] - t.octave(i)
			knots[i] += off
			most = max(most, math.Abs(off))
		}
		if most < lineClose {
			break
		}
	}
	line(t, &knots, first, last)
}

// line draws the thirds as straight lines between the knots at the octaves'
// mid-band frequencies; one knot alone is level.
func line(t *Thirds, knots *Octaves, first, last int) {
	for i := first; i < last; i++ {
		below, above := 0.0, 0.0 // rise over one octave
		if i > first {
			below = knots[i] - knots[i-1]
		}
		if i < last-1 {
			above = knots[i+1] - knots[i]
		}
		switch {
		case i == first && i < last-1:
			below = above
		case i == last-1 && i > first:
			above = below
		}
		t[perOctave*i] = knots[i] - below/perOctave
		t[perOctave*i+1] = knots[i]
		t[perOctave*i+2] = knots[i] + above/perOctave
	}
}

// ScaledTo gives the spectrum shifted as a whole so that its A-weighted level is
// a, as that of Thirds.
func (s *Octaves) ScaledTo(a quantity.SoundPressureLevel) Octaves {
	t := *s
	now := s.A()
	if math.IsInf(now.DB(), -1) && math.IsInf(a.DB(), -1) {
		return t
	}
	for i := range t {
		t[i] += float64(a.Above(now))
	}
	return t
}
