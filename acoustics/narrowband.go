package acoustics

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"lowsone/catalog/quantity"
)

// NarrowBand is a power spectrum with lines at equal steps, as a Fourier
// transform gives it: Power[i] is the power at i·Step, in any unit, all of them
// together the power of the signal. An average over many windows finds weaker
// tones than one window does; a Hann window is what the limits are made for.
type NarrowBand struct {
	Step  quantity.Frequency
	Power []float64
}

// coarsest is the largest step in Hz with which a tone at LeastTone is still
// parted from the noise around it.
const coarsest = 4

// Tones gives the tones from LeastTone to MostTone, by frequency, with their
// tone-to-noise and prominence ratios by [ECMA418]. How tones are found is ours:
// see peaks. The verdict is that of the ratios: whether a tone is loud enough to
// be heard at all the spectrum does not say, and the standard leaves the last
// word to the ear.
//
// A step above 4 Hz, lines that end below 140 Hz, and a power that is negative
// or not a number are errors.
func (n NarrowBand) Tones() ([]Tone, error) {
	if err := n.check(); err != nil {
		return nil, fmt.Errorf("find tones: %w", err)
	}
	s := newSpectrum(n)
	list := s.peaks()
	slices.SortFunc(list, func(a, b peak) int { return cmp.Compare(a.frequency, b.frequency) })
	var tones []Tone
	for i, p := range list {
		f := quantity.Frequency(p.frequency)
		if f < LeastTone || f > MostTone {
			continue
		}
		t := Tone{Frequency: f, Level: quantity.Decibel(decibel(p.power))}
		t.TNR = quantity.Decibel(s.toneToNoise(list, i))
		t.PR = quantity.Decibel(s.prominence(p.frequency))
		t.Prominent = t.TNR >= ToneToNoiseLimit(f) || t.PR >= ProminenceLimit(f)
		tones = append(tones, t)
	}
	return tones, nil
}

// check says what keeps the lines from being a spectrum.
func (n NarrowBand) check() error {
	step := float64(n.Step)
	if !(step > 0 && step <= coarsest) {
		return fmt.Errorf("the lines stand %q Hz apart, above 0 and at most %v Hz are needed", digits(step), coarsest)
	}
	_, least := criticalBand(float64(LeastTone))
	if end := (float64(len(n.Power)) - 0.5) * step; end < least {
		return fmt.Errorf("the lines end at %q Hz, below the %.0f Hz that the lowest tone needs", digits(max(0, end)), math.Ceil(least))
	}
	for i, p := range n.Power {
		if !(p >= 0) || math.IsInf(p, 1) {
			return fmt.Errorf("the power at %q Hz is %q, not a power", digits(float64(i)*step), digits(p))
		}
	}
	return nil
}

// A spectrum is a narrow-band spectrum with the sums that its bands are taken
// from.
type spectrum struct {
	step  float64
	power []float64
	upTo  []float64 // power of all lines before i
	logs  []float64 // ln of power of all lines before i, summed
	near  []float64 // to sort in
}

// silent stands for the logarithm of a line without power.
const silent = -700.0

func newSpectrum(n NarrowBand) *spectrum {
	s := &spectrum{step: float64(n.Step), power: n.Power}
	s.upTo, s.logs = make([]float64, len(n.Power)+1), make([]float64, len(n.Power)+1)
	for i, p := range n.Power {
		s.upTo[i+1] = s.upTo[i] + p
		s.logs[i+1] = s.logs[i] + max(silent, math.Log(p))
	}
	return s
}

// end gives the upper end of the last line in Hz: each reaches half a step to
// both sides.
func (s *spectrum) end() float64 { return (float64(len(s.power)) - 0.5) * s.step }

// energy gives the power between two frequencies in Hz, lines at the ends by
// their share.
func (s *spectrum) energy(low, high float64) float64 { return s.below(high) - s.below(low) }

func (s *spectrum) below(f float64) float64 {
	x := f/s.step + 0.5
	if x <= 0 {
		return 0
	}
	i := int(x)
	if i >= len(s.power) {
		return s.upTo[len(s.power)]
	}
	return s.upTo[i] + (x-float64(i))*s.power[i]
}
