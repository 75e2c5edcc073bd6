package match

import (
	"cmp"
	"context"
	"fmt"
	"math"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match/curve"
	"lowsone/match/thermal"
)

// NeedError says why the needed flow is not known.
type NeedError struct{ Reason, Hint string }

// Error gives the reason.
func (e *NeedError) Error() string { return "the needed flow: " + e.Reason }

// Rank orders the fans of a catalogue by how loud each is at the flow the
// device needs. The order is total: equal input gives equal output. Only the
// first Request.Top candidates carry their checks and cautions in words.
//
// Errors are those of EstimateSystem, a *NeedError, those of fans, or the
// context's.
func Rank(ctx context.Context, fans catalog.Fans, req Request) (*Ranking, error) {
	s, err := NewStudy(ctx, fans, req)
	if err != nil {
		return nil, err
	}
	if err := s.Look(ctx, cmp.Or(req.Top, math.MaxInt32), 0, 0); err != nil {
		return nil, err
	}
	return s.ranking()
}

// problem is a Request made ready: the device known, the need settled.
type problem struct {
	req      Request
	known    *known
	task     task
	needFrom string
	cooling  *cooling // nil: no spot is watched
	seat     Installation
	exclude  map[string]bool // folded part numbers
}

func prepare(ctx context.Context, fans catalog.Fans, req Request) (*problem, error) {
	req.Path = req.Path.completed()
	d, err := know(ctx, fans, req.Path, req.NoEstimates)
	if err != nil {
		return nil, err
	}
	req.Listener = cmp.Or(req.Listener, quantity.Metre)
	p := &problem{req: req, known: d, exclude: map[string]bool{}}
	for _, part := range req.Exclude {
		p.exclude[catalog.FoldKey(part)] = true
	}
	if err = p.settle(nil); err != nil {
		return nil, err
	}
	if req.Path.Way.Assumed {
		p.task.scenario, err = p.scenarios()
	}
	return p, err
}

// settle makes the device as it is known ready for candidates; x draws what of
// it is not certain, nil takes everything as it was given.
func (p *problem) settle(x *Draw) (err error) {
	seat := p.seatWithAir()
	lowest := seat.VoltageLow
	if !lowest.Known() {
		lowest = seat.Voltage
	}
	fit := p.task.fit
	if fit == nil {
		fit = newFit(seat, p.req.Path.Fitted, p.req.Path.Fans)
	}
	p.task = task{
		system: p.known.system.curve(), density: p.known.system.Density,
		offset: distanceOffset(p.req.Listener), volts: orNaN(seat.Voltage), least: orNaN(lowest), slow: seat.SlowBy,
		fit: fit,
	}
	if p.seat, err = install(&p.req.Path, p.known); err != nil {
		return err
	}
	p.task.offset += p.seat.Offset
	if x != nil && p.seat.Known {
		p.task.offset += x.Meter
	}
	if p.cooling, err = cool(&p.req.Path, p.req.Around, &p.known.system, x); err != nil {
		return err
	}
	return p.settleNeed()
}

// settleNeed sets the needed flow and where it comes from. Where watched spots
// decide, the whole ranking is made for the worst case.
func (p *problem) settleNeed() (err error) {
	s, need := &p.known.system, p.req.Need
	if !p.needFromSpots() {
		p.task.need, p.needFrom, err = need.of(p.presentFlow(), s.Located)
		return err
	}
	heat := &p.cooling.need
	p.task.system, p.task.density = p.cooling.atWorst(p.task.system, p.task.density), heat.Density
	p.task.need = heat.Flow
	if heat.Reason != thermal.Enough {
		return &NoFlowError{heat.Whole}
	}
	p.needFrom = fmt.Sprintf("keeps %q at %s °C less %s K in a room of %s °C", heat.Spot, Plain(heat.Limit), Plain(heat.Margin), Plain(p.cooling.worst.Ambient))
	return nil
}

// presentFlow gives the flow now in m³/s. A fan that regulates itself runs
// faster on the worst day: its flow at full speed counts.
func (p *problem) presentFlow() float64 {
	s := &p.known.system
	if !p.req.Path.Regulated || !p.known.hasAir {
		return s.Q
	}
	top, err := atSupply(&p.known.fitted, p.task.volts)
	if err != nil {
		return s.Q
	}
	point, _, err := curve.Held(p.known.fitted.curve.AtDensity(s.Density), s.curve(), top)
	if err != nil {
		return s.Q
	}
	return math.Max(s.Q, point.Q)
}

// seatWithAir is the seat with the temperature of the air that meets the fan,
// as the heat balance tells it where nobody stated it.
func (p *problem) seatWithAir() Seat {
	seat, heat := p.req.Path.Seat, p.req.Path.balance()
	inlet, ok := heat.Inlet.Get()
	if !ok || seat.AirTemp.Known() {
		return seat
	}
	if heat.Outlet {
		inlet = inlet.Plus(heat.AirRise)
	}
	seat.AirTemp = quantity.From(inlet, quantity.Estimate)
	return seat
}

// of gives the needed flow in m³/s and where it comes from.
func (n Need) of(present float64, located bool) (float64, string, error) {
	if n.Flow > 0 {
		return float64(n.Flow), "given", nil
	}
	share := cmp.Or(n.Share, 1)
	switch {
	case !located || !(present > 0):
		return 0, "", &NeedError{"a share of the present flow, which is not known", "give a flow, such as --need 20m3/h"}
	case !(share > 0) || math.IsInf(share, 0):
		return 0, "", &NeedError{fmt.Sprintf("%s %% of the present flow is no need", Plain(100*share)), "give a share above 0 %, or a flow"}
	}
	return share * present, fmt.Sprintf("%s %% of the present flow", Plain(100*share)), nil
}

// point gives a working point with its level, x on the full-speed curve.
func (t *task) point(r *rated, ratio, q, p, x float64) Point {
	return Point{Ratio: ratio, Q: q, P: p, Level: r.levelAt(ratio, x, t.density, t.offset)}
}

func (t *task) points(e *evaluation) (full, matched, planned Point) {
	full = t.point(&e.rated, e.top, e.full.Q, e.full.P, e.full.Q/e.top)
	matched = t.point(&e.rated, e.match.Ratio, t.need, t.system.Loss(t.need), e.match.X)
	planned = t.point(&e.rated, e.planned, e.point.Q, e.point.P, e.x)
	return full, matched, planned
}
