package acoustics

import (
	"math"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

// A scaled spectrum has the level asked for and its old shape.
func TestScaledTo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySpectrum(t, "s")
		s[17] = 30
		want := rapid.Float64Range(-20, 120).Draw(t, "level")
		got := s.ScaledTo(level(want))
		if math.Abs(got.A().DB()-want) > 1e-9 {
			t.Fatalf("ScaledTo(%v) has %v dB(A)", want, got.A().DB())
		}
		for i := range got {
			if d := (got[i] - got[17]) - (s[i] - s[17]); math.Abs(d) > 1e-9 {
				t.Fatalf("ScaledTo(%v) changed band %d against 1250 Hz by %v dB", want, i, d)
			}
		}
	})
}

func TestScalingSilence(t *testing.T) {
	silent := SumThirds()
	for i, l := range silent.ScaledTo(level(math.Inf(-1))) {
		if !math.IsInf(l, -1) {
			t.Errorf("silence scaled to silence: band %d = %v, want -Inf", i, l)
		}
	}
	for i, l := range silent.ScaledTo(level(40)) {
		if !math.IsNaN(l) {
			t.Errorf("silence scaled to 40 dB(A): band %d = %v, want NaN", i, l)
		}
	}
	pink := Thirds{}
	for i, l := range pink.ScaledTo(level(math.Inf(-1))) {
		if !math.IsInf(l, -1) {
			t.Errorf("pink noise scaled to silence: band %d = %v, want -Inf", i, l)
		}
	}
}

// Each band of a sum is what Sum makes of that band's levels.
func TestSumThirds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := anySpectrum(t, "a"), anySpectrum(t, "b"), anySpectrum(t, "c")
		got := SumThirds(&a, &b, &c)
		for i := range got {
			want := sumOf(a[i], b[i], c[i])
			if got[i] != want && math.Abs(got[i]-want) > 1e-9 {
				t.Fatalf("band %d of the sum of %v, %v, %v = %v, want %v", i, a[i], b[i], c[i], got[i], want)
			}
		}
	})
	a, b := Thirds{}, Thirds{5: math.NaN()}
	if sum := SumThirds(&a, &b); !math.IsNaN(sum[5]) || math.IsNaN(sum[4]) {
		t.Errorf("sum with an unknown band = %v, want NaN in band 5 alone", sum)
	}
}

// trimmed writes a number with the digits it needs.
func trimmed(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
