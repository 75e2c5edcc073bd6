package thermal

import (
	"fmt"
	"math"
	"slices"
)

// Share is what is known of a number: one value, a span, or nothing. Its zero
// value is unknown.
type Share struct {
	low, high float64
	known     bool
}

// Exactly returns a known share.
func Exactly(v float64) Share { return Share{low: v, high: v, known: true} }

// Between returns a share known to lie in a span.
func Between(low, high float64) Share { return Share{low: low, high: high, known: true} }

// Known tells whether anything is known of the share.
func (s Share) Known() bool { return s.known }

// Span returns the ends of what is known, 0 and 0 for an unknown share.
func (s Share) Span() (low, high float64) { return s.low, s.high }

// The spans of what nobody measured (common practice).
var (
	assumedAir      = Between(0.1, 0.6)
	assumedSolid    = Between(0, 0.3)
	assumedExponent = Between(0.5, 0.8) // laminar fins … turbulent [MEH]
)

// Shares says how the rise of a spot splits. What is unknown is spanned: f_air
// 0.1 to 0.6, f_solid 0 to 0.3, m 0.5 to 0.8. The film has what is left.
type Shares struct {
	Air      Share // f_air, 0 to 1: rise of the air up to the spot over the rise of the spot
	Solid    Share // f_solid, 0 to below 1: what no flow takes away
	Exponent Share // m, 0.3 to 1
}

// Corner is one way the rise may split, at an end of everything that is not
// known exactly.
type Corner struct{ Air, Film, Solid, Exponent float64 }

// String gives the corner as it is shown.
func (c Corner) String() string {
	return fmt.Sprintf("air %.3g, film %.3g, solid %.3g, exponent %.3g", c.Air, c.Film, c.Solid, c.Exponent)
}

// checked refuses shares that cannot be, and fills what is unknown.
func (s Shares) checked() (Shares, []string, error) {
	for _, x := range []struct {
		what      string
		share     Share
		low, high float64
		want      string
	}{
		{"share of the air", s.Air, 0, 1, "from 0 to 1"},
		{"share of the solid part", s.Solid, 0, almostOne, "from 0 to below 1"},
		{"exponent of the film", s.Exponent, 0.3, 1, "from 0.3 to 1"},
	} {
		if !x.share.known {
			continue
		}
		for _, v := range []float64{x.share.low, x.share.high} {
			if !(v >= x.low && v <= x.high) {
				return Shares{}, nil, &InputError{x.what, v, x.want}
			}
		}
		if x.share.low > x.share.high {
			return Shares{}, nil, &InputError{"low end of the " + x.what, x.share.low, fmt.Sprintf("at most its high end, %.6g", x.share.high)}
		}
	}
	if sum := s.Air.low + s.Solid.low; sum > 1+rounding {
		return Shares{}, nil, &SharesError{Air: s.Air.low, Solid: s.Solid.low}
	}
	if rest := 1 - s.Air.low; s.Solid.low > rest { // by rounding
		s.Solid = s.Solid.atMost(rest)
	}
	full, assumed := s.filled()
	return full, assumed, nil
}

const (
	almostOne = 1 - 1e-9 // a spot whose rise lies wholly in the solid is not cooled by this air
	rounding  = 1e-9
)

// filled puts the spans of common practice where nothing is known, cut to what
// the known share leaves.
func (s Shares) filled() (Shares, []string) {
	var assumed []string
	if !s.Air.known {
		s.Air = assumedAir.atMost(1 - s.Solid.low)
		assumed = append(assumed, fmt.Sprintf("share of the air %.3g to %.3g", s.Air.low, s.Air.high))
	}
	if !s.Solid.known {
		s.Solid = assumedSolid.atMost(max(1-s.Air.low, 0))
		assumed = append(assumed, fmt.Sprintf("share of the solid part %.3g to %.3g", s.Solid.low, s.Solid.high))
	}
	if !s.Exponent.known {
		s.Exponent = assumedExponent
		assumed = append(assumed, fmt.Sprintf("exponent of the film %.3g to %.3g", s.Exponent.low, s.Exponent.high))
	}
	return s, assumed
}

func (s Share) atMost(most float64) Share {
	return Between(min(s.low, most), min(s.high, most))
}

// corners returns the corners of the possible splits: those of the box of f_air
// and f_solid cut along f_air + f_solid = 1, each with both exponents. ΔT(μ) is
// linear in the shares and monotone in the exponent, so it has its extremes, and
// the need its largest and smallest value, at one of these.
func (s Shares) corners() []Corner {
	var all []Corner
	add := func(air, solid float64) {
		solid = min(solid, 1-air)
		film := 1 - air - solid
		if film < 1e-12 { // what is left of a difference
			film = 0
		}
		for _, m := range ends(s.Exponent) {
			c := Corner{air, film, solid, m}
			if !slices.Contains(all, c) {
				all = append(all, c)
			}
		}
	}
	for _, air := range ends(s.Air) {
		for _, solid := range ends(s.Solid) {
			if air+solid <= 1+rounding {
				add(air, solid)
				continue
			}
			// The corner is cut off: where its two edges meet the cut, if they do.
			if rest := 1 - air; rest >= s.Solid.low {
				add(air, rest)
			}
			if rest := 1 - solid; rest >= s.Air.low {
				add(rest, solid)
			}
		}
	}
	return all
}

func ends(s Share) []float64 {
	if s.low == s.high {
		return []float64{s.low}
	}
	return []float64{s.low, s.high}
}

// middle returns the split in the middle of the corners, which is itself
// possible.
func middle(corners []Corner) Corner {
	var m Corner
	for _, c := range corners {
		m.Air += c.Air
		m.Solid += c.Solid
		m.Exponent += c.Exponent
	}
	n := float64(len(corners))
	m.Air, m.Solid, m.Exponent = m.Air/n, m.Solid/n, m.Exponent/n
	m.Film = max(1-m.Air-m.Solid, 0)
	return m
}

// factor returns f_air/μ + f_film/μ^m + f_solid.
func (c Corner) factor(ratio float64) float64 {
	return c.Air/ratio + c.Film*math.Pow(ratio, -c.Exponent) + c.Solid
}
