package sample

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/mat"

	"lowsone/match"
)

// fan is one contender under every draw of the device.
type fan struct {
	contender match.Contender
	index     int // among the contenders
	inputs    []fanInput
	cube      *mat.Dense // nil for the fitted fan, which is drawn with the device
	outcomes  []match.Outcome
	kept      float64 // share of draws in which it moves the needed flow
	level     float64 // dB(A) kept with the confidence asked for; +Inf where the flow is not
	score     int     // whole decibels it is ranked by
}

// askFan asks contender i under every draw.
func askFan(d *devices, c match.Contender, i int, seed uint64) fan {
	f := fan{contender: c, index: i, inputs: fanInputs(c.FanUnknowns), outcomes: make([]match.Outcome, len(d.drawn))}
	if !c.Fitted {
		name := strings.ToLower(c.Maker) + "\x00" + strings.ToLower(c.Part)
		f.cube = hypercube(len(d.drawn), len(f.inputs), seed, name)
	}
	enough := 0
	for k, one := range d.drawn {
		x := f.draw(k)
		out, ok := one.Fan(i, &x)
		if !ok {
			out = match.Outcome{Level: math.NaN(), Ratio: math.NaN(), Full: math.NaN()}
		}
		if out.Enough {
			enough++
		}
		f.outcomes[k] = out
	}
	f.kept = float64(enough) / float64(len(d.drawn))
	return f
}

// draw gives the fan under draw k.
func (f *fan) draw(k int) match.FanDraw {
	x := match.NominalFan()
	if f.cube != nil {
		for axis, in := range f.inputs {
			in.set(&x, f.cube.At(k, axis))
		}
	}
	return x
}

// promise sets the level that the fan keeps with a confidence: in that share of
// draws it moves the needed flow and is no louder.
func (f *fan) promise(confidence float64) {
	levels := make([]float64, len(f.outcomes))
	for k, o := range f.outcomes {
		levels[k] = o.Level
		if !o.Enough {
			levels[k] = math.Inf(1)
		}
	}
	slices.Sort(levels)
	f.level = quantile(levels, confidence)
}

// quieter gives the share of draws in which f moves the needed flow and is
// quieter there than g, which need not. Where both are at one level it counts
// half.
func (f *fan) quieter(g *fan) float64 {
	sum := 0.0
	for k, o := range f.outcomes {
		switch other := g.outcomes[k]; {
		case !o.Enough:
		case o.Level < other.Level || math.IsNaN(other.Level):
			sum++
		case o.Level == other.Level:
			sum += 0.5
		}
	}
	return sum / float64(len(f.outcomes))
}

// order sorts by the whole decibels kept with confidence; those that do not
// keep the flow so surely come behind, by the share of draws in which they do;
// then as the nominal ranking has them.
func order(fans []fan) {
	slices.SortStableFunc(fans, func(a, b fan) int {
		lostA, lostB := math.IsInf(a.level, 1), math.IsInf(b.level, 1)
		switch {
		case lostA != lostB && lostA:
			return 1
		case lostA != lostB:
			return -1
		case lostA:
			return cmp.Or(cmp.Compare(b.kept, a.kept), cmp.Compare(a.index, b.index))
		}
		return cmp.Or(cmp.Compare(a.score, b.score), cmp.Compare(a.index, b.index))
	})
}
