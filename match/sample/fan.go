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
	index     int        // among the contenders
	cube      *mat.Dense // its places; nil for the fitted fan, which is drawn with the device
	draws     []match.FanDraw
	outcomes  []match.Outcome
	apart     []match.Outcome // drawn at places of its own, for comparisons; nil until asked
	kept      float64         // share of draws in which it moves the needed flow
	level     float64         // dB(A) kept with the confidence asked for; +Inf where the flow is not
	score     int             // whole decibels it is ranked by
}

// places are where fans are drawn. Those that are unsure in the same things are
// drawn alike there, once for all.
type places struct {
	cube  *mat.Dense
	drawn map[unsure][]match.FanDraw
}

// unsure is what tells the draws of two fans at the same places apart.
type unsure struct {
	twoEnded              bool
	level, flow, pressure float64
}

// placesOf gives n places of fans.
func placesOf(n int, seed uint64, name string) *places {
	return &places{hypercube(n, mostAxes, seed, name), map[unsure][]match.FanDraw{}}
}

// draws gives a fan with these unknowns at each place.
func (p *places) draws(u match.FanUnknowns) []match.FanDraw {
	key := unsure{u.TwoEnded, float64(u.Level), u.Flow, u.Pressure}
	if out, ok := p.drawn[key]; ok {
		return out
	}
	n, _ := p.cube.Dims()
	out := make([]match.FanDraw, n)
	inputs := fanInputs(u)
	for k := range out {
		out[k] = match.NominalFan()
		for axis, in := range inputs {
			in.set(&out[k], p.cube.At(k, axis))
		}
	}
	p.drawn[key] = out
	return out
}

// askFan asks contender i under every draw, at the places given.
func askFan(d *devices, c match.Contender, i int, at *places) fan {
	f := fan{contender: c, index: i}
	f.place(len(d.drawn), at)
	f.outcomes = f.ask(d)
	f.kept = share(f.outcomes, func(o match.Outcome) bool { return o.Enough })
	return f
}

// place draws the fan at the places given; the fitted one is drawn with the
// device, n times.
func (f *fan) place(n int, at *places) {
	if f.contender.Fitted {
		f.draws = make([]match.FanDraw, n)
		return
	}
	f.cube, f.draws = at.cube, at.draws(f.contender.FanUnknowns)
}

// ask asks the fan under every draw.
func (f *fan) ask(d *devices) []match.Outcome {
	out := make([]match.Outcome, len(d.drawn))
	for k, one := range d.drawn {
		o, ok := one.Fan(f.index, &f.draws[k])
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
	name := strings.ToLower(f.contender.Maker) + "\x00" + strings.ToLower(f.contender.Part)
	own.place(len(d.drawn), placesOf(len(d.drawn), seed, name))
	f.apart = own.ask(d)
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
