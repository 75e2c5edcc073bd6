package recording

import (
	"math"
	"strconv"
	"testing"

	"lowsone/acoustics"
	"lowsone/catalog/quantity"
	"lowsone/testdata/sources"
)

// A tone in white noise has the tone-to-noise ratio of its power over that of the
// noise in its critical band.
func TestToneInNoise(t *testing.T) {
	row := map[string]string{}
	for _, r := range sources.Records[map[string]string](t, "sound_tones.csv") {
		if r["id"] == "T11" {
			row = r
		}
	}
	for _, r := range []struct {
		name       string
		hz, rms    float64
		want, tol  float64
		source     string
		seconds    float64
		resolution float64
	}{
		{name: "published", hz: 1000, rms: 0.1, want: value(t, row["expected"]), tol: value(t, row["tolerance"]), source: row["source"], seconds: 10},
		{name: "200 Hz", hz: 200, rms: 0.01, tol: 0.7, seconds: 20},
		{name: "between two bins", hz: 500.37, rms: 0.005, tol: 0.7, seconds: 20},
		{name: "5 kHz", hz: 5000, rms: 0.02, tol: 0.7, seconds: 10},
	} {
		const rate, noise = 48000, 0.05
		if r.source == "" {
			width := float64(acoustics.CriticalBandwidth(quantity.Frequency(r.hz)))
			r.want = db(r.rms) - (db(noise) + 10*math.Log10(width/(rate/2)))
			r.source = "its power over the noise in its critical band"
		}
		a := analysed(t, file{rate: rate, bits: 24, channels: [][]float64{mixed(sine(rate, r.seconds, r.hz, r.rms), white(rate, r.seconds, noise, 3))}})
		if len(a.Tones) != 1 {
			t.Errorf("%s: tones %+v, want one", r.name, a.Tones)
			continue
		}
		got := a.Tones[0]
		near(t, r.name+": tone-to-noise ratio", float64(got.TNR), r.want, r.tol, r.source)
		near(t, r.name+": level", got.Level.DB(), db(r.rms), 0.3, "its rms")
		near(t, r.name+": frequency", float64(got.Frequency), r.hz, 0.1, "as made")
		if limit := acoustics.ToneToNoiseLimit(got.Frequency); got.Prominent != (r.want > float64(limit)) {
			t.Errorf("%s: prominent %v at %.1f dB, limit %.1f dB", r.name, got.Prominent, r.want, float64(limit))
		}
	}
}

// Noise alone has no tones, however short.
func TestNoTonesInNoise(t *testing.T) {
	for seed := range uint64(4) {
		for _, seconds := range []float64{2.1, 6} {
			if a := analysed(t, mono(16000, pink(16000, seconds, 0.02, seed))); len(a.Tones) > 0 {
				t.Errorf("%v s of pink noise, seed %d: tones %+v, want none", seconds, seed, a.Tones)
			}
		}
	}
}

func TestLines(t *testing.T) {
	a := analysed(t, mono(16000, sine(16000, 3, 1000, 0.1)))
	l := a.Lines()
	top := 0
	for i, v := range l.Levels {
		if v.DB() > l.Levels[top].DB() {
			top = i
		}
	}
	near(t, "highest line", float64(top)*float64(l.Step), 1000, float64(l.Step)/2, "the sine")
	if l.Step != a.Resolution() || l.Step > 1 || l.Step < 0.5 {
		t.Errorf("step %v Hz, want 0.5 to 1", l.Step)
	}
	c := a.With(Calibration{fullScale: 100})
	near(t, "calibrated line", 10*math.Log10(c.NarrowBand().Power[top]), l.Levels[top].DB()+100, 1e-9, "100 dB more")
	near(t, "calibrated tone", float64(c.Tones()[0].Level), 80, 0.01, "100 dB more than its rms")
}

// What becomes of tones: a list before, one after, and the changes in words.
func TestToneChanges(t *testing.T) {
	tones := func(hz ...float64) *Analysis {
		a := &Analysis{step: 0.7}
		for _, f := range hz {
			// A negative frequency marks a tone that is not prominent.
			a.Tones = append(a.Tones, Tone{Frequency: quantity.Frequency(math.Abs(f)), Level: FullScale{-f / 100}, Prominent: f > 0})
		}
		return a
	}
	for _, r := range []struct {
		name          string
		before, after []float64
		want          []string
	}{
		{"nothing", nil, nil, nil},
		{"the same", []float64{245, 490}, []float64{245.5, 489}, []string{"kept 245 245.5", "kept 490 489"}},
		{"gone and new", []float64{245}, []float64{1000}, []string{"gone 245", "new 1000"}},
		{"a slower fan", []float64{245, 490, 735}, []float64{196, 392, 588}, []string{"moved 245 196", "moved 490 392", "moved 735 588"}},
		{"a slower fan, another stays", []float64{245, 300, 490}, []float64{147, 294, 300}, []string{"kept 300 300", "moved 245 147", "moved 490 294"}},
		{"alone, a little", []float64{245}, []float64{220}, []string{"moved 245 220"}},
		{"alone, too far", []float64{245}, []float64{180}, []string{"gone 245", "new 180"}},
		{"sank below the limit", []float64{245}, []float64{-245}, []string{"kept 245 245"}},
		{"was never heard", []float64{-245}, []float64{-245, -300}, nil},
		{"rose above the limit", []float64{-245}, []float64{245}, []string{"kept 245 245"}},
		{"faint ones do not move", []float64{-245}, []float64{-220}, nil},
		{"the smaller move of two", []float64{245}, []float64{260, 300}, []string{"moved 245 260", "new 300"}},
		{"one moves, one no longer stands out", []float64{245, 490}, []float64{220, -440}, []string{"moved 245 220", "gone 490"}},
		{"low and close", []float64{100}, []float64{101.3}, []string{"kept 100 101.3"}},
	} {
		var got []string
		for _, c := range compareTones(tones(r.before...), tones(r.after...), 0) {
			text := c.Fate.String()
			for _, tone := range []Tone{c.Before, c.After} {
				if tone != (Tone{}) {
					text += " " + strconv.FormatFloat(float64(tone.Frequency), 'g', -1, 64)
				}
			}
			got = append(got, text)
			both := c.Before != (Tone{}) && c.After != (Tone{})
			if both == math.IsNaN(float64(c.By)) {
				t.Errorf("%s: %s by %v", r.name, text, c.By)
			}
		}
		if len(got) != len(r.want) {
			t.Errorf("%s: %q, want %q", r.name, got, r.want)
			continue
		}
		for i := range got {
			if got[i] != r.want[i] {
				t.Errorf("%s: %q, want %q", r.name, got, r.want)
			}
		}
	}
}
