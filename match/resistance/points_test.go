package resistance

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"lowsone/match/curve"
	"pgregory.net/rapid"
)

// heatSink reads the pressure drop of a heat sink with its duct.
func heatSink(t *testing.T) (q, model, fitted []float64) {
	t.Helper()
	for _, r := range table(t, "air_heatsink_pressure.csv") {
		var x [3]float64
		for i := range x {
			var err error
			if x[i], err = strconv.ParseFloat(r[i], 64); err != nil {
				t.Fatal(err)
			}
		}
		q, model, fitted = append(q, x[0]), append(model, x[1]), append(fitted, x[2])
	}
	return q, model, fitted
}

const gammeter = "Gammeter, Krismer, Kolar: heat sink with duct"

// Source: air_heatsink_pressure.csv. A finned heat sink goes as a·Q + b·Q²
// within 6 % over a range of one to twelve in flow, which is no reason to warn.
func TestPointsOfAHeatSink(t *testing.T) {
	q, model, fitted := heatSink(t)
	e, err := Points(curve.Curve{}, q, model)
	if err != nil {
		t.Fatal(err)
	}
	for i := range q {
		loss := e.System.Loss(q[i])
		check(t, fmt.Sprintf("Loss(%g)", q[i]), loss, model[i], 0.06*model[i], gammeter)
		check(t, fmt.Sprintf("Loss(%g)", q[i]), loss, fitted[i], 0.002*fitted[i], "their fit of a·Q + b·Q², computed with rounded a and b")
	}
	if e.System.A <= 0 || e.System.B <= 0 || len(e.Warnings) != 0 {
		t.Errorf("Points = %+v, want both a and b and no warning", e)
	}
}

// Source: the same. What the package doc says of b alone, calibrated at full
// flow: 8 % low at 40 % of it, 19 % low at 10 %, each within 2 %.
func TestBAloneOfAHeatSink(t *testing.T) {
	q, model, _ := heatSink(t)
	last := len(q) - 1
	b := quadratic(q[last], model[last])
	for _, test := range []struct{ share, low float64 }{{0.4, 0.08}, {0.1, 0.19}} {
		i, _ := slices.BinarySearch(q, test.share*q[last])
		check(t, fmt.Sprintf("b·Q² against the model at %.2f of full flow", q[i]/q[last]), 1-b.Loss(q[i])/model[i], test.low, 0.02, gammeter)
	}
}

func TestPoints(t *testing.T) {
	tests := []struct {
		name string
		q, p []float64 // m³/h, Pa
		a, b float64   // Pa/(m³/h), Pa/(m³/h)²
	}{
		{"two points, both", []float64{10, 20}, []float64{3, 10}, 0.1, 0.02},
		{"in any order", []float64{20, 10}, []float64{10, 3}, 0.1, 0.02},
		{"purely quadratic", []float64{10, 20, 30}, []float64{1, 4, 9}, 0, 0.01},
		{"purely viscous", []float64{10, 20, 30}, []float64{5, 10, 15}, 0.5, 0},
		// Steeper than a square: a would fall below zero. With u = q²/p = 25 and
		// 12.5: b = (u₁ + u₂)/(u₁² + u₂²).
		{"steeper than b allows", []float64{10, 20}, []float64{4, 32}, 0, 37.5 / (625 + 156.25)},
		// Flatter than a line: u = q/p = 2.5 and 4.
		{"flatter than a allows", []float64{10, 20}, []float64{4, 5}, 6.5 / (6.25 + 16), 0},
		{"one flow twice", []float64{10, 10, 20}, []float64{3, 3, 10}, 0.1, 0.02},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			var q []float64
			for _, x := range test.q {
				q = append(q, x*perHour)
			}
			e, err := Points(curve.Curve{}, q, test.p)
			if err != nil {
				t.Fatal(err)
			}
			check(t, "a in Pa/(m³/h)", e.System.A*perHour, test.a, 1e-9, "arithmetic")
			check(t, "b in Pa/(m³/h)²", e.System.B*perHour*perHour, test.b, 1e-9, "arithmetic")
			if e.Method != ByPoints || e.Located || e.Q != 0 || e.HighQ != 0 {
				t.Errorf("without a fan: %+v", e)
			}
			if len(e.Points) != len(q) || !slices.IsSortedFunc(e.Points, func(a, b Point) int { return int(math.Copysign(1, a.Q-b.Q)) }) && len(q) == 2 {
				t.Errorf("measured points %v", e.Points)
			}
		})
	}
}

func TestPointsThatFitBadlyAreWarnedOf(t *testing.T) {
	for _, test := range []struct {
		middle float64 // Pa where 4 would be right
		warned bool
	}{{4, false}, {4.4, false}, {5, true}, {3.3, true}} {
		e, err := Points(curve.Curve{}, []float64{10 * perHour, 20 * perHour, 30 * perHour}, []float64{1, test.middle, 9})
		if err != nil {
			t.Fatal(err)
		}
		if got := warned(e, "misses one of the measured points"); got != test.warned {
			t.Errorf("with %g Pa in the middle: warned %t (%q)", test.middle, got, e.Warnings)
		}
	}
}

// Two readings at one flow may differ either way; that is scatter, no
// contradiction.
func TestPointsAtOneFlowMayScatter(t *testing.T) {
	for _, p := range [][]float64{{2.9, 3.1, 10}, {3.1, 2.9, 10}} {
		e, err := Points(curve.Curve{}, []float64{10 * perHour, 10 * perHour, 20 * perHour}, p)
		if err != nil {
			t.Fatal(err)
		}
		check(t, "loss at 10 m³/h", e.System.Loss(10*perHour), 3, 0.01, "between the two readings")
	}
}

// Flows that differ by rounding only cannot tell a from b, and do not make them
// wild either.
func TestPointsCloseTogether(t *testing.T) {
	for i := 1; i < 3000; i++ {
		q := 0.01 * (1 + float64(i)/7e3)
		near := q * (1 + float64(i)*3e-16)
		if near == q {
			continue
		}
		e, err := Points(curve.Curve{}, []float64{q, near}, []float64{9, 9})
		if err != nil {
			t.Fatal(err)
		}
		check(t, "Loss between two that are nearly one", e.System.Loss(q), 9, 1e-6, "what was measured")
		if e.System.A > 0 && e.System.B > 0 {
			t.Fatalf("a and b of %g and %g m³/s: %+v, want one of them", q, near, e.System)
		}
	}
}

func TestPointsLocateTheFan(t *testing.T) {
	// 0.1·Q + 0.02·Q² meets 60 − 1.2·Q: 0.02·Q² + 1.3·Q − 60 = 0.
	root := func(a, b float64) float64 { return (-(1.2 + a) + math.Sqrt((1.2+a)*(1.2+a)+4*b*60)) / (2 * b) }
	e, err := Points(fan(t), []float64{10 * perHour, 20 * perHour}, []float64{3, 10})
	if err != nil || !e.Located {
		t.Fatal(e, err)
	}
	check(t, "Q in m³/h", e.Q/perHour, root(0.1, 0.02), 1e-9, "arithmetic")
	check(t, "P", e.P, 60-1.2*root(0.1, 0.02), 1e-9, "on the curve")
	check(t, "LowQ in m³/h", e.LowQ/perHour, root(0.11, 0.022), 1e-9, "10 % more pressure")
	check(t, "HighQ in m³/h", e.HighQ/perHour, root(0.09, 0.018), 1e-9, "10 % less pressure")
	if len(e.Warnings) != 0 {
		t.Errorf("warnings %q", e.Warnings)
	}

	e, err = Points(fan(t), []float64{10 * perHour, 20 * perHour, 30 * perHour}, []float64{1, 6, 9})
	if err != nil {
		t.Fatal(err)
	}
	b := e.System.B * perHour * perHour
	miss := max(math.Abs(100*b/1-1), math.Abs(400*b/6-1), math.Abs(900*b/9-1))
	check(t, "LowQ in m³/h", e.LowQ/perHour, root(0, b*(1+miss)), 1e-6, "the largest miss more pressure")
}

func TestPointsWithAFan(t *testing.T) {
	dip := fan(t, [2]float64{0, 60}, [2]float64{20, 10}, [2]float64{24, 50}, [2]float64{50, 0})
	e, err := Points(dip, []float64{10 * perHour, 20 * perHour}, []float64{15, 30})
	if err != nil || !warned(e, "2 working points") || !warned(e, "dip") {
		t.Errorf("across a dip: %+v, %v", e, err)
	}
	check(t, "Q in m³/h", e.Q/perHour, 15, 1e-9, "the lower of the two: 60 − 2.5·Q = 1.5·Q")

	part := fan(t, [2]float64{20, 40}, [2]float64{40, 20})
	var outside *curve.OutsideError
	if _, err := Points(part, []float64{10 * perHour, 20 * perHour}, []float64{40, 80}); !errors.As(err, &outside) || outside.End != curve.LowFlow {
		t.Errorf("too tight for the curve: %v", err)
	}
	e, err = Points(part, []float64{10 * perHour, 20 * perHour}, []float64{5.1, 10.2})
	if err != nil {
		t.Fatal(err)
	}
	check(t, "HighQ in m³/h", e.HighQ/perHour, 40, 1e-9, "a curve that ends at 40 m³/h")
	e, err = Points(fan(t), []float64{10 * perHour, 45 * perHour}, []float64{0.3, 6})
	if err != nil || !e.OneSided || !warned(e, "of free delivery") {
		t.Errorf("nearly free: %+v, %v", e, err)
	}
	check(t, "HighQ in m³/h", e.HighQ/perHour, 50, 1e-9, "one-sided")
}

func TestPointsRefuse(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	tests := []struct {
		name string
		q, p []float64
		text string
	}{
		{"none", nil, nil, "number of measured points of 0"},
		{"one", []float64{0.01}, []float64{9}, "number of measured points of 1"},
		{"a pressure short", []float64{0.01, 0.02}, []float64{9}, "each with flow and pressure"},
		{"no flow", []float64{0, 0.02}, []float64{9, 9}, "flow in m³/h of measured point 1"},
		{"flow not a number", []float64{0.01, nan}, []float64{9, 9}, "flow in m³/h of measured point 2"},
		{"flow without end", []float64{inf, 0.01}, []float64{9, 9}, "flow in m³/h of measured point 1"},
		{"no pressure", []float64{0.01, 0.02}, []float64{9, 0}, "pressure in Pa of measured point 2"},
		{"pressure not a number", []float64{0.01, 0.02}, []float64{nan, 9}, "pressure in Pa of measured point 1"},
		{"pressure without end", []float64{0.01, 0.02}, []float64{9, inf}, "pressure in Pa of measured point 2"},
		{"one flow alone", []float64{0.01, 0.01}, []float64{9, 10}, "number of different flows measured"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			var bad *InputError
			if _, err := Points(fan(t), test.q, test.p); !errors.As(err, &bad) || !strings.Contains(err.Error(), test.text) {
				t.Errorf("Points: %v, want an *InputError with %q", err, test.text)
			}
		})
	}
	var falling *FallingError
	_, err := Points(fan(t), []float64{30 * perHour, 20 * perHour, 10 * perHour}, []float64{12, 9, 10})
	if !errors.As(err, &falling) || falling.A != (Point{10 * perHour, 10}) || falling.B != (Point{20 * perHour, 9}) {
		t.Fatalf("Points with a falling pressure: %v", err)
	}
	if !strings.Contains(err.Error(), "10 m³/h costs 10 Pa but 20 m³/h only 9 Pa") {
		t.Errorf("%q does not name both points", err)
	}
}

// No other a, b ≥ 0 nearby or far has a smaller sum of squared relative errors.
func TestFitIsTheLeast(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 8).Draw(t, "points")
		var points []Point
		var q, p float64
		for range n {
			q += rapid.Float64Range(0.0005, 0.01).Draw(t, "more flow")
			p += rapid.Float64Range(0.01, 40).Draw(t, "more pressure")
			points = append(points, Point{Q: q, P: p})
		}
		best := fit(points)
		least := squares(best, points)
		if !(best.A >= 0 && best.B >= 0) {
			t.Fatalf("fit = %+v", best)
		}
		unitA, unitB := p/q, p/(q*q)
		for range 20 {
			scale := rapid.SampledFrom([]float64{1, 0.1, 0.01, 0.001}).Draw(t, "scale")
			other := curve.System{
				A: max(best.A+scale*unitA*rapid.Float64Range(-1, 1).Draw(t, "a"), 0),
				B: max(best.B+scale*unitB*rapid.Float64Range(-1, 1).Draw(t, "b"), 0),
			}
			if got := squares(other, points); got < least*(1-1e-9)-1e-15 {
				t.Fatalf("fit = %+v with %g, but %+v has %g", best, least, other, got)
			}
		}
	})
}
