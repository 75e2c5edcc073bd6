package acoustics

import (
	"math"
	"testing"
)

// Loudness rises with level, without a step beyond the 0.0005 sone at 40 phon.
func TestLoudnessShape(t *testing.T) {
	const step = 0.01
	last, lastPhon := 0.0, Phon(level(-20))
	for db := -20 + step; db < 120; db += step {
		phon, sone := Phon(level(db)), SoneOf(level(db))
		if phon <= lastPhon || phon-lastPhon > 2*step || sone < last {
			t.Fatalf("at %v dB(A): %v phon after %v, %v sone after %v", db, phon, lastPhon, sone, last)
		}
		last, lastPhon = sone, phon
	}
	for phon := 5.0; phon < 40; phon++ {
		check(t, "phon of Sone", 40*math.Pow(Sone(phon)+0.0005, 0.35), phon, 1e-9, "ISO 532-1 the other way round, from memory")
	}
	check(t, "Sone(40)", Sone(40), 1, 0, "definition of the sone")
	check(t, "Sone under 40", Sone(40-1e-9), 0.9995, 1e-6, "ISO 532-1, the lower branch")
	for _, phon := range []float64{-10, 0, 1} {
		if got := Sone(phon); got != 0 {
			t.Errorf("Sone(%v) = %v, want 0", phon, got)
		}
	}
}

func TestPhonKnots(t *testing.T) {
	for _, r := range []struct{ dba, want float64 }{
		{-5, -5}, {0, 0}, {10, 11}, {20, 22}, {25, 31.5}, {30, 41}, {40, 57}, {45, 62.5}, {50, 68}, {60, 78},
	} {
		check(t, "Phon", Phon(level(r.dba)), r.want, 1e-12, "interim offsets, an estimate")
	}
}
