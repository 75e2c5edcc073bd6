package acoustics

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"lowsone/catalog/quantity"
)

func levels(t *rapid.T) []quantity.SoundPressureLevel {
	var list []quantity.SoundPressureLevel
	for _, v := range rapid.SliceOfN(rapid.Float64Range(-200, 400), 1, 12).Draw(t, "levels") {
		list = append(list, level(v))
	}
	return list
}

// A sum is at least its largest term, at most that of so many equal ones, and
// does not depend on the order.
func TestSumBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ls := levels(t)
		largest := math.Inf(-1)
		for _, l := range ls {
			largest = math.Max(largest, l.DB())
		}
		got := Sum(ls...).DB()
		if most := largest + float64(Identical(len(ls))); got < largest || got > most+1e-9 {
			t.Fatalf("Sum(%v) = %v, want %v to %v", ls, got, largest, most)
		}
		back := make([]quantity.SoundPressureLevel, len(ls))
		for i, l := range ls {
			back[len(ls)-1-i] = l
		}
		if reversed := Sum(back...).DB(); math.Abs(reversed-got) > 1e-9 {
			t.Fatalf("Sum backwards = %v, forwards %v", reversed, got)
		}
	})
}

func TestSumOfSilence(t *testing.T) {
	silence := level(math.Inf(-1))
	if got := Sum().DB(); !math.IsInf(got, -1) {
		t.Errorf("Sum() = %v, want -Inf", got)
	}
	if got := Sum(silence, silence).DB(); !math.IsInf(got, -1) {
		t.Errorf("Sum(-Inf, -Inf) = %v, want -Inf", got)
	}
	if got := Sum(silence, level(30)).DB(); got != 30 {
		t.Errorf("Sum(-Inf, 30) = %v, want 30", got)
	}
	if got := Sum(level(math.NaN()), level(30)).DB(); !math.IsNaN(got) {
		t.Errorf("Sum(NaN, 30) = %v, want NaN", got)
	}
}
