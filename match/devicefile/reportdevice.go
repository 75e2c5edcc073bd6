package devicefile

import (
	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match"
)

func (r *reporter) device(d *match.Device) {
	r.ask("purpose", named(match.Purposes, d.Purpose), open{Decides, "ordinary", "no advice is given for medical and safety devices and sealed mains modules", 27})
	r.ask("room: now", written(d.Ambient, celsius), open{Decides, "", "every temperature found is a rise over it: without it no limit can be kept", 5})
	now := ""
	if t, ok := d.Ambient.Get(); ok {
		now = celsius(t) + ", as while measured"
	}
	r.ask("room: worst", written(d.AmbientWorst, celsius), open{Decides, now, "each degree of a hotter room is one less to the limit", 36})
	r.ask("room: altitude", written(d.Altitude, metres), open{Sharpens, "sea level", "thin air carries less heat: at 500 m 5 % more flow is needed, at 1500 m 16 %", 36})
	r.ask("room: level", written(d.Room, tenths), open{Rounds, "", "a fan 10 dB below it is not heard; without it 15 dB(A) is taken as silence", 0})
	r.roomBands(d)
	r.ask("listener", written(d.Listener, metres), open{Sharpens, "1 m", "levels are stated where people sit: 6 dB for each doubling of the distance in the open", 6})
	others := ""
	if n := len(d.Sources); n > 0 {
		others = plural(n, "other source", "other sources")
	}
	r.ask("noise", others, open{Rounds, "none", "what remains when the fan is quiet: a second source 4 dB below it leaves a gain of 5.5 dB at most", 11})
	r.sourceBands(d)
	whole := ""
	if n := len(d.Readings); n > 0 {
		whole = plural(n, "reading", "readings")
	}
	r.ask("measured", whole, open{Rounds, "", "holds the sum of all sources against what is heard", 11})
	r.deviceReadings(d)
}

func (r *reporter) fan(p *match.Path) {
	f := p.Fitted
	name := f.Name()
	if name == Described {
		name = ""
	}
	if p.Row == match.NotInCatalogue && name != "" {
		name += ", described"
	}
	r.ask("fan", name, open{Rounds, "described by its values", "a fan of the catalogue brings all its label data", 0})
	r.ask("fan: curve", curveOf(f), open{Decides, "", "without curve, or free airflow and static pressure, the fan says nothing of the device", 3})
	r.ask("fan: noise_dba", written(f.Noise, decibels), open{Decides, "", "the level now, against which every gain is counted", 6})
	r.labelBands(p)
	r.ask("fan: kind", written(f.Kind, catalog.Kind.String), open{Decides, "axial", "the shape of its curve, and which kinds may take its place", 3})
	r.rating(f)
	r.speed(p)
	r.regulated(p)
	r.ask("direction", named(match.Directions, p.Direction), open{Decides, "as the fitted fan", "a fan put in the wrong way round works against the device; mark the frame before you take the old one out", 13})
	r.ask("shaft", named(match.Shafts, p.Shaft), open{Rounds, "", "a sleeve bearing that hangs on its shaft, or in hot air, wears sooner", 33})
	r.mount(p)
	r.ask("slow_by", match.SlowWays[p.Seat.SlowBy], open{})
}

// rating asks for what the parts that slow a fan are chosen by.
func (r *reporter) rating(f *catalog.Fan) {
	load := match.LoadOf(f)
	supply := ""
	if load.Supply != 0 { // by its voltage
		supply = "dc"
	}
	r.ask("fan: supply", written(f.Supply, catalog.Supply.String), open{Decides, supply, "AC and DC fans are never exchanged; where it cannot be told lowsone slow offers no means", 19})
	r.ask("fan: voltage_v", written(f.Voltage, volts), open{Sharpens, "", "how fast it turns on the voltage at the plug; without it lowsone slow offers no means", 7})
	drawn := ""
	if a := load.RatedCurrent; a > 0 {
		drawn = amperes(quantity.Current(a)) + ", power over voltage"
	}
	r.ask("fan: current_a", written(f.Current, amperes), open{Sharpens, drawn, "what the output bears for certain; without it lowsone slow offers no means", 24})
}

// doubtfulSpeed is the share of its label speed above which a fan is not believed
// to turn: the tolerance of a label is 10 % (common practice).
const doubtfulSpeed = 1.1

// speed asks how fast the fan turned, and holds it against the label.
func (r *reporter) speed(p *match.Path) {
	o := open{Sharpens, "that of the label", "it may be down to 85 % of it: 15 % of the flow, 28 % of the pressure, 3.5 dB", 22}
	ratio, known := p.SpeedNow.Ratio.Get()
	if turns, ok := p.SpeedNow.Turns.Get(); ok {
		var label quantity.Speed
		if label, known = p.Fitted.Speed.Get(); !known {
			r.doubt("speed", speedNow(p), open{Decides, "", "the fan's speed_rpm is not known, so a measured speed says nothing: add it, or give the speed as a share, such as 90 %", 22})
			return
		}
		ratio = float64(turns) / float64(label)
	}
	if known && ratio > doubtfulSpeed*(1+1e-9) {
		o.why = percent(ratio) + " of its label speed: check the label, the supply, and the pulses per turn it was counted with"
		r.doubt("speed", speedNow(p), o)
		return
	}
	r.ask("speed", speedNow(p), o)
}

func (r *reporter) regulated(p *match.Path) {
	o := open{Sharpens, "no", "a fan that speeds up when hot moves more on the hot day than on the bench; a plain one in its place does not", 25}
	name := named(match.Regulators, p.RegulatedBy)
	if p.Regulated {
		o.why += ": measure when hot, and say where its sensor sits when you ask for another"
		r.doubt("regulated", name, o)
		return
	}
	r.ask("regulated", name, o)
}

func (r *reporter) mount(p *match.Path) {
	r.ask("mount", named(match.Mounts, p.Mount), open{Rounds, "",
		"touch the panel with the fan running: if that changes the noise, rubber mounts gain more than another fan", 8})
}

// curveOf says what is known of a fan's curve.
func curveOf(f *catalog.Fan) string {
	switch {
	case len(f.Curve) > 2:
		return plural(len(f.Curve), "point", "points") + ": the band of the flow is ±10 %"
	case len(f.Curve) == 2:
		return "2 points, a straight line"
	case f.Airflow.Known() && f.StaticPressure.Known():
		return "its two ends: the band of the flow is ±10 to 20 %"
	}
	return ""
}

func speedNow(p *match.Path) string {
	if s := written(p.SpeedNow.Turns, rpm); s != "" {
		return s
	}
	return written(p.SpeedNow.Ratio, percent)
}
