package devicefile

import (
	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match"
	"lowsone/match/resistance"
)

// Parse reads a device file; name stands in messages. Tables of levels that it
// names are read by read; where that is nil, naming one is a problem. The error
// is an *Error with everything that is wrong: what is no YAML, keys and values
// that cannot be, and what cannot be true together. What hangs on fans of the
// catalogue is checked by Resolve.
func Parse(name string, data []byte, read ReadTable) (*File, error) {
	root, t, err := parse(name, data)
	if err != nil {
		return nil, err
	}
	r := &reader{problems{text: t}}
	doc := &document{}
	if !r.part("the file", root, Place{}, deviceTable(), doc) && r.count() == 0 {
		r.addf(Place{}, "write what you know behind the colons, at least what device it is, and of its fan the part, or what stands on its label", "nothing is filled in")
	}
	f := &File{text: t, doc: doc, spectra: doc.spectra(&r.problems, read)}
	f.build(&r.problems)
	check(&r.problems, f)
	if err := r.err(); err != nil {
		return nil, err
	}
	return f, nil
}

// build makes the device of what the document says.
func (f *File) build(found *problems) {
	d := f.doc
	f.Device = match.Device{
		Name: d.device.v, Purpose: d.purpose.v,
		Ambient: known(d.room.now), AmbientWorst: known(d.room.worst), Altitude: known(d.room.altitude),
		Listener: known(d.listener), Room: known(d.room.level), RoomBands: d.room.heard.spectrum,
	}
	for i := range d.paths {
		p := &d.paths[i]
		f.Fans = append(f.Fans, p.fan.said())
		f.Device.Paths = append(f.Device.Paths, p.path(found, &d.room))
		f.fit(i, match.NotInCatalogue, nil)
	}
	for _, n := range d.noise {
		f.Device.Sources = append(f.Device.Sources, match.Source{
			Name: n.name.v, Level: n.level.v, Distance: n.distance.v, Bands: n.heard.spectrum, Listener: known(n.listener),
		})
	}
	for i := range d.measured {
		f.Device.Readings = append(f.Device.Readings, d.measured[i].reading())
	}
}

func known[T any](p placed[T]) quantity.Known[T] {
	if !p.given {
		return quantity.Known[T]{}
	}
	return quantity.Stated(p.v)
}

func (r *reading) reading() match.Reading {
	return match.Reading{Level: r.level.v, Distance: r.distance.v, Bands: r.heard.spectrum, Background: known(r.background), After: r.when.v != asFound, Meter: r.meter.v}
}

func (f *fan) said() Fan {
	said := Fan{Part: f.part.v, Name: f.name.v}
	for _, v := range f.values {
		said.Values = append(said.Values, v.Value)
	}
	return said
}

// path makes a path without its fan and seat.
func (p *path) path(found *problems, room *room) match.Path {
	out := match.Path{
		Name: p.name.v, SpeedNow: p.speed.v, Fans: int(p.fans.v), Series: p.arrangement.v == series, Arranged: p.arrangement.given,
		Regulated:   p.regulated.v == match.RegulatedByFan || p.regulated.v == match.RegulatedByDevice,
		RegulatedBy: p.regulated.v, Listener: known(p.listener), Direction: p.way(),
		Heat: known(p.heat.now), HeatWorst: known(p.heat.worst), Inlet: known(p.air.inlet), Outlet: known(p.air.outlet),
		Clean: known(p.clean), Mount: p.mount.v, Shaft: p.shaft.v,
		Near: match.Near{Grille: p.near.grille.v, Filter: p.near.filter.v, InletObstacle: p.near.inletObstacle.v, OutletObstacle: p.near.outletObstacle.v},
	}
	out.Guard = nearestOf(out.Near)
	if p.measured.given {
		r := p.measured.reading()
		out.Reading = &r
	}
	for i := range p.spots {
		out.Spots = append(out.Spots, p.spots[i].spot())
	}
	ways := p.ways(found, room)
	if len(ways) == 0 {
		ways = []match.Way{{Method: resistance.ByShare, Share: resistance.DefaultShare, Assumed: true}}
	}
	out.Way = ways[0]
	if len(ways) > 1 {
		out.Ways = ways
	}
	return out
}

// way is the direction of the air: as said, or as the end the fan sits at says.
func (p *path) way() match.Direction {
	switch {
	case p.direction.given || !p.air.fanAt.given:
		return p.direction.v
	case p.air.fanAt.v == resistance.Outlet:
		return match.BlowsOut
	}
	return match.BlowsIn
}

// nearestOf gives the distance of the nearest grille or obstacle.
func nearestOf(n match.Near) quantity.Known[quantity.Length] {
	var least quantity.Known[quantity.Length]
	for _, c := range []match.Clearance{n.Grille, n.InletObstacle, n.OutletObstacle} {
		if d, ok := c.Distance.Get(); ok && d < least.Or(d+1) {
			least = quantity.Stated(d)
		}
	}
	return least
}

func (s *spot) spot() match.Spot {
	return match.Spot{
		Name: s.name.v, Found: s.found.v, Limit: s.limit.v, LimitBy: s.limitBy.v, Margin: known(s.margin), Part: s.part.v,
		Load: s.load.v, Soak: known(s.soak), Settled: s.settled.v, Solid: known(s.solid), Film: known(s.film), Seen: known(s.air),
	}
}

// ways lists the ways to the path's resistance, the one to be trusted most
// first: points, heat, pressure, flow, geometry, share.
func (p *path) ways(found *problems, room *room) []match.Way {
	var all []match.Way
	w := &p.resistance
	if len(w.points) > 0 {
		way := match.Way{Method: resistance.ByPoints}
		for _, at := range w.points {
			way.Points = append(way.Points, catalog.CurvePoint{Flow: at.flow.v, Pressure: at.pressure.v})
		}
		all = append(all, way)
	}
	if h, ok := p.balance(room); ok {
		all = append(all, match.Way{Method: resistance.ByHeat, Heat: h})
	}
	if w.pressure.given {
		all = append(all, match.Way{Method: resistance.ByPressure, Pressure: w.pressure.v})
	}
	if w.flow.given {
		all = append(all, match.Way{Method: resistance.ByFlow, Flow: w.flow.v})
	}
	if len(w.geometry) > 0 {
		in := resistance.StandardAir()
		if t, ok := p.entering(room).Get(); ok {
			in = airOf(t)
		}
		all = append(all, match.Way{Method: resistance.ByGeometry, Geometry: found.pathOf(w.geometry, in)})
	}
	if w.share.given {
		all = append(all, match.Way{Method: resistance.ByShare, Share: w.share.v})
	}
	return all
}

// balance is the heat balance of the path; not ok without heat, outlet and a
// warmer air there.
func (p *path) balance(room *room) (h match.Heat, ok bool) {
	inlet := p.entering(room)
	in, haveInlet := inlet.Get()
	if !p.heat.now.given || !p.air.outlet.given || !haveInlet {
		return match.Heat{}, false
	}
	rise := p.air.outlet.v.Above(in)
	return match.Heat{Power: p.heat.now.v, AirRise: rise, Inlet: inlet, Outlet: p.way() == match.BlowsOut}, rise > 0
}

// entering is the temperature of the air that enters: as measured, else that
// of the room, as an estimate.
func (p *path) entering(room *room) quantity.Known[quantity.Temperature] {
	if p.air.inlet.given {
		return quantity.Stated(p.air.inlet.v)
	}
	if room.now.given {
		return quantity.From(room.now.v, quantity.Estimate)
	}
	return quantity.Known[quantity.Temperature]{}
}
