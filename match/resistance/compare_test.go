package resistance

import (
	"errors"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// at returns an estimate of a way, in m³/h.
func at(m Method, q, low, high float64) Estimate {
	e := Estimate{Method: m, Located: true, Q: q * perHour, LowQ: low * perHour, HighQ: high * perHour}
	if m == ByPressure {
		e.Points = []Point{{Q: e.Q}}
	}
	return e
}

func TestTheBestWay(t *testing.T) {
	// The better way has the wider span, so that it is not the span that decides.
	points, heat, flow := at(ByPoints, 20, 12, 28), at(ByHeat, 20, 13, 27), at(ByFlow, 20, 17, 23)
	steep, geometry, share := at(ByPressure, 20, 15, 25), at(ByGeometry, 20, 18, 22), at(ByShare, 20, 19, 21)
	flat, flatAbove, twice := at(ByPressure, 20, 14.9, 20.1), at(ByPressure, 20, 19.9, 25.1), at(ByPressure, 20, 19, 21)
	twice.Points = append(twice.Points, Point{Q: 30 * perHour})
	alone := Estimate{Method: ByPoints}
	tests := []struct {
		name string
		list []Estimate
		best int
	}{
		{"one", []Estimate{share}, 0},
		{"points before heat", []Estimate{share, heat, points}, 2},
		{"points without a fan", []Estimate{heat, alone}, 1},
		{"heat before a steep pressure", []Estimate{steep, heat}, 1},
		{"a steep pressure before flow", []Estimate{flow, steep}, 1},
		{"flow before geometry", []Estimate{geometry, flow}, 1},
		{"geometry before a flat pressure", []Estimate{flat, geometry}, 1},
		{"geometry before one flat above", []Estimate{flatAbove, geometry}, 1},
		{"geometry before several answers", []Estimate{twice, geometry}, 1},
		{"a flat pressure before a share", []Estimate{share, flat}, 1},
		{"a share before nothing", []Estimate{{}, share}, 1},
		{"of one way the narrower", []Estimate{heat, at(ByHeat, 30, 26, 34), heat}, 1},
		{"of two alike the first", []Estimate{flow, heat, heat}, 1},
	}
	for _, test := range tests {
		c, err := Compare(test.list...)
		if err != nil || c.Best != test.best {
			t.Errorf("%s: best %d, %v; want %d", test.name, c.Best, err, test.best)
		}
	}
	if _, err := Compare(); !errors.Is(err, ErrNothingToCompare) {
		t.Errorf("Compare(): %v", err)
	}
}

func TestDisagreement(t *testing.T) {
	pressure, geometry, heat := at(ByPressure, 30, 28, 33), at(ByGeometry, 20, 18, 22), at(ByHeat, 24, 20, 29)
	c, err := Compare(pressure, geometry, heat, Estimate{Method: ByPoints})
	if err != nil {
		t.Fatal(err)
	}
	want := []Pair{{A: 1, B: 0, Apart: 10, Reach: 4}, {A: 2, B: 0, Apart: 6, Reach: 7}, {A: 1, B: 2, Apart: 4, Reach: 6}}
	if len(c.Pairs) != len(want) {
		t.Fatalf("pairs %+v, want %+v", c.Pairs, want)
	}
	for i, p := range c.Pairs {
		if p.A != want[i].A || p.B != want[i].B || !near(p.Apart/perHour, want[i].Apart, 1e-12) || !near(p.Reach/perHour, want[i].Reach, 1e-12) {
			t.Errorf("pair %d is %+v, want %+v in m³/h", i, p, want[i])
		}
		if p.Agree() != (i > 0) {
			t.Errorf("pair %d agrees: %t", i, p.Agree())
		}
	}
	if len(c.Warnings) != 1 {
		t.Fatalf("warnings %q, want one", c.Warnings)
	}
	for _, words := range []string{"by geometry the device passes 20 m³/h (18 to 22)", "by pressure 30 m³/h (28 to 33)", "do not agree even within their spans", "the one by points is used"} {
		if !strings.Contains(c.Warnings[0], words) {
			t.Errorf("%q does not say %q", c.Warnings[0], words)
		}
	}
}

// A pair that agrees to the last digit disagrees less than any other, one
// without spans that differs more than any.
func TestPairsWithoutSpans(t *testing.T) {
	bare := func(q float64) Estimate { return at(ByFlow, q, q, q) }
	c, err := Compare(bare(20), bare(20), at(ByHeat, 21, 18, 24), bare(22))
	if err != nil {
		t.Fatal(err)
	}
	first, last := c.Pairs[0], c.Pairs[len(c.Pairs)-1]
	if !near(first.Apart, 2*perHour, 1e-12) || first.Reach != 0 || first.Agree() {
		t.Errorf("first of %+v", c.Pairs)
	}
	if last.Apart != 0 || !last.Agree() {
		t.Errorf("last of %+v", c.Pairs)
	}
}

// Pairs come worst first and each is warned of just where the spans leave a gap;
// the order of the list changes neither.
func TestCompareOrders(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var list []Estimate
		for range rapid.IntRange(1, 5).Draw(t, "ways") {
			q := rapid.Float64Range(5, 50).Draw(t, "flow")
			list = append(list, at(Method(rapid.IntRange(1, 6).Draw(t, "way")), q,
				q*rapid.Float64Range(0.5, 1).Draw(t, "low"), q*rapid.Float64Range(1, 1.5).Draw(t, "high")))
		}
		c, err := Compare(list...)
		if err != nil {
			t.Fatal(err)
		}
		gaps := 0
		for i, p := range c.Pairs {
			a, b := list[p.A], list[p.B]
			if a.Q > b.Q {
				t.Fatalf("pair %+v of %g and %g", p, a.Q, b.Q)
			}
			if near(a.HighQ, b.LowQ, 1e-9) {
				continue
			}
			if p.Agree() != (a.HighQ >= b.LowQ) {
				t.Fatalf("pair %+v: %g … %g and %g … %g", p, a.LowQ, a.HighQ, b.LowQ, b.HighQ)
			}
			if !p.Agree() {
				gaps++
			}
			if i > 0 && c.Pairs[i-1].Apart*p.Reach < p.Apart*c.Pairs[i-1].Reach {
				t.Fatalf("pair %+v before %+v", c.Pairs[i-1], p)
			}
		}
		if len(c.Pairs) != len(list)*(len(list)-1)/2 || gaps > len(c.Warnings) {
			t.Fatalf("%d pairs and %d warnings of %d ways", len(c.Pairs), len(c.Warnings), len(list))
		}
		for i := range list {
			if distrust(list[i]) < distrust(list[c.Best]) {
				t.Fatalf("best is %v, but %v is given", list[c.Best].Method, list[i].Method)
			}
		}
	})
}
