package acoustics

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lowsone/catalog/quantity"
)

func TestHowHeard(t *testing.T) {
	for _, r := range []struct {
		f, g quantity.Frequency
		want Hearing
	}{
		{175, 175, AsOne}, {175, 176.4, Swelling}, {175, 179, Swelling}, {175, 180, Flutter}, {195, 175, Flutter},
		{175, 196, Rough}, {175, 270, Rough}, {175, 300, Apart}, {2000, 2250, Rough}, {2000, 2310, Apart},
		{175, quantity.Frequency(math.NaN()), Apart},
	} {
		if got := HowHeard(r.f, r.g); got != r.want || HowHeard(r.g, r.f) != r.want {
			t.Errorf("HowHeard(%v, %v) = %v, want %v (limits of Fastl and Zwicker)", r.f, r.g, got, r.want)
		}
	}
}

// The limits as published; of the change to roughness the upper end.
func TestBeatLimits(t *testing.T) {
	rows := records(t, "sound_beats.csv")
	for _, r := range []struct {
		id   string
		name string
		got  float64
	}{{"B01", "mostFluctuation", mostFluctuation}, {"B02", "fluctuationEnds", fluctuationEnds}, {"B04", "roughnessEnds", roughnessEnds}} {
		row := recordOf(t, rows, r.id)
		value := row["value"]
		if _, end, found := strings.Cut(value, "-"); found {
			value = end
		}
		check(t, r.name, r.got, number(t, value), 0, row["item"]+", "+row["source"])
	}
}

func TestBeatPeak(t *testing.T) {
	compare(t, "sound_tones.csv", []published{
		{id: "T17", call: "BeatPeak(0)", got: float64(BeatPeak(0)), item: 0},
	})
	check(t, "BeatPeak(20)", float64(BeatPeak(20)), 0.828, 0.0005, "20·lg 1.1")
	check(t, "BeatPeak(Inf)", float64(BeatPeak(quantity.Decibel(math.Inf(1)))), 0, 0, "one tone alone")
}

// Speeds as far apart as told are heard as told, a little less far they are not.
func TestSpeedsApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		blades := float64(rapid.IntRange(3, 13).Draw(t, "blades"))
		n := quantity.Speed(rapid.Float64Range(5, 200).Draw(t, "n"))
		steady, distinct := SpeedsApart(blades, n)
		heard := func(more quantity.Speed) Hearing { return HowHeard(BladeTone(blades, n), BladeTone(blades, n+more)) }
		if !(steady < distinct) || heard(distinct*1.001) != Apart || heard(distinct*0.999) != Rough || heard(steady*1.001) != Rough || heard(steady*0.999) != Flutter {
			t.Fatalf("SpeedsApart(%v, %v) = %v, %v: heard as %v and %v", blades, n, steady, distinct, heard(steady), heard(distinct))
		}
	})
}

// Two fans of the reference beat slowly.
func TestBeatOfReferenceFans(t *testing.T) {
	f, g := BladeTone(7, 1500*rpm), BladeTone(7, 1512*rpm)
	if got := HowHeard(f, g); got != Swelling {
		t.Errorf("HowHeard(%v, %v) = %v, want %v", f, g, got, Swelling)
	}
	steady, distinct := SpeedsApart(7, 1500*rpm)
	check(t, "steady", float64(steady/rpm), 171.4, 0.05, "20 Hz over 7 blades")
	check(t, "distinct", float64(distinct/rpm), 889, 0.5, "pin: our own figure")
}

func TestHarmonics(t *testing.T) {
	got := Harmonics(BladeTone(7, 2100*rpm), 3)
	want := []Harmonic{{1, 245, 10}, {2, 490, 13}, {3, 735, 15}}
	for i := range want {
		if len(got) != 3 || got[i].Order != want[i].Order || got[i].Third != want[i].Third || math.Abs(float64(got[i].Frequency-want[i].Frequency)) > 1e-9 {
			t.Fatalf("Harmonics(245 Hz, 3) = %+v, want %+v", got, want)
		}
	}
	if got := Harmonics(5000, 9); len(got) != 2 {
		t.Errorf("Harmonics(5 kHz, 9) = %+v, want the two up to 10 kHz", got)
	}
	if got := Harmonics(10, 3); len(got) != 3 || got[0].Third != -1 || got[1].Third != -1 || got[2].Third != 1 {
		t.Errorf("Harmonics(10 Hz, 3) = %+v, want two below the bands, one at 31.5 Hz", got)
	}
	for _, tone := range []quantity.Frequency{0, -5, quantity.Frequency(math.NaN()), quantity.Frequency(math.Inf(1))} {
		if got := Harmonics(tone, 4); len(got) != 0 {
			t.Errorf("Harmonics(%v) = %+v, want none", tone, got)
		}
	}
}
