package match

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"

	"lowsone/acoustics"
	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match/air"
	"lowsone/match/resistance"
)

// tunnel is the heat-sink tunnel of the demo's amplifier.
func tunnel(t testing.TB) Request {
	fitted := fanOf(t, loud+" temp_max_c=70")
	return Request{
		Path: Path{
			Fitted: fitted, Row: NotInCatalogue, Seat: SeatOf(fitted),
			Way:   Way{Method: resistance.ByHeat, Heat: Heat{Power: 90, AirRise: 9, Inlet: quantity.Stated(quantity.Celsius(24))}},
			Spots: []Spot{{Name: "heat sink", Found: quantity.Celsius(58), Limit: quantity.Celsius(75), LimitBy: "cut-out", Part: SpotCapacitor}},
		},
		Around: Surroundings{Ambient: quantity.Stated(quantity.Celsius(24)), AmbientWorst: quantity.Stated(quantity.Celsius(30))},
	}
}

func TestNeedFromLimit(t *testing.T) {
	// Allowed rise 75 − 10 − 30 = 35 K, found 58 − 24 = 34 K: a little less than the
	// present mass flow, whatever the shares are; in 30 °C air (1.164 kg/m³) against
	// 24 °C (1.188 kg/m³), both by the ideal gas law.
	req := tunnel(t)
	r := rankOf(t, req)
	h := r.Heat
	if h == nil || h.Ratio >= 1 || h.Ratio < 34.0/35*0.9 {
		t.Fatalf("need %+v, want a mass flow ratio a little under 1", h)
	}
	if want := air.Density(30, 101325); !near(h.Density, want, 1e-3) {
		t.Errorf("density at the worst = %v, want %v", h.Density, want)
	}
	if want := h.Ratio * r.System.Q * r.System.Density / h.Density; !near(r.Need, want, 1e-12) {
		t.Errorf("need %v m³/s, want %v", r.Need, want)
	}
	c := candidateOf(t, r, NotInCatalogue)
	if s := c.Spots[0]; !s.Kept() || s.Planned.High < 60 || s.Planned.High > 65+1e-6 {
		t.Errorf("at the planned point the heat sink comes to %+v, want at most 65 °C", s.Planned)
	}
}

// The planned flow of a candidate that is not held gives exactly the limit less
// the margin at the deciding corner.
func TestNeedAndTemperatureAgree(t *testing.T) {
	req := tunnel(t)
	req.Around.AmbientWorst = quantity.Stated(quantity.Celsius(26))
	r := rankOf(t, req, fanOf(t, "part=Q"+frame60+"airflow_m3h=60 static_pressure_pa=180 noise_dba=40 speed_rpm=6500 pwm=yes"))
	c := candidateOf(t, r, 0)
	if c.Limit != LimitNone {
		t.Fatalf("the fan is held by %s; choose another for this test", c.Limit)
	}
	if got := c.Spots[0].Planned.High; !near(got, 65, 1e-9) {
		t.Errorf("hottest corner = %v °C, want 65 °C", got)
	}
	if c.Spots[0].Full.High >= c.Spots[0].Planned.High {
		t.Error("more flow must be cooler")
	}
	if life := c.Spots[0].Life; !(life > 0 && life < 1) {
		t.Errorf("a capacitor that gets warmer lives a share of %v", life)
	}
}

func TestNoFlowIsEnough(t *testing.T) {
	req := tunnel(t)
	req.Around.AmbientWorst = quantity.Stated(quantity.Celsius(66))
	_, err := Rank(context.Background(), catalog.ColumnsOf(), req)
	var no *NoFlowError
	if !errors.As(err, &no) || !strings.Contains(err.Error(), "no flow is enough") {
		t.Errorf("limit 75 less 10 K in a room of 66 °C: %v", err)
	}
}

func TestAltitudeAsksForMoreVolume(t *testing.T) {
	low := rankOf(t, tunnel(t))
	req := tunnel(t)
	req.Around.Altitude = quantity.Stated(2000 * quantity.Metre)
	high := rankOf(t, req)
	// Same mass flow in air of 79 495 Pa instead of 101 325 Pa (US Standard Atmosphere 1976, 2000 m).
	if got := high.Need / low.Need; math.Abs(got-101325/79495.0) > 1e-3 {
		t.Errorf("need at 2000 m over that at sea level = %.4f, want %.4f", got, 101325/79495.0)
	}
}

func TestFanInWarmAir(t *testing.T) {
	req := tunnel(t)
	req.Path.Way.Heat.Outlet = true
	cool := fanOf(t, "part=COOL"+frame60+"airflow_m3h=60 static_pressure_pa=180 noise_dba=40 temp_max_c=35")
	hardy := fanOf(t, "part=HARDY"+frame60+"airflow_m3h=60 static_pressure_pa=180 noise_dba=40 temp_max_c=70")
	r := rankOf(t, req, cool, hardy)
	if r.Rejected[CheckTemperature] != 1 {
		t.Errorf("a fan made for 35 °C in air of 30 °C + 9 K: rejected %v", r.Rejected)
	}
	c := candidateOf(t, r, 1)
	// P/(ṁ·c_p) over the inlet of the worst day.
	want := 30 + 90/(c.Planned.Q*r.Heat.Density*1005)
	if !near(c.FanAir, want, 1e-9) {
		t.Errorf("air at the fan = %v °C, want %v", c.FanAir, want)
	}
}

// An offset measured at the seat moves every level by itself, and no order.
func TestInstallationOffset(t *testing.T) {
	fans := []*catalog.Fan{
		fanOf(t, "part=A"+frame60+"airflow_m3h=60 static_pressure_pa=180 noise_dba=40 speed_rpm=6500"),
		fanOf(t, "part=B"+frame60+"airflow_m3h=60 static_pressure_pa=150 noise_dba=44 speed_rpm=6500"),
	}
	plain := rankOf(t, tunnel(t), fans...)
	req := tunnel(t)
	req.Path.Reading = &Reading{Level: quantity.PressureLevel(58), Distance: 0.5 * quantity.Metre, Background: quantity.Stated(quantity.PressureLevel(30))}
	measured := rankOf(t, req, fans...)
	in := measured.Seat
	if !in.Known || !near(in.Measured, 58, 1e-9) || !near(in.Predicted, plain.Baseline.Level.DB+20*math.Log10(2), 1e-9) {
		t.Fatalf("installation %+v, baseline %v", in, plain.Baseline.Level)
	}
	for i, c := range measured.Candidates {
		if before := plain.Candidates[i]; c.Row != before.Row || !near(c.Planned.Level.DB-before.Planned.Level.DB, in.Offset, 1e-9) {
			t.Errorf("rank %d: row %d at %v, without the offset row %d at %v", i+1, c.Row, c.Planned.Level.DB, before.Row, before.Planned.Level.DB)
		}
	}
	req.Path.Reading.Background = quantity.Stated(quantity.PressureLevel(56))
	if in := rankOf(t, req, fans...).Seat; in.Known || in.Background != acoustics.UpperBound || in.Offset != 0 {
		t.Errorf("2 dB above the background is an upper bound, not an offset: %+v", in)
	}
}

func TestNoiseBudget(t *testing.T) {
	// 30 with 20 dB make 30.4, two of 30 make 33.0 (energy sums; common practice figures of the trade).
	b := NoiseBudget([]Noise{{"psu", 20}, {"tunnel", 30}})
	if math.Abs(b.Total-30.41) > 0.005 || b.Shares[0].Name != "tunnel" || b.Shares[0].Without != 20 || b.Shares[0].Next != "psu" {
		t.Errorf("budget %+v", b)
	}
	b = NoiseBudget([]Noise{{"a", 30}, {"b", 30}})
	if math.Abs(b.Total-33.01) > 0.005 || math.Abs(b.Shares[0].Gain-3.01) > 0.005 {
		t.Errorf("budget %+v", b)
	}
	if one := NoiseBudget([]Noise{{"a", 30}}); !math.IsInf(one.Shares[0].Without, -1) || one.Shares[0].Next != "" {
		t.Errorf("budget of one %+v", one)
	}
}
