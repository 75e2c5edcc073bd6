package curve

import (
	"errors"
	"math"
	"strings"
	"testing"
)

func TestSpeedFor(t *testing.T) {
	straight := View([]float64{0, 4}, []float64{4, 0})
	dip := View([]float64{0, 1, 2, 3, 4}, []float64{8, 1, 7, 4, 0})
	tests := []struct {
		name  string
		c     Curve
		s     System
		need  float64
		want  Match
		count int
	}{
		// 4 − x = x²·(2/1): x = (√33 − 1)/4
		{"linear", straight, System{A: 2}, 1, Match{4 / (math.Sqrt(33) - 1), (math.Sqrt(33) - 1) / 4, true}, 1},
		// a = 0: x is the working point whatever the need
		{"quadratic, half", straight, System{B: 1}, 0.5, Match{0.5 / 1.5615528128088303, 1.5615528128088303, true}, 1},
		{"quadratic, twice", straight, System{B: 1}, 3.1231056256176606, Match{2, 1.5615528128088303, true}, 1},
		{"no resistance", straight, System{}, 1, Match{0.25, 4, true}, 1},
		{"no resistance at high speed", straight, System{}, 8, Match{2, 4, true}, 1},
		// 8 − 6x = 2x² in the valley at 1, where 4x − 2 leaves along it
		{"valley left along the curve", View([]float64{0, 1, 2, 4}, []float64{8, 2, 6, 0}), System{B: 2}, 2, Match{2, 1, true}, 1},
		// up to the peak at 1 along 4x − 2, which touches 2x² there
		{"peak touched along the curve", View([]float64{0.75, 1, 2}, []float64{1, 2, 0}), System{B: 2}, 1, Match{1, 1, false}, 1},
		// 8 − 7x = 1.4x² first, left of the dip
		{"three, the smallest x", dip, System{B: 1.4}, 1, Match{2.8 / (math.Sqrt(93.8) - 7), (math.Sqrt(93.8) - 7) / 2.8, true}, 3},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got, count, err := SpeedFor(test.c, test.s, test.need)
			if err != nil || count != test.count {
				t.Fatalf("SpeedFor = %+v, %d, %v; want %d of them", got, count, err, test.count)
			}
			if math.Abs(got.Ratio-test.want.Ratio) > 1e-12 || math.Abs(got.X-test.want.X) > 1e-12 || got.Stable != test.want.Stable {
				t.Errorf("SpeedFor = %+v, want %+v", got, test.want)
			}
		})
	}
}

func TestSpeedsForListsAllByFallingRatio(t *testing.T) {
	c := View([]float64{0, 1, 2, 3, 4}, []float64{8, 1, 7, 4, 0})
	got := SpeedsFor([]Match{{}}, c, System{B: 1.4}, 1)
	if len(got) != 4 {
		t.Fatalf("SpeedsFor = %+v, want one before and three", got)
	}
	for i, m := range got[1:] {
		p, ok := c.At(m.X)
		if !ok || math.Abs(p-1.4*m.X*m.X) > 1e-12 || math.Abs(m.Ratio*m.X-1) > 1e-12 {
			t.Errorf("%+v is no match: %g Pa", m, p)
		}
		if i > 0 && m.Ratio >= got[i].Ratio {
			t.Errorf("ratios rise: %+v", got)
		}
		if m.Stable != (i != 1) {
			t.Errorf("match %d: stable %t", i, m.Stable)
		}
	}
}

// With a viscous device a fan can pass the needed flow without staying there,
// though it would on the quadratic device that finds the speed: here p = 2x − 1
// is steeper than its chord p/x, but not than 2p/x.
func TestMatchThatDoesNotStay(t *testing.T) {
	c := View([]float64{0, 1, 2, 3}, []float64{3, 1, 3, 0})
	const x, need = 1.9, 1.2
	s := System{A: need / x * 2.8 / x}
	m, n, err := SpeedFor(c, s, need)
	if err != nil || n != 1 || math.Abs(m.X-x) > 1e-12 {
		t.Fatalf("SpeedFor = %+v, %d, %v; want x = %g alone", m, n, err, x)
	}
	if m.Stable {
		t.Errorf("SpeedFor = %+v, want it not stable", m)
	}
	held, _, err := Held(c, s, m.Ratio)
	if err != nil || held.Q >= need {
		t.Errorf("Held(%g) = %+v, %v; want less than %g", m.Ratio, held, err, need)
	}
}

// Which side of a knot is which does not hang on rounding.
func TestMatchAtAKnotInSpiteOfRounding(t *testing.T) {
	for i := 1; i < 2000; i++ {
		f := 1 / float64(i)
		peak := View([]float64{1, 2.9, 3, 4}, []float64{1, 1, 18, 0}).Scaled(f, 1)
		valley := View([]float64{0, 2.9, 3, 3.1}, []float64{40, 30, 18, 30}).Scaled(f, 1)
		for _, c := range []Curve{peak, valley} {
			all := SpeedsFor(nil, c, System{B: 2 / (f * f)}, f)
			if len(all) != 1 || !near(all[0].X, 3*f, 1e-9) || all[0].Stable {
				t.Fatalf("%d: %+v where the curve only touches", i, all)
			}
		}
	}
}

// A curve that begins in the origin meets every system there, where nothing
// moves: no match.
func TestSpeedForIsNotTheOrigin(t *testing.T) {
	c := View([]float64{0, 2, 4}, []float64{0, 4, 0})
	m, n, err := SpeedFor(c, System{B: 1}, 1)
	if err != nil || n != 1 || m.X != 2 {
		t.Errorf("SpeedFor = %+v, %d, %v; want x = 2 alone", m, n, err)
	}
	if got := SpeedsFor(nil, c, System{B: 1}, 1); len(got) != 1 {
		t.Errorf("SpeedsFor = %+v, want one", got)
	}
}

func TestSpeedForErrors(t *testing.T) {
	c := View([]float64{1, 3}, []float64{3, 1})
	for _, need := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		var bad *NeedError
		if _, _, err := SpeedFor(c, System{B: 1}, need); !errors.As(err, &bad) || !strings.Contains(err.Error(), "above zero") {
			t.Errorf("SpeedFor(need %g): %v, want a *NeedError", need, err)
		}
		if got := SpeedsFor(nil, c, System{B: 1}, need); len(got) != 0 {
			t.Errorf("SpeedsFor(need %g) = %v", need, got)
		}
	}
	var outside *OutsideError
	if _, _, err := SpeedFor(c, System{}, 1); !errors.As(err, &outside) || *outside != (OutsideError{HighFlow, 3, 1, 0}) {
		t.Errorf("SpeedFor without resistance: %v; want the high-flow end, where the fan still gives 1 Pa", err)
	}
	// Δp(2)/2² = 4 on the curve's scale: 4 Pa at its first point, where it gives 3.
	if _, _, err := SpeedFor(c, System{B: 4}, 2); !errors.As(err, &outside) || *outside != (OutsideError{LowFlow, 1, 3, 4}) {
		t.Errorf("SpeedFor in a tight device: %v; want the low-flow end", err)
	}
}
