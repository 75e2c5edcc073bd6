package devicefile

import (
	"slices"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match"
)

func checkSupply(p *problems, path *path) {
	s := &path.supply
	if s.low.given && !s.high.given {
		p.addf(s.low.at, "add high: what a fan does at full speed hangs on it", "a lowest voltage without a highest")
	}
	if s.low.given && s.high.given && s.low.v > s.high.v {
		p.addf(s.low.at, "exchange the two", "the lowest voltage, %s, is above the highest, %s", volts(s.low.v), volts(s.high.v))
	}
	if !s.kind.given {
		return
	}
	switch {
	case s.kind.v == supplyKind(catalog.DC) && s.mains.given:
		p.addf(s.mains.at, "", "a mains frequency of a DC supply")
	case s.kind.v != supplyKind(catalog.AC):
	case path.slowBy.v == match.SlowVoltage || path.slowBy.v == match.SlowPWM:
		p.addf(path.slowBy.at, "write slow_by: none", "an AC fan is not slowed by %s", path.slowBy.v)
	case s.pulsed.v:
		p.addf(s.pulsed.at, "", "a pulsed supply is a DC one")
	}
}

// checkLeads looks for what the plug and the device do that exclude each other.
func checkLeads(p *problems, path *path) {
	l := &path.leads
	for _, c := range []struct {
		wrong            bool
		at               Place
		hint, text, with string
	}{
		{l.alarmBelow.given && l.watches.given && l.watches.v != match.WatchTach, l.alarmBelow.at, "a speed is counted from a tach", "alarm_below", "watches: " + nameOf(match.Watches, l.watches.v)},
		{l.alarmPulses.given && l.watches.given && l.watches.v != match.WatchTach, l.alarmPulses.at, "pulses are counted from a tach", "alarm_pulses", "watches: " + nameOf(match.Watches, l.watches.v)},
		{l.alarmKind.given && l.watches.given && l.watches.v != match.WatchAlarm, l.alarmKind.at, "an alarm lead says turning or not, a tach pulses", "alarm_kind", "watches: " + nameOf(match.Watches, l.watches.v)},
		{l.alarmKind.given && l.alarmBelow.given, l.alarmKind.at, "an alarm lead says turning or not, it has no speed", "alarm_kind", "alarm_below"},
		{l.watches.v > match.Unwatched && l.count.or(3) < 3, l.count.at, "what is watched comes on a third lead", "two leads", "watches: " + nameOf(match.Watches, l.watches.v)},
		{l.pwm.v == match.PWMDriven && l.count.or(4) < 4, l.count.at, "PWM comes on a fourth lead", "fewer than four leads", "pwm: driven"},
		{path.slowBy.v == match.SlowPWM && l.pwm.v == match.PWMNone, path.slowBy.at, "", "slow_by: pwm", "pwm: none"},
		{path.slowBy.v == match.SlowPWM && l.count.or(4) < 4, path.slowBy.at, "PWM comes on a fourth lead", "slow_by: pwm", "fewer than four leads"},
		{path.regulated.v == match.RegulatedByDevice && path.slowBy.given && path.slowBy.v == match.SlowNone, path.slowBy.at, "", "slow_by: none", "regulated: device"},
	} {
		if c.wrong {
			p.addf(c.at, c.hint, "%s and %s exclude each other", c.text, c.with)
		}
	}
	checkPins(p, path)
}

func checkPins(p *problems, path *path) {
	l := &path.leads
	if !l.pins.given {
		return
	}
	pins := l.pins.v
	if n := len(pins); l.count.given && n != int(l.count.v) {
		p.addf(l.pins.at, "name every pin, unused ones as unused", "%d pins of %v leads", n, l.count.v)
	}
	for i, pin := range pins {
		if pin != match.PinUnused && slices.Contains(pins[:i], pin) {
			p.addf(l.pins.at, "", "two pins are %s", nameOf(match.PinNames, pin))
		}
	}
	for _, c := range []struct {
		asked bool
		pin   match.Pin
		by    string
	}{
		{l.watches.v == match.WatchTach, match.PinTach, "watches: tach"},
		{l.watches.v == match.WatchAlarm, match.PinAlarm, "watches: alarm"},
		{l.pwm.v == match.PWMDriven, match.PinPWM, "pwm: driven"},
	} {
		if c.asked && !slices.Contains(pins, c.pin) {
			p.addf(l.pins.at, "", "%s, and no pin is %s", c.by, nameOf(match.PinNames, c.pin))
		}
	}
}

// nameOf gives the name of a value of an enumeration whose zero is unknown.
func nameOf[E ~uint8](names []string, v E) string {
	if v < 1 || int(v) > len(names) {
		return notKnown
	}
	return names[v-1]
}

// checkFitted looks for what the file says against its fitted fan.
func checkFitted(p *problems, path *path, built *match.Path) {
	fan, s := built.Fitted, &path.space
	checkHeld(p, s, fan)
	if kind, ok := fan.Supply.Get(); ok && path.supply.kind.given && supplyKind(kind) != path.supply.kind.v {
		p.addf(path.supply.kind.at, "measure the plug, or overrule supply under fan", "the supply is %s, the fan's is %s", catalog.Supply(path.supply.kind.v), kind)
	}
	if watched := path.leads.watches; watched.v == match.WatchTach {
		if pulses, ok := fan.TachPerRev.Get(); ok && pulses == 0 {
			p.addf(watched.at, "overrule tach_per_rev under fan if it has one", "the device watches a tach, the fan that is in it has none")
		}
	}
	checkAlarm(p, path, fan)
}

// checkHeld holds the space against the fan that sits in it.
func checkHeld(p *problems, s *space, fan *catalog.Fan) {
	if depth, ok := fan.Depth.Get(); ok && s.depth.given && depth > s.depth.v && !same(depth, s.depth.v) {
		p.addf(s.depth.at, "measure again, or overrule depth_mm under fan", "the fan that sits there is %s deep, the space %s", mm(depth), mm(s.depth.v))
	}
	for _, side := range []struct {
		name  string
		space placed[quantity.Length]
		fan   quantity.Known[quantity.Length]
	}{{"wide", s.width, fan.Width}, {"high", s.height, fan.Height}} {
		if v, ok := side.fan.Get(); ok && side.space.given && v > side.space.v && !catalog.SameFrame(float64(v), float64(side.space.v)) {
			p.addf(side.space.at, "measure again, or overrule the size under fan", "the fan that sits there is %s %s, the space %s", mm(v), side.name, mm(side.space.v))
		}
	}
	pitch, ok := s.pitch().Get()
	if own, known := fan.HolePitch.Get(); ok && known && !catalog.Same(float64(own), float64(pitch)) {
		at := s.holePitch
		if s.holeDiagonal.given {
			at = s.holeDiagonal
		}
		p.addf(at.at, "measure again, or overrule hole_pitch_mm under fan", "the holes of the fan that sits there are %s apart, those of the space %s", mm(own), mm(pitch))
	}
}

// checkAlarm refuses an alarm the fitted fan would set off all the time.
func checkAlarm(p *problems, path *path, fan *catalog.Fan) {
	alarm := path.leads.alarmBelow
	if !alarm.given {
		return
	}
	const hint = "check the pulses a turn that the alarm was counted with"
	label, haveLabel := fan.Speed.Get()
	below, ok := alarm.v.Turns.Get()
	if share, isShare := alarm.v.Ratio.Get(); isShare {
		if share > 1 {
			p.addf(alarm.at, "", "the device would complain below %s of the fan's own speed, so always", percent(share))
			return
		}
		below, ok = label*quantity.Speed(share), haveLabel
	}
	if !ok {
		return
	}
	if now, measured := path.turning(label, haveLabel); measured && below > now {
		p.addf(alarm.at, hint, "the device would complain below %s, the fan turned at %s while you measured", rpm(below), rpm(now))
	} else if haveLabel && below > label {
		p.addf(alarm.at, hint, "the device would complain below %s, the fan turns at %s at most", rpm(below), rpm(label))
	}
}

// turning is the speed the fan had while measured.
func (p *path) turning(label quantity.Speed, haveLabel bool) (quantity.Speed, bool) {
	if turns, ok := p.speed.v.Turns.Get(); ok {
		return turns, true
	}
	share, ok := p.speed.v.Ratio.Get()
	return label * quantity.Speed(share), ok && haveLabel
}
