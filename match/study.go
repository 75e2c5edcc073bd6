package match

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match/curve"
	"lowsone/match/resistance"
)

// Study is a request looked at once, ready to be asked again with other values
// of what is not certain.
type Study struct {
	p     *problem
	found *field
}

// NewStudy makes the device of a request ready. Errors are those of Rank.
func NewStudy(ctx context.Context, cols *catalog.Columns, req Request) (*Study, error) {
	p, err := prepare(ctx, cols, req)
	if err != nil {
		return nil, err
	}
	return &Study{p: p, found: &field{}}, nil
}

// Look goes through the catalogue and ranks what it finds; before, there are no
// contenders. The error is that of the context.
func (s *Study) Look(ctx context.Context) error {
	found, err := s.p.look(ctx)
	if err != nil {
		return err
	}
	found.order()
	s.found = found
	return nil
}

// RankingOf gives the answer with everything taken as it was given, its first
// candidates the contenders named by their places, in that order; the others
// follow as they were ranked. The first top are put into words; 0: all.
func (s *Study) RankingOf(first []int, top int) (*Ranking, error) {
	named := make([]bool, len(s.found.fine))
	order := slices.Clone(first)
	for _, i := range first {
		named[i] = true
	}
	for i := range named {
		if !named[i] {
			order = append(order, i)
		}
	}
	return s.p.rankingOf(s.found, order, top)
}

// Score gives the whole decibels that a level at the listener is ranked by.
func (s *Study) Score(level float64) int { return scoreOf(Level{DB: level}, s.p.req.Room) }

// Need gives the needed flow in m³/s with everything taken as it was given.
func (s *Study) Need() float64 { return s.p.task.need }

// Apart says in words which two ways to the resistance lie farthest apart; empty
// where there is only one.
func (s *Study) Apart() string {
	system := &s.p.known.system
	if len(system.Apart) == 0 {
		return ""
	}
	all := append([]resistance.Estimate{system.Estimate}, system.Others...)
	worst := system.Apart[0]
	a, b := all[worst.A], all[worst.B]
	return fmt.Sprintf("%s by %s, %s by %s", flow(a.Q), a.Method, flow(b.Q), b.Method)
}

// Unknowns says what of the device is not certain.
type Unknowns struct {
	Method        resistance.Method
	Assumed       bool // no way to the resistance was given
	Others        int  // further ways that were measured
	SpeedGiven    bool // of the fitted fan, measured or known from its supply
	SpeedMeasured bool
	Fitted        FanUnknowns
	HasFitted     bool // the fitted fan has a curve and a level of its own
	SeatMeasured  bool // the level at the fitted fan was measured
	// MeterOff is how far that level may be off by the class of the meter, either
	// way; 0 where the meter is not known, NaN where nothing is known of it at that
	// level.
	MeterOff quantity.Decibel
	Spots    []SpotUnknowns
}

// SpotUnknowns says what of a watched spot is known exactly.
type SpotUnknowns struct {
	Name             string
	Air, Solid, Film bool
}

// FanUnknowns says what of a fan is not certain.
type FanUnknowns struct {
	TwoEnded  bool
	Estimated []catalog.FieldID
	Level     quantity.Decibel // half the 10–90 % band of a level that was estimated; 0 where its row states one
	Flow      float64          // the same of a free delivery, as a share of it
	Pressure  float64          // the same of a shut-off pressure
}

// Unknowns says what of the device is not certain.
func (s *Study) Unknowns() Unknowns {
	k := s.p.known
	u := Unknowns{
		Method: k.path.Way.Method, Assumed: k.path.Way.Assumed, Others: len(k.otherWays), SpeedGiven: k.system.Given,
		SpeedMeasured: k.path.SpeedNow.Turns.Known() || k.path.SpeedNow.Ratio.Known(),
		HasFitted:     k.hasAir, SeatMeasured: s.p.seat.Known,
	}
	if u.SeatMeasured {
		u.MeterOff = s.p.meterOff()
	}
	if k.hasAir {
		u.Fitted = k.ground.unknowns(&k.fitted)
	}
	if s.p.cooling != nil {
		for _, m := range s.p.cooling.models {
			one := SpotUnknowns{Name: m.Name()}
			one.Air, one.Solid, one.Film = m.Exact()
			u.Spots = append(u.Spots, one)
		}
	}
	return u
}

// meterOff gives how far the level measured at the fitted fan may be off.
func (p *problem) meterOff() quantity.Decibel {
	r := p.req.Path.Reading
	shapes := p.spectrumFitted().shapes
	if r.Meter == 0 || len(shapes) == 0 {
		return 0
	}
	at := shapes[0].Thirds.ScaledTo(r.Level)
	return r.Meter.HalfWidth(&at)
}

// unknowns says what of a rated fan is not certain.
func (g *footing) unknowns(r *rated) FanUnknowns {
	u := FanUnknowns{TwoEnded: r.twoEnded, Estimated: r.estimated.list()}
	if g.similar == nil || r.kind > catalog.Crossflow {
		return u
	}
	if math.IsNaN(r.labelLevel) {
		k := g.similar.noise[r.kind]
		u.Level = quantity.Decibel(k.High-k.Low) / 2
	}
	phi, psi := g.similar.phi[r.kind].half(), g.similar.psi[r.kind].half()
	if math.IsNaN(r.turns) { // the tip speed was estimated from the other end
		phi, psi = math.Hypot(phi, psi/2), math.Hypot(psi, 2*phi)
	}
	if r.twoEnded && r.estimated.has(catalog.FieldAirflow) && !r.mains.done {
		u.Flow = phi
	}
	if r.twoEnded && r.estimated.has(catalog.FieldStaticPressure) {
		u.Pressure = psi
	}
	return u
}

// half gives half the band as a share of the middle.
func (s spread) half() float64 { return (s.High - s.Low) / (2 * s.Mid) }

// Contender is a fan that fits and moves enough air when everything is taken as
// it was given.
type Contender struct {
	Row    int // in the catalogue; NotInCatalogue for a fitted fan that is described only
	Fitted bool
	Part   string
	Maker  string
	Score  int // whole decibels it is ranked by
	FanUnknowns
}

// Contenders lists the fans in the order of the ranking; those too weak are not
// among them.
func (s *Study) Contenders() []Contender {
	out := make([]Contender, len(s.found.fine))
	for i := range s.found.fine {
		c := &s.found.fine[i]
		out[i] = Contender{c.row, c.fitted, c.part, c.maker, c.score, s.p.known.ground.unknowns(&c.rated)}
	}
	return out
}

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
	c := &d.study.found.fine[i]
	r, found, at := d.fan(c, x)
	e, o, _ := d.p.task.evaluate(r, found, at)
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
	if c.fitted {
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
	c := &d.study.found.fine[i]
	r, _, _ := d.fan(c, x)
	ratio := r.by.setTo(c.planned)
	if c.fitted { // set by what it is known to run at
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
// and the present one.
func (d *Drawn) Need() (need, now float64) { return d.p.task.need, d.p.known.system.Q }

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
