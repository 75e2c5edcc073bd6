package acoustics

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// The octaves of the thirds of any octaves are those octaves.
func TestThirdsKeepOctaves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var s Octaves
		for i := range s {
			s[i] = rapid.Float64Range(-60, 130).Draw(t, "level")
			if rapid.IntRange(0, 9).Draw(t, "silent") == 0 {
				s[i] = math.Inf(-1)
			}
		}
		thirds := s.Thirds()
		got := thirds.Octaves()
		for i := range s {
			if got[i] != s[i] && !(math.Abs(got[i]-s[i]) < 1e-6) {
				t.Fatalf("octave %d of the thirds of %v = %v, want %v", i, s, got[i], s[i])
			}
		}
		if thirds[27] > thirds[26] {
			t.Fatalf("12.5 kHz rises to %v from %v", thirds[27], thirds[26])
		}
	})
}

// Octaves that fall evenly make thirds that fall evenly, a third as much each.
func TestThirdsOfSlope(t *testing.T) {
	for _, slope := range []float64{-18, -6, 0, 3, 12} {
		var s Octaves
		for i := range s {
			s[i] = slope * float64(i)
		}
		thirds := s.Thirds()
		for i := 1; i < NumThirds-1; i++ {
			check(t, "step of the thirds", thirds[i]-thirds[i-1], slope/3, 1e-6, "an even slope stays one")
		}
		check(t, "12.5 kHz", thirds[27]-thirds[26], min(0, slope/3), 1e-6, "goes on, but does not rise")
	}
}

// Two octaves alone are one slope, past both of them.
func TestThirdsOfTwoOctaves(t *testing.T) {
	s := silentOctaves()
	s[3], s[4] = 50, 38
	thirds := s.Thirds()
	for i := 10; i < 15; i++ {
		check(t, "step of the thirds", thirds[i]-thirds[i-1], -4, 1e-6, "12 dB an octave")
	}
}

func TestThirdsOfUnknownAndSilentOctaves(t *testing.T) {
	s := Octaves{50, math.NaN(), 40, math.Inf(-1), 30, 30, 20, math.Inf(-1), math.Inf(-1)}
	thirds := s.Thirds()
	for i := range thirds {
		o := min(i/3, 8)
		switch want := s[o]; {
		case math.IsNaN(want) && !math.IsNaN(thirds[i]),
			math.IsInf(want, -1) && !math.IsInf(thirds[i], -1):
			t.Errorf("third %d = %v, want %v as its octave", i, thirds[i], want)
		}
	}
	check(t, "31.5 Hz of an octave alone", thirds[1], 50-float64(Identical(3)), 1e-9, "level inside")
	check(t, "25 Hz of an octave alone", thirds[0], 50-float64(Identical(3)), 1e-9, "level inside")
}

// spectrumNamed reads a row of the typical spectra, made for 40 dB(A).
func spectrumNamed(t *testing.T, name string) (s Thirds) {
	t.Helper()
	for _, r := range records(t, "sound_fan_spectra.csv") {
		if r["spectrum"] != name {
			continue
		}
		for i, nominal := range ThirdNominal {
			s[i] = number(t, r[trimmed(nominal)])
		}
		return s
	}
	t.Fatalf("no spectrum %s", name)
	return s
}

// The published spectra were drawn from octave shapes as straight lines, and so
// is what becomes of their octaves: they come back to 0.1 dB. That much is off
// since their knots lie at the nominal frequencies and ours at the exact ones.
func TestThirdsOfPublishedSpectra(t *testing.T) {
	for _, name := range []string{"propeller_octave_shape", "axial_octave_shape_a", "axial_octave_shape_b", "forward_curved_octave_shape"} {
		want := spectrumNamed(t, name)
		octaves := want.Octaves()
		got := octaves.Thirds()
		for i := range got {
			check(t, name+" at "+trimmed(ThirdNominal[i])+" Hz", got[i], want[i], 0.1, "typical octave shapes, by straight lines")
		}
	}
}

// Every published spectrum was scaled to 40 dB(A); its digits stand to 0.01 dB.
func TestPublishedSpectraAreAt40(t *testing.T) {
	for _, r := range records(t, "sound_fan_spectra.csv") {
		s := spectrumNamed(t, r["spectrum"])
		check(t, "A of "+r["spectrum"], s.A().DB(), 40, 0.02, r["source"])
	}
}
