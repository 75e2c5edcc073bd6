package match

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

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
// Errors are those of EstimateSystem, a *NeedError, or the context's.
func Rank(ctx context.Context, cols *catalog.Columns, req Request) (*Ranking, error) {
	p, err := prepare(ctx, cols, req)
	if err != nil {
		return nil, err
	}
	found, err := p.look(ctx)
	if err != nil {
		return nil, err
	}
	found.order()
	return p.ranking(found)
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

func prepare(ctx context.Context, cols *catalog.Columns, req Request) (*problem, error) {
	d, err := know(ctx, cols, req.Path, req.NoEstimates)
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

// field holds what came of all fans looked at.
type field struct {
	looked   int
	unclear  int // left out because they do not say what the choice asks
	fine     []contender
	weak     []Weak
	rejected Rejected
	lacking  map[lack]int
}

// contender is a candidate before it is put into words.
type contender struct {
	evaluation
	named
	fitted    bool
	planLevel Level
	score     int
	doubts    int // estimates, and a probable stall
	margin    float64
	price     float64
	currency  string
}

// named is a row with its names, for a total order.
type named struct {
	row         int
	maker, part string
}

// compare orders by maker and part, case folded and then exactly, and row.
func (n *named) compare(m *named) int {
	return cmp.Or(
		cmp.Compare(strings.ToLower(n.maker), strings.ToLower(m.maker)), cmp.Compare(n.maker, m.maker),
		cmp.Compare(strings.ToLower(n.part), strings.ToLower(m.part)), cmp.Compare(n.part, m.part),
		cmp.Compare(n.row, m.row),
	)
}

// look evaluates every fan.
func (p *problem) look(ctx context.Context) (*field, error) {
	cols := p.known.ground.columns
	f := &field{rejected: Rejected{}, lacking: map[lack]int{}}
	p.lookAtFitted(f)
	for i := range cols.Rows {
		if i%4096 == 0 && ctx.Err() != nil {
			return nil, ctx.Err()
		}
		if i == p.req.Path.Row || p.excluded(cols, i) {
			continue
		}
		switch p.req.Choice.Match(cols, i) {
		case catalog.Fail:
			continue
		case catalog.Unclear:
			f.unclear++
			continue
		}
		f.looked++
		if name, ok := p.task.fit.firstFail(cols, i); !ok {
			f.rejected[name]++
			continue
		}
		r, why := p.known.ground.rate(i)
		p.enter(f, cols, i, r, why, false)
	}
	return f, nil
}

func (p *problem) excluded(cols *catalog.Columns, i int) bool {
	return len(p.exclude) > 0 && p.exclude[catalog.FoldKey(cols.Text(catalog.FieldPart, i))]
}

// lookAtFitted enters the fitted fan as a candidate of its own.
func (p *problem) lookAtFitted(f *field) {
	fan := p.req.Path.Fitted
	if !p.known.hasAir || p.exclude[catalog.FoldKey(fan.Part)] {
		return
	}
	f.looked++
	why := lack("")
	if p.known.noLevel {
		why = lackLevel
	}
	p.enter(f, catalog.ColumnsOf(fan), 0, p.known.fitted, why, true)
}

// enter evaluates a rated fan and files it where it belongs.
func (p *problem) enter(f *field, cols *catalog.Columns, i int, r rated, why lack, fitted bool) {
	name := named{i, cols.Text(catalog.FieldMaker, i), cols.Text(catalog.FieldPart, i)}
	found, at := math.NaN(), math.NaN()
	if fitted {
		name.row = p.req.Path.Row
		found, at = p.known.system.Ratio, p.known.system.Q
	}
	if why != "" {
		f.lack(why)
		return
	}
	e, o, why := p.task.evaluate(r, found, at)
	switch o {
	case unrankable:
		f.lack(why)
	case alarmed:
		f.rejected[CheckTach]++
	case weak:
		f.rejected[TooWeak]++
		f.weak = append(f.weak, Weak{named: name, Row: name.row, Fitted: fitted, Q: e.full.Q, Shortfall: 1 - e.full.Q/p.task.need, Shares: p.task.shares(&e)})
	default:
		if !fitted && p.tooHot(cols, i, &e) {
			f.rejected[CheckTemperature]++
			return
		}
		c := contender{evaluation: e, named: name, fitted: fitted, price: cols.Number(catalog.FieldPrice, i), currency: cols.Text(catalog.FieldCurrency, i)}
		c.planLevel = e.rated.levelAt(e.planned, e.x, p.task.density, p.task.offset)
		c.score = scoreOf(c.planLevel, p.req.Room)
		c.doubts = e.rated.estimated.count()
		if e.stall() == StallProbable {
			c.doubts++
		}
		c.margin = e.full.Q/p.task.need - 1
		if math.Abs(c.margin) < 1e-9 {
			c.margin = 0 // rounding
		}
		f.fine = append(f.fine, c)
	}
}

// tooHot says whether the air that meets the fan at its own planned point is
// hotter than it is made for. In the outlet that hangs on its own flow.
func (p *problem) tooHot(cols *catalog.Columns, i int, e *evaluation) bool {
	if p.cooling == nil || !p.cooling.outlet {
		return false
	}
	return p.cooling.fanAir(e.point.Q*p.task.density) > cols.Number(catalog.FieldTempMax, i)
}

func (f *field) lack(why lack) {
	f.rejected[NotRankable]++
	f.lacking[why]++
}

// order puts candidates in order: whole decibels, then fewer estimates, larger
// flow margin, price, and names; the too weak by what they fall short.
func (f *field) order() {
	slices.SortFunc(f.fine, func(a, b contender) int {
		if n := cmp.Or(cmp.Compare(a.score, b.score), cmp.Compare(a.doubts, b.doubts), cmp.Compare(b.margin, a.margin)); n != 0 {
			return n
		}
		if n := comparePrice(&a, &b); n != 0 {
			return n
		}
		return a.compare(&b.named)
	})
	slices.SortFunc(f.weak, func(a, b Weak) int {
		if n := cmp.Compare(a.Shortfall, b.Shortfall); n != 0 {
			return n
		}
		return a.compare(&b.named)
	})
}

// comparePrice puts known prices first, by currency and amount: amounts of two
// currencies have no order, but the list has to have one.
func comparePrice(a, b *contender) int {
	switch unknownA, unknownB := math.IsNaN(a.price), math.IsNaN(b.price); {
	case unknownA && unknownB:
		return 0
	case unknownA:
		return 1
	case unknownB:
		return -1
	}
	return cmp.Or(cmp.Compare(a.currency, b.currency), cmp.Compare(a.price, b.price))
}

// pareto marks the contenders that no other beats in both reserve and level.
func pareto(all []contender) []bool {
	order := make([]int, len(all))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int {
		return cmp.Or(cmp.Compare(all[a].planLevel.DB, all[b].planLevel.DB), cmp.Compare(all[b].full.Q, all[a].full.Q), cmp.Compare(a, b))
	})
	front := make([]bool, len(all))
	most, level := math.Inf(-1), math.NaN()
	for _, i := range order {
		q := all[i].full.Q
		if q > most || q == most && all[i].planLevel.DB == level {
			front[i], most, level = true, q, all[i].planLevel.DB
		}
	}
	return front
}

// tie says whether c cannot be told from the first by ear: little apart, or both
// too quiet to matter.
func tie(first, c *contender, room quantity.Known[quantity.SoundPressureLevel]) bool {
	if least := leastHeard(room); first.planLevel.DB <= least && c.planLevel.DB <= least {
		return true
	}
	limit := tieOneKind
	if first.rated.kind != c.rated.kind || first.rated.estimated.has(catalog.FieldKind) || c.rated.estimated.has(catalog.FieldKind) {
		limit = tieAcrossKind
	}
	return math.Abs(first.planLevel.DB-c.planLevel.DB) <= limit
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
