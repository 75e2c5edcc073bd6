package sample

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"lowsone/match"
)

// outcomesOf gives outcomes at these levels; +Inf stands for too little flow.
func outcomesOf(levels ...float64) []match.Outcome {
	out := make([]match.Outcome, len(levels))
	for k, l := range levels {
		out[k] = match.Outcome{Enough: !math.IsInf(l, 1), Level: l}
		if !out[k].Enough {
			out[k].Level = 50 // at its full speed
		}
	}
	return out
}

func TestPromise(t *testing.T) {
	inf := math.Inf(1)
	for _, r := range []struct {
		name       string
		levels     []float64
		confidence float64
		want       float64
	}{
		{"all enough", []float64{30, 34, 32, 31, 33}, 0.75, 33},
		{"between two", []float64{30, 34, 32, 31, 33}, 0.5 + 0.125, 32.5},
		{"one too weak, not asked of", []float64{30, inf, 32, 31, 33}, 0.75, 33},
		{"one too weak", []float64{30, inf, 32, 31, 33}, 0.8, inf},
		{"none enough", []float64{inf, inf}, 0.5, inf},
	} {
		f := fan{outcomes: outcomesOf(r.levels...)}
		f.promise(r.confidence)
		check(t, "level of "+r.name, f.level, r.want, 1e-12, "by hand")
	}
}

// A draw without a working point counts as too little flow.
func TestPromiseWithoutAPoint(t *testing.T) {
	f := fan{outcomes: outcomesOf(30, 31, 32, 33, 34)}
	f.outcomes[1] = match.Outcome{Level: math.NaN()}
	f.promise(0.9)
	if !math.IsInf(f.level, 1) {
		t.Errorf("level %v, want none", f.level)
	}
}

func TestMoreConfidenceNeverKeepsALowerLevel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		level := rapid.OneOf(rapid.Float64Range(15, 60), rapid.Just(math.Inf(1)))
		f := fan{outcomes: outcomesOf(rapid.SliceOfN(level, 2, 256).Draw(t, "levels")...)}
		a, b := rapid.Float64Range(0.5, 0.99).Draw(t, "a"), rapid.Float64Range(0.5, 0.99).Draw(t, "b")
		f.promise(min(a, b))
		less := f.level
		f.promise(max(a, b))
		if !(f.level >= less) {
			t.Fatalf("%v dB(A) kept with %v, %v with %v", less, min(a, b), f.level, max(a, b))
		}
	})
}

func TestOrder(t *testing.T) {
	fans := []fan{
		{index: 0, level: math.Inf(1), kept: 0.55},
		{index: 1, level: math.Inf(1), kept: 0.7},
		{index: 2, level: 31.4, score: 31, kept: 0.80},
		{index: 3, level: 30.6, score: 31, kept: 0.99},
		{index: 4, level: 31.2, score: 31, kept: 0.99 + 0.02/keptSteps},
		{index: 5, level: 29.9, score: 30, kept: 0.81},
		{index: 6, level: math.Inf(1), kept: 0.7},
	}
	order(fans)
	var got []int
	for _, f := range fans {
		got = append(got, f.index)
	}
	if want := []int{5, 3, 4, 2, 1, 6, 0}; !slices.Equal(got, want) {
		t.Errorf("order %v, want %v: whole decibels, share of draws in twentieths, nominal; the lost ones by that share", got, want)
	}
}

// The order is total: whatever order fans come in, it is the same.
func TestOrderIsTotal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 30).Draw(t, "n")
		fans := make([]fan, n)
		for i := range fans {
			fans[i] = fan{index: i, kept: float64(rapid.IntRange(0, 8).Draw(t, "kept")) / 8, level: math.Inf(1)}
			if rapid.Bool().Draw(t, "keeps") {
				fans[i].score = rapid.IntRange(28, 32).Draw(t, "score")
				fans[i].level = float64(fans[i].score)
			}
		}
		other := slices.Clone(fans)
		slices.SortFunc(other, func(a, b fan) int { return cmp.Compare(b.index*7919%101, a.index*7919%101) })
		order(fans)
		order(other)
		for i := range fans {
			if fans[i].index != other[i].index {
				t.Fatalf("place %d: %d, and %d from another order", i, fans[i].index, other[i].index)
			}
		}
	})
}

func TestQuieter(t *testing.T) {
	inf := math.Inf(1)
	for _, r := range []struct {
		name string
		f, g []float64
		want float64
	}{
		{"always", []float64{30, 30}, []float64{31, 32}, 1},
		{"never", []float64{30, 30}, []float64{29, 28}, 0},
		{"equal counts half", []float64{30, 30}, []float64{30, 31}, 0.75},
		{"too little flow is not quieter", []float64{inf, 30}, []float64{90, 90}, 0.5},
		{"nor than one that has too little itself", []float64{30, 30}, []float64{inf, inf}, 1},
	} {
		f := fan{outcomes: outcomesOf(r.f...), apart: outcomesOf(r.f...)}
		g := fan{outcomes: outcomesOf(r.g...), apart: outcomesOf(r.g...)}
		check(t, "quieter: "+r.name, f.quieter(&g), r.want, 0, "counted by hand")
	}
}

// A group ends where its first fan is quieter as surely as is asked for; its
// members may differ from each other by more.
func TestGroup(t *testing.T) {
	const n = 10
	var fans []fan
	for _, quiet := range []int{0, 3, 7, 8, 9} { // in so many of ten draws the fans before are quieter
		levels := make([]float64, n)
		for k := range levels {
			if levels[k] = 30 + 0.01*float64(len(fans)); k >= quiet {
				levels[k] = 29 - 0.01*float64(len(fans))
			}
		}
		fans = append(fans, fan{outcomes: outcomesOf(levels...), apart: outcomesOf(levels...)})
	}
	for _, r := range []struct {
		confidence float64
		want       []int
	}{
		{0.5, []int{1, 1, 2, 3, 4}},
		{0.8, []int{1, 1, 1, 2, 3}},
		{0.99, []int{1, 1, 1, 1, 1}},
	} {
		if got := group(fans, r.confidence); !slices.Equal(got, r.want) {
			t.Errorf("group with %v = %v, want %v", r.confidence, got, r.want)
		}
	}
	if got := group(nil, 0.8); len(got) != 0 {
		t.Errorf("group of none = %v", got)
	}
}

func TestShare(t *testing.T) {
	check(t, "share of even", share([]int{1, 2, 3, 4, 6}, func(v int) bool { return v%2 == 0 }), 0.6, 1e-15, "three of five")
}
