package recording

import (
	"fmt"
	"math"

	"lowsone/acoustics"
	"lowsone/acoustics/loudness"
	"lowsone/catalog/quantity"
)

// Basis is what a comparison of two recordings rests on.
type Basis uint8

// The bases.
const (
	SameGain        Basis = iota // neither is calibrated
	OneCalibration               // one meter reading sets the scale of both
	OwnCalibrations              // each has a meter reading of its own
)

// String gives the basis in one word.
func (b Basis) String() string {
	switch b {
	case SameGain:
		return "same_gain"
	case OneCalibration:
		return "one_calibration"
	case OwnCalibrations:
		return "own_calibrations"
	}
	return fmt.Sprintf("Basis(%d)", uint8(b))
}

// Premise says what must hold for the comparison to be true.
func (b Basis) Premise() string {
	const place = "the same meter or phone in the same place, the device at the same load"
	if b == OwnCalibrations {
		return "true only for " + place + ", and as far as the meter is"
	}
	return "true only for " + place + ", and the same gain: automatic gain control and noise suppression off"
}

// Difference is a difference of two levels, with its standard deviation by
// chance: twice that, and it may be nothing.
type Difference struct {
	By     quantity.Decibel // after less before; NaN: not known
	Spread quantity.Decibel
}

// Comparison is what changed from one recording to another.
type Comparison struct {
	Before, After string // names of the recordings
	Basis         Basis
	Level         Difference // of the A-weighted equivalent levels
	Thirds        [acoustics.NumThirds]Difference
	Loudness      quantity.Known[LoudnessChange] // only with a calibration
	Tones         []ToneChange                   // of those prominent in one of the two: kept, moved, gone, new
	Doubts        []string                       // what speaks against the comparison
}

// LoudnessChange is how loud two sounds are, as if they were steady, in sone.
type LoudnessChange struct {
	Before, After float64
}

// Ratio gives the loudness after as a share of that before; NaN where nothing was
// to be heard before.
func (l LoudnessChange) Ratio() float64 {
	if l.Before <= 0 {
		return math.NaN()
	}
	return l.After / l.Before
}

// Compare tells what changed between two recordings that were made with the same
// gain. Without a calibration there is no loudness, for that does not go by
// differences.
func Compare(before, after *Analysis) *Comparison { return compare(before, after, 0, SameGain) }

// CompareCalibrated tells what changed between two recordings, each with its
// scale; where both have one scale (see [Analysis.With]), they must have been made
// with the same gain.
func CompareCalibrated(before, after *Calibrated, f loudness.Field) *Comparison {
	basis := OwnCalibrations
	if before.calibration == after.calibration {
		basis = OneCalibration
	}
	gain := after.calibration.fullScale - before.calibration.fullScale
	c := compare(before.analysis, after.analysis, gain, basis)
	b, errB := before.Loudness(f)
	a, errA := after.Loudness(f)
	switch {
	case errB != nil:
		c.doubt("%v", errB)
	case errA != nil:
		c.doubt("%v", errA)
	default:
		c.Loudness = quantity.Stated(LoudnessChange{b.Sone, a.Sone})
	}
	return c
}

// compare compares with after's levels raised by a gain.
func compare(before, after *Analysis, gain quantity.Decibel, basis Basis) *Comparison {
	c := &Comparison{Before: before.Name, After: after.Name, Basis: basis}
	c.Level = Difference{
		By:     after.Level.Equivalent.Above(before.Level.Equivalent) + gain,
		Spread: together(before.Trace.spread(), after.Trace.spread()),
	}
	for i := range c.Thirds {
		c.Thirds[i] = Difference{
			By:     after.Thirds[i].Above(before.Thirds[i]) + gain,
			Spread: together(before.Spread(i), after.Spread(i)),
		}
	}
	c.Tones = compareTones(before, after, gain)
	c.doubts(before, after)
	return c
}

// doubts gathers what speaks against the comparison.
func (c *Comparison) doubts(before, after *Analysis) {
	if before.Format != after.Format {
		c.doubt("the recordings are written differently (%v; %v): were they made with the same settings?", before.Format, after.Format)
	}
	for _, a := range []*Analysis{before, after} {
		for _, f := range a.Findings {
			if f.Kind.Doubtful() {
				c.doubt("%s: %s", a.Name, f.Text)
			}
		}
	}
}

func (c *Comparison) doubt(format string, args ...any) {
	c.Doubts = append(c.Doubts, fmt.Sprintf(format, args...))
}

// together gives the standard deviation of a difference.
func together(a, b quantity.Decibel) quantity.Decibel {
	return quantity.Decibel(math.Hypot(float64(a), float64(b)))
}

// spread gives the standard deviation of the mean of a trace, from how its
// seconds scatter: what it would be if the recording had been made again. It is
// NaN for a trace of one second.
func (t Trace) spread() quantity.Decibel {
	n := float64(len(t.Levels))
	sum, squares := 0.0, 0.0
	for _, l := range t.Levels {
		sum += l.db
	}
	for _, l := range t.Levels {
		squares += (l.db - sum/n) * (l.db - sum/n)
	}
	return quantity.Decibel(math.Sqrt(squares / (n - 1) / n))
}
