package devicefile

import (
	"lowsone/catalog/quantity"
	"lowsone/match"
	"lowsone/match/curve"
	"lowsone/match/resistance"
)

func checkAir(p *problems, path *path, room *room) {
	a, h := &path.air, &path.heat
	if h.now.given && h.worst.given && h.worst.v < h.now.v {
		p.addf(h.worst.at, "worst is the most heat there will be", "the worst heat, %s, is less than while you measured, %s", watts(h.worst.v), watts(h.now.v))
	}
	if in, ok := path.entering(room).Get(); ok && a.outlet.given && a.outlet.v.Celsius() <= in.Celsius() {
		where := "the inlet"
		if !a.inlet.given {
			where = "the room"
		}
		p.addf(a.outlet.at, "exchange the two, or check which way the air goes", "the air leaves at %s, not warmer than %s, %s", celsius(a.outlet.v), where, celsius(in))
	}
	if a.fanAt.given && path.direction.given {
		if out := path.direction.v == match.BlowsOut; out != (a.fanAt.v == resistance.Outlet) {
			p.addf(a.fanAt.at, "a fan at the inlet blows in, one at the outlet blows out", "direction: %s and fan_at: %s exclude each other",
				nameOf(match.Directions, path.direction.v), places[a.fanAt.v])
		}
	}
}

func checkWays(p *problems, path *path) {
	w := &path.resistance
	for _, at := range w.points {
		if !at.flow.given || !at.pressure.given {
			return // told
		}
	}
	switch n := len(w.points); {
	case n == 1:
		p.addf(w.points[0].at, "give another, or write flow or pressure alone", "one point does not tell a curve")
	case n > 1:
		q, dp := columnsOf(w.points)
		if _, err := resistance.Points(curve.Curve{}, q, dp); err != nil {
			p.refuse("points", w.points[0].at, err)
		}
	}
}

func checkSpots(p *problems, path *path, room *room) {
	spots := path.spots
	checkNames(p, "spot", len(spots), func(i int) placed[string] { return spots[i].name }, false, nil)
	in, haveIn := path.entering(room).Get()
	for i := range spots {
		s := &spots[i]
		if !s.found.given || !s.limit.given {
			continue
		}
		name := quoted(s.name.v)
		if below(s.limit, s.found) {
			p.addf(s.limit.at, "check both; a device that is above its limit needs more air, not a quieter fan", "the limit of %s, %s, is below the %s found there", name, celsius(s.limit.v), celsius(s.found.v))
		}
		if haveIn && s.found.v.Celsius() <= in.Celsius() {
			p.addf(s.found.at, "check the probe", "%s was found at %s, not warmer than the air that enters, %s", name, celsius(s.found.v), celsius(in))
			continue
		}
		if haveIn && path.air.outlet.given {
			checkShares(p, path, s, in)
		}
	}
}

// checkShares refuses a spot cooler than the air that cools it, and shares of
// its rise that make up more than all of it.
func checkShares(p *problems, path *path, s *spot, in quantity.Temperature) {
	rise, of := path.air.outlet.v.Above(in), s.found.v.Above(in)
	if rise <= 0 || of <= 0 || !s.air.given {
		return
	}
	if s.air.v == match.AirMean {
		rise /= 2
	}
	share := float64(rise / of)
	switch {
	case share > 1:
		p.addf(s.found.at, "check both probes, and which air cools the spot", "%s was found at %s, the air that cools it is at %s", quoted(s.name.v), celsius(s.found.v), celsius(in.Plus(rise)))
	case s.solid.given && share+s.solid.v > 1:
		p.addf(s.solid.at, "", "%s of the rise is that of the air, so %s cannot be beyond the reach of air", percent(share), percent(s.solid.v))
	}
}
