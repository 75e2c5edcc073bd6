package match

import (
	"errors"
	"math"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match/curve"
	"lowsone/match/resistance"
)

// Drawn is the device under one draw.
type Drawn struct {
	study *Study
	p     *problem
	draw  Draw
	// Doubt is how badly the other ways that were measured agree with it: minus
	// twice the logarithm of their likelihood, 0 where there is none.
	Doubt float64
}

// Draw gives the device under a draw. The error says that it cannot be so: what
// was measured contradicts itself then.
func (s *Study) Draw(x Draw) (*Drawn, error) {
	k, doubt, err := s.p.known.drawn(&x)
	if err != nil {
		return nil, err
	}
	p := *s.p
	p.known = k
	d := &Drawn{study: s, p: &p, draw: x, Doubt: doubt}
	err = p.settle(&x)
	var none *NoFlowError
	if errors.As(err, &none) { // that can be: no fan is enough then
		err = nil
	}
	return d, err
}

// drawn gives the device with its fitted fan and its resistance under a draw,
// and how badly the other ways agree.
func (d *known) drawn(x *Draw) (*known, float64, error) {
	out := *d
	out.system.Ratio *= x.SpeedNow
	standing := curve.Curve{}
	if d.hasAir {
		out.fitted = d.fitted.drawn(&x.Fitted, x.Exponent)
		standing = out.fitted.curve.AtSpeed(out.system.Ratio)
	}
	est, err := d.path.Way.drawn(x.Way).estimate(standing)
	if err != nil {
		return nil, 0, err
	}
	if est.Method == resistance.ByGeometry {
		if est, err = resistance.Rougher(standing, est, 1+resistance.GeometryBand*x.Way); err != nil {
			return nil, 0, err
		}
	} else if est.Method != resistance.ByPoints {
		est.System = bent(est, x.Bend)
	}
	out.system.Estimate = est
	if est.Density > 0 {
		out.system.Density = est.Density
	}
	return &out, out.doubt(standing), nil
}

// bent moves a share of the loss at the working point into the laminar part.
func bent(e resistance.Estimate, share float64) curve.System {
	if !(share > 0) {
		return e.System
	}
	return curve.System{A: share * e.P / e.Q, B: (1 - share) * e.P / (e.Q * e.Q)}
}

// quantile90 is the 90 % quantile of the standard normal distribution: half a
// 10–90 % span in standard deviations.
const quantile90 = 1.2815515655446004

// impossible is the doubt of a way that has no answer at all under a draw.
const impossible = 16

// doubt says how badly the other ways agree with the flow found: the sum of the
// squares of their distances, in standard deviations.
func (d *known) doubt(standing curve.Curve) float64 {
	sum := 0.0
	for _, way := range d.otherWays {
		est, err := way.estimate(standing)
		if err != nil || !est.Located {
			sum += impossible
			continue
		}
		half := est.HighQ - est.Q
		if d.system.Q < est.Q {
			half = est.Q - est.LowQ
		}
		if half > 0 {
			sum += math.Pow(quantile90*(d.system.Q-est.Q)/half, 2)
		}
	}
	return sum
}

// drawn gives the way with its measured number off by z half widths of its
// span. Geometry is drawn by its loss, elsewhere.
func (w Way) drawn(z float64) Way {
	switch w.Method {
	case resistance.ByFlow:
		w.Flow *= quantity.Flow(1 + resistance.FlowBand*z)
	case resistance.ByHeat:
		w.Heat.Power *= quantity.Power(1 + resistance.HeatBand*z)
	case resistance.ByPressure:
		w.Pressure += quantity.Pressure(z * resistance.PressureOff(float64(w.Pressure)))
	case resistance.ByShare:
		w.Share += resistance.ShareBand * z
	case resistance.ByPoints:
		points := make([]catalog.CurvePoint, len(w.Points))
		for i, p := range w.Points {
			p.Pressure *= quantity.Pressure(1 + resistance.PointsBand*z)
			points[i] = p
		}
		w.Points = points
	}
	return w
}

// Outcome is how a fan does under one draw.
type Outcome struct {
	// Enough: it moves the needed flow within its speed.
	Enough bool
	Ratio  float64 // speed that moves the needed flow, held between its lowest and its full speed
	Level  float64 // dB(A) at the listener there
	Full   float64 // m³/s at full speed
}

// Fan gives how contender i does, adjusted to the needed flow of this draw. Not
// ok where its curve has no working point here.
func (d *Drawn) Fan(i int, x *FanDraw) (out Outcome, ok bool) {
	c := &d.study.fine[i]
	r, found, at := d.fan(c, x)
	e := evaluation{rated: r}
	o, _ := d.p.task.evaluate(&e, found, at)
	switch o {
	case fine:
		l := e.rated.levelAt(e.planned, e.x, d.p.task.density, d.p.task.offset)
		return Outcome{true, e.planned, l.DB, e.full.Q}, true
	case weak:
		l := e.rated.levelAt(e.top, e.full.Q/e.top, d.p.task.density, d.p.task.offset)
		return Outcome{false, e.top, l.DB, e.full.Q}, true
	}
	return Outcome{}, false
}

// fan gives the drawn fan, and the speed and flow it was found at where it is
// the fitted one. That one is drawn with the device.
func (d *Drawn) fan(c *contender, x *FanDraw) (r rated, found, at float64) {
	if c.fitted() {
		return d.p.known.fitted, d.p.known.system.Ratio, d.p.known.system.Q
	}
	return c.rated.drawn(x, d.draw.Exponent), math.NaN(), math.NaN()
}

// Planned is how a fan does under one draw when it is run as the ranking plans,
// before anything is measured and mended.
type Planned struct {
	Flow  float64 // m³/s
	Level float64 // dB(A) at the listener
	// Over is how far the hottest watched spot, by its own limit, lies above that
	// limit in K, below zero where it is kept; NaN where none is watched.
	Over float64
	// Spots are the temperatures of the watched spots in °C.
	Spots []float64
}

// Planned gives how contender i does at the speed that is planned. Not ok where
// its curve has no working point there.
func (d *Drawn) Planned(i int, x *FanDraw) (out Planned, ok bool) {
	c := &d.study.fine[i]
	r, _, _ := d.fan(c, x)
	ratio := r.by.setTo(c.planned)
	if c.fitted() { // set by what it is known to run at
		ratio = c.planned * d.draw.SpeedNow
	}
	t := &d.p.task
	point, _, err := curve.Held(r.curve.AtDensity(t.density), t.system, ratio)
	if err != nil {
		return Planned{}, false
	}
	out = Planned{Flow: point.Q, Level: r.levelAt(ratio, point.Q/ratio, t.density, t.offset).DB, Over: math.NaN()}
	return out, d.heat(&out)
}

// heat sets the temperatures of the watched spots.
func (d *Drawn) heat(out *Planned) bool {
	cooling := d.p.cooling
	if cooling == nil {
		return true
	}
	out.Over = math.Inf(-1)
	for i, m := range cooling.models {
		b, err := m.Temperature(cooling.worst, out.Flow*d.p.task.density/cooling.mass)
		if err != nil {
			return false
		}
		out.Spots = append(out.Spots, b.Middle)
		out.Over = math.Max(out.Over, b.Middle-cooling.need.Each[i].Limit)
	}
	return true
}

// Need gives the needed flow under the draw in m³/s, +Inf where no flow is enough,
// and the present one, NaN where it is not known.
func (d *Drawn) Need() (need, now float64) {
	if !d.p.known.system.Located {
		return d.p.task.need, math.NaN()
	}
	return d.p.task.need, d.p.known.system.Q
}

// System gives the device's resistance under the draw.
func (d *Drawn) System() curve.System { return d.p.task.system }

// AsFound gives how the fitted fan does as it was found, in the worst case where
// spots are watched.
func (d *Drawn) AsFound() (out Planned, ok bool) {
	out = Planned{Flow: d.p.known.system.Q, Level: d.Now(), Over: math.NaN()}
	return out, d.heat(&out)
}

// Now gives the level of the fitted fan at the listener as it was found; NaN
// where it is not known.
func (d *Drawn) Now() float64 {
	if b := d.p.known.baseline(d.p.task.offset); b.HasLevel {
		return b.Level.DB
	}
	return math.NaN()
}
