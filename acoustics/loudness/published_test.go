package loudness

import (
	"math"
	"testing"

	"lowsone/acoustics"
	"lowsone/catalog/quantity"
)

// The test signals of the standard. Only of signal 1 are the levels published;
// those of the tones are computed, and their recordings may be some hundredths
// of a dB off the round level.
func TestPublishedTotals(t *testing.T) {
	expected := rowsBy(t, "sound_iso532_1_expected.csv", "case")
	for _, r := range []struct {
		name string
		tol  float64 // sone
	}{
		{"signal1", 0.00005},
		{"signal2", 0.0005},
		{"signal3", 0.002},
		{"signal4", 0.0075},
	} {
		row, l := expected[r.name], levelsOf(t, r.name)
		want := number(t, row["N_sone"])
		got := Sone(&l, Free)
		check(t, "Sone("+r.name+")", got, want, r.tol, row["source"])
		if low, high := number(t, row["N_min"]), number(t, row["N_max"]); got < low || got > high {
			t.Errorf("Sone(%s) = %v, outside %v to %v (%s)", r.name, got, low, high, row["source"])
		}
	}
}

// The band levels of the pink noise are not published. It reaches below 25 Hz,
// so that its 60 dB are not those of the 28 bands; a flat spectrum stands for it
// whose band at 1 kHz has the published specific loudness.
func TestPublishedPinkNoise(t *testing.T) {
	row := rowsBy(t, "sound_iso532_1_expected.csv", "case")["signal5"]
	l := pinkNoise()
	check(t, "Sone(pink noise)", Sone(&l, Free), number(t, row["N_sone"]), 0.05, row["source"])
}

func pinkNoise() (l acoustics.Thirds) {
	for i := range l {
		l[i] = 42.80
	}
	return l
}

// The patterns of the test signals: to the last digit where the levels are
// published, else as near as the levels are known.
func TestPublishedPatterns(t *testing.T) {
	tolerances := map[string]struct{ absolute, relative float64 }{
		"signal1": {0.00011, 0},
		"signal2": {0.0011, 0},
		"signal3": {0.0011, 0},
		"signal4": {0.0011, 0.0075},
		"signal5": {0.01, 0},
	}
	last := ""
	var p Pattern
	for _, r := range records(t, "sound_iso532_1_pattern.csv") {
		if name := r["case"]; name != last {
			l := pinkNoise()
			if name != "signal5" {
				l = levelsOf(t, name)
			}
			last, p = name, Analyse(&l, Free)
		}
		z, want := number(t, r["z_bark"]), number(t, r["specific_sone_per_bark"])
		tol := tolerances[last]
		got := p.Specific[int(math.Round(10*z))-1]
		check(t, "N′ of "+last+" at "+r["z_bark"]+" Bark", got, want, tol.absolute+tol.relative*want, "ISO 532-1:2017 annex B")
	}
}

// What an open library gives for three spectra in both fields.
func TestPublishedFans(t *testing.T) {
	shapes := fans(t)
	for _, r := range records(t, "sound_dba_vs_sone.csv") {
		l := shapes[r["spectrum"]]
		l = l.Plus(quantity.Decibel(number(t, r["dBA"]) - 40))
		call := r["spectrum"] + " at " + r["dBA"] + " dB(A)"
		free := Analyse(&l, Free)
		check(t, "free, "+call, free.Sone, number(t, r["N_free_sone"]), 0.0015, "an open library")
		check(t, "diffuse, "+call, Sone(&l, Diffuse), number(t, r["N_diffuse_sone"]), 0.0015, "an open library")
		check(t, "phon, "+call, free.Phon, number(t, r["loudness_level_phon"]), 0.055, "an open library")
	}
}

// The definition of the sone: 1 kHz at 40 dB is 1 sone, every 10 dB double it.
// With the skirts of the filters this comes out; a tone typed into one band
// alone is too soft.
func TestReferenceTone(t *testing.T) {
	tone := levelsOf(t, "reference_tone")
	for _, r := range []struct{ db, want float64 }{{40, 1}, {50, 2}, {60, 4}, {70, 8}, {80, 16}} {
		l := tone.Plus(quantity.Decibel(r.db - 40))
		p := Analyse(&l, Free)
		check(t, "sone of 1 kHz", p.Sone, r.want, 0.02*r.want, "definition of the sone")
		check(t, "phon of 1 kHz", p.Phon, r.db, 0.25, "definition of the phon")
	}
	check(t, "Sone(1 kHz, 40 dB)", Sone(&tone, Free), 1, 0.0005, "definition of the sone")
	bare := silence()
	bare[16] = 40
	check(t, "Sone(1 kHz in one band)", Sone(&bare, Free), 0.92, 0.01, "pin: without skirts a tone is some 8 % too soft")
}

func silence() (l acoustics.Thirds) {
	for i := range l {
		l[i] = math.Inf(-1)
	}
	return l
}

// Ten decibels take away about half the loudness, as the rule of thumb has it;
// for typical fans that holds at 60 dB(A).
func TestTenDecibels(t *testing.T) {
	row := rowsBy(t, "sound_perception.csv", "id")["P04"]
	for name, shape := range fans(t) {
		if name == "hairdryer_measured" || name == "pink_noise" {
			continue
		}
		table, err := NewTable(&shape, Free)
		if err != nil {
			t.Fatal(err)
		}
		check(t, "Halving("+name+", 60 dB(A))", table.Halving(60), 10, 1, row["item"]+": "+row["value"]+", "+row["source"])
	}
}
