package recording

import (
	"errors"
	"math"
	"strings"
	"testing"

	"lowsone/acoustics"
	"lowsone/acoustics/loudness"
	"lowsone/catalog/quantity"
	"lowsone/testdata/sources"
)

func calibrated(t *testing.T, a *Analysis, dba float64) *Calibrated {
	t.Helper()
	c, err := a.Calibrate(quantity.PressureLevel(dba))
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func TestCalibrate(t *testing.T) {
	a := analysed(t, file{rate: 44100, bits: 24, channels: [][]float64{mixed(pink(44100, 5, 0.003, 1), sine(44100, 5, 100, 0.02))}})
	c := calibrated(t, a, 52)
	near(t, "A-weighted level", c.Level().Equivalent.DB(), 52, 1e-9, "as shown")
	near(t, "largest level", float64(c.Level().Max.Above(c.Level().Equivalent)), float64(a.Level.Max.Above(a.Level.Equivalent)), 1e-9, "as before")
	near(t, "a band", c.Thirds()[10], a.Thirds[10].DB()+float64(c.Calibration().FullScale()), 1e-9, "the scale")
	near(t, "a second", c.Trace()[1].DB(), a.Trace.Levels[1].DB()+float64(c.Calibration().FullScale()), 1e-9, "the scale")
	// The meter may have shown any weighting: the scale comes out the same.
	byC, err := a.CalibrateC(c.C())
	if err != nil {
		t.Fatal(err)
	}
	near(t, "scale by C", float64(byC.Calibration().FullScale()), float64(c.Calibration().FullScale()), 1e-9, "scale by A")
	byZ, err := a.CalibrateOverall(c.Overall())
	if err != nil {
		t.Fatal(err)
	}
	near(t, "scale unweighted", float64(byZ.Calibration().FullScale()), float64(c.Calibration().FullScale()), 1e-9, "scale by A")
	if c.C() < c.Overall()-1 || float64(c.C()) < 52+5 {
		t.Errorf("C %v dB, unweighted %v dB, want the 100 Hz tone in both, which A takes down", c.C(), c.Overall())
	}
	if c.Calibration().From() != "fan.wav" || c.Analysis().Level != a.Level {
		t.Errorf("calibration from %q", c.Calibration().From())
	}
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), -0.1, 130.1} {
		if _, err := a.Calibrate(quantity.PressureLevel(bad)); !errors.Is(err, ErrLevel) {
			t.Errorf("Calibrate(%v) = %v, want ErrLevel", bad, err)
		}
		if _, err := a.CalibrateC(quantity.Decibel(bad)); !errors.Is(err, ErrLevel) {
			t.Errorf("CalibrateC(%v) = %v, want ErrLevel", bad, err)
		}
	}
}

// From a file to sone: the test signals of the standard that can be made here.
// Pink noise has, as in the package loudness, the level of the published specific
// loudness at 1 kHz in each band.
func TestLoudnessFromFile(t *testing.T) {
	expected := map[string]map[string]string{}
	for _, r := range sources.Records[map[string]string](t, "sound_iso532_1_expected.csv") {
		expected[r["case"]] = r
	}
	const rate, seconds = 48000, 6
	for _, r := range []struct {
		name    string
		samples []float64
		scale   quantity.Decibel // of full scale
	}{
		{"signal2", sine(rate, seconds, 250, 0.1), 100},
		{"signal3", sine(rate, seconds, 1000, 0.1), 80},
		{"signal4", sine(rate, seconds, 4000, 0.1), 60},
		{"signal5", pink(rate, 20, 0.01, 1), 42.80 + 40},
	} {
		row := expected[r.name]
		a := analysed(t, file{rate: rate, bits: 24, channels: [][]float64{r.samples}})
		p, err := a.With(Calibration{fullScale: r.scale}).Loudness(loudness.Free)
		if low, high := value(t, row["N_min"]), value(t, row["N_max"]); err != nil || !(p.Sone >= low && p.Sone <= high) {
			t.Errorf("loudness of %s = %v sone, %v, want %v to %v (%s)", r.name, p.Sone, err, low, high, row["source"])
		}
	}
	_, err := calibrated(t, analysed(t, mono(16000, white(16000, 3, 0.1, 1))), 50).Loudness(loudness.Free)
	if !errors.Is(err, ErrBands) || !strings.Contains(err.Error(), "8000 Hz") {
		t.Errorf("loudness at 16 kHz: %v, want an error that names the band", err)
	}
}

func TestCompare(t *testing.T) {
	const rate = 44100
	scaled := func(seed uint64, by, tone float64) *Analysis {
		s := pink(rate, 11, 0.005*by, seed)
		return analysed(t, mono(rate, mixed(s, sine(rate, 11, tone, 0.04*by))))
	}
	before, after := scaled(1, 1, 245), scaled(2, 0.5, 210)
	c := Compare(before, after)
	both := func(tone quantity.Frequency) float64 {
		return 10 * math.Log10(ratio(pinkA(0.005))+ratio(db(0.04)+float64(acoustics.AWeighting(tone))))
	}
	near(t, "A-weighted change", float64(c.Level.By), db(0.5)+both(210)-both(245), 0.1, "as made")
	for i, d := range c.Thirds {
		if i < 7 || i > 12 { // the tones lie there
			near(t, "change of a band", float64(d.By), db(0.5), 4*float64(d.Spread), "as made, within 4 standard deviations")
		}
	}
	if c.Level.Spread <= 0 || c.Level.Spread > 0.1 {
		t.Errorf("spread of the level %v dB, want above 0 and under 0.1", c.Level.Spread)
	}
	if c.Basis != SameGain || c.Loudness.Known() || !strings.Contains(c.Basis.Premise(), "automatic gain control") {
		t.Errorf("without a calibration: %v, loudness %v, %q", c.Basis, c.Loudness, c.Basis.Premise())
	}
	if len(c.Tones) != 1 || c.Tones[0].Fate != Moved || math.Abs(float64(c.Tones[0].By)-db(0.5)) > 0.5 {
		t.Errorf("tones %+v, want one that moved and fell by 6 dB", c.Tones)
	}
	if len(c.Doubts) > 0 {
		t.Errorf("doubts %q, want none", c.Doubts)
	}
}

func TestCompareCalibrated(t *testing.T) {
	const rate = 44100
	before := analysed(t, mono(rate, pink(rate, 11, 0.01, 1)))
	after := analysed(t, mono(rate, pink(rate, 11, 0.005, 2)))
	b := calibrated(t, before, 50)
	one := CompareCalibrated(b, after.With(b.Calibration()), loudness.Free)
	near(t, "change by one calibration", float64(one.Level.By), db(0.5), 0.1, "as made")
	if one.Basis != OneCalibration {
		t.Errorf("basis %v, want one calibration", one.Basis)
	}
	// A second reading says that the gain was another: nothing changed.
	own := CompareCalibrated(b, calibrated(t, after, 50), loudness.Free)
	near(t, "change by two calibrations", float64(own.Level.By), 0, 1e-9, "two equal readings")
	near(t, "change of a band", float64(own.Thirds[16].By), 0, 4*float64(own.Thirds[16].Spread), "two equal readings")
	if own.Basis != OwnCalibrations || strings.Contains(own.Basis.Premise(), "gain") {
		t.Errorf("basis %v, %q, want their own calibrations", own.Basis, own.Basis.Premise())
	}
	l, ok := one.Loudness.Get()
	want, err := b.Loudness(loudness.Free)
	if !ok || err != nil || l.Before != want.Sone || !(l.Ratio() > 0.55 && l.Ratio() < 0.7) {
		t.Errorf("loudness %+v, %v, want %v sone before and 0.55 to 0.7 of it after", l, ok, want.Sone)
	}
	if !math.IsNaN(LoudnessChange{0, 1}.Ratio()) {
		t.Errorf("ratio to nothing = %v, want NaN", LoudnessChange{0, 1}.Ratio())
	}
}

// The mean of seconds that scatter is known the better the more there are.
func TestSpreadOfTrace(t *testing.T) {
	var trace Trace
	for range 8 {
		trace.Levels = append(trace.Levels, FullScale{-41}, FullScale{-39})
	}
	near(t, "spread of the mean of 16 seconds", float64(trace.spread()), math.Sqrt(16.0/15)/4, 1e-12, "standard deviation over √16")
	if got := (Trace{Levels: trace.Levels[:1]}).spread(); !math.IsNaN(float64(got)) {
		t.Errorf("spread of one second = %v, want unknown", got)
	}
}

// What speaks against a comparison is told.
func TestDoubts(t *testing.T) {
	good := analysed(t, file{rate: 44100, bits: 24, channels: [][]float64{white(44100, 11, 0.05, 1)}})
	clipped := analysed(t, mono(16000, white(16000, 11, 0.5, 1)))
	c := CompareCalibrated(calibrated(t, good, 50), calibrated(t, clipped, 50), loudness.Diffuse)
	for _, want := range []string{"written differently", "clipped", "8000 Hz"} {
		if !strings.Contains(strings.Join(c.Doubts, "\n"), want) {
			t.Errorf("doubts %q, want %q among them", c.Doubts, want)
		}
	}
	if !math.IsNaN(float64(c.Thirds[acoustics.NumThirds-1].By)) || c.Loudness.Known() {
		t.Errorf("a band that one does not have = %v, loudness %v, want both unknown", c.Thirds[acoustics.NumThirds-1].By, c.Loudness)
	}
}
