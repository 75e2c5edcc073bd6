package acoustics

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// smooth draws a spectrum that rises and falls by at most 3 dB a band.
func smooth(t *rapid.T) (s Thirds) {
	s[0] = rapid.Float64Range(0, 60).Draw(t, "first")
	for i := 1; i < NumThirds; i++ {
		s[i] = s[i-1] + rapid.Float64Range(-3, 3).Draw(t, "step")
	}
	return s
}

// The A-weighted level is the speed law's at every speed, for any spectrum.
func TestSpectrumFollowsSpeedLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, r := smooth(t), rapid.Float64Range(0.1, 3).Draw(t, "r")
		want, extrapolated := AtSpeed(s.A(), r)
		got, mark := s.AtSpeed(r)
		if math.Abs(got.A().DB()-want.DB()) > 1e-9 || mark != extrapolated {
			t.Fatalf("AtSpeed(%v) has %v dB(A), %v, want %v, %v", r, got.A().DB(), mark, want.DB(), extrapolated)
		}
	})
}

// What lies in the middle keeps its energy when it is moved within the bands.
func TestShiftKeepsEnergy(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := SumThirds()
		for i := 10; i < 18; i++ {
			s[i] = rapid.Float64Range(-20, 90).Draw(t, "level")
		}
		by := rapid.Float64Range(-10, 9).Draw(t, "by")
		got := s.shifted(by)
		if math.Abs(float64(got.Overall()-s.Overall())) > 1e-9 {
			t.Fatalf("shifted(%v) of %v has %v dB, want %v", by, s, got.Overall(), s.Overall())
		}
	})
}

// At its own speed a spectrum stays as it is, and 10^(n/10) of it moves it by n
// bands exactly.
func TestSpectrumMovesWholeBands(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySpectrum(t, "s")
		s[14] = 60
		if got, _ := s.AtSpeed(1); got != s {
			t.Fatalf("AtSpeed(1) = %v, want %v", got, s)
		}
		n := rapid.IntRange(-8, 5).Draw(t, "bands")
		got, _ := s.AtSpeed(math.Pow(10, float64(n)/10))
		for i := max(0, n); i < min(NumThirds, NumThirds+n); i++ {
			if d := (got[i] - got[14+n]) - (s[i-n] - s[14]); got[i] != s[i-n] && math.Abs(d) > 1e-9 {
				t.Fatalf("AtSpeed(10^%v/10): band %d is %v dB off band %d before", n, i, d, i-n)
			}
		}
	})
}

// An even slope that falls goes on beyond the ends; one that rises outwards goes
// on level.
func TestSlopesBeyondTheEnds(t *testing.T) {
	for _, r := range []struct {
		name      string
		slope, by float64
		band      int
		want      float64 // against what the band had before
	}{
		{"falling, from above", -2, -2.5, 27, -5},
		{"falling, from below", -2, 2.5, 0, 0},
		{"rising, from below", 2, 2.5, 0, -5},
		{"rising, from above", 2, -2.5, 27, 0},
		{"falling, inside", -2, 2.5, 14, 5},
	} {
		var s Thirds
		for i := range s {
			s[i] = r.slope * float64(i)
		}
		got := s.shifted(r.by)
		check(t, r.name, got[r.band]-s[r.band], r.want, 1e-9, "slopes go on, and do not rise outwards")
	}
}

// Energy slopes over a band as towards the flatter neighbour, not at all in a
// peak or a valley; its share at the top follows.
func TestSlopeOfBand(t *testing.T) {
	for _, r := range []struct{ below, here, above, want float64 }{
		{0, 2, 5, 2}, {0, 3, 5, 2}, {5, 3, 0, -2}, {5, 2, 0, -2}, {0, 0.5, -4, 0}, {0, -0.5, 4, 0}, {1, 1, 9, 0},
	} {
		s := Thirds{3: r.below, 4: r.here, 5: r.above}
		check(t, "slope", s.slope(4), r.want, 1e-12, "the flatter neighbour")
	}
	check(t, "topShare(0, 0.3)", topShare(0, 0.3), 0.3, 1e-12, "even")
	check(t, "topShare(3.0103, 0.5)", topShare(decibel(2), 0.5), 1/(1+1/math.Sqrt2), 1e-9, "twice the energy at the top as at the bottom")
	check(t, "topShare(-3.0103, 0.5)", topShare(-decibel(2), 0.5), 1/(1+math.Sqrt2), 1e-9, "half of it")
	check(t, "topShare(9000, 0.1)", topShare(9000, 0.1), 1, 1e-12, "all at the top")
	check(t, "topShare(-9000, 0.1)", topShare(-9000, 0.1), 0, 1e-12, "all at the bottom")
}

// A round spectrum that is slowed and sped up again comes back, but for what the
// ends had to make up.
func TestThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		top := rapid.Float64Range(-5, 33).Draw(t, "top")
		round := rapid.Float64Range(0, 0.06).Draw(t, "round") // dB per band squared: VDI 2081 has 0.05
		var s Thirds
		for i := range s {
			s[i] = 40 - round*(float64(i)-top)*(float64(i)-top)
		}
		comesBack(t, &s, rapid.Float64Range(-3, 3).Draw(t, "by"), 0.05)
	})
}

// The bent lines of typical spectra lose 0.55 dB at most, at their bends.
func TestTypicalSpectraThereAndBack(t *testing.T) {
	for _, r := range records(t, "sound_fan_spectra.csv") {
		if s := spectrumNamed(t, r["spectrum"]); r["kind"] == "typical-shape" {
			comesBack(t, &s, 1.5, 0.55)
		}
	}
}

func comesBack(t rapid.TB, s *Thirds, by, tol float64) {
	t.Helper()
	there := s.shifted(by)
	back := there.shifted(-by)
	for i := 5; i < NumThirds-5; i++ {
		if !(math.Abs(back[i]-s[i]) <= tol) {
			t.Fatalf("by %v and back: band %d of %v = %v, want %v ± %v", by, i, s, back[i], s[i], tol)
		}
	}
}

func TestSpectrumAtNoSpeed(t *testing.T) {
	pink := Thirds{}
	still, extrapolated := pink.AtSpeed(0)
	if !math.IsInf(still.A().DB(), -1) || !extrapolated {
		t.Errorf("AtSpeed(0) = %v, %v, want no sound, extrapolated", still, extrapolated)
	}
	for _, r := range []float64{-1, math.NaN(), math.Inf(1)} {
		if got, _ := pink.AtSpeed(r); !math.IsNaN(got[0]) || !math.IsNaN(got[27]) {
			t.Errorf("AtSpeed(%v) = %v, want NaN in every band", r, got)
		}
	}
	silent := SumThirds()
	if got, _ := silent.AtSpeed(0.7); got != silent {
		t.Errorf("silence at 0.7 of its speed = %v, want silence", got)
	}
	one := SumThirds()
	one[1] = 40
	if got, _ := one.AtSpeed(0.5); !math.IsNaN(got[0]) {
		t.Errorf("31.5 Hz alone at half speed = %v, want NaN: nothing is left in these bands", got)
	}
}
