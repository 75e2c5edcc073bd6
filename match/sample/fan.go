package sample

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/mat"

	"lowsone/match"
)

// fan is one contender under every draw of the device. All fans are drawn at the
// same places of their axes, so that equal fans keep equal levels and chance does
// not order them.
type fan struct {
	contender match.Contender
	index     int // among the contenders
	inputs    []fanInput
	cube      *mat.Dense // nil for the fitted fan, which is drawn with the device
	outcomes  []match.Outcome
	apart     []match.Outcome // drawn at places of its own, for comparisons; nil until asked
	kept      float64         // share of draws in which it moves the needed flow
	level     float64         // dB(A) kept with the confidence asked for; +Inf where the flow is not
	score     int             // whole decibels it is ranked by
}

// askFan asks contender i under every draw, at the places of cube.
func askFan(d *devices, c match.Contender, i int, cube *mat.Dense) fan {
	f := fan{contender: c, index: i, inputs: fanInputs(c.FanUnknowns)}
	if !c.Fitted {
		f.cube = cube
	}
	f.outcomes = f.ask(d)
	f.kept = share(f.outcomes, func(o match.Outcome) bool { return o.Enough })
	return f
}

// ask asks the fan under every draw.
func (f *fan) ask(d *devices) []match.Outcome {
	out := make([]match.Outcome, len(d.drawn))
	for k, one := range d.drawn {
		x := f.draw(k)
		o, ok := one.Fan(f.index, &x)
		if !ok {
			o = match.Outcome{Level: math.NaN(), Ratio: math.NaN(), Full: math.NaN()}
		}
		out[k] = o
	}
	return out
}

// askApart asks the fan once more, at places of its own: what two labels are off
// by does not go together.
func (f *fan) askApart(d *devices, seed uint64) {
	own := *f
	if f.cube != nil {
		name := strings.ToLower(f.contender.Maker) + "\x00" + strings.ToLower(f.contender.Part)
		own.cube = hypercube(len(d.drawn), mostAxes, seed, name)
	}
	f.apart = own.ask(d)
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
	for k, o := range f.apart {
		switch other := g.apart[k]; {
		case !o.Enough:
		case o.Level < other.Level || math.IsNaN(other.Level):
			sum++
		case o.Level == other.Level:
			sum += 0.5
		}
	}
	return sum / float64(len(f.outcomes))
}

// keptSteps is how finely the share of draws orders fans of one level.
const keptSteps = 20

// order sorts by the whole decibels kept with confidence, then by the share of
// draws in which the needed flow is moved, in twentieths, then as the nominal
// ranking has them. Those that do not keep the flow so surely come behind, by
// that share.
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
		return cmp.Or(cmp.Compare(a.score, b.score), cmp.Compare(math.Round(keptSteps*b.kept), math.Round(keptSteps*a.kept)), cmp.Compare(a.index, b.index))
	})
}
