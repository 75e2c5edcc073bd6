package acoustics

import (
	"fmt"
	"math"
)

// RatingLimit says whether a rating lies within its curves.
type RatingLimit uint8

// The cases of a rating.
const (
	Within RatingLimit = iota
	Under              // no band reaches the lowest curve: the rating is less than Value
	Over               // a band lies above the highest curve: the rating is more than Value
)

// Rating is a single number for how a spectrum sounds in a room.
type Rating struct {
	Value  float64     // interpolated between curves
	Limit  RatingLimit // Value is the end of the curves unless this is Within
	Octave int         // the band that decides, -1 where there is no sound
}

// OctaveError is why octaves have no rating.
type OctaveError struct {
	Rating string // NC or NR
	Octave int    // the band whose level is not known
}

// Error names the band.
func (e *OctaveError) Error() string {
	return fmt.Sprintf("rate by %s: the level of the octave at %q Hz is not known", e.Rating, digits(OctaveNominal[e.Octave]))
}

// NC gives the noise criterion of a spectrum by the tangent method: that of the
// highest curve which it touches, from 63 Hz to 8 kHz. Between two curves, which
// are 5 apart, it is interpolated by level. The curves run from NC-15 to NC-70.
// A band without sound, as one that was not measured, raises nothing; one that
// is not known is an *OctaveError. [Beranek]
func NC(s *Octaves) (Rating, error) {
	return rate("NC", s, octaveNC, firstNC, lastNC, ncOf)
}

// ncOf gives the curve that a level in an octave lies on; beyond the first and
// the last curve it goes on by 1 a dB.
func ncOf(octave int, l float64) float64 {
	first, last := ncCurves[0][octave-octaveNC], ncCurves[numNC-1][octave-octaveNC]
	switch {
	case l < first:
		return firstNC + l - first
	case l >= last:
		return lastNC + l - last
	}
	i := 0
	for l >= ncCurves[i+1][octave-octaveNC] {
		i++
	}
	low, high := ncCurves[i][octave-octaveNC], ncCurves[i+1][octave-octaveNC]
	return firstNC + stepNC*(float64(i)+(l-low)/(high-low))
}

// nrCurves holds the coefficients of noise rating curves. [ISOR1996]
var nrCurves = [NumOctaves]struct{ a, b float64 }{
	{55.4, 0.681}, {35.5, 0.790}, {22.0, 0.870}, {12.0, 0.930}, {4.8, 0.974},
	{0, 1}, {-3.5, 1.015}, {-6.1, 1.025}, {-8.0, 1.030},
}

// Ends of the curves of [ISOR1996].
const leastNR, mostNR = 0, 130

// NR gives the noise rating of a spectrum, that of the highest curve which it
// touches, from 31.5 Hz to 8 kHz:
//
//	L = a + b·NR in each octave, so NR = (L − a)/b
//
// The curves run from NR 0 to NR 130. Bands without sound and bands not known
// are treated as by NC. [ISOR1996]
func NR(s *Octaves) (Rating, error) {
	return rate("NR", s, 0, leastNR, mostNR, func(octave int, l float64) float64 {
		return (l - nrCurves[octave].a) / nrCurves[octave].b
	})
}

// rate gives the highest of the ratings of the octaves from first on.
func rate(name string, s *Octaves, first int, least, most float64, of func(int, float64) float64) (Rating, error) {
	r := Rating{Value: math.Inf(-1), Octave: -1}
	for i := first; i < NumOctaves; i++ {
		if math.IsNaN(s[i]) {
			return Rating{}, &OctaveError{Rating: name, Octave: i}
		}
		if v := of(i, s[i]); v > r.Value {
			r.Value, r.Octave = v, i
		}
	}
	switch {
	case r.Value < least:
		r.Value, r.Limit = least, Under
	case r.Value > most:
		r.Value, r.Limit = most, Over
	}
	return r, nil
}
