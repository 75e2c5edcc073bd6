package cli

import (
	"math"
	"testing"

	"lowsone/catalog"
)

// Bands alone tell the level of the fitted fan; a level that is given stands.
func TestFittedBands(t *testing.T) {
	const octaves = "noise_bands=63:45.2;125:48.2;250:52.2;500:54.1;1000:49.3;2000:46.6;4000:41.8;8000:38.3" // 55 dB(A)
	for _, r := range []struct {
		name   string
		values []string
		want   float64
	}{
		{"bands", []string{octaves}, 55},
		{"bands and level", []string{octaves, "noise_dba=50"}, 50},
	} {
		var f fittedFlags
		for _, v := range r.values {
			if err := f.readField(v); err != nil {
				t.Fatal(err)
			}
		}
		got := f.overrule(&catalog.Fan{Part: "A1"})
		if level, ok := got.Noise.Get(); !ok || math.Abs(float64(level)-r.want) > 0.3 || len(got.NoiseBands) != 8 {
			t.Errorf("%s: level %v, %v, %d bands; want %v dB(A) and 8", r.name, level, ok, len(got.NoiseBands), r.want)
		}
	}
}
