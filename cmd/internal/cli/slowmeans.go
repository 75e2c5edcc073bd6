package cli

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"

	"lowsone/acoustics"
	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/catalog/store"
	"lowsone/cmd/internal/view"
	"lowsone/match"
	"lowsone/match/drive"
)

// slowing is one fan about to be slowed.
type slowing struct {
	fan    *catalog.Fan
	load   drive.Load
	rail   drive.Rail
	seated *match.Seated // nil: the fan alone
	req    match.Request
	alarm  watch
	notes  []string
}

// work makes the document.
func (o *slowOptions) work(ctx context.Context) (*view.Slow, error) {
	w, err := o.prepare(ctx)
	if err != nil {
		return nil, err
	}
	doc := &view.Slow{Fan: w.fan, Load: w.load, Rail: w.rail, Alarm: w.alarm.about()}
	if doc.Target, err = o.to.settle(w.load, w.seated); err != nil {
		return nil, err
	}
	air := math.NaN()
	if t, ok := o.partAir.Get(); ok {
		air = t.Celsius()
	}
	for _, offer := range w.offers(doc.Target, air) {
		doc.Means = append(doc.Means, w.means(offer, doc.Target, air))
	}
	doc.Never, doc.Device, doc.Notes = w.never(), w.device(), w.notes
	if doc.Refused() {
		doc.Mend = w.mend(doc, air)
	}
	return doc, nil
}

// prepare finds the fan and puts it into the device, if there is one.
func (o *slowOptions) prepare(ctx context.Context) (*slowing, error) {
	if o.part == "" && !o.described() {
		return o.alone(o.with.overrule(&catalog.Fan{Part: "described fan"})), nil
	}
	if err := o.device.load(ctx); err != nil {
		return nil, err
	}
	cat, err := o.session.openCatalog(ctx)
	if err != nil {
		return nil, err
	}
	defer cat.Close()
	if !o.described() {
		_, fan, err := o.find(ctx, cat)
		if err != nil {
			return nil, err
		}
		return o.alone(o.with.overrule(fan)), nil
	}
	return o.inDevice(ctx, cat)
}

// find finds the fan in the catalogue.
func (o *slowOptions) find(ctx context.Context, cat *store.Catalogue) (int, *catalog.Fan, error) {
	rows, err := cat.Lookup(o.part)
	if err == nil && len(rows) == 0 {
		err = noPartIn(ctx, cat, "a fan that is not there can be described with --with FIELD=VALUE", "no fan %q in the catalogue", o.part)
	}
	if err != nil {
		return 0, nil, err
	}
	row, fan, err := onePart(ctx, cat, "slow", o.part)
	if err == nil {
		o.session.sayListedTwice(fan)
	}
	return row, fan, err
}

// alone is a fan without a device.
func (o *slowOptions) alone(fan *catalog.Fan) *slowing {
	w := &slowing{fan: fan, load: match.LoadOf(fan), rail: o.rail.Or(drive.Rail{})}
	w.alarm = o.device.seat.watched(fan).of(w.load)
	w.load.SelfRegulated, w.rail.Pulsed = o.regulated, o.pulsed
	return w
}

// inDevice seats a fan in the device. What --with says of it goes into the row
// it is asked at.
func (o *slowOptions) inDevice(ctx context.Context, cat *store.Catalogue) (*slowing, error) {
	p, err := poseOn(ctx, o.session, cat, &o.device, &o.choice)
	if err != nil {
		return nil, err
	}
	row, fan := p.req.Path.Row, p.req.Path.Fitted
	own := true
	if o.part != "" {
		found, of, err := o.find(ctx, cat)
		if err != nil {
			return nil, err
		}
		if own = found == row && row != match.NotInCatalogue; !own {
			row, fan = found, of
		}
	}
	w := o.alone(o.with.overrule(fan))
	if own { // what is said of it holds for the device it sits in, too
		p.req.Path.Fitted = w.fan
	}
	w.load.SelfRegulated = o.regulated || own && p.regulates()
	var recorded bool
	if own && p.req.Path.RegulatedBy == match.RegulatedByDevice {
		w.notes = append(w.notes, "the device sets the speed of this fan: on less voltage it may only turn it up")
	}
	if n := p.req.Path.Fans; n > 1 {
		w.notes = append(w.notes, fmt.Sprintf("each part is for one of the %d fans: one for all of them carries their current together", n))
	}
	if w.rail, recorded = p.rail(o.rail, o.pulsed); !recorded {
		w.notes = append(w.notes, "the supply is taken as the nominal voltage of the fitted fan: measure it at the plug")
	}
	w.alarm = p.watched().of(w.load)
	p.req.Path.Seat.Voltage = quantity.Stated(quantity.Voltage(w.rail.High))
	w.req = p.req
	if !own && len(o.with.values) > 0 {
		// The catalogue's row stays as it is: what is reckoned of the air is its own.
		w.notes = append(w.notes, "--with counts for the parts; curve and level are the catalogue's")
	}
	w.seated, err = match.Sit(ctx, p.fans, p.req, row)
	return w, err
}

// offers lists what each means can do, the PWM input first.
func (w *slowing) offers(to view.SlowTarget, air float64) []drive.Offer {
	all := []drive.Offer{w.pwm(to)}
	if refused := w.unreachable(to); refused != nil {
		return append(all, refuseAll(refused)...)
	}
	offers, err := drive.Offers(w.load, w.rail, to.Volts, air)
	var refused *drive.Refusal
	if errors.As(err, &refused) {
		return append(all, refuseAll(refused)...)
	}
	return append(all, offers...)
}

func (w *slowing) pwm(to view.SlowTarget) drive.Offer {
	offer := drive.Offer{Means: drive.PWMInput}
	if w.load.PWM && math.IsNaN(to.Share) {
		offer.Refused = &drive.Refusal{Reason: drive.NothingMeasured, Text: "the speed at that voltage is not known: ask for a speed"}
		return offer
	}
	plan, refused := drive.PWMPlan(w.load, w.rail, to.Share)
	if refused != nil {
		offer.Refused = refused
		return offer
	}
	offer.Plans = []drive.Plan{plan}
	return offer
}

// unreachable says why no voltage gives the speed asked for; nil where one does.
func (w *slowing) unreachable(to view.SlowTarget) *drive.Refusal {
	if !math.IsNaN(to.Volts) {
		return nil
	}
	refused := drive.Check(w.load, w.rail, to.Volts)
	var below *drive.RangeError
	if _, err := w.load.VoltageFor(to.Share); errors.As(err, &below) && refused.Reason == drive.Missing {
		return &drive.Refusal{Reason: drive.NothingMeasured, Text: fmt.Sprintf("nothing was measured below %.0f %% of nominal speed, which is where fans stop on less voltage", 100*below.Low)}
	}
	return refused
}

// byVoltage are the means that lower the voltage.
var byVoltage = []drive.Means{drive.Regulator, drive.LowDropRegulator, drive.BuckConverter, drive.SeriesDiodes, drive.SeriesResistor}

func refuseAll(why *drive.Refusal) []drive.Offer {
	var all []drive.Offer
	for _, m := range byVoltage {
		all = append(all, drive.Offer{Means: m, Refused: why})
	}
	return all
}

// means tells what the plans of an offer do to the fan.
func (w *slowing) means(offer drive.Offer, to view.SlowTarget, air float64) view.SlowMeans {
	m := view.SlowMeans{Offer: offer, Ohmic: math.NaN(), Constant: math.NaN()}
	for _, plan := range offer.Plans {
		m.Effects = append(m.Effects, w.effect(plan))
	}
	if offer.Means == drive.SeriesResistor && offer.Refused == nil {
		if choice, refused := drive.ResistorPlans(w.load, w.rail, to.Volts, air); refused == nil {
			m.Ohmic, m.Constant, m.Nearest = choice.Ohmic, choice.Constant, bestNearest(&m, to.Volts)
		}
	}
	return m
}

// bestNearest gives the resistor that comes nearest to the target of those that
// have the fewest faults: with which the fan may start, its slowest speed is
// known, no spot may get above its limit, the device does not alarm, and the
// margins are kept. The first of these counts most.
func bestNearest(m *view.SlowMeans, volts float64) int {
	order := func(a, b int) int {
		away := func(i int) float64 { return math.Abs((m.Plans[i].Volts.Low+m.Plans[i].Volts.High)/2 - volts) }
		for _, fault := range []func(i int) bool{
			func(i int) bool { return m.Plans[i].Start == drive.Fails },
			func(i int) bool { return math.IsNaN(m.Plans[i].Speed.Low) },
			func(i int) bool { return m.Effects[i].TooHot() },
			func(i int) bool { return m.Effects[i].Alarm == drive.Fails },
			func(i int) bool { return m.Effects[i].EatsMargin() },
		} {
			switch {
			case fault(a) && !fault(b):
				return 1
			case fault(b) && !fault(a):
				return -1
			}
		}
		return cmp.Compare(away(a), away(b))
	}
	best := 0
	for i := range m.Plans {
		if order(i, best) < 0 {
			best = i
		}
	}
	return best
}

func (w *slowing) effect(plan drive.Plan) view.SlowEffect {
	e := w.alarm.judge(w.load, plan.Speed)
	e.Low, e.High = w.end(plan.Speed.Low), w.end(plan.Speed.High)
	return e
}

// end tells one end of what is not known of the speed.
func (w *slowing) end(share float64) view.SlowEnd {
	end := view.SlowEnd{Change: math.NaN()}
	if now, err := drive.SpeedAtVoltage(middle(w.rail) / w.load.NominalVoltage); err == nil && share > 0 {
		one := quantity.PressureLevel(0)
		then, _ := acoustics.AtSpeed(one, share)
		before, _ := acoustics.AtSpeed(one, now)
		end.Change = then.DB() - before.DB()
	}
	if w.seated == nil || !(share > 0) {
		return end
	}
	if at, err := w.seated.At(share); err == nil {
		end.At = &at
	}
	return end
}

func middle(r drive.Rail) float64 { return (r.Low + r.High) / 2 }

// never lists the tricks that someone may think of with this fan.
func (w *slowing) never() []*drive.Refusal {
	tricks := []drive.Trick{drive.SeriesCapacitor, drive.MainsDimmer, drive.MainsResistor}
	if w.load.Supply != drive.AC {
		tricks = nil
		if w.load.Leads >= 3 || w.load.PulsesPerTurn > 0 {
			tricks = []drive.Trick{drive.ChopSupply, drive.TieTachLow, drive.SimulateTach}
		}
	}
	var all []*drive.Refusal
	for _, t := range tricks {
		all = append(all, drive.Refuse(t))
	}
	return all
}

// device tells of the device the fan sits in.
func (w *slowing) device() *view.SlowDevice {
	if w.seated == nil {
		return nil
	}
	d := &view.SlowDevice{Listener: float64(w.req.Listener)}
	d.Need, d.NeedFrom = w.seated.Need()
	if heat := w.seated.Heat(); heat != nil {
		d.Assumed = heat.Assumed
	}
	if full, err := w.seated.At(w.seated.Top); err == nil {
		d.Full, d.HasLevels = &full, !math.IsNaN(full.Level.DB)
	}
	return d
}
