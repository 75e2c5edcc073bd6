package devicefile

import (
	"fmt"
	"strings"

	"lowsone/catalog/quantity"
	"lowsone/match"
	"lowsone/match/resistance"
	"lowsone/match/thermal"
)

// warmth asks for heat, air and the ways to the resistance.
func (r *reporter) warmth(p *match.Path, d *match.Device) {
	r.ask("heat: now", written(p.Heat, watts), open{Sharpens, "", "with the rise of the air it gives the flow", 3})
	now := ""
	if w, ok := p.Heat.Get(); ok {
		now = watts(w) + ", as while measured"
	}
	r.ask("heat: worst", written(p.HeatWorst, watts), open{Decides, now, "what the fan must carry away on the worst day", 5})
	r.inlet(p, d)
	r.ask("air: outlet", written(p.Outlet, celsius), open{Decides, "", "with the heat it gives the flow to ±20 %, half the band of an estimated share, and the share of each rise that is the air's", 3})
	r.resistance(p)
}

func (r *reporter) inlet(p *match.Path, d *match.Device) {
	o := open{Sharpens, "", "the rise of the air counts from it; warm air drawn in again shows here", 5}
	room, haveRoom := d.Ambient.Get()
	in, measured := p.Inlet.Get()
	if !measured {
		if haveRoom {
			o.assumed = celsius(room) + ", as the room"
		}
		r.ask("air: inlet", "", o)
		return
	}
	switch excess := in.Above(room); {
	case haveRoom && excess < -coolerInlet:
		o.why = "cooler than the room, " + celsius(room) + ": hold both probes into one place and compare"
	case haveRoom && excess > warmerInlet:
		o.why = "warmer than the room, " + celsius(room) + ": the device draws its own warm air in again; keep inlet and outlet apart before you choose a fan"
	default:
		r.ask("air: inlet", celsius(in), o)
		return
	}
	r.doubt("air: inlet", celsius(in), o)
}

// How far the air that enters may be from the room before it is remarked
// (common practice: two probes agree within 1 or 2 K).
const (
	coolerInlet quantity.TemperatureRise = 2
	warmerInlet quantity.TemperatureRise = 5
)

func (r *reporter) resistance(p *match.Path) {
	ways := p.Ways
	if len(ways) == 0 && !p.Way.Assumed {
		ways = []match.Way{p.Way}
	}
	var names []string
	for _, w := range ways {
		names = append(names, w.Method.String())
	}
	o := open{Decides, "", "", 3}
	if len(ways) == 0 {
		o.assumed = fmt.Sprintf("a share of %s, tried at 40 %% and 70 %% too", percent(resistance.DefaultShare))
		o.why = "measure heat and air, flow, or pressure: how much air moves in there is a guess"
	} else {
		o.why = "how much air moves in there, never the free-air figure"
	}
	r.ask("resistance", strings.Join(names, ", "), o)
}

// spots asks for watched places.
func (r *reporter) spots(p *match.Path) {
	several := ""
	if n := len(p.Spots); n > 0 {
		several = plural(n, "spot", "spots")
	}
	if len(p.Spots) == 1 {
		r.doubt("spots", several, open{Sharpens, "", "only one place is watched: with less air the hottest part may be another", 37})
	} else {
		r.ask("spots", several, open{Decides, "", "how hot it gets: without a watched place only the present flow can be kept", 5})
	}
	for i := range p.Spots {
		r.spot(&p.Spots[i])
	}
}

func (r *reporter) spot(s *match.Spot) {
	key := func(name string) string { return "spots: " + s.Name + ": " + name }
	r.ask(key("limit"), celsius(s.Limit), open{})
	r.ask(key("limit_by"), s.LimitBy, open{Rounds, "", "a limit nobody set is none", 0})
	r.ask(key("margin"), written(s.Margin, kelvins), open{Sharpens, kelvins(thermal.DefaultMargin), "what is kept below the limit: a few kelvins more or less ask for much more or less air", 0})
	r.ask(key("load"), s.Load, open{Sharpens, "", "found at light load it says nothing of the full one", 5})
	r.soak(s, key)
	part := ""
	if s.Part != match.SpotOther {
		part = match.SpotParts[s.Part]
	}
	r.ask(key("part"), part, open{Rounds, match.SpotParts[match.SpotOther], "the price in life of every degree more", 0})
	r.ask(key("solid_share"), written(s.Solid, percent), open{Sharpens, "0 to 30 %", "the part of the rise that lies inside the part and below it, where no air reaches: the less it is, the more does air help", 0})
	r.ask(key("film_exponent"), written(s.Film, number), open{Rounds, "0.5 to 0.8", "how fast the rise falls as the flow grows: as flow^-0.5 between narrow fins, as flow^-0.8 in turbulent air", 0})
	r.ask(key("air"), named(match.SpotAirs, s.Seen.Or(0)), open{Rounds, "any from the mean to that at the outlet", "which share of the rise is the air's own", 0})
}

// soak asks how long the load had lasted, and offers the settling rules.
func (r *reporter) soak(s *match.Spot, key func(string) string) {
	soak, ok := s.Soak.Get()
	switch {
	case !ok && s.Steady():
		r.ask(key("soak"), "", open{Rounds, "", "how long that load had lasted; a settling rule was kept", 5})
	case !ok:
		r.ask(key("soak"), "", open{Decides, "", "a temperature that still rises is a lower bound: no limit is kept by it", 5})
	case !s.Steady():
		r.doubt(key("soak"), minutes(soak), open{Decides, "", "a heat sink takes 30 to 60 min to settle, a case longer: the end may lie higher; go on until a settling rule is kept", 5})
	default:
		r.ask(key("soak"), minutes(soak), open{})
	}
	r.ask(key("settled"), s.Settled, open{Sharpens, "", "shows that it was steady: " + ruleList(), 5})
}

// shownRules is how many settling rules are named as examples.
const shownRules = 2

// ruleList names the first settling rules with what they ask, and says where all
// are.
func ruleList() string {
	all := thermal.Rules()
	var some []string
	for _, rule := range all[:shownRules] {
		some = append(some, rule.Name+" ("+rule.Asks+")")
	}
	return fmt.Sprintf("such as %s; lowsone device new names all %d, lowsone heat LOG.csv --rule all tries them on a log", strings.Join(some, " or "), len(all))
}

// loudness asks for the level of the fan.
func (r *reporter) loudness(p *match.Path) {
	o := open{Sharpens, "as on the label", "the level measured less the predicted one is what guard, mount and wear add; every fan on this seat gets it", 16}
	if p.Reading == nil {
		r.ask("measured", "", o)
		return
	}
	m := p.Reading
	value := tenths(m.Level) + " at " + metres(m.Distance)
	r.ask("measured", value, o)
	r.meter("measured: meter", m)
	b := open{Sharpens, "", "less than 3 dB above it a level is an upper bound only", 6}
	background, ok := m.Background.Get()
	if ok && m.Level.Above(background) < 3 {
		b.why = fmt.Sprintf("only %s dB below the level: the fan's own is an upper bound; measure nearer, or when it is quieter", number(float64(m.Level.Above(background))))
		r.doubt("measured: background", level(background), b)
		return
	}
	r.ask("measured: background", written(m.Background, level), b)
}

func kelvins(t quantity.TemperatureRise) string { return number(float64(t)) + " K" }
