package resistance

import (
	"fmt"
	"math"
	"testing"

	"lowsone/match/curve"
	"pgregory.net/rapid"
)

// Grilles between the points of their table: K falls as they open, and lies
// between those of its neighbours.
func TestGrillesBetweenThePoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		edge := rapid.SampledFrom([]Edge{SharpEdge, RoundedEdge}).Draw(t, "edge")
		table := gridOf(edge)
		i := rapid.IntRange(1, len(table)-1).Draw(t, "row")
		a, b := table[i-1], table[i]
		x := rapid.Float64Range(a.free, b.free).Draw(t, "free")
		y := rapid.Float64Range(x, b.free).Draw(t, "more free")
		kx, ky := gridLoss(table, x), gridLoss(table, y)
		if !(a.k >= kx && kx >= ky && ky >= b.k) {
			t.Fatalf("K at %g, %g, %g, %g: %g, %g, %g, %g; want them to fall", a.free, x, y, b.free, a.k, kx, ky, b.k)
		}
	})
}

// The doc of gridLoss says how well a point is found from its neighbours.
func TestHowGoodTheInterpolationIs(t *testing.T) {
	for _, test := range []struct {
		table          []gridPoint
		low, high, tol float64
	}{
		{sharpGrid[:], 0.3, 0.8, 0.04}, {sharpGrid[:], 0.1, 0.25, 0.19}, {sharpGrid[:], 0.85, 0.9, 0.37}, {roundedGrid[:], 0.4, 0.6, 0.12},
	} {
		for i := 1; i < len(test.table)-1; i++ {
			p := test.table[i]
			if p.free < test.low || p.free > test.high {
				continue
			}
			without := append(append([]gridPoint(nil), test.table[:i]...), test.table[i+1:]...)
			check(t, fmt.Sprintf("K at %g without its point", p.free), gridLoss(without, p.free), p.k, test.tol*p.k, blevins)
		}
	}
}

// An outlet grille loses all of its jets: more than the same grille in a duct,
// never less than the mean velocity in its holes.
func TestOutletGrilleLosesItsJets(t *testing.T) {
	in := StandardAir()
	for _, test := range []struct {
		free float64
		edge Edge
		want float64
	}{
		{1, SharpEdge, 1}, {0.5, SharpEdge, (1 + math.Sqrt(3.8)) * (1 + math.Sqrt(3.8))},
		{0.9, SharpEdge, (1 + math.Sqrt(0.08)) * (1 + math.Sqrt(0.08))}, {0.5, RoundedEdge, 4},
	} {
		k, _ := built(t)(OutletGrille("out", 0.01, test.free, test.edge)).Coefficient(0.02, in)
		check(t, fmt.Sprintf("K of an outlet grille of %g", test.free), k, test.want, 1e-12, "all velocity of the jets is lost")
	}
}

// Between two rows of the table β lies on the straight line, beyond them it
// stays.
func TestWireFactor(t *testing.T) {
	for _, test := range []struct{ re, want float64 }{
		{1, 1.3}, {20, 1.3}, {25, 1.2}, {40, 0.95}, {70, 0.79}, {100, 0.70}, {300, 0.56}, {400, 0.52}, {1e5, 0.52},
	} {
		check(t, fmt.Sprintf("wireFactor(%g)", test.re), wireFactor(test.re), test.want, 1e-12, blevins)
	}
	in := StandardAir()
	unknown, _ := built(t)(Screen("gauze", 0.01, 0.5, UnknownGap)).Coefficient(0.02, in)
	check(t, "K of a screen of unknown gap", unknown, 0.52*3, 1e-12, "Re above 400")
	guard, _ := built(t)(Guard("guard", 0.01, 0.9)).Coefficient(0.02, in)
	check(t, "K of a guard", guard, 0.095+0.002, 1e-12, "0.95·(1 − α) + 0.2·(1 − α)²")
}

// One stated point of a filter is met, and half of it is taken as viscous.
func TestFilterOfOnePoint(t *testing.T) {
	in := StandardAir()
	f := built(t)(FilterAt("mat", 0.02, 1.5, 40, in))
	check(t, "Loss at the point", f.Loss(0.03, in), 40, 1e-12, "what was stated")
	check(t, "Loss at half the flow", f.Loss(0.015, in), 40*(0.5/2+0.25/2), 1e-12, "half a·Q, half b·Q²")
	k, _ := built(t)(Coefficient("free", 0, 0.01, duct, "none")).Coefficient(0.01, in)
	check(t, "K of nothing", k, 0, 0, "zero is a coefficient")
}

// drawElement draws an element of any kind but Parallel.
func drawElement(t *rapid.T) Element {
	area := rapid.Float64Range(1e-3, 2e-2).Draw(t, "area")
	in := StandardAir()
	part := rapid.Float64Range(0.3, 0.7).Draw(t, "part")
	make := func(e Element, err error) Element {
		if err != nil {
			t.Fatal(err)
		}
		return e
	}
	switch rapid.IntRange(0, 7).Draw(t, "kind") {
	case 0:
		return make(Grille("grille", area, part, SharpEdge))
	case 1:
		return make(Screen("screen", area, part, rapid.Float64Range(0.2e-3, 3e-3).Draw(t, "gap")))
	case 2:
		return make(Contraction("contraction", area, part*area))
	case 3:
		return make(Mitre("mitre", area, 90*part))
	case 4:
		return make(Filter("filter", curve.System{A: 1e3 * part, B: 1e5}, in))
	case 5:
		return make(FilterAt("mat", area, part, 10, in))
	case 6:
		return make(OutletGrille("outlet", area, part, RoundedEdge))
	}
	gap := rapid.Float64Range(1e-3, 6e-3).Draw(t, "gap")
	return make(Fins("fins", FinStack{Channels: int(part*area/gap/0.02) + 1, Gap: gap, Height: 0.02,
		Length: rapid.Float64Range(0.02, 0.3).Draw(t, "length"), Face: area + gap*0.02}))
}

// drawPath draws up to four elements, some of them branches of more.
func drawPath(t *rapid.T, depth int) Path {
	var p Path
	for range rapid.IntRange(1, 3).Draw(t, "elements") {
		p = append(p, drawElement(t))
	}
	if depth > 0 && rapid.Bool().Draw(t, "branches") {
		e, err := Parallel("branches", drawPath(t, depth-1), drawPath(t, depth-1))
		if err != nil {
			t.Fatal(err)
		}
		p = append(p, e)
	}
	return p
}

func near(a, b, share float64) bool { return math.Abs(a-b) <= share*math.Max(math.Abs(a), math.Abs(b)) }

// Losses rise with the flow, add along the path, and their shares make up one;
// branches share the flow at one pressure, below that of either alone.
func TestPathAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, in := drawPath(t, 1), StandardAir()
		q := rapid.Float64Range(1e-4, 0.05).Draw(t, "flow")
		total := p.Loss(q, in)
		if more := p.Loss(1.01*q, in); !(total > 0 && more > total) {
			t.Fatalf("Loss(%g) = %g, Loss of 1 %% more = %g", q, total, more)
		}
		costs := p.Costs(q, in)
		sum, shares := 0.0, 0.0
		for i, c := range costs {
			sum += c.Pressure
			shares += c.Share
			if c.Name != p[i].Name || c.Flow != q || len(c.Branches) != len(p[i].branches) {
				t.Fatalf("cost %d of %s is %+v", i, p[i].Name, c)
			}
			through := 0.0
			for k, b := range c.Branches {
				through += b[0].Flow
				if alone := p[i].branches[k].Loss(q, in); !(c.Pressure < alone) {
					t.Fatalf("branches cost %g, branch %d alone %g", c.Pressure, k, alone)
				}
				branch := 0.0
				for _, x := range b {
					branch += x.Pressure
				}
				if !near(branch, c.Pressure, 1e-9) {
					t.Fatalf("branch %d costs %g, all of them %g", k, branch, c.Pressure)
				}
			}
			if len(c.Branches) > 0 && !near(through, q, 1e-9) {
				t.Fatalf("%g m³/s through the branches of %g", through, q)
			}
		}
		if !near(sum, total, 1e-12) || !near(shares, 1, 1e-12) {
			t.Fatalf("costs add up to %g of %g, shares to %g", sum, total, shares)
		}
	})
}

// A path as a·Q + b·Q² is exact at its flow and within 10 % about there.
func TestSystemOfAPath(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, in := drawPath(t, 1), StandardAir()
		q := rapid.Float64Range(1e-3, 0.05).Draw(t, "flow")
		s := p.System(q, in)
		if !(s.A >= 0 && s.B >= 0) || !near(s.Loss(q), p.Loss(q, in), 1e-12) {
			t.Fatalf("System(%g) = %+v with %g Pa, the path has %g", q, s, s.Loss(q), p.Loss(q, in))
		}
		for _, r := range []float64{0.4, 0.6, 0.8, 1.2} {
			if !near(s.Loss(r*q), p.Loss(r*q, in), 0.10) {
				t.Fatalf("System(%g) = %+v: %g Pa at %g of it, the path has %g", q, s, s.Loss(r*q), r, p.Loss(r*q, in))
			}
		}
	})
}

// Path.System says that channels of fins are met within 2 %.
func TestSystemOfFins(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		gap := rapid.Float64Range(0.5e-3, 10e-3).Draw(t, "gap")
		e, err := Fins("fins", FinStack{10, gap, 0.03, rapid.Float64Range(0.01, 0.5).Draw(t, "length"), gap * 0.5})
		if err != nil {
			t.Fatal(err)
		}
		p, in, q := Path{e}, StandardAir(), rapid.Float64Range(1e-4, 0.03).Draw(t, "flow")
		s := p.System(q, in)
		for r := 0.4; r <= 1.2; r += 0.1 {
			if !near(s.Loss(r*q), p.Loss(r*q, in), 0.02) {
				t.Fatalf("%g Pa at %g of %g m³/s, the fins have %g", s.Loss(r*q), r, q, p.Loss(r*q, in))
			}
		}
	})
}

// Branches alike in form are one of the same form; the order does not matter.
func TestParallelInClosedForm(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := StandardAir()
		x := rapid.Float64Range(1, 1e6).Draw(t, "first")
		y := rapid.Float64Range(1, 1e6).Draw(t, "second")
		q := rapid.Float64Range(1e-4, 0.1).Draw(t, "flow")
		pair := func(a, b curve.System) float64 {
			fa, errA := Filter("a", a, in)
			fb, errB := Filter("b", b, in)
			e, err := Parallel("pair", Path{fa}, Path{fb})
			f, err2 := Parallel("pair", Path{fb}, Path{fa})
			if errA != nil || errB != nil || err != nil || err2 != nil {
				t.Fatal(errA, errB, err, err2)
			}
			if !near(e.Loss(q, in), f.Loss(q, in), 1e-12) {
				t.Fatalf("%+v beside %+v: %g, the other way round %g", a, b, e.Loss(q, in), f.Loss(q, in))
			}
			return e.Loss(q, in)
		}
		root := 1 / (1/math.Sqrt(x) + 1/math.Sqrt(y))
		if got, want := pair(curve.System{B: x}, curve.System{B: y}), root*root*q*q; !near(got, want, 1e-9) {
			t.Fatalf("b %g beside %g at %g m³/s: %g Pa, want %g", x, y, q, got, want)
		}
		if got, want := pair(curve.System{A: x}, curve.System{A: y}), x*y/(x+y)*q; !near(got, want, 1e-9) {
			t.Fatalf("a %g beside %g at %g m³/s: %g Pa, want %g", x, y, q, got, want)
		}
	})
	if got := pressureAcross(nil, 1, StandardAir()); got != 0 {
		t.Errorf("pressure across no branches %g", got)
	}
	if got := flowFor(curve.System{A: 1, B: 1}, 0); got != 0 {
		t.Errorf("flow for no pressure %g", got)
	}
}

// Of an element with both kinds of loss, thinner air lowers one, hotter air
// raises the other; fins go between the two.
func TestAirScalesLosses(t *testing.T) {
	std := StandardAir()
	thin := Air{Density: std.Density / 2, Viscosity: std.Viscosity}
	sticky := Air{Density: std.Density, Viscosity: 2 * std.Viscosity}
	grille := built(t)(Grille("grille", 0.01, 0.5, SharpEdge))
	mat := built(t)(Filter("mat", curve.System{A: 100}, std))
	fins := built(t)(Fins("fins", FinStack{10, 0.003, 0.03, 0.1, 0.001}))
	const q = 0.004
	check(t, "grille in thin air", grille.Loss(q, thin), grille.Loss(q, std)/2, 1e-12, "b goes with ρ")
	check(t, "grille in viscous air", grille.Loss(q, sticky), grille.Loss(q, std), 1e-12, "b does not go with μ")
	check(t, "mat in thin air", mat.Loss(q, thin), mat.Loss(q, std), 1e-12, "a does not go with ρ")
	check(t, "mat in viscous air", mat.Loss(q, sticky), 2*mat.Loss(q, std), 1e-12, "a goes with μ")
	for _, a := range []Air{thin, sticky} {
		low, high := 0.5, 1.0
		if a == sticky {
			low, high = 1, 2
		}
		if r := fins.Loss(q, a) / fins.Loss(q, std); !(r > low && r < high) {
			t.Errorf("fins in %+v: %g of the loss, want between %g and %g", a, r, low, high)
		}
	}
}

// Dirt multiplies filters, screens and grilles by 1.5, wherever they lie, and
// nothing else.
func TestDirt(t *testing.T) {
	make, in := built(t), StandardAir()
	foul := Path{
		make(Grille("grille", 0.01, 0.5, SharpEdge)), make(OutletGrille("outlet", 0.01, 0.5, SharpEdge)),
		make(Screen("screen", 0.01, 0.5, 1e-3)), make(Guard("guard", 0.01, 0.9)), make(FilterAt("mat", 0.01, 1, 10, in)),
	}
	clean := Path{make(Fins("fins", FinStack{10, 0.003, 0.03, 0.1, 0.001})), make(Mitre("corner", 0.01, 90)), make(Exit("exit", 0.01))}
	const q = 0.01
	check(t, "foul", foul.Dirty().Loss(q, in), 1.5*foul.Loss(q, in), 1e-9, "common practice, ×1.5")
	check(t, "clean", clean.Dirty().Loss(q, in), clean.Loss(q, in), 0, "nothing settles there")
	both := Path{make(Parallel("branches", foul, foul))}
	check(t, "branches", both.Dirty().Loss(q, in), 1.5*both.Loss(q, in), 1e-9, "common practice, ×1.5")
	check(t, "branches before", both.Loss(q, in), foul.Loss(q/2, in), 1e-9, "the path itself is left as it was")
}

// What a branch assumes or is doubted of is said of the whole.
func TestBranchesSpeakUp(t *testing.T) {
	make, in := built(t), StandardAir()
	e, err := Geometry(fan(t), in, Path{make(Parallel("halves",
		Path{make(Screen("gauze", 0.002, 0.5, UnknownGap))},
		Path{make(Fins("fins", FinStack{1, 0.02, 0.05, 0.1, 0.001}))},
	))})
	if err != nil || len(e.Assumed) != 1 || !warned(e, `flow in "fins" may be turbulent`) {
		t.Errorf("Geometry of branches = %+v, %v", e, err)
	}
}
