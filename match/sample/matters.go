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
	Level   float64 // share of the variance of the level; NaN where that is not known
	Heat    float64 // share of the variance of the hottest spot as planned; NaN where none is watched

	gain float64 // share of that variance which the measurement takes away; the rest is its own error
}

// Advice is a measurement that would tell much.
type Advice struct {
	Cause
	Level, LevelThen float64 // dB: half the 10–90 % range of the level, now and then
	Heat, HeatThen   float64 // K: the same of the hottest spot; NaN where none is watched
}

// goodMeter is the half width in dB of a level taken with a class 2 meter near the
// fan.
const goodMeter = 1.2

// worthwhile is the share of variance from which a measurement is advised.
const worthwhile = 0.10

// causes names what may not be known and what would tell it.
var causes = [numCauses]struct {
	name, measure string
	gain          float64 // common practice: what such a measurement leaves is a third to a half
}{
	byBend:        {"how the device's resistance grows with flow", "measure flow and pressure, or heat and air rise, at a second fan speed", 0.7},
	bySpeedNow:    {"the speed of the fitted fan while it was measured", "count the fitted fan's speed by its tach", 0.9},
	byFitted:      {"the fitted fan's own curve", "find the data sheet of the fitted fan: its full curve", 0.6},
	byFittedNoise: {"the fitted fan's rated level", "measure the level half a metre from the fitted fan, and with it off", 0.6},
	byLaw:         {"how noise grows with speed", "", 0},
	byMeter:       {"the level measured at the fitted fan", "measure the level again, half a metre from the fan, with a meter of class 1 or 2", 0.5},
	bySpots:       {"how the watched spots cool", "log the watched temperatures at a second fan speed", 0.7},
	byCurve:       {"the candidate's curve", "find the data sheet of the first: its full curve", 0.6},
	byFull:        {"the candidate's speed", "", 0},
	byLabel:       {"the candidate's rated level", "", 0},
	byOffBest:     {"the candidate's noise off its best point", "", 0},
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

// told is a level and a temperature under every draw, with what set them: of
// the device, and of a candidate where there is one.
type told struct {
	devices     *devices
	first       *fan // nil: the fitted fan as it was found
	level, heat []float64
}

// ofFirst tells the candidate ranked first: its level as needed, its hottest spot
// as planned.
func ofFirst(d *devices, first *fan) *told {
	t := &told{devices: d, first: first}
	for k, o := range first.outcomes {
		over := math.NaN()
		if p, ok := d.drawn[k].Planned(first.index, &first.draws[k]); ok {
			over = p.Over
		}
		t.level, t.heat = append(t.level, o.Level), append(t.heat, over)
	}
	return t
}

// causes gives which unknown matters, the largest share of the level first.
func (t *told) causes(u match.Unknowns) []Cause {
	var shares [numCauses]Cause
	add := func(c cause, at func(k int) float64) {
		shares[c].Level += explained(at, t.level)
		shares[c].Heat += explained(at, t.heat)
	}
	for axis, in := range t.devices.inputs {
		add(in.cause, func(k int) float64 { return t.devices.at[k][axis] })
	}
	if t.first != nil && t.first.cube != nil {
		for axis, in := range fanInputs(t.first.contender.FanUnknowns) {
			add(in.cause, func(k int) float64 { return t.first.cube.At(k, axis) })
		}
	}
	toWhole(shares[:], func(c *Cause) *float64 { return &c.Level })
	toWhole(shares[:], func(c *Cause) *float64 { return &c.Heat })
	var out []Cause
	for c, s := range shares {
		s.Name, s.Measure, s.gain = causes[c].name, causes[c].measure, causes[c].gain
		switch {
		case cause(c) == byWay:
			s.Name, s.Measure, s.gain = "the flow in the device", wayMeasure[u.Method], 0.5
		case cause(c) == byFull && t.first == nil:
			s.Name = "the fitted fan's full speed"
		case cause(c) == byMeter:
			s.gain = max(0, 1-math.Pow(goodMeter/meterHalf(u.MeterOff), 2))
		case cause(c) == byFittedNoise && u.SeatMeasured:
			s.Measure = "measure the fitted fan alone, out of the device, at 1 m: what of its level is the seat's"
		case cause(c) == byFitted && !u.Fitted.TwoEnded, cause(c) == byCurve && t.first != nil && !t.first.contender.TwoEnded:
			s.Measure = "" // its curve is there, and no better known than curves are
		}
		if s.Level > 0 || s.Heat > 0 {
			out = append(out, s)
		}
	}
	slices.SortStableFunc(out, func(a, b Cause) int { return cmp.Compare(orZero(b.Level), orZero(a.Level)) })
	return out
}

// toWhole scales shares that chance made more than the whole.
func toWhole(shares []Cause, at func(*Cause) *float64) {
	sum := 0.0
	for i := range shares {
		sum += *at(&shares[i])
	}
	for i := range shares {
		*at(&shares[i]) /= max(1, sum)
	}
}

// mostAdvice is how many measurements are advised at most.
const mostAdvice = 3

// advice gives the measurements that would tell much of the level, or of the
// heat, what tells most first.
func (t *told) advice(all []Cause) []Advice {
	var out []Advice
	weight := func(c *Cause) float64 { return max(orZero(c.Level), orZero(c.Heat)) }
	left := func(share float64) float64 { return math.Sqrt(max(0, 1-orZero(share))) }
	level, heat := half(t.level), half(t.heat)
	for i := range all {
		c := &all[i]
		if c.Measure == "" || c.gain*weight(c) < worthwhile {
			continue
		}
		out = append(out, Advice{Cause: *c, Level: level, LevelThen: level * left(c.gain*c.Level), Heat: heat, HeatThen: heat * left(c.gain*c.Heat)})
	}
	slices.SortStableFunc(out, func(a, b Advice) int { return cmp.Compare(weight(&b.Cause), weight(&a.Cause)) })
	return out[:min(len(out), mostAdvice)]
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
// Draws in which y is not known are left out; NaN where it is in none; 0 where it
// does not vary.
func explained(x func(k int) float64, y []float64) float64 {
	var at [layers]struct{ n, sum float64 }
	var n, sum, sumOf2 float64
	for k, v := range y {
		if math.IsNaN(v) {
			continue
		}
		i := min(int(x(k)*layers), layers-1)
		at[i].n++
		at[i].sum += v
		n++
		sum += v
		sumOf2 += v * v
	}
	mean := sum / n
	total := sumOf2 - n*mean*mean
	switch {
	case math.IsNaN(total):
		return math.NaN()
	case !(total > 1e-12*sumOf2):
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
	chance := (used - 1) / (n - 1)
	if !(chance < 1) {
		return 0
	}
	return max(0, (between/total-chance)/(1-chance))
}
