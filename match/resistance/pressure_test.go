package resistance

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"lowsone/match/curve"
)

const betterWay = "a heat balance (heat and rise of the air) tells more"

func TestPressure(t *testing.T) {
	// Straight: q = 50·(1 − p/60) m³/h.
	tests := []struct {
		name     string
		pressure float64
		want     expected
	}{
		{"steep", 30, expected{25, 30, 22.5, 27.5, false, nil}}, // ±3 Pa
		{"small: ±2 Pa", 12, expected{40, 12, 38 + 1.0/3, 41 + 2.0/3, false, nil}},
		{"nearly free", 6, expected{45, 6, 43 + 1.0/3, 50, true, []string{"at 90 % of free delivery"}}},
		{"within a gauge of free delivery", 1, expected{50 - 50.0/60, 1, 47.5, 50, true, []string{"free delivery"}}},
		{"nearly shut", 57, expected{2.5, 57, 0, 7.25, false, []string{"any flow from 0 to 7.25 m³/h"}}},
		{"nearly shut: wide", 54, expected{5, 54, 0.5, 9.5, false, []string{"any flow from 0.5 to 9.5 m³/h agrees with the pressure; " + betterWay}}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got, err := Pressure(fan(t), test.pressure)
			test.want.check(t, got, err)
			if got.Method != ByPressure || len(got.Points) != 1 || math.Abs(got.Points[0].Q-got.Q) > 1e-15 {
				t.Errorf("method %v, answers %v; want the one", got.Method, got.Points)
			}
		})
	}
}

func TestPressureOfSeveralAnswers(t *testing.T) {
	c := fan(t, [2]float64{0, 60}, [2]float64{20, 20}, [2]float64{30, 40}, [2]float64{50, 0})
	e, err := Pressure(c, 30)
	if err != nil {
		t.Fatal(err)
	}
	var flows []float64
	for _, x := range e.Points {
		flows = append(flows, math.Round(x.Q/perHour*1e9)/1e9)
		check(t, "pressure of an answer", x.P, 30, 1e-9, "what was measured")
	}
	if want := []float64{15, 25, 35}; !slices.Equal(flows, want) {
		t.Errorf("answers at %v m³/h, want %v", flows, want)
	}
	check(t, "Q in m³/h", e.Q/perHour, 15, 1e-9, "the lowest at which it stays")
	check(t, "LowQ in m³/h", e.LowQ/perHour, 13.5, 1e-9, "33 Pa on the first flank")
	check(t, "HighQ in m³/h", e.HighQ/perHour, 36.5, 1e-9, "27 Pa on the last flank")
	for _, words := range []string{"at 3 flows, from 15 to 35 m³/h", "any flow from 13.5 to 36.5 m³/h", betterWay} {
		if !warned(e, words) {
			t.Errorf("no warning has %q: %q", words, e.Warnings)
		}
	}
}

// Where the lowest answer is one the fan does not stay at, the next is taken.
func TestPressureSkipsWhereTheFanDoesNotStay(t *testing.T) {
	c := fan(t, [2]float64{18, 10}, [2]float64{22, 50}, [2]float64{50, 0})
	e, err := Pressure(c, 30)
	if err != nil {
		t.Fatal(err)
	}
	if len(e.Points) != 2 || math.Abs(e.Points[0].Q-20*perHour) > 1e-12 {
		t.Fatalf("answers %v, want 20 m³/h and one more", e.Points)
	}
	check(t, "Q in m³/h", e.Q/perHour, 22+28*20.0/50, 1e-9, "the falling flank")
}

func TestPressureAtKnotsAndLevelStretches(t *testing.T) {
	tests := []struct {
		name     string
		points   [][2]float64
		pressure float64
		flows    []float64 // m³/h
	}{
		{"knot between", [][2]float64{{0, 60}, {20, 30}, {50, 0}}, 30, []float64{20}},
		{"peak", [][2]float64{{0, 60}, {20, 20}, {30, 30}, {50, 0}}, 30, []float64{15, 30}},
		{"peak within rounding", [][2]float64{{0, 60}, {20, 20}, {30, 30 * (1 + 1e-13)}, {50, 0}}, 30, []float64{15, 30}},
		{"last knot", [][2]float64{{0, 60}, {40, 30}}, 30, []float64{40}},
		{"first knot", [][2]float64{{10, 30}, {40, 0}}, 30, []float64{10}},
		{"level stretch: its low end", [][2]float64{{0, 60}, {20, 30}, {30, 30}, {50, 0}}, 30, []float64{20}},
		{"level from the second point on", [][2]float64{{10, 30}, {30, 30}, {50, 0}}, 30, []float64{10}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			e, err := Pressure(fan(t, test.points...), test.pressure)
			if err != nil {
				t.Fatal(err)
			}
			var flows []float64
			for _, x := range e.Points {
				flows = append(flows, math.Round(x.Q/perHour*1e9)/1e9)
			}
			if !slices.Equal(flows, test.flows) {
				t.Errorf("answers at %v m³/h, want %v", flows, test.flows)
			}
		})
	}
}

// Flat to the left only: the span is wide to that side alone.
func TestPressureWideToOneSide(t *testing.T) {
	e, err := Pressure(fan(t, [2]float64{0, 33}, [2]float64{30, 30}, [2]float64{40, 0}), 30)
	if err != nil {
		t.Fatal(err)
	}
	check(t, "HighQ in m³/h", e.HighQ/perHour, 31, 1e-9, "27 Pa on the steep side")
	if e.LowQ > 1e-12 || !warned(e, "any flow from 0 to 31 m³/h") {
		t.Errorf("Pressure(30) = %+v", e)
	}
}

// A pressure at or above shut-off, within the tolerance, means little flow, but
// not none: the fan could not be told from a blocked one.
func TestPressureAtShutOff(t *testing.T) {
	for _, p := range []float64{60, 62, 66} {
		e, err := Pressure(fan(t), p)
		if err != nil {
			t.Fatal(err)
		}
		most := 50 * (1 - 0.9*p/60)
		check(t, "HighQ in m³/h", e.HighQ/perHour, most, 1e-9, "10 % below what was measured")
		check(t, "Q in m³/h", e.Q/perHour, most/2, 1e-9, "the middle of what is possible")
		check(t, "P", e.P, 60-60*most/2/50, 1e-9, "on the curve")
		if e.LowQ != 0 || e.Q <= 0 || len(e.Points) != 0 || !warned(e, "at no flow") || !warned(e, betterWay) {
			t.Errorf("Pressure(%g) = %+v", p, e)
		}
	}
}

func TestPressureRefuses(t *testing.T) {
	for _, p := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		var bad *InputError
		if _, err := Pressure(fan(t), p); !errors.As(err, &bad) || !strings.Contains(err.Error(), "pressure in Pa") {
			t.Errorf("Pressure(%g): %v, want an *InputError", p, err)
		}
	}
	var no *ContradictionError
	_, err := Pressure(fan(t), 70)
	if !errors.As(err, &no) || no.Got != 70 || no.Limit != 60 || no.Unit != "Pa" || len(no.Causes) < 2 {
		t.Fatalf("Pressure(70): %v, want a *ContradictionError", err)
	}
	for _, words := range []string{"70 Pa", "60 Pa", "faster than its label"} {
		if !strings.Contains(no.Error()+"\n"+no.Hint(), words) {
			t.Errorf("%q does not say %q", err, words)
		}
	}
	var beyond *BeyondCurveError
	for _, test := range []struct {
		c            curve.Curve
		p, low, high float64
	}{
		{fan(t, [2]float64{0, 60}, [2]float64{40, 20}), 10, 20, 60}, // ends above
		{fan(t, [2]float64{10, 40}, [2]float64{50, 0}), 50, 0, 40},  // begins below: not known
	} {
		want := BeyondCurveError{What: "pressure", Got: test.p, Low: test.low, High: test.high, Unit: "Pa"}
		if _, err := Pressure(test.c, test.p); !errors.As(err, &beyond) || *beyond != want {
			t.Errorf("Pressure(%g) off the curve: %v, want a *BeyondCurveError", test.p, err)
		}
	}
	if _, err := Pressure(curve.Curve{}, 10); !errors.Is(err, curve.ErrNoCurve) {
		t.Errorf("Pressure without a curve: %v", err)
	}
}
