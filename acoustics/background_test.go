package acoustics

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// What was added is taken away again, within the limits of a correction; under
// them the result still bounds the source from above.
func TestSubtractUndoesSum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		source := rapid.Float64Range(10, 60).Draw(t, "source")
		background := rapid.Float64Range(0, 60).Draw(t, "background")
		total := Sum(level(source), level(background))
		got, how, err := Subtract(total, level(background))
		if err != nil {
			if source > background-100 {
				t.Fatalf("Subtract(%v, %v): %v", total, background, err)
			}
			return
		}
		off := got.DB() - source
		switch {
		case how == Corrected && math.Abs(off) > 1e-6,
			how == None && (off < 0 || off > 0.46), // 10·lg(1 + 0.1/0.9) dB at the limit
			how == UpperBound && off < -1e-9:
			t.Fatalf("Subtract(%v, %v) = %v (%v), want %v", total, background, got, how, source)
		}
	})
}

func TestSubtractLimits(t *testing.T) {
	rows := []struct {
		name              string
		total, background float64
		how               Background
		want, tol         float64
	}{
		{"far", 40, 29.9, None, 40, 0},
		{"at 10 dB", 40, 30, Corrected, 39.542, 0.001},
		{"at 3 dB", 40, 37, Corrected, 36.979, 0.001},
		{"at 3 dB, rounded", 40.1 - 0.1 + 3e-15, 37 + 1e-14, Corrected, 36.979, 0.001},
		{"under 3 dB", 40, 37.1, UpperBound, 36.979, 0.001},
		{"hardly above", 40, 39.999, UpperBound, 36.979, 0.001},
		{"no background", 40, math.Inf(-1), None, 40, 0},
	}
	for _, r := range rows {
		got, how, err := Subtract(level(r.total), level(r.background))
		if err != nil || how != r.how || !(math.Abs(got.DB()-r.want) <= r.tol) {
			t.Errorf("%s: Subtract(%v, %v) = %v, %v, %v, want %v ± %v, %v (limits of ISO 3746)",
				r.name, r.total, r.background, got.DB(), how, err, r.want, r.tol, r.how)
		}
	}
	const want = `subtract background: the background of "35" dB(A) is not below the "34.5" dB(A) measured with the source on`
	if _, _, err := Subtract(level(34.5), level(35)); err == nil || err.Error() != want {
		t.Errorf("Subtract(34.5, 35) error = %v, want %s", err, want)
	}
	for _, background := range []float64{40, 41, math.NaN()} {
		if _, _, err := Subtract(level(40), level(background)); err == nil {
			t.Errorf("Subtract(40, %v): no error", background)
		}
	}
}
