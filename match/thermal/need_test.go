package thermal

import (
	"errors"
	"math"
	"strings"
	"testing"

	"lowsone/match/air"
)

// amplifier is a heat sink of an invented rack amplifier: 90 W, air 24 to 33 °C,
// sink 58 °C, cut-out 75 °C.
func amplifier() Spot {
	return Spot{
		Name: "heat sink", Found: 58, Then: Conditions{Ambient: 22, Heat: 90}, Inlet: 24, InletKnown: true,
		Limit: 75, Margin: 10, MarginKnown: true,
	}
}

func model(t *testing.T, s Spot) Model {
	t.Helper()
	m, err := New(s)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func need(t *testing.T, m Model, worst Conditions) Need {
	t.Helper()
	n, err := m.Need(worst)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// Each row has a closed form: one term, or a film of exponent 0.5, quadratic in
// 1/√μ.
func TestNeedInClosedForm(t *testing.T) {
	quadratic := func(air, film, left float64) float64 {
		s := (-film + math.Sqrt(film*film+4*air*left)) / (2 * air)
		return 1 / (s * s)
	}
	for _, row := range []struct {
		name                 string
		air, solid, exponent float64
		limit, heat          float64 // °C, W in the worst case at 30 °C
		want                 float64
	}{
		// Rise 34 K as found, excess 2 K: inlet 32 °C, allowed limit − 42.
		{"air alone", 1, 0, 0.5, 59, 90, 34.0 / 17},
		{"air alone, more heat", 1, 0, 0.5, 59, 180, 68.0 / 17},
		{"film alone, laminar", 0, 0, 0.5, 59, 90, 4},
		{"film alone, turbulent", 0, 0, 0.8, 59, 90, math.Pow(2, 1.25)},
		{"film alone, less than now", 0, 0, 0.5, 110, 90, 0.25},
		{"film and solid", 0, 0.25, 0.5, 59, 90, 9},
		{"air, film, solid", 0.3, 0.2, 0.5, 70, 90, quadratic(0.3, 0.5, 28.0/34-0.2)},
		{"air, film, solid, less than now", 0.3, 0.2, 0.5, 90, 60, quadratic(0.3, 0.5, 48.0/34*1.5-0.2)},
		{"air and film of exponent 1", 0.3, 0.2, 1, 70, 90, 0.8 / (28.0/34 - 0.2)},
	} {
		s := amplifier()
		s.Limit = row.limit
		s.Shares = Shares{Exactly(row.air), Exactly(row.solid), Exactly(row.exponent)}
		n := need(t, model(t, s), Conditions{30, row.heat})
		check(t, row.name+": Need", n.Ratio, row.want, 1e-12*row.want, "closed form")
		if n.Reason != Enough || n.Least != n.Ratio {
			t.Errorf("%s: %+v: one corner only, and some flow is enough", row.name, n)
		}
	}
}

// Which corner decides hangs on whether more or less flow than now is needed: the
// one in which flow helps least, or its loss harms most.
func TestDecidingCorner(t *testing.T) {
	m := model(t, amplifier())
	if got := len(m.Corners()); got != 8 {
		t.Errorf("%d corners with all shares unknown, want 8: %v", got, m.Corners())
	}
	more := need(t, m, Conditions{36, 90})
	if want := (Corner{0.1, 0.6, 0.3, 0.5}); !near(more.Corner, want) || !(more.Ratio > 1) {
		t.Errorf("more flow than now: %v at %v, want above 1 at %v", more.Ratio, more.Corner, want)
	}
	less := need(t, m, Conditions{10, 90})
	if want := (Corner{0.6, 0.4, 0, 0.8}); !near(less.Corner, want) || !(less.Ratio < 1) {
		t.Errorf("less flow than now: %v at %v, want below 1 at %v", less.Ratio, less.Corner, want)
	}
	for _, n := range []Need{more, less} {
		if !(n.Least < n.Ratio) || n.LeastCorner == n.Corner {
			t.Errorf("%+v: the least need must lie at another corner", n)
		}
	}
}

func near(a, b Corner) bool {
	return math.Abs(a.Air-b.Air)+math.Abs(a.Film-b.Film)+math.Abs(a.Solid-b.Solid)+math.Abs(a.Exponent-b.Exponent) < 1e-9
}

func TestNoFlowIsEnough(t *testing.T) {
	exact := Shares{Exactly(0.2), Exactly(0.25), Exactly(0.8)}
	for _, row := range []struct {
		name        string
		limit, room float64
		shares      Shares
		want        Reason
		why         string
	}{
		{"limit under the room", 40, 45, exact, LimitInAir, `"heat sink" may have 40 °C, the air that enters has 47 °C`},
		{"limit at the inlet", 47, 45, exact, LimitInAir, "may have 47 °C, the air that enters has 47 °C"},
		{"margin under the inlet", 50, 45, exact, MarginInAir, "may have 50 °C less a margin of 10 K, the air that enters has 47 °C"},
		{"margin at the inlet", 57, 45, exact, MarginInAir, "less a margin of 10 K"},
		{"less than the solid part", 50, 32, exact, SolidAlone, "may rise by 6 K, and 8.5 K of its rise lie in the solid part"},
		{"the solid part exactly", 50.5, 30, exact, SolidAlone, "may rise by 8.5 K, and 8.5 K"},
		{"at one corner only", 50, 30, Shares{}, SolidAlone, "of the present mass flow would do if the shares are air 0.6, film 0.4, solid 0, exponent 0.8"},
	} {
		s := amplifier()
		s.Limit, s.Shares = row.limit, row.shares
		n := need(t, model(t, s), Conditions{row.room, 90})
		if n.Reason != row.want || !math.IsInf(n.Ratio, 1) || !strings.Contains(n.Why(), row.why) {
			t.Errorf("%s: reason %d, ratio %g, %q, want reason %d, +Inf, %q", row.name, n.Reason, n.Ratio, n.Why(), row.want, row.why)
		}
		if got := FlowAtFan(n.Ratio, 0.01, 1.2, 1.1); !math.IsInf(got, 1) {
			t.Errorf("%s: FlowAtFan = %g, want +Inf", row.name, got)
		}
	}
	s := amplifier()
	s.Shares = exact
	if n := need(t, model(t, s), Conditions{30, 90}); n.Reason != Enough || math.IsInf(n.Ratio, 0) || !strings.Contains(n.Why(), "1.0") {
		t.Errorf("%+v: %q", n, n.Why())
	}
}

func TestLargest(t *testing.T) {
	if _, err := Largest(); !errors.Is(err, ErrNoSpots) {
		t.Errorf("Largest() = %v, want ErrNoSpots", err)
	}
	a, b, c := Need{Spot: "a", Ratio: 0.5}, Need{Spot: "b", Ratio: 0.9}, Need{Spot: "c", Ratio: math.Inf(1), Reason: SolidAlone}
	for _, row := range []struct {
		name    string
		each    []Need
		want    string
		oneOnly bool
	}{
		{"one, little", []Need{a}, "a", true},
		{"one, enough", []Need{b}, "b", false},
		{"one, at 70 %", []Need{{Spot: "d", Ratio: 0.7}}, "d", false},
		{"two", []Need{a, b}, "b", false},
		{"two, little", []Need{a, a}, "a", false},
		{"equal", []Need{b, {Spot: "e", Ratio: 0.9}}, "b", false},
		{"no flow is enough", []Need{a, c, b}, "c", false},
	} {
		w, err := Largest(row.each...)
		if err != nil || w.Spot != row.want || w.OneOnly != row.oneOnly || len(w.Each) != len(row.each) {
			t.Errorf("%s: Largest = %q, one only %t, %v, want %q, %t", row.name, w.Spot, w.OneOnly, err, row.want, row.oneOnly)
		}
	}
}

// The amplifier at 1500 m: the same mass is more volume.
func TestFlowAtFan(t *testing.T) {
	high, err := air.PressureAtAltitude(1500)
	if err != nil {
		t.Fatal(err)
	}
	now, worst := air.Density(24, 101325), air.Density(32, high)
	const flow = 30.0 / 3600
	check(t, "FlowAtFan", FlowAtFan(1.2, flow, now, worst), 1.2*flow*(101325/high)*(32+freezing)/(24+freezing), 1e-12, "ideal gas")
	for _, in := range [][4]float64{{-1, 1, 1, 1}, {1, 0, 1, 1}, {1, 1, 0, 1}, {1, 1, 1, 0}, {math.NaN(), 1, 1, 1}, {1, math.NaN(), 1, 1}} {
		if got := FlowAtFan(in[0], in[1], in[2], in[3]); !math.IsNaN(got) {
			t.Errorf("FlowAtFan%v = %g, want NaN", in, got)
		}
	}
}

func TestAssumedIsNamed(t *testing.T) {
	s := amplifier()
	s.InletKnown, s.MarginKnown = false, false
	m := model(t, s)
	want := []string{
		"air goes in at the temperature of the room", "margin 10 K",
		"share of the air 0.1 to 0.6", "share of the solid part 0 to 0.3", "exponent of the film 0.5 to 0.8",
	}
	if got := strings.Join(m.Assumed(), "; "); got != strings.Join(want, "; ") {
		t.Errorf("assumed %q, want %q", got, want)
	}
	check(t, "Rise without an inlet", m.Rise(), 36, 1e-12, "58 − 22")
	check(t, "Inlet without an inlet", m.Inlet(Conditions{30, 90}), 30, 1e-12, "no excess")
	if got := model(t, amplifier()).Inlet(Conditions{30, 90}); got != 32 {
		t.Errorf("Inlet = %g, want 32: the room and an excess of 2 K", got)
	}
	s.Shares = Shares{Exactly(0.2), Exactly(0), Exactly(0.8)}
	s.InletKnown, s.MarginKnown = true, true
	if got := model(t, s).Assumed(); len(got) != 0 {
		t.Errorf("all is known, yet assumed: %q", got)
	}
}
