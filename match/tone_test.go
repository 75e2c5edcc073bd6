package match

import (
	"math"
	"strings"
	"testing"

	"lowsone/acoustics"
	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// Blade tone and beat by their definition: 7 blades at 1500 and 1512 rpm beat at
// 1.4 Hz (sound_tones.csv T15).
func TestToneBesideAnother(t *testing.T) {
	other := []Turning{{Name: "far", Blades: 5, Turns: 100}, {Name: "near", Blades: 7, Turns: 1512.0 / 60}}
	got := toneAt(7, 1500.0/60, other)
	if !near(got.Hz, 175, 1e-12) || !near(got.Beat, 1.4, 1e-9) || got.Beside != "near" || got.Heard != acoustics.Swelling {
		t.Errorf("toneAt(7 blades, 1500 rpm) = %+v, want 175 Hz, 1.4 Hz beside near, slow swelling", got)
	}
	if note := got.Note(); !strings.Contains(note, "1.4 Hz beside that of near") || !strings.Contains(note, "171.4 rpm apart") {
		t.Errorf("Note() = %q, want the beat and the speed apart, 20 Hz/7 blades", note)
	}
	for _, quiet := range []Tone{toneAt(7, 25, nil), toneAt(7, 25, other[:1]), toneAt(math.NaN(), 25, other), toneAt(7, math.NaN(), other)} {
		if quiet.Note() != "" {
			t.Errorf("Note() = %q, want none", quiet.Note())
		}
	}
}

// The fans of a device turn as they were found; one without blades has no tone.
func TestTurning(t *testing.T) {
	path := func(fan string, speed float64) Path {
		f := fanOf(t, fan)
		return Path{Name: f.Part, Fitted: f, Row: NotInCatalogue, Seat: SeatOf(f), Way: byFlow(25), SpeedNow: Speed{Ratio: quantity.Stated(speed)}}
	}
	d := Device{Paths: []Path{path(loud+" blades=7", 0.9), path(loud, 1)}}
	got, err := d.Turning(t.Context(), catalog.ColumnsOf(fanOf(t, loud)))
	if err != nil || len(got) != 2 || !near(got[0].Hz(), 7*0.9*5600/60, 1e-9) || got[0].Name != "LOUD" || got[0].Path != 0 || !got[0].Measured {
		t.Errorf("Turning() = %+v, %v, want the first LOUD at %v Hz", got, err, 7*0.9*5600.0/60)
	}
	if !math.IsNaN(got[1].Hz()) || !near(got[1].Turns, 5600.0/60, 1e-9) {
		t.Errorf("Turning() = %+v, want the second without a tone, at 5600 rpm", got)
	}
	req := requestFor(fanOf(t, loud), NotInCatalogue, byFlow(25))
	req.Others = got
	twin := fanOf(t, "part=TWIN"+frame60+"airflow_m3h=48 static_pressure_pa=120 noise_dba=36 speed_rpm=5070 blades=7")
	c := candidateOf(t, rankOf(t, req, twin), 0)
	if !c.Tone.Beats() || !strings.Contains(strings.Join(c.Cautions, "\n"), "beside that of LOUD") {
		t.Errorf("tone %+v, cautions %q, want the beat with LOUD", c.Tone, c.Cautions)
	}
}
