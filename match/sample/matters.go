package sample

import (
	"cmp"
	"math"
	"slices"

	"lowsone/match"
	"lowsone/match/resistance"
)

// Cause is one thing that is not known of the device or of the candidate ranked
// first, with the share of variance that it alone brings (first order).
type Cause struct {
	Name    string  // what is not known
	Measure string  // what would tell it; empty where nothing can before the fan is fitted
	Level   float64 // share of the variance of the level at the needed flow
	Heat    float64 // share of the variance of the hottest spot as planned; NaN where none is watched
}

// Advice is the one measurement that would tell most.
type Advice struct {
	Cause
	Level, LevelThen float64 // dB: half the 10–90 % range of the level, now and then
	Heat, HeatThen   float64 // K: the same of the hottest spot; NaN where none is watched
}

// worthwhile is the share of variance from which a measurement is advised.
const worthwhile = 0.15

// causes names what may not be known and what would tell it.
var causes = [numCauses]struct{ name, measure string }{
	byBend:     {"how the device's resistance grows with flow", "measure the device at a second fan speed"},
	bySpeedNow: {"the speed of the fitted fan while it was measured", "count the fitted fan's speed"},
	byFitted:   {"the fitted fan's own curve", "get the fitted fan's full curve"},
	byLaw:      {"how noise grows with speed", ""},
	byMeter:    {"the level measured at the fitted fan", "measure the level again, nearer, with a meter of class 1 or 2"},
	bySpots:    {"how the watched spots cool", "log the temperatures at a second fan speed"},
	byCurve:    {"the candidate's curve", "get the candidate's full curve"},
	byFull:     {"the candidate's full speed", ""},
	byLabel:    {"the candidate's rated level", ""},
	byOffBest:  {"the candidate's noise off its best point", ""},
}

// wayMeasure says what would tell the flow in the device better, by the way it
// is known now.
var wayMeasure = map[resistance.Method]string{
	resistance.ByShare:    "measure the heat and the air's temperature at inlet and outlet",
	resistance.ByHeat:     "measure the outlet air where it is mixed, and the heat less useful output; or the pressure across the device",
	resistance.ByPressure: "measure the heat and the air's temperature at inlet and outlet",
	resistance.ByFlow:     "measure the flow again by another way, such as the air's temperatures",
	resistance.ByPoints:   "measure further points of flow and pressure",
	resistance.ByGeometry: "measure the heat and the air's temperature at inlet and outlet",
}

// ByHeat gives causes in the order of their share of the temperature.
func ByHeat(all []Cause) []Cause {
	all = slices.Clone(all)
	slices.SortStableFunc(all, func(a, b Cause) int { return cmp.Compare(orZero(b.Heat), orZero(a.Heat)) })
	return all
}

// matters sets which unknown matters most for the candidate ranked first, and
// what measurement would tell most.
func (r *Ranking) matters(study *match.Study, d *devices, first *fan) {
	level := make([]float64, len(d.drawn))
	heat := make([]float64, len(d.drawn))
	for k, o := range first.outcomes {
		x := first.draw(k)
		level[k], heat[k] = o.Level, math.NaN()
		if p, ok := d.drawn[k].Planned(first.index, &x); ok {
			heat[k] = p.Over
		}
	}
	var shares [numCauses]Cause
	add := func(c cause, at func(k int) float64) {
		shares[c].Level += explained(len(d.drawn), at, level)
		shares[c].Heat += explained(len(d.drawn), at, heat)
	}
	for axis, in := range d.inputs {
		add(in.cause, func(k int) float64 { return d.at[k][axis] })
	}
	if first.cube != nil {
		for axis, in := range first.inputs {
			add(in.cause, func(k int) float64 { return first.cube.At(k, axis) })
		}
	}
	method := study.Unknowns().Method
	for c, s := range shares {
		s.Name, s.Measure = causes[c].name, causes[c].measure
		if cause(c) == byWay {
			s.Name, s.Measure = "the flow in the device", wayMeasure[method]
		}
		if s.Level > 0 || s.Heat > 0 {
			r.Causes = append(r.Causes, s)
		}
	}
	slices.SortStableFunc(r.Causes, func(a, b Cause) int { return cmp.Compare(b.Level, a.Level) })
	r.advise(level, heat)
}

// advise picks the measurement that would tell most of the level, or of the heat.
func (r *Ranking) advise(level, heat []float64) {
	best := -1
	weight := func(c *Cause) float64 { return max(c.Level, orZero(c.Heat)) }
	for i := range r.Causes {
		c := &r.Causes[i]
		if c.Measure != "" && weight(c) >= worthwhile && (best < 0 || weight(c) > weight(&r.Causes[best])) {
			best = i
		}
	}
	if best < 0 {
		return
	}
	a := &Advice{Cause: r.Causes[best], Level: half(level), Heat: half(heat)}
	left := func(share float64) float64 { return math.Sqrt(max(0, 1-orZero(share))) }
	a.LevelThen, a.HeatThen = a.Level*left(a.Cause.Level), a.Heat*left(a.Cause.Heat)
	r.Advice = a
}

func half(values []float64) float64 {
	b := bandOf(values)
	return (b.High - b.Low) / 2
}

func orZero(v float64) float64 {
	if math.IsNaN(v) {
		return 0
	}
	return v
}

// layers is how many layers of an axis the means are taken over.
const layers = 16

// explained gives the share of the variance of y that the axis x alone explains:
// the variance of the means of y over layers of x, less what chance puts there.
// NaN where y is not known throughout; 0 where it does not vary.
func explained(n int, x func(k int) float64, y []float64) float64 {
	var sum, sumOf2 float64
	var at [layers]struct{ n, sum float64 }
	for k := range n {
		i := min(int(x(k)*layers), layers-1)
		at[i].n++
		at[i].sum += y[k]
		sum += y[k]
		sumOf2 += y[k] * y[k]
	}
	mean := sum / float64(n)
	total := sumOf2 - float64(n)*mean*mean
	if math.IsNaN(total) {
		return math.NaN()
	}
	if !(total > 1e-12*sumOf2) {
		return 0
	}
	between, used := 0.0, 0.0
	for _, l := range at {
		if l.n > 0 {
			between += l.n * (l.sum/l.n - mean) * (l.sum/l.n - mean)
			used++
		}
	}
	// Of m layers without any effect the means alone vary by (m−1)/(n−1) of the
	// whole.
	chance := (used - 1) / (float64(n) - 1)
	return max(0, (between/total-chance)/(1-chance))
}
