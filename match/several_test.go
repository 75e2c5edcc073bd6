package match

import (
	"math"
	"slices"
	"strings"
	"testing"

	"lowsone/catalog/quantity"
)

// Two equal fans side by side on twice the flow, or one behind the other on
// twice the pressure, work as one does alone, and are 3.01 dB louder
// (testdata/sources/sound_fan_laws.csv F28).
func TestSeveralEqualFans(t *testing.T) {
	fan := fanOf(t, "part=Q"+frame60+"airflow_m3h=60 static_pressure_pa=180 noise_dba=40 speed_rpm=6500")
	one := rankOf(t, requestFor(fanOf(t, loud), NotInCatalogue, byFlow(30)), fan)
	side := requestFor(fanOf(t, loud), NotInCatalogue, byFlow(60))
	side.Path.Fans = 2
	line := requestFor(fanOf(t, loud), NotInCatalogue, byFlow(30))
	line.Path.Fans, line.Path.Series = 2, true
	for name, c := range map[string]struct {
		req            Request
		flow, pressure float64
	}{"side by side": {side, 2, 1}, "one behind the other": {line, 1, 2}} {
		r := rankOf(t, c.req, fan)
		if !near(r.System.P, c.pressure*one.System.P, 1e-9) || !near(r.Baseline.Level.DB-one.Baseline.Level.DB, 10*math.Log10(2), 1e-9) {
			t.Errorf("%s: %v Pa at %v dB(A), one alone %v Pa at %v", name, r.System.P, r.Baseline.Level.DB, one.System.P, one.Baseline.Level.DB)
		}
		a, b := candidateOf(t, one, 0), candidateOf(t, r, 0)
		if !near(b.Matched.Ratio, a.Matched.Ratio, 1e-9) || !near(b.Full.Q, c.flow*a.Full.Q, 1e-9) || math.Abs(b.Planned.Level.DB-a.Planned.Level.DB-3.010) > 5e-4 {
			t.Errorf("%s: %+v, one alone %+v", name, b.Planned, a.Planned)
		}
	}
}

func TestSeveralFansShareAnOutput(t *testing.T) {
	fan := fanOf(t, "part=Q"+frame60+"airflow_m3h=60 static_pressure_pa=180 noise_dba=40")
	req := requestFor(fanOf(t, loud), NotInCatalogue, byFlow(60))
	req.Path.Fans, req.Path.Seat.CurrentMax = 2, quantity.Stated(0.3*quantity.Ampere)
	if r := rankOf(t, req, fan); r.Rejected[CheckCurrent] != 1 {
		t.Errorf("two fans of 0.2 A on 0.3 A: rejected %v", r.Rejected)
	}
	e := explainOf(t, req, 0, fan)
	if want := "left out: current: draws 0.4 A, the output gives 0.3 A"; e.Outcome != want {
		t.Errorf("outcome %q, want %q", e.Outcome, want)
	}
	req.Path.Seat.CurrentMax = quantity.Known[quantity.Current]{}
	if s := step(t, explainOf(t, req, 0, fan), "several equal fans"); !strings.Contains(s.Result, "120 m³/h at no pressure, 43.0 dB(A)") {
		t.Errorf("step %+v", s)
	}
}

// How several fans share a path is said, and that it was assumed where nobody said
// it.
func TestArrangementIsSaid(t *testing.T) {
	for _, r := range []struct {
		series, arranged bool
		want             string
	}{
		{false, false, "2 equal fans share this path, assumed side by side, since the arrangement is not stated:"},
		{false, true, "2 equal fans share this path, side by side:"},
		{true, true, "2 equal fans share this path, one behind the other:"},
	} {
		req := requestFor(fanOf(t, loud), NotInCatalogue, byFlow(25))
		req.Path.Fans, req.Path.Series, req.Path.Arranged = 2, r.series, r.arranged
		got := rankOf(t, req, fanOf(t, loud)).Notes
		if !slices.ContainsFunc(got, func(note string) bool { return strings.HasPrefix(note, r.want) }) {
			t.Errorf("notes %q, want one that begins %q", got, r.want)
		}
	}
}
