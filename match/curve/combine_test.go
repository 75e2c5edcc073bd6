package curve

import (
	"errors"
	"math"
	"strings"
	"testing"
)

const perHour = 1.0 / 3600

// knots returns what a curve is made of.
func knots(c Curve) (all [][2]float64) {
	for i := range c.Len() {
		q, p := c.Knot(i)
		all = append(all, [2]float64{q, p})
	}
	return all
}

func sameKnots(t *testing.T, name string, got Curve, want [][2]float64) {
	t.Helper()
	have := knots(got)
	ok := len(have) == len(want)
	for i := 0; ok && i < len(want); i++ {
		ok = math.Abs(have[i][0]-want[i][0]) < 1e-12 && math.Abs(have[i][1]-want[i][1]) < 1e-12
	}
	if !ok {
		t.Errorf("%s has the knots %v, want %v", name, have, want)
	}
}

func TestParallel(t *testing.T) {
	strong := View([]float64{0, 2, 4}, []float64{6, 4, 0})
	weak := View([]float64{0, 3}, []float64{3, 0})
	dip := View([]float64{0, 1, 2, 4}, []float64{9, 1, 4, 0}) // falls from (2, 4)
	level := View([]float64{0, 1, 3, 4}, []float64{4, 2, 2, 0})
	tests := []struct {
		name string
		a, b Curve
		want [][2]float64
	}{
		{"up to the weaker shut-off", strong, weak, [][2]float64{{2.5, 3}, {7, 0}}},
		{"the other way round", weak, strong, [][2]float64{{2.5, 3}, {7, 0}}},
		{"two equal", strong, strong, [][2]float64{{0, 6}, {4, 4}, {8, 0}}},
		{"dip: its falling branch alone", dip, strong, [][2]float64{{4, 4}, {8, 0}}},
		{"a level stretch", level, level, [][2]float64{{0, 4}, {2, 2}, {6, 2}, {8, 0}}},
		{"a level top", View([]float64{0, 1, 2}, []float64{2, 2, 0}), weak, [][2]float64{{1, 2}, {2, 2}, {5, 0}}},
		{"level beside falling", level, weak, [][2]float64{{0.5, 3}, {2, 2}, {4, 2}, {7, 0}}},
		{"a foot above zero", View([]float64{0, 2}, []float64{6, 2}), weak, [][2]float64{{1.5, 3}, {3, 2}}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got, err := Parallel(test.a, test.b)
			if err != nil {
				t.Fatal(err)
			}
			sameKnots(t, "Parallel", got, test.want)
		})
	}
}

// A ripple of under 1 % right of the peak is bridged level, from where the
// falling side first has the height of the ripple.
func TestParallelBridgesRipple(t *testing.T) {
	ripple := View([]float64{0, 1, 2, 3, 4}, []float64{100, 50, 50.5, 20, 0})
	got, err := Parallel(ripple, ripple)
	if err != nil {
		t.Fatal(err)
	}
	sameKnots(t, "Parallel", got, [][2]float64{{0, 100}, {2 * 0.99, 50.5}, {4, 50.5}, {6, 20}, {8, 0}})
}

func TestSeries(t *testing.T) {
	strong := View([]float64{0, 2, 4}, []float64{6, 4, 0})
	weak := View([]float64{0, 3}, []float64{3, 0})
	got, err := Series(strong, weak)
	if err != nil {
		t.Fatal(err)
	}
	sameKnots(t, "Series", got, [][2]float64{{0, 9}, {2, 5}, {3, 2}})
	if got, err = Series(weak, View([]float64{1, 5}, []float64{4, 0})); err != nil {
		t.Fatal(err)
	}
	sameKnots(t, "Series from 1 on", got, [][2]float64{{1, 6}, {3, 2}})
}

func TestCombiningWithNothingInCommon(t *testing.T) {
	touching := View([]float64{1, 2}, []float64{5, 3})
	var only *RangeError
	if _, err := Parallel(touching, View([]float64{0, 2}, []float64{3, 0})); !errors.As(err, &only) {
		t.Errorf("Parallel with one pressure in common: %v, want a *RangeError", err)
	}
	if _, err := Series(touching, View([]float64{2, 3}, []float64{3, 0})); !errors.As(err, &only) {
		t.Errorf("Series with one flow in common: %v, want a *RangeError", err)
	}
	high := View([]float64{0, 1}, []float64{9, 5})
	low := View([]float64{2, 4}, []float64{3, 0})
	var none *RangeError
	if _, err := Parallel(high, low); !errors.As(err, &none) || *none != (RangeError{"pressure", [2]float64{5, 9}, [2]float64{0, 3}}) {
		t.Errorf("Parallel: %v", err)
	}
	if !strings.Contains(none.Error(), "5 to 9 Pa") || !strings.Contains(none.Error(), "0 to 3 Pa") {
		t.Errorf("%q does not name both ranges", none)
	}
	if _, err := Series(high, low); !errors.As(err, &none) || *none != (RangeError{"flow", [2]float64{0, 1}, [2]float64{2, 4}}) {
		t.Errorf("Series: %v", err)
	}
	if !strings.Contains(none.Error(), "0 to 3600 m³/h") || !strings.Contains(none.Error(), "7200 to 1.44e+04 m³/h") {
		t.Errorf("%q does not name both ranges", none)
	}
}

// 60 Pa and 50 m³/h beside 25 Pa and 30 m³/h: in a device where the first alone
// works above 25 Pa the pair is refused with both numbers, since air would
// come back through the second. In series the pair is refused above 30 m³/h.
func TestTwoUnlikeFans(t *testing.T) {
	first := TwoEnded(Axial().Mean, 50*perHour, 60)
	second := TwoEnded(Axial().Mean, 30*perHour, 25)

	pair, err := Parallel(first, second)
	if err != nil {
		t.Fatal(err)
	}
	tight := System{B: 40 / square(20*perHour)}
	alone, _, err := Operate(first, tight)
	if err != nil || alone.P < 25 {
		t.Fatalf("the first alone: %+v, %v; want above 25 Pa", alone, err)
	}
	var outside *OutsideError
	_, _, err = Operate(pair, tight)
	if !errors.As(err, &outside) || outside.End != LowFlow || outside.Fan != 25 || outside.System <= 25 {
		t.Errorf("the pair in parallel: %v; want refused at 25 Pa, with what the device takes there", err)
	}
	if outside.Q <= alone.Q {
		t.Errorf("the pair begins at %g m³/s, where the first alone already moves %g", outside.Q, alone.Q)
	}

	open := System{B: 5 / square(45*perHour)}
	alone, _, err = Operate(first, open)
	if err != nil {
		t.Fatal(err)
	}
	both, _, err := Operate(pair, open)
	if err != nil || both.Q <= alone.Q {
		t.Errorf("in an open device the pair moves %+v, %v; the first alone %+v", both, err, alone)
	}

	row, err := Series(first, second)
	if err != nil {
		t.Fatal(err)
	}
	_, _, err = Operate(row, open)
	if !errors.As(err, &outside) || outside.End != HighFlow || math.Abs(outside.Q-30*perHour) > 1e-12 || outside.Fan <= outside.System {
		t.Errorf("the pair in series: %v; want refused at 30 m³/h with both pressures", err)
	}
}
