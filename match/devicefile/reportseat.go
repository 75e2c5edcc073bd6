package devicefile

import (
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match"
)

func (r *reporter) seat(p *match.Path, d *match.Device) {
	s := &p.Seat
	frame := ""
	if s.Width.Known() && s.Height.Known() {
		frame = mm(s.SpaceWidth.Or(s.Width.Or(0))) + " by " + mm(s.SpaceHeight.Or(s.Height.Or(0)))
	}
	r.ask("space: width", frame, open{Decides, "", "which frames fit", 14})
	r.ask("space: hole_pitch", written(s.HolePitch, mm), open{Sharpens, "", "two frames of one size may have different holes", 14})
	r.ask("space: depth", written(s.DepthMax, mm), open{Sharpens, "", "a deeper fan moves the same air more slowly: the room there is opens the choice", 14})
	if s.Kind.Or(0) == catalog.Centrifugal {
		outlet := ""
		if s.OutletWidth.Known() {
			outlet = mm(s.OutletWidth.Or(0)) + " by " + mm(s.OutletHeight.Or(0))
		}
		r.ask("space: outlet_width", outlet, open{Sharpens, "", "a blower must meet the opening it blows into", 14})
	}
	r.supply(p, d)
}

func (r *reporter) supply(p *match.Path, d *match.Device) {
	s := &p.Seat
	r.ask("supply: kind", written(s.Supply, catalog.Supply.String), open{Decides, "", "AC and DC fans are never exchanged", 19})
	r.voltage(s)
	r.current(p, d)
	if s.Supply.Or(catalog.DC) == catalog.AC {
		r.ask("supply: mains", written(s.Mains, hertz), open{Sharpens, "", "50 Hz and 60 Hz values are two fans: 15 % of the flow, 3.5 dB", 19})
		return
	}
	o := open{Sharpens, "no", "a chopped supply ticks, hums, and falsifies meter and tach", 12}
	if s.Pulsed.Or(false) {
		o.why = "the supply is chopped: a voltage read on a meter is a mean, and the tach lies; measure with a peak-reading meter or at full speed"
		r.doubt("supply: pulsed", "yes", o)
		return
	}
	r.ask("supply: pulsed", written(s.Pulsed, yesNo), o)
}

// current asks what the output gives, and holds it against the fans that run on
// it already.
func (r *reporter) current(p *match.Path, d *match.Device) {
	o := open{Sharpens, "", "whether the output bears another fan, and its start", 24}
	gives, ok := p.Seat.CurrentMax.Get()
	drawn, fans := drawnFrom(p, d)
	if ok && float64(drawn) > float64(gives)*(1+1e-9) {
		o.why = "by its label the fan on this output draws " + amperes(drawn) + ": check both"
		if fans > 1 {
			o.why = "by their labels the " + plural(fans, "fan", "fans") + " on this output draw " + amperes(drawn) + " together: check both"
		}
		o.weight = Decides
		r.doubt("supply: current", amperes(gives), o)
		return
	}
	r.ask("supply: current", written(p.Seat.CurrentMax, amperes), o)
}

// drawnFrom gives the current that the fitted fans on the output of a path draw
// together by their labels, as far as these say it, and how many they are.
func drawnFrom(p *match.Path, d *match.Device) (drawn quantity.Current, fans int) {
	for i := range d.Paths {
		other := &d.Paths[i]
		if other != p && (p.Seat.Output == "" || other.Seat.Output != p.Seat.Output) {
			continue
		}
		if own := match.LoadOf(other.Fitted).RatedCurrent; own > 0 {
			drawn += quantity.Current(own) * quantity.Current(max(1, other.Fans))
			fans += max(1, other.Fans)
		}
	}
	return drawn, fans
}

// voltage asks for what stands at the plug: what the fan's label says of it is
// an assumption.
func (r *reporter) voltage(s *match.Seat) {
	const why = "12 V is often assumed where 24 V, 7.5 V, 5 V or pulses of 24 V stand: measure at the plug, fan running, at its slowest and fastest; its minus need not be that of the case"
	measured := ""
	low, haveLow := s.VoltageLow.Get()
	high, ok := s.Voltage.Get()
	switch {
	case haveLow && low != high:
		measured = volts(low) + " to " + volts(high)
	case haveLow:
		measured = volts(high)
	}
	assumed := ""
	if ok {
		assumed = volts(high) + ", of the label"
	}
	r.ask("supply: voltage", measured, open{Decides, assumed, why, 7})
}

func (r *reporter) plug(p *match.Path, several bool) {
	s := &p.Seat
	r.ask("leads: count", written(s.Leads, number), open{Sharpens, "", "whether there is a lead for tach or PWM", 1})
	r.ask("leads: connector", s.Connector, open{Rounds, "", "whether the plug has to be changed", 4})
	r.ask("leads: pins", pinsOf(s.Pins), open{Decides, "", "the same plug may have another order of pins, and colours mean nothing: measure each pin of the device before plugging in", 4})
	r.ask("leads: watches", named(match.Watches, s.Watches), open{Decides, "", "a device that counts pulses stops, or alarms, with a fan that is too slow or has none", 1})
	switch s.Watches {
	case match.WatchTach:
		r.alarm(s)
	case match.WatchAlarm:
		r.ask("leads: alarm_kind", named(match.AlarmKinds, s.AlarmKind), open{Decides, "", "an alarm lead of the wrong kind reads as a fan that stands still", 10})
	}
	if s.PWM != match.PWMUnknown || pwmMatters(s) {
		r.pwm(s)
	}
	if several || p.Fans > 1 {
		r.ask("supply: output", s.Output, open{Rounds, "one for each path", "fans on one output share its current, and one PWM output drives about four", 24})
	}
}

func (r *reporter) pwm(s *match.Seat) {
	r.ask("leads: pwm", named(match.PWMLines, s.PWM), open{Sharpens, "", "a fan slowed by PWM runs at full speed where nothing drives its input, and cannot be slowed by a device that has no such lead", 12})
}

// pwmMatters says whether a PWM lead may be there and used: it is the fourth.
func pwmMatters(s *match.Seat) bool {
	return s.Leads.Or(4) > 3 && s.SlowBy != match.SlowVoltage && s.SlowBy != match.SlowNone
}

func (r *reporter) alarm(s *match.Seat) {
	below := written(s.AlarmSpeed, rpm)
	if share, ok := s.AlarmShare.Get(); ok && below == "" {
		below = percent(share)
	}
	r.ask("leads: alarm_below", below, open{Decides, "80 % of the fitted fan's speed", "below it the device complains; label speeds are ±10 %", 22})
	r.ask("leads: alarm_pulses", written(s.AlarmPulses, number), open{Sharpens, "those of the fitted fan", "a fan with another number of pulses a turn reads as half or twice as fast", 20})
}

func pinsOf(pins []match.Pin) string {
	names := make([]string, len(pins))
	for i, p := range pins {
		names[i] = nameOf(match.PinNames, p)
	}
	return strings.Join(names, ", ")
}

// Distances below which a thing beside the blades adds noise (common practice).
const (
	closeGrille   = 10 * quantity.Millimetre
	closeObstacle = 25 * quantity.Millimetre
)

// surroundings asks for what stands near the blades.
func (r *reporter) surroundings(p *match.Path) {
	for _, c := range []struct {
		key   string
		at    match.Clearance
		close quantity.Length
		o     open
	}{
		{"near: grille", p.Near.Grille, closeGrille, open{Sharpens, "", "a grille within 10 mm of the blades adds up to 6 dB: more than most exchanges gain; a wire guard, or a spacer, may be the cure", 16}},
		{"near: filter", p.Near.Filter, 0, open{Rounds, "", "a filter loads up: keep a reserve, or a date for cleaning", 18}},
		{"near: inlet_obstacle", p.Near.InletObstacle, closeObstacle, open{Sharpens, "", "an obstacle within 25 mm, above all before the inlet, adds noise with any fan", 17}},
		{"near: outlet_obstacle", p.Near.OutletObstacle, closeObstacle, open{Rounds, "", "an obstacle within 25 mm of the outlet adds noise with any fan", 17}},
	} {
		if d, ok := c.at.Distance.Get(); ok && d < c.close {
			r.doubt(c.key, mm(d), c.o)
			continue
		}
		r.ask(c.key, clearance(c.at), c.o)
	}
	o := open{Sharpens, "yes", "dirt is worth up to half more resistance: clean, then measure again", 18}
	if clean, ok := p.Clean.Get(); ok && !clean {
		r.doubt("clean", "no", o)
		return
	}
	r.ask("clean", written(p.Clean, yesNo), o)
}

func clearance(c match.Clearance) string {
	if c.None {
		return noThing
	}
	return written(c.Distance, mm)
}

func hertz(f quantity.Frequency) string  { return number(float64(f)) + " Hz" }
func decibels(d quantity.Decibel) string { return number(float64(d)) + " dB(A)" }
