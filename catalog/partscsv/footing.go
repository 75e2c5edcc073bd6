package partscsv

import (
	"fmt"
	"math"

	"lowsone/acoustics"
	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// footing is what levels are: a sound power, or a sound pressure at a distance,
// as far as it is said.
type footing struct {
	kind     catalog.NoiseKind // 0: not said
	distance quantity.Known[quantity.Length]
}

// String names the footing.
func (g footing) String() string {
	if g.kind == catalog.NoisePower {
		return "a sound power"
	}
	return fmt.Sprintf("a sound pressure at %s m", catalog.Number(float64(g.distance.Or(acoustics.LabelDistance))))
}

// bringToFooting brings band levels to what the level of the row is, since the
// record says of both what they are. What only the bands say of it holds for the
// level too, unless their sum meets the level only once they are brought to what
// the trade means by silence.
func (r *Reader) bringToFooting() {
	f, c := r.row.fan, r.bands.column
	bands, level := footing{kind: c.noiseKind}, footing{f.NoiseKind.Or(0), f.NoiseDistance}
	if m, ok := c.header.condition(quantity.DimLength); ok && bands.kind != catalog.NoisePower {
		bands = footing{catalog.NoisePressure, quantity.Stated(quantity.Length(m))} // a sound power has no distance
	}
	shift := bands.to(level)
	if shift == 0 || !bands.contradicts(level) && (r.sumMeets(0) || !r.sumMeets(shift)) {
		r.stateFooting(bands)
		return
	}
	r.bands.shift = shift
	for i := range r.bands.levels {
		l := &r.bands.levels[i].Level
		*l = quantity.Decibel(hundredth(float64(*l) + shift))
	}
	warning := fmt.Sprintf("the bands are %v, the level is %v: the bands are brought to that", bands, level)
	r.row.warn(c, warning, "%s, by %s dB", warning, tenth(shift))
}

// contradicts says whether two footings say what cannot both hold.
func (g footing) contradicts(h footing) bool {
	if g.kind != 0 && h.kind != 0 && g.kind != h.kind {
		return true
	}
	a, also := g.distance.Get()
	b, ok := h.distance.Get()
	return ok && also && a != b
}

// sumMeets says whether the A-weighted sum of the bands, changed by shift, is
// about the level; it is where none is stated.
func (r *Reader) sumMeets(shift float64) bool {
	level, ok := r.row.fan.Noise.Get()
	return !ok || math.Abs(levelSum(r.bands.levels, 1)+shift-float64(level)) <= sumApart
}

// stateFooting takes what the headers of bands say for what the row does not.
func (r *Reader) stateFooting(g footing) {
	f, c := r.row.fan, r.bands.column
	if g.kind != 0 && !f.NoiseKind.Known() {
		r.row.put(c, catalog.FieldNoiseKind, float64(g.kind), quantity.Cell, c.header.text)
	}
	if m, ok := g.distance.Get(); ok && !f.NoiseDistance.Known() {
		r.row.put(c, catalog.FieldNoiseDistance, float64(m), quantity.Cell, c.header.text)
	}
}

// to gives what is added to levels of footing g to make them levels of footing
// h, in free air: 20·lg of the ratio of distances, and what lies between sound
// power and the sound pressure at 1 m. What is not said of h is what the trade
// means by silence, what is not said of g is as in h.
func (g footing) to(h footing) float64 {
	to := h.distance.Or(acoustics.LabelDistance)
	from := g.distance.Or(to)
	kind := h.kind
	if kind == 0 {
		kind = catalog.NoisePressure
	}
	if g.kind == 0 {
		g.kind = kind
	}
	pressureAt := func(r quantity.Length) float64 { // above the sound power
		at1m := acoustics.FromPower(quantity.PowerLevel(0))
		return acoustics.AtDistance(at1m, quantity.Metre, r).DB()
	}
	switch {
	case g.kind == catalog.NoisePower && kind == catalog.NoisePower:
		return 0
	case g.kind == catalog.NoisePower:
		return pressureAt(to)
	case kind == catalog.NoisePower:
		return -pressureAt(from)
	}
	return pressureAt(to) - pressureAt(from)
}
