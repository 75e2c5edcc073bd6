package recording

import (
	"math"

	"lowsone/acoustics"
	"lowsone/catalog/quantity"
)

// Tone is a tone found in a recording: an [acoustics.Tone] with its unweighted
// level re full scale.
type Tone struct {
	Frequency quantity.Frequency
	Level     FullScale
	TNR, PR   quantity.Decibel // tone-to-noise and prominence ratio; NaN where the bands they take are not all there
	Prominent bool             // one of them reaches its limit
}

// Lines is a narrow-band spectrum, unweighted: Levels[i] is the level of the
// bin at i·Step, of Hann's window, whose bins are 1.5 steps wide in noise.
type Lines struct {
	Step   quantity.Frequency
	Levels []FullScale
}

// Lines gives the narrow-band spectrum.
func (a *Analysis) Lines() Lines {
	l := Lines{Step: a.Resolution(), Levels: make([]FullScale, len(a.power))}
	for k, p := range a.power {
		l.Levels[k] = ofPower(p)
	}
	return l
}

// findTones looks for tones in the spectrum. Rounding to steps of q errs by q/2 at
// most, by q where the rest is cut off, so that its power beside a constant is at
// most q²/4. What it makes of a clean tone is tones again: none below that is told
// apart from them.
func (a *Analysis) findTones() error {
	found, err := acoustics.NarrowBand{Step: a.Resolution(), Power: a.power}.Tones()
	step := a.Format.step()
	rounding := ofPower(step * step / 4)
	for _, t := range found {
		if float64(t.Level) <= rounding.db {
			continue
		}
		a.Tones = append(a.Tones, Tone{t.Frequency, FullScale{float64(t.Level)}, t.TNR, t.PR, t.Prominent})
	}
	return err
}

// NarrowBand gives the narrow-band spectrum, in units of (20 µPa)².
func (c *Calibrated) NarrowBand() acoustics.NarrowBand {
	n := acoustics.NarrowBand{Step: c.analysis.Resolution(), Power: make([]float64, len(c.analysis.power))}
	scale := ratio(float64(c.calibration.fullScale))
	for k, p := range c.analysis.power {
		n.Power[k] = p * scale
	}
	return n
}

// audible gives the analysis without the tones below the threshold of hearing.
func (c *Calibrated) audible() *Analysis {
	a := *c.analysis
	a.Tones = nil
	for _, t := range c.analysis.Tones {
		if c.absolute(t.Level) >= acoustics.HearingThreshold(t.Frequency) {
			a.Tones = append(a.Tones, t)
		}
	}
	return &a
}

// Tones gives the tones with their unweighted levels in dB re 20 µPa.
func (c *Calibrated) Tones() []acoustics.Tone {
	var tones []acoustics.Tone
	for _, t := range c.analysis.Tones {
		tones = append(tones, acoustics.Tone{Frequency: t.Frequency, Level: c.absolute(t.Level), TNR: t.TNR, PR: t.PR, Prominent: t.Prominent})
	}
	return tones
}

// Fate is what became of a tone from one recording to another.
type Fate uint8

// The fates.
const (
	Kept  Fate = iota // at the same pitch
	Moved             // to another pitch
	Gone
	New
)

var fateNames = [...]string{"kept", "moved", "gone", "new"}

// String gives the fate in one word.
func (f Fate) String() string { return fateNames[min(int(f), len(fateNames)-1)] }

// ToneChange is a tone in two recordings. Before is the zero Tone for a new one,
// After for one that is gone.
type ToneChange struct {
	Fate          Fate
	Before, After Tone
	By            quantity.Decibel // level after less before; NaN where there is only one
}

// How tones of two recordings are taken for one.
const (
	samePitch    = 0.01 // as a share of the frequency, or two bins
	sameBins     = 2
	furthestMove = 2.0    // in pitch, for tones that move together
	lonelyMove   = 1.2589 // a third octave, for one that moves alone
)

// toneMatch pairs the tones of two recordings.
type toneMatch struct {
	before, after []Tone
	usedB, usedA  []bool
	step          float64
	gain          quantity.Decibel
	changes       []ToneChange
}

// compareTones tells what became of the tones that are prominent in one of two
// recordings. Tones at one pitch are the same. Of the prominent ones that are
// left, those that moved by one ratio, as the tones of a fan do when its speed
// changes, are pairs; a single one is, if it moved by a third octave at most.
func compareTones(before, after *Analysis, gain quantity.Decibel) []ToneChange {
	m := &toneMatch{
		before: before.Tones, after: after.Tones, step: max(before.step, after.step), gain: gain,
		usedB: make([]bool, len(before.Tones)), usedA: make([]bool, len(after.Tones)),
	}
	m.same()
	for m.move() {
	}
	for i, t := range m.before {
		if !m.usedB[i] && t.Prominent {
			m.changes = append(m.changes, ToneChange{Gone, t, Tone{}, quantity.Decibel(math.NaN())})
		}
	}
	for j, t := range m.after {
		if !m.usedA[j] && t.Prominent {
			m.changes = append(m.changes, ToneChange{New, Tone{}, t, quantity.Decibel(math.NaN())})
		}
	}
	return m.changes
}

// pair takes two tones for one.
func (m *toneMatch) pair(fate Fate, i, j int) {
	m.usedB[i], m.usedA[j] = true, true
	b, a := m.before[i], m.after[j]
	if b.Prominent || a.Prominent {
		m.changes = append(m.changes, ToneChange{fate, b, a, a.Level.Above(b.Level) + m.gain})
	}
}

// near says whether two pitches are one.
func (m *toneMatch) near(f, g float64) bool {
	return math.Abs(f-g) <= max(samePitch*f, sameBins*m.step)
}

// same pairs each tone with the nearest at its pitch.
func (m *toneMatch) same() {
	for i, b := range m.before {
		if j := m.nearest(float64(b.Frequency), false); j >= 0 {
			m.pair(Kept, i, j)
		}
	}
}

// nearest finds the free tone after at a pitch, or -1.
func (m *toneMatch) nearest(hz float64, prominent bool) int {
	best := -1
	for j, a := range m.after {
		f := float64(a.Frequency)
		if m.usedA[j] || prominent && !a.Prominent || !m.near(f, hz) {
			continue
		}
		if best < 0 || math.Abs(f-hz) < math.Abs(float64(m.after[best].Frequency)-hz) {
			best = j
		}
	}
	return best
}

// move pairs the tones that moved by the ratio that most of those that are left
// moved by, the smaller change of two; it says whether there was one.
func (m *toneMatch) move() bool {
	most, best := 0, 0.0
	for i, b := range m.before {
		for j, a := range m.after {
			if m.usedB[i] || m.usedA[j] || !b.Prominent || !a.Prominent {
				continue
			}
			r := float64(a.Frequency / b.Frequency)
			n := m.movedBy(r, nil)
			furthest := lonelyMove
			if n > 1 {
				furthest = furthestMove
			}
			if away := math.Abs(math.Log(r)); away <= math.Log(furthest) &&
				(n > most || n == most && away < math.Abs(math.Log(best))) {
				most, best = n, r
			}
		}
	}
	if most == 0 {
		return false
	}
	m.movedBy(best, func(i, j int) { m.pair(Moved, i, j) })
	return true
}

// movedBy counts the prominent tones that have one at r times their pitch, and
// takes each pair if asked to.
func (m *toneMatch) movedBy(r float64, take func(i, j int)) (n int) {
	for i, b := range m.before {
		if m.usedB[i] || !b.Prominent {
			continue
		}
		if j := m.nearest(r*float64(b.Frequency), true); j >= 0 {
			n++
			if take != nil {
				take(i, j)
			}
		}
	}
	return n
}
