package sample

import (
	"fmt"
	"math"
	"testing"

	"lowsone/catalog/quantity"
	"lowsone/match"
	"lowsone/match/resistance"
)

// additive gives y = Σ wᵢ·uᵢ over a hypercube: of its variance the axis i explains
// wᵢ²/Σw², since all axes are even between 0 and 1 and do not go together.
func additive(n int, w ...float64) (at func(axis, k int) float64, y []float64) {
	cube := hypercube(n, len(w), 4, "additive")
	for k := range n {
		sum := 20.0
		for axis, by := range w {
			sum += by * cube.At(k, axis)
		}
		y = append(y, sum)
	}
	return func(axis, k int) float64 { return cube.At(k, axis) }, y
}

func TestExplainedOfASum(t *testing.T) {
	w := []float64{3, 2, 1, 0}
	for _, n := range []int{256, 4096} {
		at, y := additive(n, w...)
		for axis, by := range w {
			got := explained(func(k int) float64 { return at(axis, k) }, y)
			// What the layers miss within themselves is 1/16² of it; chance is some
			// standard deviations of a share over n draws.
			check(t, fmt.Sprintf("explained(%g of 3, 2, 1, 0) with %d draws", by, n), got, by*by/14, 3/math.Sqrt(float64(n)), "share of a sum's variance")
		}
	}
}

// An axis without any effect explains nothing: on average over axes less than
// one per cent, though never below zero.
func TestExplainedOfChance(t *testing.T) {
	const n, axes = 256, 200
	cube := hypercube(n, axes+1, 5, "chance")
	y := make([]float64, n)
	for k := range y {
		y[k] = cube.At(k, axes)
	}
	sum := 0.0
	for axis := range axes {
		got := explained(func(k int) float64 { return cube.At(k, axis) }, y)
		if got < 0 || got > 0.15 {
			t.Errorf("axis %d without effect explains %v", axis, got)
		}
		sum += got
	}
	if mean := sum / axes; mean > 0.02 {
		t.Errorf("axes without effect explain %v on average, want about 0", mean)
	}
}

// A product that is even about the middle has no first-order share.
func TestExplainedOfAnInteraction(t *testing.T) {
	at, y := additive(4096, 0, 0)
	for k := range y {
		y[k] = (at(0, k) - 0.5) * (at(1, k) - 0.5)
	}
	for axis := range 2 {
		check(t, "explained(a factor)", explained(func(k int) float64 { return at(axis, k) }, y), 0, 0.02, "(u − ½)(v − ½) has mean 0 for each u")
	}
}

func TestExplainedOfLittle(t *testing.T) {
	at := func(k int) float64 { return (float64(k) + 0.5) / 64 }
	nan := math.NaN()
	same, none, gaps := make([]float64, 64), make([]float64, 64), make([]float64, 64)
	for k := range 64 {
		same[k], none[k], gaps[k] = 7.3, nan, at(k)
		if k%3 == 0 {
			gaps[k] = nan
		}
	}
	check(t, "explained of what does not vary", explained(at, same), 0, 0, "definition")
	check(t, "explained of what is not known", explained(at, none), nan, 0, "definition")
	if got := explained(at, gaps); !(got >= 0.98) {
		t.Errorf("what is known of a straight line is explained to %v", got)
	}
}

// Shares above the whole by chance are brought to it; below, they stay.
func TestToWhole(t *testing.T) {
	level := func(c *Cause) *float64 { return &c.Level }
	over := []Cause{{Level: 0.9}, {Level: 0.3}}
	toWhole(over, level)
	check(t, "share", over[0].Level, 0.75, 1e-12, "0.9 of 1.2")
	under := []Cause{{Level: 0.5}, {Level: 0.2}}
	toWhole(under, level)
	check(t, "share", under[0].Level, 0.5, 0, "nothing to bring")
}

// The advice is the largest share that a measurement can take away, of level or of
// temperature; half widths then go with the root of what is left.
func TestAdvice(t *testing.T) {
	values := make([]float64, 101)
	for i := range values {
		values[i] = float64(i) / 10 // 10–90 %: 1 to 9
	}
	tell := told{level: values, heat: values}
	all := []Cause{
		{Name: "label", Level: 0.5, Heat: 0.1},
		{Name: "way", Measure: "measure it", Level: 0.3, Heat: 0.75, gain: 1},
		{Name: "curve", Measure: "get it", Level: 0.4, Heat: 0, gain: 0.5},
	}
	told := tell.advice(all)
	if len(told) != 2 || told[0].Name != "way" || told[1].Name != "curve" {
		t.Fatalf("advice %+v, want the way, then the curve", told)
	}
	a := told[0]
	check(t, "half the range of the level", a.Level, 4, 1e-12, "1 to 9")
	check(t, "the same then", a.LevelThen, 4*math.Sqrt(0.7), 1e-12, "30 % of the variance gone")
	check(t, "of the temperature then", a.HeatThen, 2, 1e-12, "75 % of the variance gone")
	for _, none := range [][]Cause{nil, {{Name: "label", Level: 0.9}}, {{Name: "little", Measure: "measure it", Level: worthwhile - 0.01, Heat: math.NaN(), gain: 1}, {Name: "known", Measure: "measure it", Level: 0.9}}} {
		if a := tell.advice(none); len(a) > 0 {
			t.Errorf("of %+v advises %+v, want nothing", none, a)
		}
	}
}

// Every cause and every way has its words.
func TestCausesHaveWords(t *testing.T) {
	for c := range numCauses {
		if c != byWay && causes[c].name == "" {
			t.Errorf("cause %d has no name", c)
		}
	}
	for m := resistance.ByShare; m <= resistance.ByGeometry; m++ {
		if wayMeasure[m] == "" {
			t.Errorf("nothing is said that would tell more than %v", m)
		}
	}
}

// What is not known shows: for a flow that is given, the assumed share tells
// nearly all of the level, and measuring heat is advised; with the flow measured it
// is another cause.
func TestCausesOfARanking(t *testing.T) {
	req := requestFor(t, match.Way{Method: resistance.ByShare, Assumed: true, Share: 0.55})
	req.Need.Flow = 20 * quantity.CubicMetrePerHour
	r := rankOf(t, req, Options{}, fanOf(t, strong))
	if len(r.Causes) == 0 || r.Causes[0].Name != "the flow in the device" || len(r.Advice) == 0 || r.Advice[0].Measure != wayMeasure[resistance.ByShare] {
		t.Errorf("causes %+v, advice %+v; want the flow in the device first", r.Causes, r.Advice)
	}
	for i := 1; i < len(r.Causes); i++ {
		if r.Causes[i].Level > r.Causes[i-1].Level {
			t.Errorf("cause %d has a larger share than the one before: %+v", i, r.Causes)
		}
	}
	if !math.IsNaN(r.Causes[0].Heat) {
		t.Errorf("a share of temperature where no spot is watched: %v", r.Causes[0].Heat)
	}
	req.Path.Way = byFlow(28)
	measured := rankOf(t, req, Options{}, fanOf(t, strong))
	if measured.Causes[0].Name == "the flow in the device" {
		t.Errorf("with the flow measured it is still first: %+v", measured.Causes)
	}
}

// Fans with ample flow are drawn even where many with little stand before them.
func TestContendersDrawn(t *testing.T) {
	all := make([]match.Contender, 20)
	for i := range all {
		if i >= 15 {
			all[i].Margin = 0.35
		}
	}
	drawn := contendersDrawn(all, 8)
	n := 0
	for i, d := range drawn {
		if d {
			n++
		}
		if want := i < 4 || i >= 15 && i < 19; d != want {
			t.Errorf("contender %d drawn: %v, want %v", i, d, want)
		}
	}
	if n != 8 {
		t.Errorf("%d drawn, want 8", n)
	}
	for _, d := range contendersDrawn(all, 100) {
		if !d {
			t.Error("with room for all one is not drawn")
		}
	}
}
