package resistance

import (
	"errors"
	"math"
	"strings"
	"testing"

	"lowsone/match/curve"
)

const perHour = 1.0 / 3600

// fan returns an invented fan of 50 m³/h and 60 Pa with the given points in
// m³/h and Pa; none: straight.
func fan(t testing.TB, points ...[2]float64) curve.Curve {
	t.Helper()
	if len(points) == 0 {
		points = [][2]float64{{0, 60}, {50, 0}}
	}
	var q, p []float64
	for _, x := range points {
		q, p = append(q, x[0]*perHour), append(p, x[1])
	}
	c, err := curve.New(q, p)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// check compares with a published, computed or documented value.
func check(t *testing.T, call string, got, want, tol float64, source string) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.7g, want %.7g ± %.2g (%s)", call, got, want, tol, source)
	}
}

// warned tells whether one of the warnings has the words.
func warned(e Estimate, words string) bool {
	for _, w := range e.Warnings {
		if strings.Contains(w, words) {
			return true
		}
	}
	return false
}

// expected is an estimate on fan(t), in m³/h and Pa.
type expected struct {
	q, p, low, high float64
	oneSided        bool
	warnings        []string
}

func (want expected) check(t *testing.T, got Estimate, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	const by = "arithmetic on a straight curve"
	check(t, "Q in m³/h", got.Q/perHour, want.q, 1e-9, by)
	check(t, "P", got.P, want.p, 1e-9, by)
	check(t, "LowQ in m³/h", got.LowQ/perHour, want.low, 1e-9, by)
	check(t, "HighQ in m³/h", got.HighQ/perHour, want.high, 1e-9, by)
	check(t, "loss at Q", got.System.Loss(got.Q), want.p, 1e-9, by)
	if got.System.A != 0 {
		t.Errorf("a = %g from one number, want 0", got.System.A)
	}
	if got.OneSided != want.oneSided || !got.Located {
		t.Errorf("one-sided %t, located %t; want %t, true", got.OneSided, got.Located, want.oneSided)
	}
	if len(got.Warnings) != len(want.warnings) {
		t.Errorf("warnings %q, want %q", got.Warnings, want.warnings)
	}
	for _, words := range want.warnings {
		if !warned(got, words) {
			t.Errorf("no warning has %q: %q", words, got.Warnings)
		}
	}
}

func TestShare(t *testing.T) {
	tests := []struct {
		name  string
		share float64
		want  expected
	}{
		{"the default", DefaultShare, expected{27.5, 27, 20, 35, false, nil}}, // LowShare … HighShare of 50
		{"half", 0.5, expected{25, 30, 17.5, 32.5, false, nil}},
		{"rarely little", 0.2, expected{10, 48, 5, 17.5, false, []string{"a share of 0.2"}}},
		{"just common", 0.3, expected{15, 42, 7.5, 22.5, false, nil}},
		{"just two-sided", 0.85, expected{42.5, 9, 35, 50, false, nil}},
		{"nearly free", 0.88, expected{44, 7.2, 36.5, 50, true, []string{"at 88 % of free delivery"}}},
		{"rarely much", 0.95, expected{47.5, 3, 40, 50, true, []string{"a share of 0.95", "at 95 % of free delivery"}}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got, err := Share(fan(t), test.share)
			test.want.check(t, got, err)
			if got.Method != ByShare {
				t.Errorf("method %v", got.Method)
			}
		})
	}
	e, _ := Share(fan(t), DefaultShare)
	check(t, "LowQ of the default", e.LowQ, LowShare*50*perHour, 1e-12, "its span is LowShare … HighShare")
	check(t, "HighQ of the default", e.HighQ, HighShare*50*perHour, 1e-12, "its span is LowShare … HighShare")
}

func TestShareRefuses(t *testing.T) {
	for _, share := range []float64{0, 1, -0.5, 1.2, 55, math.NaN(), math.Inf(1)} {
		var bad *InputError
		if _, err := Share(fan(t), share); !errors.As(err, &bad) || !strings.Contains(err.Error(), "above 0 and below 1") {
			t.Errorf("Share(%g): %v, want an *InputError", share, err)
		}
	}
	var free *FreeDeliveryError
	_, err := Share(fan(t, [2]float64{0, 60}, [2]float64{40, 10}), 0.5)
	if !errors.As(err, &free) || free.P != 10 || !strings.Contains(err.Error(), "40 m³/h and 10 Pa") {
		t.Errorf("Share of a curve that ends at 10 Pa: %v", err)
	}
	var beyond *BeyondCurveError
	_, err = Share(fan(t, [2]float64{20, 40}, [2]float64{50, 0}), 0.3)
	if !errors.As(err, &beyond) || !strings.Contains(err.Error(), "15 m³/h, but the curve of the fitted fan is known only from 20 m³/h to 50 m³/h") {
		t.Errorf("Share left of the first point: %v", err)
	}
	if _, err = Share(curve.Curve{}, 0.5); !errors.Is(err, curve.ErrNoCurve) {
		t.Errorf("Share without a curve: %v", err)
	}
}

func TestFlow(t *testing.T) {
	tests := []struct {
		name string
		flow float64 // m³/h
		want expected
	}{
		{"middle", 20, expected{20, 36, 18, 22, false, nil}},
		{"nearly free", 45, expected{45, 6, 40.5, 50, true, []string{"at 90 % of free delivery"}}},
		{"free", 50, expected{50, 0, 45, 50, true, []string{"at 100 % of free delivery"}}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got, err := Flow(fan(t), test.flow*perHour)
			test.want.check(t, got, err)
			if got.Method != ByFlow {
				t.Errorf("method %v", got.Method)
			}
		})
	}
}

func TestFlowRefuses(t *testing.T) {
	for _, q := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		var bad *InputError
		if _, err := Flow(fan(t), q); !errors.As(err, &bad) || !strings.Contains(err.Error(), "above zero") {
			t.Errorf("Flow(%g): %v, want an *InputError", q, err)
		}
	}
	var no *ContradictionError
	_, err := Flow(fan(t), 55*perHour)
	if !errors.As(err, &no) || no.Got != 55*perHour || no.Limit != 50*perHour || no.Unit != "m³/s" || len(no.Causes) < 2 {
		t.Fatalf("Flow(55 m³/h): %v, want a *ContradictionError", err)
	}
	for _, words := range []string{"55 m³/h", "50 m³/h", "velocity", "faster than its label"} {
		if !strings.Contains(no.Error()+"\n"+no.Hint(), words) {
			t.Errorf("%q does not say %q", err, words)
		}
	}
	var beyond *BeyondCurveError
	if _, err = Flow(fan(t, [2]float64{0, 60}, [2]float64{40, 10}), 45*perHour); !errors.As(err, &beyond) {
		t.Errorf("Flow past a curve that ends at 10 Pa: %v, want no contradiction but a *BeyondCurveError", err)
	}
	if _, err = Flow(curve.Curve{}, 1); !errors.Is(err, curve.ErrNoCurve) {
		t.Errorf("Flow without a curve: %v", err)
	}
}

func TestWorkingPointInADipIsWarnedOf(t *testing.T) {
	c := fan(t, [2]float64{0, 60}, [2]float64{20, 10}, [2]float64{24, 50}, [2]float64{50, 0})
	tests := []struct {
		flow          float64 // m³/h
		stalls, stays bool
	}{
		{10, true, true},
		{22, true, false}, // 10 Pa per m³/h is steeper than the device's 2·30/22
		{25, true, true},
		{27, false, true}, // more than 10 % right of 24
	}
	for _, test := range tests {
		e, err := Flow(c, test.flow*perHour)
		if err != nil {
			t.Fatal(err)
		}
		if got := warned(e, "in or near the dip"); got != test.stalls {
			t.Errorf("at %g m³/h: stall warned of %t, want %t: %q", test.flow, got, test.stalls, e.Warnings)
		}
		if got := !warned(e, "would not stay"); got != test.stays {
			t.Errorf("at %g m³/h: stays %t, want %t: %q", test.flow, got, test.stays, e.Warnings)
		}
	}
}
