package acoustics

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"lowsone/catalog/quantity"
)

// The formula at exact frequencies against the standard's table, which is
// rounded to 0.1 dB: no row differs by more than half of that.
func TestWeightings(t *testing.T) {
	for _, r := range records(t, "sound_weighting_iec61672.csv") {
		// The exact frequency is 10^(n/10) Hz; the column is rounded.
		n := math.Round(10 * math.Log10(number(t, r["exact_base10_hz"])))
		f := quantity.Frequency(math.Pow(10, n/10))
		const source = "IEC 61672-1 table of weightings"
		check(t, "AWeighting("+r["nominal_hz"]+")", float64(AWeighting(f)), number(t, r["A_table_db"]), 0.05, source)
		if r["C_table_db"] != "" {
			check(t, "CWeighting("+r["nominal_hz"]+")", float64(CWeighting(f)), number(t, r["C_table_db"]), 0.05, source)
		}
	}
}

func TestWeightingOutsideRange(t *testing.T) {
	for name, weighting := range map[string]func(quantity.Frequency) quantity.Decibel{"A": AWeighting, "C": CWeighting} {
		if got := float64(weighting(0)); !math.IsInf(got, -1) {
			t.Errorf("%sWeighting(0) = %v, want -Inf", name, got)
		}
		if got := float64(weighting(-100)); !math.IsNaN(got) {
			t.Errorf("%sWeighting(-100) = %v, want NaN", name, got)
		}
		if got := float64(weighting(1000)); got != 0 {
			t.Errorf("%sWeighting(1000) = %v, want 0", name, got)
		}
	}
}

// anySpectrum draws a spectrum, some of its bands without sound.
func anySpectrum(t *rapid.T, name string) (s Thirds) {
	for i := range s {
		s[i] = rapid.Float64Range(-60, 130).Draw(t, name)
		if rapid.IntRange(0, 9).Draw(t, "silent") == 0 {
			s[i] = math.Inf(-1)
		}
	}
	return s
}

// One band alone is weighted by the formula; a sum of bands is at least its
// loudest and at most 10·lg 28 above it; all three fall and rise with the
// spectrum.
func TestSumsOfBands(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySpectrum(t, "s")
		loudest := math.Inf(-1)
		for _, l := range s {
			loudest = max(loudest, l)
		}
		if math.IsInf(loudest, -1) {
			return
		}
		if z := float64(s.Overall()); z < loudest || z > loudest+float64(Identical(NumThirds))+1e-9 {
			t.Fatalf("Overall(%v) = %v, want %v to 14.5 dB more", s, z, loudest)
		}
		d := rapid.Float64Range(-50, 50).Draw(t, "d")
		up := s.Plus(quantity.Decibel(d))
		for _, diff := range []float64{float64(up.A().Above(s.A())), float64(up.C() - s.C()), float64(up.Overall() - s.Overall())} {
			if math.Abs(diff-d) > 1e-9 {
				t.Fatalf("%v dB on every band changed a level by %v", d, diff)
			}
		}
		i := rapid.IntRange(0, NumThirds-1).Draw(t, "band")
		one := SumThirds()
		one[i] = 40
		if got, want := one.A().DB(), 40+float64(AWeighting(ThirdHz(i))); math.Abs(got-want) > 1e-9 {
			t.Fatalf("A of 40 dB in band %d alone = %v, want %v", i, got, want)
		}
		if got, want := float64(one.C()), 40+float64(CWeighting(ThirdHz(i))); math.Abs(got-want) > 1e-9 {
			t.Fatalf("C of 40 dB in band %d alone = %v, want %v", i, got, want)
		}
	})
}

func TestOctaveLevels(t *testing.T) {
	for i := range NumOctaves {
		one := Octaves{}
		for j := range one {
			one[j] = math.Inf(-1)
		}
		one[i] = 50
		check(t, "A of one octave", one.A().DB(), 50+float64(AWeighting(OctaveHz(i))), 1e-9, "its weighting")
		check(t, "C of one octave", float64(one.C()), 50+float64(CWeighting(OctaveHz(i))), 1e-9, "its weighting")
		check(t, "Overall of one octave", float64(one.Overall()), 50, 1e-9, "no weighting")
	}
}

func TestUnknownAndSilentSpectra(t *testing.T) {
	silent := SumThirds()
	unknown := silent
	unknown[3] = math.NaN()
	for _, r := range []struct {
		name string
		got  float64
		want float64
	}{
		{"A of silence", silent.A().DB(), math.Inf(-1)},
		{"C of silence", float64(silent.C()), math.Inf(-1)},
		{"Overall of silence", float64(silent.Overall()), math.Inf(-1)},
		{"A of an unknown band", unknown.A().DB(), math.NaN()},
		{"C of an unknown band", float64(unknown.C()), math.NaN()},
		{"Overall of an unknown band", float64(unknown.Overall()), math.NaN()},
	} {
		if r.got != r.want && !(math.IsNaN(r.got) && math.IsNaN(r.want)) {
			t.Errorf("%s = %v, want %v", r.name, r.got, r.want)
		}
	}
}
