package loudness

import (
	"math"
	"testing"

	"lowsone/acoustics"
)

// toneIn gives a tone of that level in the middle of third octave i, with the
// skirts of the filters around 1 kHz.
func toneIn(t testing.TB, i int, db float64) acoustics.Thirds {
	t.Helper()
	reference := levelsOf(t, "reference_tone")
	l := silence()
	for j := range l {
		if k := j - i + 16; k >= 0 && k < len(reference) {
			l[j] = reference[k] + db - 40
		}
	}
	return l
}

// Tones on the contours of equal loudness of 2023. The method follows those of
// 1987, and finds low tones much louder; the tolerances say by how much.
func TestEqualLoudnessContours(t *testing.T) {
	within := map[string]float64{ // phon
		"63.0": 20, "250.0": 8, "500.0": 2, "2000.0": 3, "4000.0": 4, "8000.0": 10, "12500.0": 2,
	}
	for _, r := range records(t, "sound_iso226_checks.csv") {
		hz := number(t, r["freq_hz"])
		i := int(math.Round(10*math.Log10(hz/1000))) + 16
		l := toneIn(t, i, number(t, r["spl_db"]))
		got := Analyse(&l, Free).Phon
		check(t, "phon at "+r["freq_hz"]+" Hz", got, number(t, r["phon"]), within[r["freq_hz"]], "ISO 226:2023 table B.1")
	}
}
