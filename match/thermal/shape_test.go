package thermal

import (
	"math"
	"math/rand/v2"
	"testing"
)

// A response to one step, of any time constants, is never taken for none, though
// it be noisy and coarse: nearly never. What is lost is a log of few readings,
// hardly above its noise.
func TestStepsAreSteps(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 14))
	for range 400 {
		d := drawTwo(r)
		p := drawProbe(r)
		p.every = min(p.every, p.length/20)
		log := p.log(d.at)
		b := drawTogether(log, max(p.scatter, 0.01))
		from, anew := b.startsAnew()
		if back := b.turnsBack(); back != 0 || anew || b.flat() || b.direction() != 1 {
			t.Errorf("%+v by %+v: back %g K, anew %t from %g s, flat %t", d, p, back, anew, from, b.flat())
		}
	}
}

// A rise that begins late is no new start, and one that is added is.
func TestStartsAnew(t *testing.T) {
	late := func(at, second float64) []Reading {
		return probe{every: 30, length: 3600}.log(func(t float64) float64 {
			return oneStep.at(max(t-at*minutes, 0)) + second*(1-math.Exp(-max(t-40*minutes, 0)/300))
		})
	}
	for _, row := range []struct {
		name string
		log  []Reading
		want bool
	}{
		{"at once", late(0, 0), false},
		{"late", late(15, 0), false},
		{"once more", late(0, 10), true},
		{"late and once more", late(8, 14), true},
		{"half a degree more", late(0, 0.5), false},
	} {
		from, ok := drawTogether(row.log, 0.05).startsAnew()
		if ok != row.want || ok && math.Abs(from-40*minutes) > 6*minutes {
			t.Errorf("%s: starts anew %t from %g min, want %t from 40 min", row.name, ok, from/minutes, row.want)
		}
	}
}

// The errors of blocks are those of medians, and never under the resolution's.
func TestBlockErrors(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 15))
	var squares float64
	const rounds = 300
	var sd float64
	for range rounds {
		b := drawTogether(probe{every: 1, length: 399, scatter: 1, random: r}.log(func(float64) float64 { return 40 }), 1)
		for i, c := range b.celsius {
			squares += (c - 40) * (c - 40) / float64(len(b.celsius)) / rounds
			sd = b.sd[i]
		}
	}
	check(t, "error of a block of 40", sd, math.Sqrt(squares), 0.05*sd, "as drawn")
	b := drawTogether(probe{every: 1, length: 399, step: 1}.log(func(float64) float64 { return 40 }), 0)
	check(t, "error of a block in steps of 1 K", b.sd[0], 1/math.Sqrt(12), 1e-12, "rounding")
}
