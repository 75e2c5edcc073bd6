package sample_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match/curve"
	"lowsone/testdata/sources"
)

// draws are random numbers of a case, each a distribution written as its 10–90 %
// range.
type draws struct{ *rand.Rand }

func (d draws) even(low, high float64) float64 { return low + (high-low)*d.Float64() }

func (d draws) chance(p float64) bool { return d.Float64() < p }

// off is a normal error with a 10–90 % range of ± half.
func (d draws) off(half float64) float64 { return half * d.NormFloat64() / 1.2816 }

// shape is the normalised curve of one published fan.
type shape struct {
	id, source string
	x, p       []float64
}

// axialShapes reads the published curves of axial fans.
func axialShapes(t testing.TB) (all []shape) {
	t.Helper()
	number := func(text string) float64 {
		v, err := strconv.ParseFloat(text, 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	for _, r := range sources.Records[map[string]string](t, "air_fan_curves.csv") {
		if r["kind"] != "axial" {
			continue
		}
		if len(all) == 0 || all[len(all)-1].id != r["curve_id"] {
			all = append(all, shape{id: r["curve_id"], source: r["source_key"]})
		}
		s := &all[len(all)-1]
		s.x, s.p = append(s.x, number(r["q_over_qmax"])), append(s.p, number(r["p_over_p0"]))
	}
	return all
}

// centrifugalShape draws one of the family: four published curves are too few to
// draw from.
func centrifugalShape(d draws) shape {
	s := shape{id: "centrifugal", source: "family"}
	c := curve.TwoEnded(curve.Centrifugal().At(d.Float64()), 1, 1)
	for i := range c.Len() {
		x, p := c.Knot(i)
		s.x, s.p = append(s.x, x), append(s.p, p)
	}
	return s
}

// A made fan is one with its label.
type made struct {
	label *catalog.Fan
	trueFan
	shape shape
	told  struct{ q0, p0, level float64 } // as its maker has it, stated or not
}

// frame holds what makes fans of one frame alike, after the coefficients of
// 60 mm frames: φ 0.33, ψ 0.73 axial; 0.27 and 1.8 centrifugal (common practice);
// D 56 and 43 mm of wheel.
type frame struct {
	kind          catalog.Kind
	phi, psi, dia float64
	sound         float64 // dB: level less 10·lg(m³/h) and 20·lg(Pa)
}

var (
	axial60       = frame{catalog.Axial, 0.33, 0.73, 0.056, -18.5}
	centrifugal60 = frame{catalog.Centrifugal, 0.27, 1.8, 0.043, -17}
)

// A market draws fans.
type market struct {
	draws
	axial []shape
	frame
}

// fan draws a fan and its label, turning at rpm by that.
//
// The fan comes first, its label after it: the flow along any system is within
// ±10 % of the curve on the label (so both ends go as with a speed), the level
// within ±2 dB. So the fan whose label flatters it most is not the best one.
func (m *market) fan(name string, rpm float64) *made {
	f := &made{}
	u := math.Pi * m.dia * rpm / 60
	area := math.Pi / 4 * m.dia * m.dia
	q0 := m.phi * (1 + m.off(0.12)) * area * u
	p0 := m.psi * (1 + m.off(0.2)) * 0.6 * u * u
	f.level = m.sound + 10*math.Log10(q0*3600) + 20*math.Log10(p0) + m.off(3.5)
	if f.shape = centrifugalShape(m.draws); m.kind == catalog.Axial {
		f.shape = m.axial[m.IntN(len(m.axial))]
	}
	m.realise(f, q0, p0)
	by := 1 + m.off(0.10)
	f.told.q0, f.told.p0 = round(q0/by*3600, 0.1)/3600, round(p0/(by*by), 0.1)
	f.told.level = round(f.level+m.off(2), 0.1)
	f.label = m.labelOf(f, name, rpm)
	return f
}

func round(v, step float64) float64 { return step * math.Round(v/step) }

// labelOf puts on the label what such fans state, now and then less.
func (m *market) labelOf(f *made, name string, rpm float64) *catalog.Fan {
	l := &catalog.Fan{
		Part: name, Maker: "Draw", Kind: quantity.Stated(m.kind),
		Width: quantity.Stated(60 * quantity.Millimetre), Height: quantity.Stated(60 * quantity.Millimetre), Depth: quantity.Stated(25 * quantity.Millimetre),
		Voltage: quantity.Stated(quantity.Voltage(12)), VoltageMin: quantity.Stated(quantity.Voltage(6)), VoltageMax: quantity.Stated(quantity.Voltage(13.8)),
		Supply: quantity.Stated(catalog.DC), Leads: quantity.Stated(3.0), TachPerRev: quantity.Stated(2.0),
		Airflow: quantity.Stated(quantity.Flow(f.told.q0)), StaticPressure: quantity.Stated(quantity.Pressure(f.told.p0)),
		Speed: quantity.Stated(quantity.Speed(rpm / 60)), Noise: quantity.Stated(quantity.Decibel(f.told.level)),
	}
	if m.chance(0.5) {
		l.PWM, l.Leads = quantity.Stated(true), quantity.Stated(4.0)
	}
	switch {
	case m.chance(0.25):
		l.Curve = m.points(f)
	case m.chance(0.07):
		l.StaticPressure = quantity.Known[quantity.Pressure]{}
	case m.chance(0.05):
		l.Airflow = quantity.Known[quantity.Flow]{}
	}
	if m.chance(0.1) {
		l.Noise = quantity.Known[quantity.Decibel]{}
	}
	return l
}

// points are those of a curve read off a sheet.
func (m *market) points(f *made) (out []catalog.CurvePoint) {
	const every = 6
	for i := range f.shape.x {
		if last := len(f.shape.x) - 1; i%every == 0 && i+every/2 < last || i == last {
			out = append(out, catalog.CurvePoint{Flow: quantity.Flow(f.told.q0 * f.shape.x[i]), Pressure: quantity.Pressure(f.told.p0 * f.shape.p[i])})
		}
	}
	return out
}

// realise draws the rest of a fan with these ends: its full speed even within
// ±10 % of its label, its noise off the best point within the band of the off-duty
// curve, the factor of the speed law 40 to 60, its speed when slowed ±5 % of the
// measured voltage law.
func (m *market) realise(f *made, q0, p0 float64) {
	f.kind = m.kind
	for i := range f.shape.x {
		f.x, f.p = append(f.x, q0*f.shape.x[i]), append(f.p, p0*f.shape.p[i])
	}
	f.offBest = m.off(1)
	f.law = m.even(40, 60)
	f.full = m.even(0.9, 1.1)
	f.slowed = 1 + m.off(0.05)
}

// catalogue draws fans of one frame.
func (m *market) catalogue(n int) []*made {
	out := make([]*made, n)
	for i := range out {
		out[i] = m.fan(fmt.Sprintf("D%02d", i), 2500*math.Pow(3, m.Float64()))
	}
	return out
}
