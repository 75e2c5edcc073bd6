package match

import (
	"context"
	"errors"
	"math"
	"testing"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

func sit(t testing.TB, req Request, row int, fans ...*catalog.Fan) *Seated {
	t.Helper()
	s, err := Sit(context.Background(), catalog.ColumnsOf(fans...), req, row)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// A seated fan says at the planned and the full speed what the ranking says.
func TestSeatedAgreesWithTheRanking(t *testing.T) {
	req := tunnel(t)
	fan := fanOf(t, "part=Q"+frame60+"airflow_m3h=60 static_pressure_pa=180 noise_dba=40 speed_rpm=6500")
	s, c := sit(t, req, 0, fan), candidateOf(t, rankOf(t, req, fan), 0)
	for _, want := range []Point{c.Full, c.Planned} {
		got, err := s.At(want.Ratio)
		if err != nil || !near(got.Q, want.Q, 1e-9) || !near(got.P, want.P, 1e-9) || !near(got.Level.DB, want.Level.DB, 1e-9) {
			t.Errorf("At(%v) = %+v (%v), want %+v of the ranking", want.Ratio, got.Point, err, want)
		}
	}
	planned, err := s.At(c.Planned.Ratio)
	if err != nil || !near(planned.Spots[0].Planned.High, c.Spots[0].Planned.High, 1e-9) {
		t.Errorf("heat sink at %+v (%v), the ranking says %+v", planned.Spots, err, c.Spots)
	}
	if r, err := s.SpeedFor(c.Matched.Q); err != nil || !near(r, c.Matched.Ratio, 1e-9) {
		t.Errorf("SpeedFor(%v) = %v (%v), the ranking says %v", c.Matched.Q, r, err, c.Matched.Ratio)
	}
}

// A fan in the warm air meets what leaves at its own flow: P/(ṁ·c_p) above the
// inlet (air: c_p = 1005 J/(kg·K)).
func TestSeatedInWarmAir(t *testing.T) {
	req := tunnel(t)
	req.Path.Way.Heat.Outlet = true
	s := sit(t, req, NotInCatalogue)
	a, err := s.At(0.8)
	if err != nil {
		t.Fatal(err)
	}
	if want := 30 + 90/(1005*a.Q*s.Heat().Density); !near(a.FanAir, want, 1e-6) {
		t.Errorf("air at the fan %v °C, want %v", a.FanAir, want)
	}
}

// Where no flow is enough the fan can still be asked.
func TestSeatedWhereNoFlowIsEnough(t *testing.T) {
	req := tunnel(t)
	req.Around.AmbientWorst = quantity.Stated(quantity.Celsius(70))
	s := sit(t, req, NotInCatalogue)
	if need, _ := s.Need(); s.NoFlow == nil || !math.IsNaN(need) {
		t.Errorf("need = %v, NoFlow %v: want none", need, s.NoFlow)
	}
	if a, err := s.At(1); err != nil || a.Spots[0].Kept() {
		t.Errorf("At(1) = %+v, %v: want a spot above its limit", a.Spots, err)
	}
}

func TestSeatedRefusesWhatCannotBeRanked(t *testing.T) {
	var not *RankableError
	_, err := Sit(context.Background(), catalog.ColumnsOf(fanOf(t, "part=X kind=crossflow airflow_m3h=60 static_pressure_pa=180 noise_dba=40")), tunnel(t), 0)
	if !errors.As(err, &not) {
		t.Errorf("a crossflow fan: %v, want a *RankableError", err)
	}
}

// The current of a load is the rated one, else power over voltage; unknown is
// no number, never 0.
func TestLoadOf(t *testing.T) {
	l := LoadOf(fanOf(t, "part=A supply=dc voltage_v=12 power_w=3 leads=4 pwm=yes speed_rpm=3000 start_voltage_v=5 tach_per_rev=2"))
	if l.RatedCurrent != 0.25 || l.Leads != 4 || !l.PWM || !near(l.RatedSpeed, 50, 1e-12) || l.StartVoltage != 5 || l.PulsesPerTurn != 2 || l.NominalVoltage != 12 {
		t.Errorf("load = %+v", l)
	}
	if l := LoadOf(&catalog.Fan{Part: "X"}); !math.IsNaN(l.RatedCurrent) || !math.IsNaN(l.NominalVoltage) || !math.IsNaN(l.StartVoltage) || l.Supply != 0 || l.PWM {
		t.Errorf("load of a fan without data = %+v, want nothing known", l)
	}
}
