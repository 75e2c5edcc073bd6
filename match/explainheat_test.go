package match

import (
	"fmt"
	"strings"
	"testing"

	"lowsone/catalog/quantity"
	"lowsone/match/thermal"
)

// Spots, seat and level are explained with the ranking's own numbers.
func TestExplainTellsHeatAndSeat(t *testing.T) {
	req := tunnel(t)
	req.Path.Reading = &Reading{Level: quantity.PressureLevel(48), Distance: 1}
	fan := fanOf(t, "part=Q"+frame60+"airflow_m3h=60 static_pressure_pa=180 noise_dba=40 speed_rpm=6500")
	r := rankOf(t, req, fan)
	c, e := candidateOf(t, r, 0), explainOf(t, req, 0, fan)
	if got, want := step(t, e, "what heat sink needs").Result, Plain(r.Heat.Ratio)+" of the present mass flow"; got != want {
		t.Errorf("need %q, want %q", got, want)
	}
	if got, want := step(t, e, "what the seat adds").Result, fmt.Sprintf("%+.1f dB on every fan", r.Seat.Offset); got != want || !r.Seat.Known {
		t.Errorf("seat %q, want %q", got, want)
	}
	spot := c.Spots[0]
	if got := step(t, e, "how hot heat sink gets").Result; !strings.HasPrefix(got, Plain(spot.Planned.Low)+" to "+Plain(spot.Planned.High)+" °C") {
		t.Errorf("temperature %q, the ranking has %+v", got, spot.Planned)
	}
	if got := step(t, e, "level at the needed flow"); !strings.Contains(got.Formula, "+ E") || strings.Contains(got.Formula, "lg(d") {
		t.Errorf("formula %q, want the seat's part and no distance", got.Formula)
	}
}

// A limit passed by less than a probe tells is kept.
func TestKept(t *testing.T) {
	for _, r := range []struct {
		high float64
		want bool
	}{{64, true}, {65, true}, {65.1, true}, {65.3, false}} {
		s := SpotTemperature{Planned: thermal.Band{High: r.high}, Limit: 75, Margin: 10}
		if got := s.Kept(); got != r.want {
			t.Errorf("Kept() at %v °C of 75 less 10 = %v, want %v", r.high, got, r.want)
		}
	}
}
