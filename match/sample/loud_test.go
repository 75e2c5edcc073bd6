package sample

import (
	"math"
	"testing"

	"lowsone/acoustics"
	"lowsone/acoustics/loudness"
	"lowsone/catalog/quantity"
	"lowsone/match"
)

// bandLevels is a measured spectrum in octaves, falling from 250 Hz.
const bandLevels = " noise_bands=125:30;250:34;500:33;1000:30;2000:26;4000:20;8000:12"

// Loudness rises with the level, so that of a known spectrum has the range of the
// level, turned into sone: by loudness.Table, another way than the draws take.
func TestLoudnessOfAMeasuredSpectrum(t *testing.T) {
	req := requestFor(t, byFlow(28))
	study, d := studyOf(t, req, fanOf(t, strong+bandLevels))
	o, _ := Options{}.filled()
	fans, err := askFans(t.Context(), study, d, o)
	if err != nil {
		t.Fatal(err)
	}
	for i := range fans {
		f := &fans[i]
		if f.contender.Fitted {
			continue
		}
		shapes := study.Shapes(f.index)
		if len(shapes) != 1 {
			t.Fatalf("%d spectra, want the measured one", len(shapes))
		}
		table, err := loudness.NewTable(&shapes[0].Thirds, loudness.Free)
		if err != nil {
			t.Fatal(err)
		}
		sones, level := bandOf(f.sones(study, o.Seed)), f.sure(d).Needed.Level
		for what, pair := range map[string][2]float64{"10 %": {sones.Low, level.Low}, "middle": {sones.Middle, level.Middle}, "90 %": {sones.High, level.High}} {
			want := table.Sone(pair[1])
			check(t, "loudness, "+what, pair[0], want, 0.006*want+0.001, "table of its spectrum; straight lines between two draws")
		}
	}
}

// A typical spectrum is drawn among all of its kind, each in an even share of the
// draws.
func TestLoudnessOfTypicalSpectra(t *testing.T) {
	study, d := studyOf(t, requestFor(t, byFlow(28)), fanOf(t, strong))
	f := &fan{}
	for i, c := range study.Contenders() {
		if !c.Fitted {
			f = &fan{contender: c, index: i}
		}
	}
	f.outcomes = make([]match.Outcome, len(d.drawn))
	const level = 35.0
	for k := range f.outcomes {
		f.outcomes[k].Level = level
	}
	shapes := study.Shapes(f.index)
	if len(shapes) < 2 {
		t.Fatalf("%d typical spectra", len(shapes))
	}
	count := map[float64]int{}
	for _, sone := range f.sones(study, 0) {
		count[sone]++
	}
	for i := range shapes {
		at := shapes[i].Thirds.ScaledTo(quantity.PressureLevel(level))
		n := 0
		for sone, times := range count {
			if math.Abs(sone-loudness.Sone(&at, loudness.Free)) < 1e-9 {
				n += times
			}
		}
		if share := float64(len(d.drawn)) / float64(len(shapes)); math.Abs(float64(n)-share) > 1 {
			t.Errorf("%q is drawn %d times of %d, want %v", shapes[i].Name, n, len(d.drawn), share)
		}
	}
}

// The spectra are those of the speed that is planned: what was measured at full
// speed lies lower when slowed.
func TestShapesMoveWithTheSpeed(t *testing.T) {
	study, _ := studyOf(t, requestFor(t, byFlow(28)), fanOf(t, strong+bandLevels))
	r := rankOf(t, requestFor(t, byFlow(28)), Options{}, fanOf(t, strong+bandLevels))
	at, _ := r.of(t, 0)
	ratio := r.Candidates[at].Planned.Ratio
	for i, c := range study.Contenders() {
		if c.Fitted {
			continue
		}
		read, err := acoustics.ReadBands(fanOf(t, strong+bandLevels).NoiseBands, acoustics.Unweighted)
		if err != nil {
			t.Fatal(err)
		}
		want, _ := read.Thirds.AtSpeed(ratio)
		if got := study.Shapes(i)[0].Thirds; got != want {
			t.Errorf("at %v of its speed %v, want %v", ratio, got, want)
		}
	}
}

// A ranking tells the loudness of each fan as needed.
func TestLoudnessOfARanking(t *testing.T) {
	r := rankOf(t, requestFor(t, byFlow(28)), Options{}, fanOf(t, strong))
	for i, s := range r.Sure {
		nominal := r.Candidates[i].Loud.Sone
		if b := s.Needed.Sone; !(b.Low < b.Middle && b.Middle < b.High && b.Low < nominal && nominal < b.High) {
			t.Errorf("row %d: %+v sone as needed, %v with everything taken as given", r.Candidates[i].Row, b, nominal)
		}
	}
}

// Without a working point there is no loudness.
func TestLoudnessNotKnown(t *testing.T) {
	study, _ := studyOf(t, requestFor(t, byFlow(28)), fanOf(t, strong))
	f := fan{outcomes: []match.Outcome{{Level: math.NaN()}, {Level: 30}}}
	if s := f.sones(study, 0); !math.IsNaN(s[0]) || !(s[1] > 0) {
		t.Errorf("loudness %v, want one not known and one", s)
	}
}
