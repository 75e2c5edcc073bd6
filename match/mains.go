package match

import (
	"math"

	"lowsone/catalog"
)

// mainsChange is what was done to an AC fan's values for the device's mains
// frequency: flow factor and level difference; the zero value is nothing.
type mainsChange struct {
	done  bool
	flow  float64
	level float64 // dB
	from  float64 // Hz the row states, NaN unknown
	to    float64 // Hz of the device, NaN unknown
}

// 50 Hz against 60 Hz values of one AC fan (common practice, no source): flow
// and speed 0.85, level 3.5 dB lower at 50 Hz.
const (
	mainsFlow  = 0.85
	mainsLevel = 3.5
)

// rateMains brings an AC fan's values to the device's mains frequency. Where
// one of the two frequencies is unknown the lower flow and the higher level
// count. Either way the values become estimates.
func (g *footing) rateMains(r *rated, i int) {
	if r.supply != catalog.AC {
		return
	}
	m := changeMains(g.columns.Number(catalog.FieldFrequency, i), g.mains)
	if !m.done {
		return
	}
	r.mains = m
	r.curve = r.curve.Scaled(m.flow, m.flow*m.flow)
	r.free *= m.flow
	r.turns *= m.flow
	r.level += m.level
	r.estimated = r.estimated.with(catalog.FieldAirflow).with(catalog.FieldNoise)
}

// otherMains says that values at one frequency cannot be brought to another:
// they differ, and are not 50 and 60 Hz. An unknown one does not tell.
func otherMains(from, to float64) bool {
	usual := func(hz float64) bool { return hz == 50 || hz == 60 }
	return !math.IsNaN(from) && !math.IsNaN(to) && from != to && !(usual(from) && usual(to))
}

// changeMains gives the change from values at one frequency to another. Either
// may be NaN.
func changeMains(from, to float64) mainsChange {
	at50 := func(hz float64) bool { return hz == 50 }
	at60 := func(hz float64) bool { return hz == 60 }
	m := mainsChange{done: true, flow: 1, from: from, to: to}
	switch {
	case at50(from) && at60(to):
		m.flow, m.level = 1/mainsFlow, mainsLevel
	case at60(from) && at50(to):
		m.flow, m.level = mainsFlow, -mainsLevel
	case at50(from) && math.IsNaN(to):
		m.level = mainsLevel
	case at60(from) && math.IsNaN(to):
		m.flow = mainsFlow
	case math.IsNaN(from) && at50(to):
		m.flow = mainsFlow
	case math.IsNaN(from) && at60(to):
		m.level = mainsLevel
	case math.IsNaN(from) && math.IsNaN(to):
		m.flow, m.level = mainsFlow, mainsLevel
	default:
		return mainsChange{}
	}
	return m
}
