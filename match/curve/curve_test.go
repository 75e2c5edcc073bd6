package curve

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"
)

func TestNewRefuses(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	tests := []struct {
		name  string
		q, p  []float64
		index int
		text  string
	}{
		{"nothing", nil, nil, -1, "two or more are needed, got 0"},
		{"one point", []float64{0}, []float64{60}, -1, "two or more are needed, got 1"},
		{"lists of two lengths", []float64{0, 1}, []float64{60}, -1, "2 flows but 1 pressures"},
		{"flow below zero", []float64{-0.001, 0.01}, []float64{60, 0}, 0, "point 1 (-3.6 m³/h, 60 Pa): flow below zero"},
		{"pressure below zero", []float64{0, 0.01}, []float64{60, -2}, 1, "point 2 (36 m³/h, -2 Pa): pressure below zero"},
		{"flow that stays", []float64{0, 0.01, 0.01}, []float64{60, 30, 0}, 2, "point 3 (36 m³/h, 0 Pa): flow does not rise from 36 m³/h"},
		{"flow that falls", []float64{0, 0.01, 0.005}, []float64{60, 30, 0}, 2, "point 3 (18 m³/h, 0 Pa): flow does not rise from 36 m³/h"},
		{"flow not a number", []float64{0, nan}, []float64{60, 0}, 1, "not a finite number"},
		{"pressure without end", []float64{0, 0.01}, []float64{inf, 0}, 0, "not a finite number"},
		{"flow of no fan", []float64{0, 2e9}, []float64{60, 0}, 1, "larger than any fan's"},
		{"pressure of no fan", []float64{0, 1}, []float64{2e9, 0}, 0, "larger than any fan's"},
		{"no pressure", []float64{0, 0.01}, []float64{0, 0}, -1, "no pressure at any of them"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			c, err := New(test.q, test.p)
			var points *PointsError
			if !errors.As(err, &points) {
				t.Fatalf("New: error %v, want a *PointsError", err)
			}
			if points.Index != test.index || !strings.Contains(err.Error(), test.text) {
				t.Errorf("New: point %d, %q; want point %d, %q", points.Index, err, test.index, test.text)
			}
			if c.Len() != 0 {
				t.Errorf("New: %d knots beside the error", c.Len())
			}
		})
	}
}

func TestNewCopiesAndViewDoesNot(t *testing.T) {
	q, p := []float64{0, 0.01}, []float64{60, 0}
	c, v := mustNew(t, q, p), View(q, p)
	p[0] = 30
	if got, _ := c.ShutOff(); got != 60 {
		t.Errorf("New shares its points: %g Pa after a change", got)
	}
	if got, _ := v.ShutOff(); got != 30 {
		t.Errorf("View copies its points: %g Pa after a change", got)
	}
}

func TestNewTakesRoundingForZero(t *testing.T) {
	c := mustNew(t, []float64{0, 0.01}, []float64{60, 60 * 1e-12})
	if _, free := c.FreeDelivery(); !free {
		t.Error("a last pressure of 1e-12 of the largest is no free delivery")
	}
	if x, _, err := Operate(c, System{}); err != nil || x.Q != 0.01 {
		t.Errorf("Operate without resistance = %+v, %v; want free delivery", x, err)
	}
	if _, free := mustNew(t, []float64{0, 0.01}, []float64{60, 0.1}).FreeDelivery(); free {
		t.Error("a curve that ends at 0.1 Pa reaches free delivery")
	}
}

func TestAt(t *testing.T) {
	c := mustNew(t, []float64{0.002, 0.004, 0.01}, []float64{60, 50, 0}).Scaled(2, 0.5)
	tests := []struct {
		q, want float64
		ok      bool
	}{
		{0.004, 30, true}, {0.006, 27.5, true}, {0.008, 25, true}, {0.014, 12.5, true}, {0.02, 0, true},
		{0.02 * (1 + 1e-13), 0, true}, {0.004 * (1 - 1e-13), 30, true},
		{0.0039, 0, false}, {0.0201, 0, false}, {-1, 0, false}, {math.NaN(), 0, false}, {math.Inf(1), 0, false},
	}
	for _, test := range tests {
		got, ok := c.At(test.q)
		if ok != test.ok || math.Abs(got-test.want) > 1e-12 {
			t.Errorf("At(%g) = %g, %t; want %g, %t", test.q, got, ok, test.want, test.ok)
		}
	}
	if p, ok := c.ShutOff(); p != 30 || ok {
		t.Errorf("ShutOff() = %g, %t; want 30 and no zero flow", p, ok)
	}
}

func TestZeroCurveAnswersNo(t *testing.T) {
	var c Curve
	if _, ok := c.At(0); ok {
		t.Error("At answers")
	}
	if _, ok := c.ShutOff(); ok {
		t.Error("ShutOff answers")
	}
	if _, ok := c.FreeDelivery(); ok {
		t.Error("FreeDelivery answers")
	}
	if _, ok := c.Dip(); ok || c.Stalled(0) {
		t.Error("Dip answers")
	}
	if got := Crossings(nil, c, System{B: 1}); len(got) != 0 {
		t.Errorf("Crossings = %v", got)
	}
	if _, _, err := Operate(c, System{B: 1}); !errors.Is(err, ErrNoCurve) {
		t.Errorf("Operate: %v, want ErrNoCurve", err)
	}
	if _, _, err := SpeedFor(c, System{B: 1}, 1); !errors.Is(err, ErrNoCurve) {
		t.Errorf("SpeedFor: %v, want ErrNoCurve", err)
	}
	good := View([]float64{0, 1}, []float64{1, 0})
	for _, pair := range [][2]Curve{{c, good}, {good, c}} {
		if _, err := Parallel(pair[0], pair[1]); !errors.Is(err, ErrNoCurve) {
			t.Errorf("Parallel: %v, want ErrNoCurve", err)
		}
		if _, err := Series(pair[0], pair[1]); !errors.Is(err, ErrNoCurve) {
			t.Errorf("Series: %v, want ErrNoCurve", err)
		}
	}
}

func TestScalingToNothingGivesTheZeroCurve(t *testing.T) {
	c := View([]float64{0, 1}, []float64{1, 0})
	for name, got := range map[string]Curve{
		"AtSpeed(0)":          c.AtSpeed(0),
		"AtSpeed(-1)":         c.AtSpeed(-1),
		"AtSpeed(NaN)":        c.AtSpeed(math.NaN()),
		"AtSpeed(1e200)":      c.AtSpeed(1e200),
		"AtSpeed(1e-200)":     c.AtSpeed(1e-200),
		"AtDensity(0)":        c.AtDensity(0),
		"Scaled(-1, -1)":      c.Scaled(-1, -1),
		"Scaled(1, Inf)":      c.Scaled(1, math.Inf(1)),
		"of the zero Curve":   Curve{}.AtSpeed(2),
		"Scaled(Inf, 1)":      c.Scaled(math.Inf(1), 1),
		"AtSize(0)":           c.AtSize(0),
		"Scaled(-1) is final": c.Scaled(-1, 1).Scaled(-1, 1),
	} {
		if got.Len() != 0 {
			t.Errorf("%s has %d knots, want none", name, got.Len())
		}
	}
}

func TestDip(t *testing.T) {
	q := []float64{0, 1, 2, 3, 4, 5, 6}
	tests := []struct {
		name         string
		p            []float64
		valley, peak float64 // 0, 0: no dip
	}{
		{"falling", []float64{60, 55, 50, 40, 30, 20, 0}, 0, 0},
		{"level stretch", []float64{60, 50, 50, 50, 30, 20, 0}, 0, 0},
		{"hump from the start", []float64{60, 63, 66, 60, 40, 20, 0}, 0, 0},
		{"dip", []float64{60, 50, 40, 45, 48, 30, 0}, 2, 4},
		{"dip that begins at the second point", []float64{60, 40, 45, 48, 46, 30, 0}, 1, 3},
		{"peak above shut-off", []float64{60, 40, 45, 70, 46, 30, 0}, 1, 3},
		{"noise of 0.9 %", []float64{100, 80, 80.9, 70, 50, 30, 0}, 0, 0},
		{"dip of 1.1 %", []float64{100, 80, 81.1, 70, 50, 30, 0}, 1, 2},
		{"fall of 0.9 % before a hump is no valley", []float64{100, 99.2, 120, 70, 50, 30, 0}, 0, 0},
		{"two dips: the one at more flow", []float64{100, 70, 80, 60, 65, 30, 0}, 3, 4},
		{"dip with noise on its flank", []float64{100, 60, 70, 69.5, 75, 30, 0}, 1, 4},
		{"noise right of a dip", []float64{100, 60, 75, 50, 50.5, 30, 0}, 1, 2},
		{"level valley: its end at more flow", []float64{100, 60, 60, 75, 50, 30, 0}, 2, 3},
		{"level recovery: where it begins", []float64{80, 20, 60, 60, 40, 30, 0}, 1, 2},
		{"ends on the recovery", []float64{80, 20, 60}, 1, 2},
		{"hump after a dip", []float64{50, 40, 60, 30, 80, 30, 0}, 3, 4},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			c := mustNew(t, q[:len(test.p)], test.p).Scaled(0.5, 3)
			d, ok := c.Dip()
			want := Dip{Valley: test.valley * 0.5, Peak: test.peak * 0.5}
			if d != want || ok != (test.peak > 0) {
				t.Errorf("Dip() = %+v, %t; want %+v", d, ok, want)
			}
			if !ok {
				for _, x := range q {
					if c.Stalled(x * 0.5) {
						t.Errorf("Stalled(%g) without a dip", x*0.5)
					}
				}
				return
			}
			if !c.Stalled(1.099*d.Peak) || c.Stalled(1.101*d.Peak) || !c.Stalled(0) {
				t.Errorf("Stalled: want true up to 10 %% right of the peak at %g", d.Peak)
			}
		})
	}
}

func TestKnotsScale(t *testing.T) {
	q, p := []float64{0, 0.004, 0.01}, []float64{60, 50, 0}
	before := slices.Concat(q, p)
	c := View(q, p).AtSpeed(2).AtDensity(0.6)
	for i := range c.Len() {
		gotQ, gotP := c.Knot(i)
		if wantQ, wantP := 2*q[i], 4*0.5*p[i]; gotQ != wantQ || gotP != wantP {
			t.Errorf("Knot(%d) = %g, %g; want %g, %g", i, gotQ, gotP, wantQ, wantP)
		}
	}
	if !slices.Equal(before, slices.Concat(q, p)) {
		t.Error("scaling wrote to the knots")
	}
}
