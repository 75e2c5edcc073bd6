package view

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"lowsone/acoustics"
	"lowsone/acoustics/loudness"
	"lowsone/catalog/quantity"
)

// levels tell the levels of a recording, and the A-weighted one over time.
func (r *Recorded) levels() facts {
	l, ref := r.Analysis.Level, r.reference()
	var f facts
	f.add("level", fmt.Sprintf("%s dB(A)%s on average (L_eq); %s or more for 10 %% of the time (L10), %s or more for 90 %% (L90); most %s at %s s, by a meter on fast",
		Fixed(r.db(l.Equivalent), 1), ref, quietText(r.db(l.L10)), quietText(r.db(l.L90)), Fixed(r.db(l.Max), 1), Fixed(float64(l.MaxAt), 1)))
	f.add("in time", r.overTime())
	f.add("other", fmt.Sprintf("%s dB(C), %s dB unweighted%s", Fixed(r.db(r.Analysis.C), 1), Fixed(r.db(r.Analysis.Overall), 1), ref))
	return f
}

// quietText writes a level, which may be that of silence.
func quietText(db float64) string {
	if math.IsInf(db, -1) {
		return "silence"
	}
	return Fixed(db, 1)
}

// mostSigns is how many signs a level over time takes, leastSpan the least span
// in dB they show: a steady level shall look steady.
const (
	mostSigns = 60
	leastSpan = 6.0
)

// overTime draws the level of each second, or of several together.
func (r *Recorded) overTime() string {
	trace := r.Analysis.Trace
	every := (len(trace.Levels) + mostSigns - 1) / mostSigns
	if every == 0 {
		return Unknown
	}
	var levels []float64
	for from := 0; from < len(trace.Levels); from += every {
		sum, group := 0.0, trace.Levels[from:min(from+every, len(trace.Levels))]
		for _, l := range group {
			sum += math.Pow(10, r.db(l)/10)
		}
		levels = append(levels, 10*math.Log10(sum/float64(len(group))))
	}
	low, high := levelSpan(levels)
	seconds := "each sign a second"
	if every > 1 {
		seconds = fmt.Sprintf("each sign %d s", every)
	}
	return fmt.Sprintf("%s from %s to %s dB(A)%s, %s", signs(levels, low, high), Fixed(low, 0), Fixed(high, 0), r.reference(), seconds)
}

// levelSpan gives whole dB around levels, at least leastSpan apart.
func levelSpan(levels []float64) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, l := range levels {
		if !math.IsInf(l, 0) {
			low, high = min(low, l), max(high, l)
		}
	}
	low, high = math.Floor(low), math.Ceil(high)
	if wider := leastSpan - (high - low); wider > 0 {
		low -= math.Floor(wider / 2)
		high = low + leastSpan
	}
	return low, high
}

// signs draws values as a line of blocks; a dot is a value without end, such as
// the level of silence.
func signs(values []float64, low, high float64) string {
	const blocks = "▁▂▃▄▅▆▇█"
	steps := []rune(blocks)
	var b strings.Builder
	for _, v := range values {
		if math.IsInf(v, 0) || math.IsNaN(v) {
			b.WriteByte('.')
			continue
		}
		step := int(float64(len(steps)) * (v - low) / (high - low))
		b.WriteRune(steps[max(0, min(step, len(steps)-1))])
	}
	return b.String()
}

// loudness tells loudness and ratings, where there is a scale.
func (d *Listen) loudness(r *Recorded) facts {
	var f facts
	if r.Scaled == nil {
		return f
	}
	if r.Loudness == nil {
		f.add("loudness", "not known: "+r.NoLoudness)
	} else {
		f = append(f, patternFacts(r.Loudness, d.Field)...)
	}
	f.add("rating", ratingText(r.Ratings))
	return f
}

// half is the share of loudness whose place is told.
const half = 0.5

// patternFacts tell a loudness and where in pitch it lies.
func patternFacts(p *loudness.Pattern, field loudness.Field) facts {
	var f facts
	if p.Sone == 0 {
		f.add("loudness", fmt.Sprintf("0 sone: too soft to be heard (ISO 532-1, %s field)", field))
		return f
	}
	f.add("loudness", fmt.Sprintf("%s sone, %s phon (ISO 532-1, %s field, taken as steady)", Digits(p.Sone, 2), Fixed(p.Phon, 0), field))
	first, last := p.Mostly(half)
	f.add("mostly", "half of its loudness comes from "+between(loudness.RegionAt(first).Low, loudness.RegionAt(last).High))
	f.add("in pitch", patternSigns(p)+" low to high, each sign a Bark of 24")
	return f
}

// between names the bands from one to another.
func between(low, high quantity.Frequency) string {
	if low == high {
		return "the band at " + hertz(low)
	}
	return "the bands from " + hertz(low) + " to " + hertz(high)
}

// patternSigns draws the specific loudness of each Bark, the largest full.
func patternSigns(p *loudness.Pattern) string {
	const perBark = loudness.Bins / 24
	var barks [24]float64
	most := 0.0
	for i := range barks {
		for _, s := range p.Specific[i*perBark : (i+1)*perBark] {
			barks[i] += s
		}
		most = max(most, barks[i])
	}
	return signs(barks[:], 0, most)
}

// ratingText tells ratings with the bands that decide.
func ratingText(ratings []Rating) string {
	var said []string
	for _, r := range ratings {
		said = append(said, r.text())
	}
	return strings.Join(said, "; ")
}

func (r Rating) text() string {
	var octave *acoustics.OctaveError
	switch {
	case errors.As(r.Err, &octave):
		return fmt.Sprintf("%s not known, for the octave at %s is not all there", r.Name, hertz(quantity.Frequency(acoustics.OctaveNominal[octave.Octave])))
	case r.Err != nil:
		return fmt.Sprintf("%s not known: %v", r.Name, r.Err)
	}
	value := Fixed(r.Value, 0)
	switch r.Limit {
	case acoustics.Under:
		return r.Name + " below " + value
	case acoustics.Over:
		value = "above " + value
	}
	return fmt.Sprintf("%s %s by the octave at %s", r.Name, value, hertz(quantity.Frequency(acoustics.OctaveNominal[r.Octave])))
}
