package match

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"lowsone/acoustics"
	"lowsone/acoustics/loudness"
	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/testdata/sources"
)

// published reads a number of a source.
func published(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// loudAt gives the loudness of a fan of that row at its rated speed and a level.
func loudAt(t *testing.T, row string, level float64, room quantity.Known[quantity.SoundPressureLevel]) Loudness {
	t.Helper()
	req := requestFor(fanOf(t, loud), NotInCatalogue, byFlow(25))
	req.Room = room
	cols := catalog.ColumnsOf(fanOf(t, row))
	p, err := prepare(t.Context(), cols, req)
	if err != nil {
		t.Fatal(err)
	}
	var r rated
	why := p.known.ground.on(cols).rate(0, &r)
	if why != "" {
		t.Fatal(why)
	}
	return p.loud(spectrumOf(cols, 0, &r), 1, level)
}

const axial60 = "part=A" + frame60 + "airflow_m3h=48 static_pressure_pa=120 noise_dba=43 speed_rpm=3000"

// Published loudness of typical axial and propeller fans lies in the band that is
// told for an axial fan of which only the level is known, within the 5 % or 0.1
// sone of the source.
func TestLoudnessOfTypicalFans(t *testing.T) {
	tried := 0
	for _, r := range sources.Records[map[string]string](t, "sound_dba_vs_sone.csv") {
		if !strings.HasPrefix(r["spectrum"], "propeller") && !strings.HasPrefix(r["spectrum"], "axial") {
			continue
		}
		tried++
		at := published(t, r["dBA"])
		want := published(t, r["N_free_sone"])
		tol := math.Max(0.1, 0.05*want)
		got := loudAt(t, axial60, at, quantity.Known[quantity.SoundPressureLevel]{})
		if got.Measured || got.Low > want+tol || got.High < want-tol || got.Sone < got.Low || got.Sone > got.High {
			t.Errorf("loudness of an axial fan of %v dB(A) = %+v, want %v ± %v within (%s, one open library's ISO 532-1)", at, got, want, tol, r["spectrum"])
		}
	}
	if tried < 4 {
		t.Errorf("%d rows of typical fans, want 4", tried)
	}
}

// Measured band levels take the place of the typical spectrum.
func TestLoudnessFromBands(t *testing.T) {
	const bands = "63:30;125:33;250:36;500:38;1000:36;2000:30;4000:24;8000:18"
	got := loudAt(t, axial60+" noise_bands="+bands, 35, quantity.Known[quantity.SoundPressureLevel]{})
	levels, err := catalog.ParseBands(bands)
	if err != nil {
		t.Fatal(err)
	}
	read, err := acoustics.ReadBands(levels, acoustics.Unweighted)
	if err != nil {
		t.Fatal(err)
	}
	at := read.Thirds.ScaledTo(quantity.PressureLevel(35))
	want := loudness.Sone(&at, loudness.Free)
	if !got.Measured || !near(got.Sone, want, 1e-9) || got.Low != got.Sone || got.High != got.Sone {
		t.Errorf("loudness from bands = %+v, want %v sone, measured", got, want)
	}
	if typical := loudAt(t, axial60, 35, quantity.Known[quantity.SoundPressureLevel]{}); near(typical.Sone, got.Sone, 0.01) {
		t.Errorf("typical %v sone is what the bands say, %v: the bands are not used", typical.Sone, got.Sone)
	}
}

// What a fan adds to a room's noise falls from all of it in a silent room to
// nothing in a loud one.
func TestLoudnessAboveTheRoom(t *testing.T) {
	last := math.Inf(1)
	for _, room := range []float64{-20, 20, 30, 40, 60} {
		got := loudAt(t, axial60, 30, quantity.Stated(quantity.PressureLevel(room)))
		if !(got.Added < last) || !(got.Added >= 0) {
			t.Errorf("in a room of %v dB(A) a fan of 30 adds %v sone, want less than %v", room, got.Added, last)
		}
		if room == -20 && !near(got.Added, got.Sone, 1e-3) {
			t.Errorf("in a silent room a fan of %v sone adds %v, want all", got.Sone, got.Added)
		}
		last = got.Added
	}
	if last > 0.05 {
		t.Errorf("in a room of 60 dB(A) a fan of 30 adds %v sone, want next to none", last)
	}
	if got := loudAt(t, axial60, 30, quantity.Known[quantity.SoundPressureLevel]{}); !math.IsNaN(got.Added) {
		t.Errorf("in a room that is not known a fan adds %v sone, want NaN", got.Added)
	}
}

// The reading at the fitted fan, by bands, is its spectrum.
func TestLoudnessOfTheFittedFan(t *testing.T) {
	req := requestFor(fanOf(t, loud), NotInCatalogue, byFlow(25))
	flat := acoustics.Thirds{}
	for i := range flat {
		flat[i] = 20
	}
	req.Path.Reading = &Reading{Level: flat.A(), Distance: quantity.Metre, Bands: &flat}
	r := rankOf(t, req, fanOf(t, axial60))
	if b := r.Baseline.Loud; !b.Measured || !near(b.Sone, loudness.Sone(&flat, loudness.Free), 1e-9) {
		t.Errorf("baseline %+v, want %v sone, measured", b, loudness.Sone(&flat, loudness.Free))
	}
	if c := candidateOf(t, r, 0); c.Loud.Measured || math.IsNaN(c.Loud.Sone) {
		t.Errorf("candidate %+v, want a typical spectrum", c.Loud)
	}
}

// Fans whose kind is not stated are a tie within 3 dB, those of one stated kind
// within 1 dB.
func TestTieOfUnknownSpectra(t *testing.T) {
	const quiet = " airflow_m3h=48 static_pressure_pa=120 speed_rpm=5600 "
	fans := []*catalog.Fan{
		fanOf(t, "part=A"+frame60+quiet+"noise_dba=36"), fanOf(t, "part=B"+frame60+quiet+"noise_dba=38"),
		fanOf(t, "part=C width_mm=60 height_mm=60 depth_mm=25 voltage_v=12 supply=dc"+quiet+"noise_dba=38"),
	}
	r := rankOf(t, requestFor(fanOf(t, loud), NotInCatalogue, byFlow(25)), fans...)
	for row, want := range []bool{false, false, true} {
		if c := candidateOf(t, r, row); c.Tie != want {
			t.Errorf("%s: tie with the first = %v, want %v", fans[row].Part, c.Tie, want)
		}
	}
}

// Levels by band that do not add up to the label are told.
func TestBandsAgainstLabel(t *testing.T) {
	// 40 dB at 1 kHz, where the A-weighting is 0, and next to nothing else.
	const bands = " noise_bands=125:0;250:0;500:0;1000:40;2000:0;4000:0"
	for _, r := range []struct {
		name, pairs string
		told        bool
	}{
		{"they agree", "noise_dba=40" + bands, false},
		{"within the tolerance", "noise_dba=42.9" + bands, false},
		{"the label is lower", "noise_dba=36" + bands, true},
		{"the label is higher", "noise_dba=44" + bands, true},
		{"sound power beside sound pressure", "noise_dba=51 noise_kind=power" + bands, false},
		{"sound power by band", "noise_dba=40 noise_kind=power" + bands, false},
		{"sound power, neither", "noise_dba=45.5 noise_kind=power" + bands, true},
		{"no bands", "noise_dba=36", false},
		{"no label", strings.TrimSpace(bands), false},
	} {
		fan := fanOf(t, "part=A"+frame60+"airflow_m3h=60 static_pressure_pa=180 speed_rpm=5000 "+r.pairs)
		c := candidateOf(t, rankOf(t, requestFor(fanOf(t, loud), NotInCatalogue, byFlow(25)), fan), 0)
		told := slices.ContainsFunc(c.Cautions, func(note string) bool { return strings.HasPrefix(note, "its levels by band add up to 40.0 dB(A)") })
		if told != r.told {
			t.Errorf("%s: cautions %q, want told: %v", r.name, c.Cautions, r.told)
		}
	}
}
