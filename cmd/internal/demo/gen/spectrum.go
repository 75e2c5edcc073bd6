package gen

import (
	"math"
	"math/rand/v2"
	"strings"
)

// octaves are those whose levels a label may state, as headers name them.
var octaves = [...]string{"63 Hz", "125 Hz", "250 Hz", "500 Hz", "1 kHz", "2 kHz", "4 kHz", "8 kHz"}

const (
	numOctaves = len(octaves)

	// Places of octaves.
	at63, at125, at500, at1k = 0, 1, 3, 4

	// quietest is the level in dB(A) below which no octaves are stated: the measuring microphone's own noise is too near (common practice).
	quietest = 20
)

// octaveHz is the exact middle of octave i.
func octaveHz(i int) float64 { return 1000 * math.Pow(10, 0.3*float64(i-at1k)) }

// voice is the spectrum of a family: the typical one of axial fans with what is this family's own.
type voice struct {
	centre float64             // c₃, which says where the shape has its top
	steep  float64             // dB, by which it has fallen a decade from there
	tone   float64             // dB, by which the blade tone lifts the octave it lies in
	rough  [numOctaves]float64 // dB, at each octave
}

// voice draws one. It has its own random numbers, so that no other value hangs on whether a family states octaves.
func (d *drawer) voice(round, family int) voice {
	rng := rand.New(rand.NewPCG(d.seed, 1<<61|uint64(round)<<16|uint64(family)))
	between := func(lo, hi float64) float64 { return lo + (hi-lo)*rng.Float64() }
	v := voice{centre: between(-0.7, -0.5), steep: between(5, 7), tone: between(0.5, 2.5)}
	for i := range v.rough {
		v.rough[i] = between(-0.8, 0.8)
	}
	return v
}

// hear puts octaves on the label: the shape at the fan's speed, so high that the A-weighted sum of what is stated is the level before
// that was rounded. A label without a level has none.
func (d *drawer) hear(s *Spec, f family, v voice, b build) {
	if !f.heard || !s.NoiseDBA.Known || s.level < quietest {
		return
	}
	levels, first := v.at(b.rpm, f.blades), s.maker.lowest
	up := s.level - sumA(levels[first:], first)
	for i := first; i < numOctaves; i++ {
		s.OctavesDB[i] = known(d.to(levels[i]+up, 0.1))
	}
	if strings.Contains(b.lacks, "o") {
		s.OctavesDB[at500] = Number{}
	}
}

// at is the shape at a speed, in dB: −5 − steep·(lg St + c₃)² with St = f/(π·n), n in 1/s ([2]), rough, and the blade tone.
func (v voice) at(rpm, blades float64) (levels [numOctaves]float64) {
	for i := range levels {
		x := math.Log10(octaveHz(i)/(math.Pi*rpm/60)) + v.centre
		levels[i] = -5 - v.steep*x*x + v.rough[i]
	}
	if i := octaveOf(blades * rpm / 60); i >= 0 && i < numOctaves {
		levels[i] += v.tone
	}
	return levels
}

// octaveOf is the octave a frequency lies in; below 0 or above the last where it is none of these.
func octaveOf(hz float64) int { return at1k + int(math.Round(math.Log10(hz/1000)/0.3)) }

// sumA is the A-weighted sum of octave levels, the first of them that of octave first.
func sumA(levels []float64, first int) float64 {
	sum := 0.0
	for i, l := range levels {
		sum += math.Pow(10, (l+weightA(octaveHz(first+i)))/10)
	}
	return 10 * math.Log10(sum)
}

// weightA is the A-weighting of a frequency in dB, by the formula of [4].
func weightA(hz float64) float64 {
	const f1, f2, f3, f4 = 20.60, 107.7, 737.9, 12194
	q := hz * hz
	r := f4 * f4 * q * q / ((q + f1*f1) * math.Sqrt((q+f2*f2)*(q+f3*f3)) * (q + f4*f4))
	return 20*math.Log10(r) + 2
}
