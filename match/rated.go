package match

import (
	"context"
	"math"
	"math/bits"

	"lowsone/acoustics"
	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match/curve"
)

// rated is one fan brought to one footing: at rated speed and nominal voltage,
// standard air, this device's mains frequency, its level 1 m away in free air.
type rated struct {
	curve    curve.Curve
	free     float64 // free delivery in m³/s; judges off-best noise and stall
	level    float64 // dB(A) at 1 m
	kind     catalog.Kind
	supply   catalog.Supply
	turns    float64 // 1/s, NaN unknown
	nominal  float64 // V, NaN unknown
	start    float64 // V, NaN unknown
	pulses   float64 // per turn, NaN unknown
	pwm      bool
	twoEnded bool

	labelLevel float64 // as the row states it, NaN where it is estimated
	power      bool    // the label is a sound power level
	distance   float64 // m, of the label; NaN: the silent 1 m
	mains      mainsChange
	estimated  fieldSet

	by variation // where the fan is drawn; zero as it was rated
}

// fieldSet is a set of fields.
type fieldSet uint64

func (s fieldSet) with(id catalog.FieldID) fieldSet { return s | 1<<id }

func (s fieldSet) has(id catalog.FieldID) bool { return s&(1<<id) != 0 }

func (s fieldSet) count() int { return bits.OnesCount64(uint64(s)) }

func (s fieldSet) list() []catalog.FieldID {
	out := []catalog.FieldID{}
	for id := range catalog.NumFields {
		if s.has(id) {
			out = append(out, id)
		}
	}
	return out
}

// footing is what all fans of one ranking are brought to.
type footing struct {
	source  catalog.Fans     // the catalogue
	columns *catalog.Columns // that hold the fan
	curves  *curve.Rows      // of them
	mains   float64          // Hz of the device, NaN unknown
	supply  catalog.Supply   // of the device, 0 unknown
	similar *similarFans     // nil: nothing is estimated
	fans    int              // equal fans that share the path's air; under 2: one
	series  bool             // one behind the other, else side by side
}

// lack says what keeps a fan from being ranked; empty where nothing does.
type lack string

const (
	lackCrossflow lack = "crossflow fans have no curve shape of their own yet: compare by hand"
	lackCurve     lack = "no curve, and not enough to estimate one: needs airflow and static pressure"
	lackLevel     lack = "no noise level, and not enough to estimate one"
	lackEstimates lack = "would need an estimate, which was not asked for"
	lackSpeed     lack = "its speed at this voltage is not known"
	lackPoints    lack = "its curve does not reach the working point"
	lackKind      lack = "kind not stated, and estimates were not asked for"
)

// on gives the footing for fans in other columns.
func (g *footing) on(c *catalog.Columns) *footing {
	other := *g
	other.columns, other.curves = c, curve.NewRows(c.CurveEnd, c.CurveFlow, c.CurvePressure)
	return &other
}

// prepare sees to what is needed to rate row i: what similar fans have in common,
// where the row may need an estimate.
func (g *footing) prepare(ctx context.Context, i int) error {
	if g.similar == nil {
		return nil
	}
	for _, id := range [...]catalog.FieldID{catalog.FieldAirflow, catalog.FieldStaticPressure, catalog.FieldNoise} {
		if math.IsNaN(g.columns.Number(id, i)) {
			return g.similar.learn(ctx)
		}
	}
	return nil
}

// at gives the footing for single rows of the catalogue, numbered anew, each
// prepared.
func (g *footing) at(ctx context.Context, rows ...int) (*footing, error) {
	cols, err := g.source.At(ctx, rows)
	if err != nil {
		return nil, err
	}
	other := g.on(cols)
	for i := range rows {
		if err := other.prepare(ctx, i); err != nil {
			return nil, err
		}
	}
	return other, nil
}

// rate brings row i to the footing.
func (g *footing) rate(i int, r *rated) lack {
	c := g.columns
	*r = rated{
		turns:   c.Number(catalog.FieldSpeed, i),
		nominal: c.Number(catalog.FieldVoltage, i),
		start:   c.Number(catalog.FieldStartVoltage, i),
		pulses:  c.Number(catalog.FieldTachPerRev, i),
		pwm:     c.Code(catalog.FieldPWM, i) == codeYes,
		kind:    catalog.Kind(c.Code(catalog.FieldKind, i)),
		supply:  catalog.Supply(c.Code(catalog.FieldSupply, i)),
	}
	if why := g.rateKind(r); why != "" {
		return why
	}
	if why := g.rateCurve(r, i); why != "" {
		return why
	}
	why := g.rateLevel(r, i)
	if why != "" {
		r.level = math.NaN()
	}
	g.rateMains(r, i)
	g.rateSeveral(r)
	return why
}

// rateSeveral makes one fan of a path's equal ones: side by side their flows
// add, one behind the other their pressures, and their levels as energies.
func (g *footing) rateSeveral(r *rated) {
	if g.fans < 2 {
		return
	}
	n := float64(g.fans)
	if g.series {
		r.curve = r.curve.Scaled(1, n)
	} else {
		r.curve = r.curve.Scaled(n, 1)
		r.free *= n
	}
	r.level += float64(acoustics.Identical(g.fans))
}

// lowVoltage is the highest nominal voltage, in V, at which a fan that does not
// say AC or DC is taken for DC (common practice: 5, 12, 24 and 48 V).
const lowVoltage = 60

// rateKind settles kind and supply. An unknown kind is taken as axial, an
// estimate. An unknown supply is taken as the device's, else as DC up to
// lowVoltage, a default; the check of fit still says that it is not stated.
func (g *footing) rateKind(r *rated) lack {
	switch {
	case r.kind == catalog.Crossflow:
		return lackCrossflow
	case r.kind == 0 && g.similar == nil:
		return lackKind
	case r.kind == 0:
		r.kind = catalog.Axial
		r.estimated = r.estimated.with(catalog.FieldKind)
	}
	if r.supply == 0 {
		r.supply = g.supply
	}
	if r.supply == 0 && r.nominal <= lowVoltage {
		r.supply = catalog.DC
	}
	return ""
}

// rateCurve sets curve and free delivery: points where the row has them, else
// the shape of the kind between its two ends, an end from similar fans where
// one is missing.
func (g *footing) rateCurve(r *rated, i int) lack {
	if c := g.curves.Curve(i); c.Len() >= 2 {
		r.curve = c
		r.free = g.freeOfPoints(r, i)
		return ""
	}
	q0 := g.columns.Number(catalog.FieldAirflow, i)
	p0 := g.columns.Number(catalog.FieldStaticPressure, i)
	if math.IsNaN(q0) || math.IsNaN(p0) {
		if math.IsNaN(q0) && math.IsNaN(p0) {
			return lackCurve
		}
		if g.similar == nil {
			return lackEstimates
		}
		width := g.columns.Number(catalog.FieldWidth, i)
		var ok bool
		if math.IsNaN(p0) {
			p0, ok = g.similar.pressure(r.kind, width, r.turns, q0)
			r.estimated = r.estimated.with(catalog.FieldStaticPressure)
		} else {
			q0, ok = g.similar.flow(r.kind, width, r.turns, p0)
			r.estimated = r.estimated.with(catalog.FieldAirflow)
		}
		if !ok {
			return lackCurve
		}
	}
	r.twoEnded = true
	r.curve = curve.TwoEnded(shapesOf(r.kind).Mean, q0, p0)
	r.free = q0
	if r.curve.Len() == 0 {
		return lackCurve
	}
	return ""
}

// freeOfPoints gives the flow at no pressure: the curve's end, else the stated
// airflow where it lies beyond, else the last line drawn on to no pressure,
// which is an estimate.
func (g *footing) freeOfPoints(r *rated, i int) float64 {
	end, reached := r.curve.FreeDelivery()
	if reached {
		return end
	}
	if q0 := g.columns.Number(catalog.FieldAirflow, i); q0 >= end {
		return q0
	}
	r.estimated = r.estimated.with(catalog.FieldAirflow)
	n := r.curve.Len()
	q1, p1 := r.curve.Knot(n - 2)
	q2, p2 := r.curve.Knot(n - 1)
	if p2 >= p1 {
		return q2
	}
	return q2 + p2*(q2-q1)/(p1-p2)
}

// rateLevel brings the label to a sound pressure level at 1 m: a sound power
// less 11 dB, another distance by 20·lg. A missing level comes from similar
// fans.
func (g *footing) rateLevel(r *rated, i int) lack {
	c := g.columns
	r.labelLevel = c.Number(catalog.FieldNoise, i)
	if math.IsNaN(r.labelLevel) {
		r.labelLevel = levelOfBands(c.Bands(i))
	}
	r.distance = c.Number(catalog.FieldNoiseDistance, i)
	r.power = catalog.NoiseKind(c.Code(catalog.FieldNoiseKind, i)) == catalog.NoisePower
	if !math.IsNaN(r.labelLevel) {
		r.level = labelAt1m(r.labelLevel, r.power, r.distance)
		return ""
	}
	if g.similar == nil {
		return lackEstimates
	}
	p0, _ := r.curve.ShutOff()
	level, ok := g.similar.level(r.kind, r.free, p0)
	if !ok {
		return lackLevel
	}
	r.level = level
	r.estimated = r.estimated.with(catalog.FieldNoise)
	return ""
}

// levelOfBands gives the A-weighted level of band levels; NaN where there are
// none, or too few.
func levelOfBands(bands []quantity.BandLevel) float64 {
	if len(bands) == 0 {
		return math.NaN()
	}
	read, err := acoustics.ReadBands(bands, acoustics.Unweighted)
	if err != nil {
		return math.NaN()
	}
	return read.Thirds.A().DB()
}

// labelAt1m gives the level 1 m away in free air that a label means.
func labelAt1m(label float64, power bool, distance float64) float64 {
	if power {
		return acoustics.FromPower(quantity.PowerLevel(label)).DB()
	}
	l := quantity.PressureLevel(label)
	if !math.IsNaN(distance) {
		l = acoustics.AtDistance(l, quantity.Length(distance), acoustics.LabelDistance)
	}
	return l.DB()
}

// wheelOf gives the wheel that decides off-best noise.
func wheelOf(kind catalog.Kind) acoustics.Wheel {
	switch kind {
	case catalog.Centrifugal:
		return acoustics.Centrifugal
	case catalog.Mixed:
		return acoustics.Mixed
	default:
		return acoustics.Axial
	}
}
