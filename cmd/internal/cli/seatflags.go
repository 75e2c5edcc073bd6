package cli

import (
	"cmp"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match"
)

// seatFlags overrule what the fitted fan tells of its seat.
type seatFlags struct {
	width, height quantity.Known[quantity.Length]
	pitch, depth  quantity.Known[quantity.Length]
	kind          quantity.Known[catalog.Kind]
	anyKind       bool
	supply        quantity.Known[catalog.Supply]
	voltage       quantity.Known[quantity.Voltage]
	mains         quantity.Known[quantity.Frequency]
	current       quantity.Known[quantity.Current]
	leads         quantity.Known[float64]
	connector     string
	watches       match.Watch
	alarmSpeed    quantity.Known[quantity.Speed]
	alarmPulses   quantity.Known[float64]
	slowBy        quantity.Known[match.SlowBy]
	airTemp       quantity.Known[quantity.Temperature]
}

func (f *seatFlags) register(flags *pflag.FlagSet) {
	flags.Var(newParsed("mm", f.readFrame), "frame", "frame the seat takes, in mm: 60 or 60x60 (else the fitted fan's)")
	flags.Var(newMeasure(&f.pitch, fieldBounds(catalog.FieldHolePitch)), "hole-pitch", "distance of the mounting holes, in mm (else the fitted fan's)")
	flags.Var(newMeasure(&f.depth, fieldBounds(catalog.FieldDepth)), "depth-max", "most depth there is room for, in mm (else the fitted fan's)")
	flags.Var(newParsed("KIND", f.readKind), "kind", "kind the seat takes: any, axial, centrifugal, mixed or crossflow (else the fitted fan's)")
	flags.Var(newParsed("SUPPLY", f.readSupply), "supply", "what the device gives: dc or ac (else the fitted fan's)")
	flags.Var(newMeasure(&f.voltage, fieldBounds(catalog.FieldVoltage)), "voltage", "supply at the plug, in V (else the fitted fan's nominal)")
	flags.Var(newMeasure(&f.mains, fieldBounds(catalog.FieldFrequency)), "mains", "mains frequency for AC fans, in Hz")
	flags.Var(newMeasure(&f.current, fieldBounds(catalog.FieldCurrent)), "current-max", "most current the output gives, in A")
	flags.Var(newParsed("N", f.readLeads), "leads", "leads of the plug (else the fitted fan's)")
	flags.StringVar(&f.connector, "connector", "", "`plug` of the device (else the fitted fan's)")
	f.registerWatch(flags)
	flags.Var(newParsed("HOW", f.readSlowBy), "slow-by", "how the device can slow a fan: any, none, voltage (by a linear regulator, which takes 2 V for itself) or pwm")
	flags.Var(newParsed("°C", f.readAirTemp), "air-temp", "hottest air that meets the fan, in °C")
}

// registerWatch registers what the device does with the third lead.
func (f *seatFlags) registerWatch(flags *pflag.FlagSet) {
	flags.Var(newParsed("WHAT", f.readWatches), "watches", "what the device watches on the third lead: nothing, tach or alarm")
	flags.Var(newMeasure(&f.alarmSpeed, speedBounds()), "alarm-speed", "speed below which the device alarms, in rpm")
	flags.Var(newParsed("N", f.readPulses), "alarm-pulses", "pulses a turn that the device counts with (with --alarm-speed; else the fitted fan's)")
}

func (f *seatFlags) readFrame(text string) error {
	var frame catalog.Filter
	err := setFrame(&frame, text)
	f.width, f.height = quantity.Stated(frame.Width), quantity.Stated(cmp.Or(frame.Height, frame.Width))
	return err
}

func (f *seatFlags) readKind(text string) error {
	if strings.EqualFold(text, "any") {
		f.anyKind = true
		return nil
	}
	kinds := catalog.Fields[catalog.FieldKind].Choices
	i := slices.Index(kinds, strings.ToLower(text))
	if i < 0 {
		return usagef(suggest(strings.ToLower(text), append([]string{"any"}, kinds...)), "%q is no kind", text)
	}
	f.kind = quantity.Stated(catalog.Kind(i + 1))
	return nil
}

func (f *seatFlags) readSupply(text string) error {
	v, err := catalog.Fields[catalog.FieldSupply].Parse(text)
	f.supply = quantity.Stated(catalog.Supply(v.Number))
	return err
}

func (f *seatFlags) readLeads(text string) error {
	v, err := parseField(&catalog.Fields[catalog.FieldLeads], text)
	f.leads = quantity.Stated(v.Number)
	return err
}

func (f *seatFlags) readWatches(text string) error {
	var i uint8
	if err := newChoice(&i, match.Watches).Set(text); err != nil {
		return err
	}
	f.watches = match.Watch(i + 1)
	return nil
}

func (f *seatFlags) readSlowBy(text string) error {
	var by match.SlowBy
	err := newChoice(&by, match.SlowWays).Set(text)
	f.slowBy = quantity.Stated(by)
	return err
}

func (f *seatFlags) readPulses(text string) error {
	v, err := parseField(&catalog.Fields[catalog.FieldTachPerRev], text)
	if err == nil && v.Number == 0 {
		err = usagef("", "no pulses can be counted")
	}
	f.alarmPulses = quantity.Stated(v.Number)
	return err
}

func (f *seatFlags) readAirTemp(text string) error {
	t, err := readTemperature(text)
	f.airTemp = quantity.Stated(t)
	return err
}

// check refuses flags that contradict each other or lack their fellow.
func (f *seatFlags) check() error {
	switch {
	case f.alarmSpeed.Known() && f.watches != match.WatchUnknown && f.watches != match.WatchTach:
		return usagef("an alarm speed is counted from a tach: --watches tach", "--alarm-speed and --watches %s contradict each other", match.Watches[f.watches-1])
	case f.alarmPulses.Known() && !f.alarmSpeed.Known():
		return usagef("", "--alarm-pulses needs --alarm-speed")
	case f.mains.Known() && f.supply.Or(catalog.AC) == catalog.DC:
		return usagef("", "--mains and --supply dc contradict each other")
	case f.slowBy.Or(match.SlowAny) == match.SlowPWM && f.leads.Or(4) < 4:
		return usagef("a PWM input is the fourth lead", "--slow-by pwm and --leads %v contradict each other", f.leads.Or(4))
	}
	return nil
}

// seat gives the seat: what the fitted fan tells, overruled by the flags.
func (f *seatFlags) seat(fitted *catalog.Fan) match.Seat { return f.over(match.SeatOf(fitted), fitted) }

// over gives a seat overruled by the flags.
func (f *seatFlags) over(s match.Seat, fitted *catalog.Fan) match.Seat {
	if f.width.Known() {
		s.Width, s.Height = f.width, f.height
		if !f.pitch.Known() && !sameFrame(f, fitted) {
			s.HolePitch = quantity.Known[quantity.Length]{} // the fitted fan's belongs to another frame
		}
	}
	overrule(&s.HolePitch, f.pitch)
	overrule(&s.DepthMax, f.depth)
	overrule(&s.Kind, f.kind)
	overrule(&s.Supply, f.supply)
	overrule(&s.Voltage, f.voltage)
	if f.voltage.Known() {
		s.VoltageLow = quantity.Known[quantity.Voltage]{} // what was given is all that is known
	}
	overrule(&s.Mains, f.mains)
	overrule(&s.Leads, f.leads)
	if f.connector != "" {
		s.Connector = f.connector
	}
	s.AnyKind = s.AnyKind && !f.kind.Known() || f.anyKind
	overrule(&s.CurrentMax, f.current)
	overrule(&s.AirTemp, f.airTemp)
	s.SlowBy = f.slowBy.Or(s.SlowBy)
	f.overWatch(&s)
	return s
}

// overWatch overrules what the device does with the third lead.
func (f *seatFlags) overWatch(s *match.Seat) {
	if f.watches != match.WatchUnknown {
		s.Watches = f.watches
	}
	overrule(&s.AlarmPulses, f.alarmPulses)
	if f.alarmSpeed.Known() {
		s.Watches, s.AlarmSpeed, s.AlarmShare = match.WatchTach, f.alarmSpeed, quantity.Known[float64]{}
	}
}

func sameFrame(f *seatFlags, fitted *catalog.Fan) bool {
	w, h := float64(f.width.Or(0)), float64(f.height.Or(0))
	return catalog.SameFrame(w, float64(fitted.Width.Or(0))) && catalog.SameFrame(h, float64(fitted.Height.Or(0)))
}

func overrule[T any](at *quantity.Known[T], with quantity.Known[T]) {
	if with.Known() {
		*at = with
	}
}
