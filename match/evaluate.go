package match

import (
	"math"

	"lowsone/catalog"
	"lowsone/match/curve"
	"lowsone/match/drive"
)

// task is what every candidate of one ranking is measured against.
type task struct {
	system   curve.System
	density  float64 // kg/m³
	need     float64 // m³/s
	offset   float64 // dB from 1 m to the listener
	volts    float64 // at the plug, NaN unknown
	least    float64 // the lowest at the plug, NaN unknown
	slow     SlowBy
	fit      *fit
	scenario []scenario // the three shares, where no way was given
}

// evaluation is one fan in this device, with every number on the way.
type evaluation struct {
	rated rated

	top    float64     // speed ratio at this device's supply
	lowest float64     // the slowest that may be planned
	floor  drive.Limit // what sets lowest

	full    curve.Crossing
	fullOf  int // stable crossings at full speed
	match   curve.Match
	matches int

	planned  float64 // speed ratio
	point    curve.Crossing
	x        float64 // of the planned point on the full-speed curve
	limit    Limit
	headRoom float64 // top ratio behind a regulator; NaN where none is asked for
}

// tooFast is how far above its full speed a fan may have to turn and still be
// taken for just enough: rounding of labels, no real reserve.
const tooFast = 1.005

// outcome is what became of a fan. Fine has the zero value.
type outcome uint8

const (
	fine    outcome = iota
	alarmed         // would trip the device's alarm at its full speed here
	weak
	unrankable
)

// evaluate crosses the rated fan of e with the device. found is the fitted fan's own
// speed ratio and at its flow, as found; both NaN for any other fan. The
// fitted fan is known to run so, whatever its supply or a lowest speed say.
func (t *task) evaluate(e *evaluation, found, at float64) (o outcome, why lack) {
	r := &e.rated
	if why = t.speeds(e, found); why != "" {
		return unrankable, why
	}
	if e.floor == drive.Tach && math.IsNaN(found) && e.lowest*r.by.alarmMargin() > e.top*(1+1e-9) {
		return alarmed, ""
	}
	standing := r.curve.AtDensity(t.density)
	var err error
	if e.match, e.matches, err = t.speedFor(standing, found, at); err != nil {
		return unrankable, lackPoints
	}
	if e.full, e.fullOf, err = curve.Held(standing, t.system, e.top); err != nil {
		return unrankable, lackPoints
	}
	if e.match.Ratio > tooFast*e.top {
		return weak, ""
	}
	if !t.plan(e, standing, found) {
		return unrankable, lackPoints
	}
	return fine, ""
}

// speeds sets the speeds between which the fan may run.
func (t *task) speeds(e *evaluation, found float64) lack {
	r := &e.rated
	top, err := atSupply(r, t.volts)
	if err != nil && math.IsNaN(found) {
		return lackSpeed
	}
	e.top = r.by.setTo(top)
	if !math.IsNaN(found) {
		e.top = math.Max(e.top, found)
	}
	slow := r.by.slow()
	e.lowest, e.floor = drive.LowestSpeed(drive.Fan{
		Supply: drive.Supply(r.supply), PWM: r.pwm, StartVoltage: r.start, NominalVoltage: r.nominal, RatedSpeed: slow * r.turns, Top: e.top / slow,
	}, drive.Way(t.slow), t.alarm(r))
	e.lowest *= slow
	if !math.IsNaN(found) {
		e.lowest = math.Min(e.lowest, found)
	}
	e.headRoom = math.NaN()
	if t.slow == SlowVoltage {
		e.headRoom = r.by.setTo(t.regulated(r))
	}
	return ""
}

// alarm gives the device's alarm threshold in turns of this fan, 1/s; NaN
// where not known.
func (t *task) alarm(r *rated) float64 {
	if t.fit.seat.Watches != WatchTach {
		return math.NaN()
	}
	return t.fit.lowestTurns(r.pulses) * speedTolerance
}

// regulated gives the highest speed ratio behind a linear regulator on the
// supply at its lowest; 0 where the regulator leaves too little.
func (t *task) regulated(r *rated) float64 {
	top, err := drive.SpeedAtVoltage(drive.HeadRoom(t.least, r.nominal))
	if err != nil {
		return 0
	}
	return top
}

// speedFor finds the pure matched speed. Of several the cautious one counts;
// the fitted fan is known to work at the one nearest to where it was found.
func (t *task) speedFor(c curve.Curve, found, at float64) (curve.Match, int, error) {
	m, n, err := curve.SpeedFor(c, t.system, t.need)
	if err != nil || n == 1 || math.IsNaN(found) {
		return m, n, err
	}
	all := curve.SpeedsFor(nil, c, t.system, t.need)
	for _, other := range all {
		if math.Abs(other.X-at/found) < math.Abs(m.X-at/found) {
			m = other
		}
	}
	return m, n, nil
}

// plan sets the speed the fan would really be run at, and its working point
// there. It reports whether there is one.
func (t *task) plan(e *evaluation, standing curve.Curve, found float64) bool {
	e.planned, e.limit = t.speedPlanned(e, found)
	if e.planned == e.match.Ratio {
		e.point = curve.Crossing{Q: t.need, P: t.system.Loss(t.need), Stable: e.match.Stable}
		e.x = e.match.X
		return true
	}
	point, _, err := curve.Held(standing, t.system, e.planned)
	e.point, e.x = point, point.Q/e.planned
	return err == nil
}

// speedPlanned gives the speed ratio to run at and what sets it. Behind a
// regulator no speed above its head-room can be had but the full one, so one
// that is held above it runs at full speed.
func (t *task) speedPlanned(e *evaluation, found float64) (float64, Limit) {
	r, limit := e.match.Ratio, LimitNone
	switch {
	case t.slow == SlowNone && !math.IsNaN(found):
		return found, LimitControl
	case r >= e.top:
		return e.top, LimitFull
	case r < e.lowest:
		r, limit = math.Min(e.lowest, e.top), limitOf(e.floor)
	}
	asFound := math.Abs(r-found) <= 1e-9 // the fitted fan is known to run so
	if e.headRoom < r && r < e.top && !asFound {
		return e.top, LimitHeadRoom
	}
	return r, limit
}

// limitOf names the limit for people and JSON.
func limitOf(l drive.Limit) Limit {
	switch l {
	case drive.Tach:
		return LimitTach
	case drive.Control, drive.Mains, drive.SupplyUnknown:
		return LimitControl
	default:
		return LimitStart
	}
}

// q gives the matched point as a share of free delivery.
func (e *evaluation) q() float64 { return e.match.X / e.rated.free }

// probablyStalled is the share of free delivery below which an axial fan of
// which only two ends are known is probably stalled (common practice).
const probablyStalled = 0.45

func (e *evaluation) stall() Stall {
	switch {
	case !e.rated.twoEnded && e.rated.curve.Stalled(e.match.X):
		return StallNear
	case e.rated.twoEnded && e.rated.kind != catalog.Centrifugal && e.q() < probablyStalled:
		return StallProbable
	}
	return StallClear
}
