package acoustics

import (
	"errors"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"lowsone/catalog/quantity"
)

// bands pairs frequencies with levels.
func bands(frequencies, levels []float64) (list []quantity.BandLevel) {
	for i, f := range frequencies {
		list = append(list, quantity.BandLevel{Frequency: quantity.Frequency(f), Level: quantity.Decibel(levels[i])})
	}
	return list
}

// level50 gives so many levels of 50 dB.
func level50(n int) []float64 { return slices.Repeat([]float64{50}, n) }

// shuffled gives the bands in some order, each frequency up to 2 % off.
func shuffled(t *rapid.T, list []quantity.BandLevel) []quantity.BandLevel {
	list = slices.Clone(list)
	for i := range list {
		list[i].Frequency *= quantity.Frequency(rapid.Float64Range(0.98, 1.02).Draw(t, "off"))
	}
	return rapid.Permutation(list).Draw(t, "order")
}

// Thirds come back as they were given, in any order, weighted or not; the ends
// that are missing are listed and have no sound.
func TestReadThirds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		low, high := rapid.IntRange(0, 6).Draw(t, "low"), rapid.IntRange(26, 28).Draw(t, "high")
		var want Thirds
		for i := range want {
			want[i] = rapid.Float64Range(-20, 80).Draw(t, "level")
		}
		for _, weighting := range []Weighting{Unweighted, AWeighted} {
			given := want
			if weighting == AWeighted {
				for i := range given {
					given[i] += float64(AWeighting(ThirdHz(i)))
				}
			}
			list := shuffled(t, bands(ThirdNominal[low:high], given[low:high]))
			got, err := ReadBands(list, weighting)
			if err != nil || got.Width != ThirdWide || len(got.Low) != low || len(got.High) != NumThirds-high {
				t.Fatalf("ReadBands(%v) = %+v, %v, want %d and %d missing", list, got, err, low, NumThirds-high)
			}
			for i, l := range got.Thirds {
				inside := i >= low && i < high
				if inside && math.Abs(l-want[i]) > 1e-9 || !inside && !math.IsInf(l, -1) {
					t.Fatalf("ReadBands: third %d = %v, want %v", i, l, want[i])
				}
			}
		}
	})
}

// Octaves keep their energy, A-weighted ones that of each A-weighted octave.
func TestReadOctaves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		low, high := rapid.IntRange(0, 2).Draw(t, "low"), rapid.IntRange(8, 9).Draw(t, "high")
		var given Octaves
		for i := range given {
			given[i] = rapid.Float64Range(-20, 80).Draw(t, "level")
		}
		list := shuffled(t, bands(OctaveNominal[low:high], given[low:high]))
		for _, weighting := range []Weighting{Unweighted, AWeighted} {
			got, err := ReadBands(list, weighting)
			if err != nil || got.Width != OctaveWide || len(got.Low) != low || len(got.High) != NumOctaves-high {
				t.Fatalf("ReadBands(%v) = %+v, %v, want %d and %d missing", list, got, err, low, NumOctaves-high)
			}
			if last := goOn(got.Thirds[26], got.Thirds[25], 1); got.Thirds[27] != last {
				t.Fatalf("ReadBands(%v): 12.5 kHz = %v, want %v: on with the unweighted slope", weighting, got.Thirds[27], last)
			}
			if weighting == AWeighted {
				for i := range got.Thirds {
					got.Thirds[i] += float64(AWeighting(ThirdHz(i)))
				}
			}
			for i, l := range got.Thirds.Octaves() {
				inside := i >= low && i < high
				if inside && math.Abs(l-given[i]) > 1e-6 || !inside && !math.IsInf(l, -1) {
					t.Fatalf("ReadBands(%v): octave %d = %v, want %v", weighting, i, l, given[i])
				}
			}
		}
	})
}

// An analyser's bands below 25 Hz and above 12.5 kHz are set aside.
func TestReadBandsOutside(t *testing.T) {
	f := append([]float64{16, 20, 16000, 20000}, ThirdNominal[:]...)
	got, err := ReadBands(bands(f, level50(len(f))), Unweighted)
	if err != nil || len(got.Outside) != 4 || got.Outside[0].Frequency != 16 || len(got.Low)+len(got.High) != 0 {
		t.Errorf("ReadBands(16 Hz to 20 kHz) = %+v, %v, want four bands outside, none missing", got, err)
	}
}

func TestReadBandsRefuses(t *testing.T) {
	all, octaves := ThirdNominal[:], OctaveNominal[:]
	with := func(base []float64, f ...float64) []float64 { return append(slices.Clone(base), f...) }
	without := func(base []float64, f ...float64) []float64 {
		return slices.DeleteFunc(slices.Clone(base), func(g float64) bool { return slices.Contains(f, g) })
	}
	loud := func(db float64) []float64 { l := level50(28); l[10] = db; return l }
	for _, r := range []struct {
		name        string
		frequencies []float64
		levels      []float64
		weighting   Weighting
		fault       BandFault
		want        string
	}{
		{"repeated", with(all, 1000), level50(29), 0, Repeated, `read band levels: the band at "1000" Hz stands there twice`},
		{"repeated by another name", with(all, 31), level50(29), 0, Repeated, `read band levels: the band at "31" Hz stands there twice`},
		{"repeated outside", with(all, 20, 20), level50(30), 0, Repeated, `read band levels: the band at "20" Hz stands there twice`},
		{"between bands", with(all, 900), level50(29), 0, NoBand, `read band levels: no band lies at "900" Hz, the nearest at 1000 Hz`},
		{"below all", with(all, -3), level50(29), 0, NoBand, `read band levels: no band lies at "-3" Hz, the nearest at 25 Hz`},
		{"no frequency", with(all, math.NaN()), level50(29), 0, NoBand, `read band levels: no band lies at "NaN" Hz, the nearest at 25 Hz`},
		{"endless", with(all, math.Inf(1)), level50(29), 0, NoBand, `read band levels: no band lies at "+Inf" Hz, the nearest at 12500 Hz`},
		{"ultrasound", with(all, 100000), level50(29), 0, NoBand, `read band levels: no band lies at "100000" Hz, the nearest at 12500 Hz`},
		{"NaN", all, loud(math.NaN()), 0, NoNumber, `read band levels: the level at "250" Hz is "NaN", not a number`},
		{"-Inf", all, loud(math.Inf(-1)), 0, NoNumber, `read band levels: the level at "250" Hz is "-Inf", not a number`},
		{"too loud", all, loud(130.5), 0, TooLoud, `read band levels: the level at "250" Hz is "130.5" dB, above 130 dB`},
		{"too loud unweighted", all, loud(125), AWeighted, TooLoud, `read band levels: the level at "250" Hz is "133.631" dB, above 130 dB`},
		{"middle missing", without(all, 160, 2000), level50(26), 0, MissingBands, `read band levels: third octaves between others are missing: "160", "2000" Hz`},
		{"octave missing", without(octaves, 500), level50(8), 0, MissingBands, `read band levels: octaves between others are missing: "500" Hz`},
		{"mixed", with(octaves, 400), level50(10), 0, MixedWidths, `read band levels: octaves and third octaves are mixed: at "400" Hz lies no octave`},
		{"too few thirds", all[8:], level50(20), 0, TooFewBands, `read band levels: too few third octaves: from 100 Hz to 8 kHz all are needed, not given: "100", "125" Hz`},
		{"too few octaves", octaves[:7], level50(7), 0, TooFewBands, `read band levels: too few octaves: from 125 Hz to 4 kHz all are needed, not given: "4000" Hz`},
		{"none", nil, nil, 0, TooFewBands, `read band levels: too few octaves: from 125 Hz to 4 kHz all are needed, not given: "125", "250", "500", "1000", "2000", "4000" Hz`},
	} {
		_, err := ReadBands(bands(r.frequencies, r.levels), r.weighting)
		var fault *BandError
		if !errors.As(err, &fault) || fault.Fault != r.fault || err.Error() != r.want {
			t.Errorf("%s: ReadBands error = %v, want %s", r.name, err, r.want)
		}
	}
}

// No input panics, and what is read is a spectrum without NaN.
func FuzzReadBands(f *testing.F) {
	f.Add(int64(1), 1000.0, 50.0, false)
	f.Add(int64(28), 25.0, 40.0, true)
	f.Add(int64(9), math.Inf(1), math.NaN(), true)
	f.Fuzz(func(t *testing.T, n int64, frequency, db float64, weighted bool) {
		list := bands(ThirdNominal[:], level50(NumThirds))[:max(0, min(NumThirds, n))]
		list = append(list, quantity.BandLevel{Frequency: quantity.Frequency(frequency), Level: quantity.Decibel(db)})
		weighting := Unweighted
		if weighted {
			weighting = AWeighted
		}
		got, err := ReadBands(list, weighting)
		if err == nil && math.IsNaN(got.Thirds.A().DB()) {
			t.Fatalf("ReadBands(%v) = %+v", list, got)
		}
		if err != nil && err.Error() == "" {
			t.Fatal("an error without words")
		}
	})
}

func TestThirdOf(t *testing.T) {
	for i := range NumThirds {
		for _, f := range []quantity.Frequency{ThirdHz(i), quantity.Frequency(ThirdNominal[i]), ThirdHz(i) * 1.121, ThirdHz(i) * 0.892} {
			if got, ok := ThirdOf(f); !ok || got != i {
				t.Errorf("ThirdOf(%v) = %v, %v, want %v", f, got, ok, i)
			}
		}
	}
	for _, f := range []quantity.Frequency{0, -5, 22.3, 14200, quantity.Frequency(math.NaN()), quantity.Frequency(math.Inf(1))} {
		if i, ok := ThirdOf(f); ok {
			t.Errorf("ThirdOf(%v) = %v, want none", f, i)
		}
	}
}
