package loudness

import (
	"math"

	"lowsone/acoustics"
)

// Bins is the number of steps of a specific loudness pattern: every 0.1 Bark up
// to 24. [ISO532-1] 5.3
const Bins = 240

// Bark gives the critical-band rate in Bark of a bin of a Pattern: 0.1 to 24.
func Bark(bin int) float64 { return float64(bin+1) / 10 }

// A Pattern tells where in the ear's scale of pitch the loudness lies.
type Pattern struct {
	Sone     float64       // N, the area under the pattern
	Phon     float64       // LN
	Specific [Bins]float64 // N′ in sone/Bark; of bin i at Bark(i)
}

// Sone gives the loudness N in sone, unrounded, never below 0. A NaN among the
// levels, or a field that is none, gives NaN; a level of +Inf gives +Inf. Levels
// above 120 dB are outside the standard, see Check. [ISO532-1] clause 5.
func Sone(l *acoustics.Thirds, f Field) float64 {
	var c [allBands]float64
	if !core(l, f, &c) {
		return math.NaN()
	}
	return walk(&c, nil)
}

// Analyse gives the loudness with its level and its pattern; where Sone is NaN,
// so is all of it. [ISO532-1] clause 5.
func Analyse(l *acoustics.Thirds, f Field) Pattern {
	var c [allBands]float64
	var p Pattern
	if !core(l, f, &c) {
		p.Sone, p.Phon = math.NaN(), math.NaN()
		for i := range p.Specific {
			p.Specific[i] = math.NaN()
		}
		return p
	}
	p.Sone = walk(&c, &p.Specific)
	p.Phon = Phon(p.Sone)
	return p
}
