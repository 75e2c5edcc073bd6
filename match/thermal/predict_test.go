package thermal

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

func predict(t *testing.T, log []Reading) Prediction {
	t.Helper()
	p, err := Predict(log)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// oneStep is a device with one time constant of 10 min, from 25 to 55 °C.
var oneStep = response{25, []part{{30, 10 * minutes}}}

func TestExactLogs(t *testing.T) {
	uneven := func(d response) (log []Reading) {
		for _, t := range []float64{0, 5, 11, 60, 61, 62, 300, 301, 900, 1500, 1810, 2400, 2460, 3000, 3050, 3600} {
			log = append(log, Reading{t, d.at(t)})
		}
		return log
	}
	falling := response{85, []part{{-40, 10 * minutes}}}
	gap := probe{every: 20, length: 50 * minutes}.log(oneStep.at)
	gap = append(slices.Clone(gap[:20]), gap[70:]...)
	twice := probe{every: 20, length: 50 * minutes}.log(oneStep.at)
	twice = slices.Concat(twice[:40], twice[39:40], twice[39:])
	for _, row := range []struct {
		name  string
		log   []Reading
		start float64
		end   float64
	}{
		{"even", probe{every: 20, length: 50 * minutes}.log(oneStep.at), 25, 55},
		{"few", probe{every: 300, length: 50 * minutes}.log(oneStep.at), 25, 55},
		{"uneven", uneven(oneStep), 25, 55},
		{"with a gap", gap, 25, 55},
		{"repeated readings", twice, 25, 55},
		{"falling", probe{every: 20, length: 50 * minutes}.log(falling.at), 85, 45},
		{"many", probe{every: 0.1, length: 50 * minutes}.log(oneStep.at), 25, 55},
	} {
		p := predict(t, row.log)
		end, sd, ok := p.End()
		if !ok || math.Abs(end-row.end) > 0.01 || !(sd < 0.2) {
			t.Errorf("%s: %v (%s), end %g ± %g, want %g", row.name, p.Verdict, p.Why(), end, sd, row.end)
		}
		if math.Abs(p.Whole.Tau-600) > 1 || math.Abs(p.Whole.At(0)-row.start) > 0.1 {
			t.Errorf("%s: time constant %g s, start %g °C, want 600 and %g", row.name, p.Whole.Tau, p.Whole.At(0), row.start)
		}
		if p.Falling != (row.end < row.start) {
			t.Errorf("%s: falling %t", row.name, p.Falling)
		}
	}
}

// Where a log is refused, and by what: the doubts in their order.
func TestDoubts(t *testing.T) {
	noisy := func(scatter, every, length float64) []Reading {
		return probe{every: every, length: length * minutes, scatter: scatter, step: 0.1, random: rand.New(rand.NewPCG(1, 1))}.log(oneStep.at)
	}
	late := noisy(0.1, 60, 40)
	late = append(late[:20:20], late[24], late[40])
	load := func(before, after response, at float64) []Reading {
		return probe{every: 20, length: 60 * minutes, scatter: 0.1, step: 0.1, random: rand.New(rand.NewPCG(2, 2))}.log(func(t float64) float64 {
			return before.at(t) + after.at(max(t-at*minutes, 0))
		})
	}
	cycle := func(t float64) float64 { return 50 + 4*math.Sin(t/200) }
	for _, row := range []struct {
		name    string
		log     []Reading
		verdict Verdict
		doubt   Doubt
		why     string
	}{
		{"long enough", noisy(0.1, 20, 60), Predicts, NoDoubt, "it is 60 min long, its time constant 10"},
		{"warm before", probe{every: 20, length: 3600, scatter: 0.1, random: rand.New(rand.NewPCG(3, 3))}.log(func(float64) float64 { return 47 }), NotAStep, Flat, "it changes by 0."},
		{"all the same", probe{every: 20, length: 3600}.log(func(float64) float64 { return 47 }), NotAStep, Flat, "it changes by 0 K in 60 min"},
		{"hardly a step", probe{every: 20, length: 3600}.log(response{25, []part{{0.9, 600}}}.at), NotAStep, Flat, "it changes by 0.68"},
		{"load taken off", load(oneStep, response{0, []part{{-12, 5 * minutes}}}, 30), NotAStep, TurnsBack, "it goes back by 9.9"},
		{"cools, then warms", load(response{60, []part{{-20, 5 * minutes}}}, response{0, []part{{25, 5 * minutes}}}, 30), NotAStep, TurnsBack, "it goes back by"},
		{"a thermostat", probe{every: 20, length: 3600}.log(cycle), NotAStep, TurnsBack, "it goes back by"},
		{"load put on", load(oneStep, response{0, []part{{12, 5 * minutes}}}, 40), NotAStep, StartsAnew, "it slows down and then, from 3"},
		{"fan slowed while it cools", load(response{60, []part{{-20, 5 * minutes}}}, response{0, []part{{-12, 5 * minutes}}}, 40), NotAStep, StartsAnew, "goes faster again"},
		{"too short", noisy(0.1, 20, 15), NotSettled, TooShort, "it is 15 min long, its time constant"},
		{"a straight line", probe{every: 20, length: 1200}.log(func(t float64) float64 { return 25 + t/100 }), NotSettled, TooShort, "at least two of them"},
		{"noisy", noisy(3, 60, 24), NotSettled, TooVague, "its end is known to ±"},
		{"few readings late", late, NotSettled, LateFew, "its last half has fewer than 5 readings"},
		{"slow part under way", probe{every: 20, length: 1500}.log(response{25, []part{{20, 240}, {20, 2100}}}.at), NotSettled, HalvesPart, "more than 2 K apart"},
		{"slow part may hide", noisy(0.3, 20, 25), NotSettled, MayCreep, "a slower part, of up to 60 min, may hide"},
	} {
		p := predict(t, row.log)
		if p.Verdict != row.verdict || p.Doubt != row.doubt || !strings.Contains(p.Why(), row.why) {
			t.Errorf("%s: %v, doubt %d, %q, want %v, doubt %d, %q", row.name, p.Verdict, p.Doubt, p.Why(), row.verdict, row.doubt, row.why)
		}
		_, _, ends := p.End()
		_, least := p.AtLeast()
		if ends != (row.verdict == Predicts) || least != (row.verdict == NotSettled) {
			t.Errorf("%s: an end %t, a lower bound %t with %v", row.name, ends, least, p.Verdict)
		}
	}
}

// A lower bound is the highest reading, but no wild one; a falling log has none.
func TestAtLeast(t *testing.T) {
	log := probe{every: 20, length: 12 * minutes, step: 0.1}.log(oneStep.at)
	top := log[len(log)-1].Celsius
	if got, ok := predict(t, log).AtLeast(); !ok || got != top {
		t.Errorf("AtLeast = %g, %t, want the last reading %g", got, ok, top)
	}
	log[10].Celsius = 85
	if got, ok := predict(t, log).AtLeast(); !ok || got != top {
		t.Errorf("with a reading of 85 °C: AtLeast = %g, %t, want %g", got, ok, top)
	}
	for i := range log {
		log[i].Celsius = 120 - log[i].Celsius
	}
	if got, ok := predict(t, log).AtLeast(); ok {
		t.Errorf("a falling log: AtLeast = %g", got)
	}
	if _, ok := (Prediction{}).AtLeast(); ok {
		t.Error("nothing at all has a lower bound")
	}
	if _, _, ok := (Prediction{}).End(); ok {
		t.Error("nothing at all has an end")
	}
}

func TestPredictErrors(t *testing.T) {
	good := probe{every: 60, length: 3600}.log(oneStep.at)
	with := func(i int, r Reading) []Reading {
		log := slices.Clone(good)
		log[i] = r
		return log
	}
	var few *FewReadingsError
	for n := range fewest {
		if _, err := Predict(good[:n]); !errors.As(err, &few) || few.Got != n {
			t.Errorf("%d readings: %v", n, err)
		}
	}
	var order *OrderError
	if _, err := Predict(with(7, Reading{60, 40})); !errors.As(err, &order) || order.Index != 7 || !strings.Contains(err.Error(), "reading 8 is of 60 s, the one before of 360 s") {
		t.Errorf("unsorted: %v", err)
	}
	nan, inf := math.NaN(), math.Inf(1)
	for _, r := range []Reading{{nan, 40}, {inf, 40}, {1e12, 40}, {420, nan}, {420, inf}, {420, -300}, {420, 1e9}} {
		var reading *ReadingError
		if _, err := Predict(with(7, r)); !errors.As(err, &reading) || reading.Index != 7 {
			t.Errorf("reading %v: %v, want a *ReadingError at 7", r, err)
		}
	}
	var input *InputError
	if _, err := Predict(make([]Reading, 10)); !errors.As(err, &input) {
		t.Errorf("all at one time: %v", err)
	}
}

// One wild reading in twenty, as a loose plug makes them, moves the end little.
func TestWildReadings(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	for range 20 {
		log := probe{every: 20, length: 70 * minutes, scatter: 0.1, step: 0.1, random: r}.log(oneStep.at)
		clean := predict(t, log)
		for i := 3 + r.IntN(10); i < len(log); i += 20 {
			log[i].Celsius = pick(r, 0.0, 85, 127)
		}
		p := predict(t, log)
		end, sd, ok := p.End()
		if want, _, _ := clean.End(); !ok || math.Abs(end-want) > 0.1 {
			t.Errorf("with wild readings: %v (%s), %g ± %g, without %g", p.Verdict, p.Why(), end, sd, want)
		}
		if p.Wild < 8 {
			t.Errorf("%d wild readings counted, want about %d", p.Wild, len(log)/20)
		}
	}
}

// A wild reading at the very end, where no neighbour tells, counts little too.
func TestWildLastReading(t *testing.T) {
	log := probe{every: 20, length: 70 * minutes, scatter: 0.1, step: 0.1, random: rand.New(rand.NewPCG(6, 6))}.log(oneStep.at)
	log[len(log)-1].Celsius = 85
	p := predict(t, log)
	if end, sd, ok := p.End(); !ok || math.Abs(end-55) > 0.2 || p.Highest.Celsius > 56 {
		t.Errorf("the last reading is 85 °C: %v (%s), %g ± %g, highest %+v", p.Verdict, p.Why(), end, sd, p.Highest)
	}
}
