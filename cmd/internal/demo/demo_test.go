package demo

import (
	"math"
	"slices"
	"strings"
	"testing"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/cmd/internal/demo/gen"
	"lowsone/match"
)

// The device of the commands is the one that package gen tells the story for.
func TestStepsNameTheStorysFan(t *testing.T) {
	for _, step := range (Files{Dir: "d"}).Steps() {
		i := slices.Index(step.Args, "--replace")
		if i >= 0 && step.Args[i+1] != gen.FittedPart {
			t.Errorf("%s replaces %q, want %q", step.Args[0], step.Args[i+1], gen.FittedPart)
		}
		if i < 0 && (step.Args[0] == "rank" || step.Args[0] == "system" || step.Args[0] == "shortlist") {
			t.Errorf("%s names no fan", step.Args[0])
		}
	}
	if !strings.Contains(string(Parts()), gen.FittedPart) || !strings.Contains(string(Parts()), gen.SecondPart) {
		t.Error("the parts list lacks a fan of the story")
	}
}

// Steps must not share memory: appending to one would change another.
func TestStepsStandAlone(t *testing.T) {
	steps := Files{Dir: "d"}.Steps()
	for _, want := range []struct{ command, last string }{{"rank", "5"}, {"shortlist", "d/order.csv"}, {"system", "24C"}} {
		i := slices.IndexFunc(steps, func(s Step) bool { return s.Args[0] == want.command })
		if args := steps[i].Args; args[len(args)-1] != want.last {
			t.Errorf("%s ends with %q, want %q", want.command, args[len(args)-1], want.last)
		}
	}
}

func fan(part string, flow, noise float64) *catalog.Fan {
	f := &catalog.Fan{Part: part}
	for id, v := range map[catalog.FieldID]float64{catalog.FieldAirflow: flow / 3600, catalog.FieldNoise: noise} {
		catalog.Fields[id].Put(f, catalog.Value{Number: v}, quantity.Cell)
	}
	return f
}

// Every number in the sentences is the ranking's or a label's.
func TestSentences(t *testing.T) {
	loud, low, trap, other := fan("LOUD", 48, 43), fan("LOW", 50, 39), fan("TRAP", 51, 28), fan("FAINT", 20, 20)
	cols := catalog.ColumnsOf(loud, low, trap, other)
	level := func(db float64, under bool) match.Level { return match.Level{DB: db, Under: under} }
	heard := func(sone float64, measured bool) match.Loudness {
		return match.Loudness{Sone: sone, Measured: measured}
	}
	whole := match.Ranking{
		Baseline: match.Baseline{Fan: loud, Ratio: 1, Q: 30.0 / 3600, Level: level(39.4, false), HasLevel: true, Loud: heard(3, false)},
		Need:     30.0 / 3600, Listener: 1.5, Looked: 40, Total: 3,
		Candidates: []match.Candidate{
			{Rank: 1, Row: 0, Fitted: true, Price: math.NaN()},
			{Rank: 2, Row: 1, Planned: match.Point{Ratio: 0.83, Level: level(31.3, false)}, Price: 8.7, Currency: "EUR", Loud: heard(1.2, true)},
		},
		TooWeak: []match.Weak{{Row: 3, Q: 19.0 / 3600, Shortfall: 0.3}, {Row: 2, Q: 22.0 / 3600, Shortfall: 0.267}},
	}
	bare := whole
	bare.Baseline.HasLevel, bare.Candidates, bare.TooWeak = false, whole.Candidates[:1], whole.TooWeak[:1]
	bare.Rejected = match.Rejected{match.TooWeak: 1}
	unpriced := whole
	unpriced.Candidates = []match.Candidate{{Row: 1, Planned: match.Point{Ratio: 0.7, Level: level(10, true)}, Price: math.NaN(), Loud: heard(math.NaN(), false)}}
	measured := whole
	measured.Baseline.Loud.Measured = true
	for _, r := range []struct {
		name string
		r    match.Ranking
		want []string
	}{
		{"whole", whole, []string{
			"The fitted LOUD moves 30.0 m³/h through the device, 62 % of the 48.0 m³/h on its label, and is 39.4 dB(A) loud at 1.5 m.",
			"Of 40 fans 3 fit and move as much; the first, LOW, does it at 83 % of its speed with 31.3 dB(A), 8.1 dB less and to the ear about 40 % as loud, for 8.70 EUR.",
			"The label of TRAP promises 51.0 m³/h at 28 dB(A), but in this device it moves 22.0 m³/h, 27 % too little: free-air figures do not choose a fan.",
		}},
		{"nothing but the fitted fan", bare, []string{
			"The fitted LOUD moves 30.0 m³/h through the device, 62 % of the 48.0 m³/h on its label.",
			"Of 40 fans none but the fitted one fits and moves as much.",
			"1 more fit but are too weak at the device's own resistance.",
		}},
		{"both measured", measured, []string{"",
			"Of 40 fans 3 fit and move as much; the first, LOW, does it at 83 % of its speed with 31.3 dB(A), 8.1 dB less and to the ear 40 % as loud, for 8.70 EUR.", ""}},
		{"no price, under the floor", unpriced, []string{"",
			"Of 40 fans 3 fit and move as much; the first, LOW, does it at 70 % of its speed with at most 10.0 dB(A), 29.4 dB less.", ""}},
	} {
		got := Sentences(cols, &r.r)
		for i, want := range r.want {
			if want != "" && got[i] != want {
				t.Errorf("%s: sentence %d = %q, want %q", r.name, i+1, got[i], want)
			}
		}
	}
}
