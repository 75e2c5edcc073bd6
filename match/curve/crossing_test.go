package curve

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
)

// crossings as "Q P stable" for tables.
func text(all []Crossing) string {
	var b strings.Builder
	for _, x := range all {
		fmt.Fprintf(&b, "(%.6g, %.6g", x.Q, x.P)
		if x.Stable {
			b.WriteString(" stable")
		}
		b.WriteString(")")
	}
	return b.String()
}

func TestCrossings(t *testing.T) {
	falling := []float64{4, 3, 2, 1, 0}
	dip := []float64{8, 2, 6, 4, 0} // valley at 1, peak at 2
	tests := []struct {
		name string
		p    []float64 // over q = 0, 1, 2 …
		s    System
		want string
	}{
		{"quadratic", falling, System{B: 1}, "(1.56155, 2.43845 stable)"},  // 4−q = q²: (√17−1)/2
		{"linear, at a knot", falling, System{A: 1}, "(2, 2 stable)"},      // counted once
		{"both", falling, System{A: 1, B: 1}, "(1.23607, 2.76393 stable)"}, // √5−1
		{"none: free delivery", falling, System{}, "(4, 0 stable)"},        //
		{"none, curve ends above zero", []float64{4, 3, 2}, System{}, ""},  //
		{"at the last knot", []float64{4, 3, 2}, System{A: 1}, "(2, 2 stable)"},
		{"beyond the last knot", []float64{4, 3, 2}, System{A: 0.9}, ""},
		{"three across a dip, linear", dip, System{A: 2.9}, "(0.898876, 2.60674 stable)(1.81818, 5.27273)(2.04082, 5.91837 stable)"},
		{"touching a valley", dip, System{A: 2}, "(1, 2)(2.5, 5 stable)"},
		{"touching a peak", dip, System{A: 3}, "(0.888889, 2.66667 stable)(2, 6)"},
		{"along a segment", []float64{8, 2, 4, 1, 0}, System{A: 2}, "(1, 2 stable)"}, // its low end; equal from 1 to 2
		{"along the first segment", []float64{0, 2, 1}, System{A: 2}, "(0, 0 stable)"},
		{"along the last segment", []float64{4, 1, 2}, System{A: 1}, "(1, 1 stable)"},
		{"along the whole curve", []float64{0, 1, 2}, System{A: 1}, "(0, 0)"},
		{"level", []float64{4, 4, 4, 4}, System{B: 1}, "(2, 4 stable)"},
		{"rising", []float64{1, 2, 3, 4}, System{B: 1}, "(1.61803, 2.61803 stable)"}, // golden ratio
		{"rising, from the origin", []float64{0, 2, 4, 0}, System{B: 1}, "(0, 0)(2, 4 stable)"},
		{"from the origin, below", []float64{0, 1, 4, 0}, System{A: 2}, "(0, 0 stable)(2, 4)"},
		{"level at zero", []float64{4, 0, 0, 0}, System{}, "(1, 0 stable)"},
		{"level at zero in between", []float64{4, 0, 0, 3, 0}, System{}, "(1, 0)(4, 0 stable)"},
		{"negative a", falling, System{A: -1}, ""},
		{"negative b", falling, System{B: -1}, ""},
		{"a not a number", falling, System{A: math.NaN()}, ""},
		{"b without end", falling, System{B: math.Inf(1)}, ""},
		{"no air at all", falling, System{B: 1e150}, ""},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			q := make([]float64, len(test.p))
			for i := range q {
				q[i] = float64(i)
			}
			if got := text(Crossings(nil, mustNew(t, q, test.p), test.s)); got != test.want {
				t.Errorf("Crossings(%v, %+v) = %s, want %s", test.p, test.s, got, test.want)
			}
			scaled := Crossings(nil, mustNew(t, q, test.p).Scaled(3, 5), System{A: test.s.A * 5 / 3, B: test.s.B * 5 / 9})
			for i := range scaled {
				scaled[i].Q /= 3
				scaled[i].P /= 5
			}
			if got := text(scaled); got != test.want {
				t.Errorf("scaled: Crossings(%v, %+v) = %s, want %s", test.p, test.s, got, test.want)
			}
		})
	}
}

// Within one straight segment a quadratic device can be met twice, or touched.
func TestCrossingsWithinOneSegment(t *testing.T) {
	q, p := []float64{1, 4}, []float64{0.5, 6.5} // p = 2q − 1.5
	tests := []struct {
		name string
		b    float64
		want string
	}{
		{"twice", 0.64, "(1.25, 1)(1.875, 2.25 stable)"},
		{"touched", 2.0 / 3, "(1.5, 1.5)"},
		{"missed", 0.67, ""},
		{"once, from above", 0.45, "(3.48908, 5.47817 stable)"}, // (2 + √1.3)/0.9
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			if got := text(Crossings(nil, mustNew(t, q, p), System{B: test.b})); got != test.want {
				t.Errorf("Crossings(b = %g) = %s, want %s", test.b, got, test.want)
			}
		})
	}
}

// The same with a knot where the device is met.
func TestCrossingsBesideAMetKnot(t *testing.T) {
	s := System{B: 0.64}
	line := func(q float64) float64 { return 2*q - 1.5 }
	tests := []struct {
		name string
		q    []float64
		want string
	}{
		{"at its low end", []float64{1.25, 4}, "(1.25, 1)(1.875, 2.25 stable)"},
		{"at its high end", []float64{1, 1.875}, "(1.25, 1)(1.875, 2.25 stable)"},
		{"at both", []float64{1.25, 1.875}, "(1.25, 1)(1.875, 2.25 stable)"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			c := mustNew(t, test.q, []float64{line(test.q[0]), line(test.q[1])})
			if got := text(Crossings(nil, c, s)); got != test.want {
				t.Errorf("Crossings over %v = %s, want %s", test.q, got, test.want)
			}
		})
	}
}

// A device through a knot meets the curve there, whatever rounding makes of
// both: also at the last knot, where a hair less is no curve any more, and
// where it leaves the knot along the curve.
func TestCrossingsAtKnotsInSpiteOfRounding(t *testing.T) {
	for i := 1; i < 2000; i++ {
		f, g := 1/float64(i), 1+float64(i)/7
		c := mustNew(t, []float64{1 * f, 2 * f, 3 * f}, []float64{7 * g, 5 * g, 3 * g})
		for k, s := range []System{{A: 3 * g / (3 * f)}, {B: 3 * g / (3 * f) / (3 * f)}} {
			x, n, err := Operate(c, s)
			if err != nil || n != 1 || !near(x.Q, 3*f, 1e-12) {
				t.Fatalf("last knot %d, %d: Operate = %+v, %d, %v", i, k, x, n, err)
			}
		}
		// Tangent in the valley at 1: p = 4q − 2 beside 2q².
		c = mustNew(t, []float64{0, 1 * f, 2 * f}, []float64{8 * g, 2 * g, 6 * g})
		if all := Crossings(nil, c, System{B: 2 * g / (f * f)}); len(all) != 1 || !all[0].Stable {
			t.Fatalf("tangent %d: Crossings = %+v, want one, stable", i, all)
		}
		// Tangent before the peak at 1: p = 4q − 2, then falling.
		c = mustNew(t, []float64{0.75 * f, 1 * f, 2 * f}, []float64{1 * g, 2 * g, 0})
		if all := Crossings(nil, c, System{B: 2 * g / (f * f)}); len(all) != 1 || all[0].Stable {
			t.Fatalf("tangent %d: Crossings = %+v, want one, touched", i, all)
		}
	}
}

func TestCrossingsAppend(t *testing.T) {
	c := View([]float64{0, 4}, []float64{4, 0})
	first := Crossing{Q: 7, P: 7}
	got := Crossings([]Crossing{first}, c, System{A: 1})
	if len(got) != 2 || got[0] != first || got[1].Q != 2 {
		t.Errorf("Crossings on one = %v", got)
	}
}

func TestOperate(t *testing.T) {
	dip := View([]float64{0, 1, 2, 3, 4}, []float64{8, 2, 6, 4, 0})
	x, stable, err := Operate(dip, System{A: 2.9})
	if err != nil || stable != 2 || math.Abs(x.Q-8/8.9) > 1e-12 || !x.Stable {
		t.Errorf("Operate = %+v, %d, %v; want the lowest of two", x, stable, err)
	}
}

func TestOperateOutside(t *testing.T) {
	part := View([]float64{1, 2, 3}, []float64{3, 2, 1})
	tests := []struct {
		name string
		c    Curve
		s    System
		want OutsideError
	}{
		{"too open", part, System{A: 0.1}, OutsideError{HighFlow, 3, 1, 0.30000000000000004}},
		{"no resistance", part, System{}, OutsideError{HighFlow, 3, 1, 0}},
		{"too tight", part, System{A: 4}, OutsideError{LowFlow, 1, 3, 4}},
		{"only passed upwards", View([]float64{1, 2}, []float64{1, 4}), System{A: 1.5}, OutsideError{HighFlow, 2, 4, 3}},
		{"only touched", View([]float64{1, 2, 3}, []float64{1, 4, 1}), System{A: 2}, OutsideError{LowFlow, 1, 1, 2}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			x, stable, err := Operate(test.c, test.s)
			var outside *OutsideError
			if !errors.As(err, &outside) || *outside != test.want {
				t.Fatalf("Operate = %+v, %d, %v; want %v", x, stable, err, &test.want)
			}
		})
	}
	message := (&OutsideError{HighFlow, 0.01, 12, 8}).Error()
	for _, part := range []string{"high-flow end", "36 m³/h", "12 Pa", "8 Pa"} {
		if !strings.Contains(message, part) {
			t.Errorf("%q does not say %q", message, part)
		}
	}
}

func TestOperateRefusesNoResistance(t *testing.T) {
	c := View([]float64{0, 1}, []float64{1, 0})
	for _, s := range []System{{A: -1}, {B: -1}, {A: -1, B: 3}, {A: 3, B: -1}, {A: math.NaN()}, {B: math.Inf(1)}} {
		var bad *SystemError
		if _, _, err := Operate(c, s); !errors.As(err, &bad) || !strings.Contains(err.Error(), "finite and not below zero") {
			t.Errorf("Operate(%+v): %v, want a *SystemError", s, err)
		}
		if _, _, err := SpeedFor(c, s, 0.5); !errors.As(err, &bad) {
			t.Errorf("SpeedFor(%+v): %v, want a *SystemError", s, err)
		}
		if got := SpeedsFor(nil, c, s, 0.5); len(got) != 0 {
			t.Errorf("SpeedsFor(%+v) = %v", s, got)
		}
	}
}

func TestHeldSolvesAnew(t *testing.T) {
	c := View([]float64{0, 4}, []float64{4, 0})
	s := System{A: 1}
	// r²·(4 − Q/r) = Q: Q = 4r²/(1 + r)
	for _, r := range []float64{0.3, 0.5, 1, 1.2} {
		x, n, err := Held(c, s, r)
		if want := 4 * r * r / (1 + r); err != nil || n != 1 || math.Abs(x.Q-want) > 1e-12 {
			t.Errorf("Held(%g) = %+v, %d, %v; want %g m³/s", r, x, n, err, want)
		}
	}
	if _, _, err := Held(c, s, 0); !errors.Is(err, ErrNoCurve) {
		t.Errorf("Held at a standstill: %v, want ErrNoCurve", err)
	}
}
