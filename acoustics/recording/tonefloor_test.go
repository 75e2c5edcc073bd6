package recording

import (
	"math"
	"testing"

	"lowsone/acoustics"
	"lowsone/catalog/quantity"
)

// A clean tone is one tone: what the steps of 16 bits and more, and of floating
// point, make of it is none, however weak the tone is.
func TestCleanToneIsAlone(t *testing.T) {
	for _, f := range []file{{bits: 16}, {bits: 24}, {bits: 32, float: true}} {
		for _, hz := range []float64{441, 997.3, 10000} {
			for _, rms := range []float64{0.5, 0.001} {
				f.rate, f.channels = 44100, [][]float64{sine(44100, 2.2, hz, rms)}
				a := analysed(t, f)
				if len(a.Tones) != 1 {
					t.Errorf("%d bits, float %v, %v Hz of %v: tones %+v, want one", f.bits, f.float, hz, rms, a.Tones)
					continue
				}
				near(t, "frequency", float64(a.Tones[0].Frequency), hz, a.step/2, "as made")
			}
		}
	}
}

// A calibrated recording has no tone below the threshold of hearing; the analysis
// it was made from keeps them all.
func TestNothingBelowHearing(t *testing.T) {
	a := analysed(t, file{rate: 48000, bits: 24, channels: [][]float64{mixed(
		sine(48000, 2.2, 100, 0.1), sine(48000, 2.2, 1000, 0.01), sine(48000, 2.2, 3150, 0.001), white(48000, 2.2, 1e-6, 5))}})
	if len(a.Tones) != 3 {
		t.Fatalf("tones %+v, want three", a.Tones)
	}
	for _, r := range []struct {
		fullScale quantity.Decibel
		want      []float64 // Hz
	}{
		{47, []float64{100, 1000}}, // 27, 7, -13 dB: the last below -6 dB
		{46, []float64{1000}},      // 26, 6, -14 dB: 100 Hz below 26.5 dB
		{80, []float64{100, 1000, 3150}},
	} {
		c := a.With(Calibration{fullScale: r.fullScale})
		for i, tone := range c.Analysis().Tones {
			if over := c.absolute(tone.Level) - acoustics.HearingThreshold(tone.Frequency); over < 0 || i >= len(r.want) || math.Abs(float64(tone.Frequency)-r.want[i]) > 1 {
				t.Errorf("full scale %v dB: a tone at %v Hz, %v dB over hearing; want %v Hz", r.fullScale, tone.Frequency, over, r.want)
			}
		}
		if len(c.Tones()) != len(r.want) || len(c.Analysis().Tones) != len(r.want) || len(a.Tones) != 3 {
			t.Errorf("full scale %v dB: tones %+v, want at %v Hz", r.fullScale, c.Tones(), r.want)
		}
	}
}
