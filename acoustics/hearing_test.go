package acoustics

import (
	"math"
	"testing"

	"lowsone/catalog/quantity"
)

func TestHearingThreshold(t *testing.T) {
	for _, r := range records(t, "sound_iso226_threshold.csv") {
		third, ok := ThirdOf(quantity.Frequency(number(t, r["freq_hz"])))
		if !ok {
			t.Fatalf("%s Hz is in no third octave", r["freq_hz"])
		}
		check(t, "HearingThreshold("+r["freq_hz"]+")", float64(HearingThreshold(ThirdHz(third))), number(t, r["threshold_db"]), 1e-6, r["source"])
	}
	between := HearingThreshold(quantity.Frequency(math.Sqrt(float64(ThirdHz(6) * ThirdHz(7)))))
	check(t, "HearingThreshold(112 Hz)", float64(between), (26.5+22.1)/2, 1e-6, "half-way between 100 and 125 Hz")
	for _, f := range []quantity.Frequency{0, -1, 24, 13000, quantity.Frequency(math.NaN()), quantity.Frequency(math.Inf(1))} {
		if got := HearingThreshold(f); !math.IsNaN(float64(got)) {
			t.Errorf("HearingThreshold(%v) = %v, want NaN", f, got)
		}
	}
}
