package gen

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
)

// The demo's catalogue and the two fans of its device (both Ombrasco).
const (
	DemoSeed = 2026
	DemoRows = 433 // the whole plan, once

	FittedMaker = "Ombrasco"
	FittedPart  = "OMB-625B56B3" // 60×60×25, 12 V, tach: the loud one in the left tunnel
	SecondMaker = "Ombrasco"
	SecondPart  = "OMB-420B70B3" // 40×40×20, 12 V, tach: the power supply's
)

// Catalogue is the truth of n fans for this seed: the plan's families in order, then the same families again with other wheels
// (parts end in -R2, -R3, …) as often as n asks. Equal seeds give equal fans, and a longer catalogue begins with the shorter one.
func Catalogue(seed uint64, n int) []Spec {
	return newDrawer(seed).catalogue(n)
}

// drawer draws and rounds. nearest is the smallest distance met so far between a rounded value and a rounding border, in steps.
type drawer struct {
	seed    uint64
	rng     *rand.Rand
	nearest float64
}

func newDrawer(seed uint64) *drawer { return &drawer{seed: seed, nearest: 0.5} }

func (d *drawer) catalogue(n int) []Spec {
	specs := make([]Spec, 0, max(n, 0))
	families := plan()
	for round := 0; len(specs) < n; round++ {
		for i := range families {
			if len(specs) >= n {
				break
			}
			d.rng = rand.New(rand.NewPCG(d.seed, uint64(round)<<16|uint64(i)))
			specs = d.family(specs, families[i], round, i, n)
		}
	}
	return specs
}

// build is one fan of a family as the plan asks for it.
type build struct {
	volts, grade, rpm, hertz float64 // grade: speed in the plan; rpm: speed at this mains frequency
	leads                    byte
	lacks                    string
}

// family appends the fans of the family at a place of the plan, at most until n.
func (d *drawer) family(specs []Spec, f family, round, place, n int) []Spec {
	shared := d.design(f, round)
	shared.voice = d.voice(round, place)
	withCurve := f.curve || d.share() < makers[f.maker].curves
	for _, r := range f.runs {
		for grade := range strings.FieldsSeq(r.grades) {
			for _, b := range builds(f, r.volts, grade) {
				if len(specs) >= n {
					return specs
				}
				specs = append(specs, d.spec(f, shared, b, round, len(specs), withCurve))
			}
		}
	}
	return specs
}

// builds reads one grade of the plan. The plan is ours and checked by a test: a grade that does not read panics.
func builds(f family, volts float64, grade string) []build {
	grade, lacks, _ := strings.Cut(grade, "-")
	b := build{volts: volts, lacks: lacks}
	var leads string
	if _, err := fmt.Sscanf(grade, "%g:%s", &b.grade, &leads); err != nil {
		panic(fmt.Sprintf("plan: grade %q of %s %s: %v", grade, makers[f.maker].name, f.series, err))
	}
	b.rpm = b.grade
	var out []build
	for _, code := range []byte(leads) {
		b.leads = code
		if f.supply != supplyAC {
			out = append(out, b)
			continue
		}
		b.rpm, b.hertz = b.grade, 50
		out = append(out, b)
		b.rpm, b.hertz = math.Round(b.grade*1.15/50)*50, 60 // slip leaves 1.15 of the 1.2; common practice
		out = append(out, b)
	}
	return out
}

// design draws what a family shares. The exact families of the first round are not scattered.
func (d *drawer) design(f family, round int) design {
	m := &makers[f.maker]
	phi, psi := coefficients(f.kind, f.width, f.depth)
	phiScatter, psiScatter, loud := d.between(0.94, 1.06), d.between(0.92, 1.08), d.between(-1.2, 1.2)
	if f.fixed && round == 0 {
		phiScatter, psiScatter, loud = 1, 1, 0
	}
	diameter, span := wheel(f.kind, f.width, f.height)
	return design{
		kind: f.kind, supply: f.supply, diameter: diameter, span: span,
		phi: phi * f.flow * phiScatter, psi: psi * f.press * psiScatter,
		sound: soundConstant(f.kind, f.supply) + m.sound + f.sound + loud,
		motor: d.between(0.8, 1.25), shape: shapeOf(f.kind, d.between),
		lifeAt40: m.life * d.between(0.9, 1.1) * map[byte]float64{'b': 62000, 'f': 75000, 's': 20000}[f.bearing],
		halve:    d.between(10, 15),
		price:    d.between(0.9, 1.1),
	}
}

func (d *drawer) share() float64 { return d.rng.Float64() }

// between draws evenly from [lo, hi).
func (d *drawer) between(lo, hi float64) float64 { return lo + (hi-lo)*d.rng.Float64() }

// pick draws one of the words.
func (d *drawer) pick(words ...string) string { return words[d.rng.IntN(len(words))] }

// to rounds a computed x to a whole number of steps and keeps how near a rounding border it was.
func (d *drawer) to(x, step float64) float64 {
	in := x / step
	d.nearest = min(d.nearest, math.Abs(in-math.Floor(in)-0.5))
	return tidy(x, step)
}

// tidy rounds x to a whole number of steps. A step under 1 must be 1 over a whole number. For an x that is one product or quotient of
// rounded numbers, the same on every processor, it is enough by itself.
func tidy(x, step float64) float64 {
	if step < 1 {
		return math.Round(x/step) / math.Round(1/step)
	}
	return math.Round(x/step) * step
}
