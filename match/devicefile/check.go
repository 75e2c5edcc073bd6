package devicefile

import (
	"fmt"
	"math"
	"strconv"

	"lowsone/catalog/quantity"
	"lowsone/match"
)

// check looks for what cannot be true together in a device file.
func check(p *problems, f *File) {
	d := f.doc
	checkPurpose(p, d)
	if below(d.room.worst, d.room.now) {
		p.addf(d.room.worst.at, "worst is the hottest room the device will stand in", "the worst room, %s, is cooler than it was while you measured, %s",
			celsius(d.room.worst.v), celsius(d.room.now.v))
	}
	for i := range d.measured {
		checkReading(p, &d.measured[i])
	}
	checkNames(p, "path", len(d.paths), func(i int) placed[string] { return d.paths[i].name }, len(d.paths) > 1, func(i int) Place { return d.paths[i].at })
	for i := range d.paths {
		path := &d.paths[i]
		checkFans(p, path)
		checkSpace(p, path)
		checkSupply(p, path)
		checkLeads(p, path)
		checkAir(p, path, &d.room)
		checkWays(p, path)
		checkSpots(p, path, &d.room)
		checkReading(p, &path.measured)
		if !path.fan.part.given {
			checkFitted(p, path, &f.Device.Paths[i])
		}
	}
}

// turnedAway says why there is no advice, by match.Purpose.
var turnedAway = map[match.Purpose]string{
	match.PurposeMedical: "a medical device",
	match.PurposeSafety:  "a device that lives or fire protection hang on, or a duct that carries fumes",
	match.PurposeSealed:  "a sealed module with mains inside",
}

func checkPurpose(p *problems, d *document) {
	if what, away := turnedAway[d.purpose.v]; away {
		p.addf(d.purpose.at, "leave it to people licensed for it", "no advice is given for %s", what)
	}
}

// checkNames refuses names that stand twice and, where they are needed, missing
// ones.
func checkNames(p *problems, what string, n int, name func(int) placed[string], needed bool, at func(int) Place) {
	first := map[string]Place{}
	for i := range n {
		own := name(i)
		if !own.given {
			if needed {
				p.addf(at(i), "add name: …", "one %s of several has no name", what)
			}
			continue
		}
		if before, twice := first[own.v]; twice {
			p.addf(own.at, "give each a name of its own", "%s %s stands here twice, first in line %d", what, quoted(own.v), before.Line)
			continue
		}
		first[own.v] = own.at
	}
}

func checkReading(p *problems, r *reading) {
	if r.level.given && r.background.given && r.level.v.DB() < r.background.v.DB() {
		p.addf(r.background.at, "", "the background, %s, is louder than with the fan running, %s", level(r.background.v), level(r.level.v))
	}
}

func checkFans(p *problems, path *path) {
	if path.arrangement.given && path.fans.or(1) < 2 {
		p.addf(path.arrangement.at, "say how many fans there are: fans: 2", "an arrangement of one fan")
	}
	if path.fan.given && !path.fan.part.given && len(path.fan.values) == 0 {
		p.addf(path.fan.at, "give its part, or what stands on its label", "nothing is known of the fan")
	}
}

func checkSpace(p *problems, path *path) {
	s := &path.space
	if s.holeDiagonal.given && s.width.given && s.height.given && !same(s.width.v, s.height.v) {
		p.addf(s.holeDiagonal.at, "give hole_pitch", "a diagonal tells the hole pitch of square frames only, this one is %s by %s", mm(s.width.v), mm(s.height.v))
	} else if pitch, ok := s.pitch().Get(); ok && s.width.given && pitch >= s.width.v {
		at := s.holePitch.at
		if s.holeDiagonal.given {
			at = s.holeDiagonal.at
		}
		p.addf(at, "measure from the middle of one hole to the next", "a hole pitch of %s does not fit into a width of %s", mm(pitch), mm(s.width.v))
	}
	if s.outletWidth.given != s.outletHeight.given {
		p.addf(s.at, "", "an outlet has a width and a height: outlet_width and outlet_height")
	}
	if s.outletWidth.given && s.kind.v == seatKind(1) && s.kind.given {
		p.addf(s.outletWidth.at, "", "an outlet of its own belongs to a blower, the kind is axial")
	}
}

func same(a, b quantity.Length) bool { return math.Abs(float64(a-b)) <= 0.5e-3 }

// below says whether a and b are given and a lies below b.
func below(a, b placed[quantity.Temperature]) bool {
	return a.given && b.given && a.v.Celsius() < b.v.Celsius()
}

func celsius(t quantity.Temperature) string { return number(t.Celsius()) + " °C" }
func level(l quantity.SoundPressureLevel) string {
	return number(l.DB()) + " dB(A)"
}
func mm(l quantity.Length) string       { return number(float64(l/quantity.Millimetre)) + " mm" }
func volts(v quantity.Voltage) string   { return number(float64(v)) + " V" }
func watts(w quantity.Power) string     { return number(float64(w)) + " W" }
func rpm(s quantity.Speed) string       { return number(float64(s/quantity.RevolutionPerMinute)) + " rpm" }
func percent(share float64) string      { return number(100*share) + " %" }
func metres(l quantity.Length) string   { return number(float64(l)) + " m" }
func minutes(t quantity.Time) string    { return number(float64(t/quantity.Minute)) + " min" }
func amperes(c quantity.Current) string { return number(float64(c)) + " A" }

// number writes a number with at most four significant digits.
func number(v float64) string {
	rounded, err := strconv.ParseFloat(fmt.Sprintf("%.4g", v), 64)
	if err != nil || rounded == 0 {
		return "0"
	}
	return strconv.FormatFloat(rounded, 'f', -1, 64)
}
