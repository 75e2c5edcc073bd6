package devicefile

import (
	"math"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match"
)

// seat is what the file itself says of a path's seat.
func (p *path) seat() match.Seat {
	s := match.Seat{
		Width: known(p.space.width), Height: known(p.space.height), DepthMax: known(p.space.depth), HolePitch: p.space.pitch(),
		OutletWidth: known(p.space.outletWidth), OutletHeight: known(p.space.outletHeight), AnyKind: p.space.kind.given && p.space.kind.v == anyKind,
		CurrentMax: known(p.supply.current), Mains: known(p.supply.mains), Pulsed: known(p.supply.pulsed), Output: p.supply.output.v,
		Leads: known(p.leads.count), Connector: p.leads.connector.v, Pins: p.leads.pins.v, Watches: p.leads.watches.v,
		AlarmSpeed: p.leads.alarmBelow.v.Turns, AlarmShare: p.leads.alarmBelow.v.Ratio, AlarmPulses: known(p.leads.alarmPulses),
		AlarmKind: p.leads.alarmKind.v, PWM: p.leads.pwm.v, SlowBy: p.slowBy.v,
	}
	if k := p.space.kind; k.given && k.v != anyKind {
		s.Kind = quantity.Stated(catalog.Kind(k.v))
	}
	if k := p.supply.kind; k.given {
		s.Supply = quantity.Stated(catalog.Supply(k.v))
	}
	s.VoltageLow, s.Voltage = known(p.supply.low), known(p.supply.high)
	if p.supply.voltage.given {
		s.VoltageLow, s.Voltage = known(p.supply.voltage), known(p.supply.voltage)
	}
	if s.Width.Known() && !s.Height.Known() {
		s.Height = s.Width
	}
	if p.leads.alarmBelow.given && s.Watches == match.WatchUnknown {
		s.Watches = match.WatchTach
	}
	return s
}

// pitch is the hole pitch, or what the diagonal of a square frame says of it.
func (s *space) pitch() quantity.Known[quantity.Length] {
	if s.holeDiagonal.given {
		return quantity.Stated(s.holeDiagonal.v / math.Sqrt2)
	}
	return known(s.holePitch)
}

// completed fills what the file leaves open of a seat with what its fan tells.
func completed(s match.Seat, fan *catalog.Fan) match.Seat {
	told := match.SeatOf(fan)
	if roomier(&s, fan) {
		s.SpaceWidth, s.SpaceHeight = s.Width, s.Height
		s.Width, s.Height = told.Width, told.Height
	}
	own := !s.Width.Known() || sameFrame(&s, fan)
	fill(&s.Width, told.Width)
	fill(&s.Height, told.Height)
	if own { // else the fan's holes belong to another frame
		fill(&s.HolePitch, told.HolePitch)
	}
	fill(&s.DepthMax, told.DepthMax)
	fill(&s.Kind, told.Kind)
	fill(&s.Supply, told.Supply)
	fill(&s.Voltage, told.Voltage)
	fill(&s.Mains, told.Mains)
	fill(&s.Leads, told.Leads)
	if s.Connector == "" {
		s.Connector = told.Connector
	}
	if share, ok := s.AlarmShare.Get(); ok {
		if label, ok := fan.Speed.Get(); ok {
			s.AlarmSpeed = quantity.Stated(label * quantity.Speed(share))
		}
	}
	return s
}

// roomier says whether the space has room to spare around the fan: the seat then
// still takes the frame of its fan. A space that is itself a usual frame is a
// seat for that one.
func roomier(s *match.Seat, fan *catalog.Fan) bool {
	w, okW := fan.Width.Get()
	h, okH := fan.Height.Get()
	if _, usual := match.UsualPitch(float64(s.Width.Or(0))); usual {
		return false
	}
	return s.Width.Known() && okW && okH && !sameFrame(s, fan) && s.Width.Or(0) >= w && s.Height.Or(0) >= h
}

func sameFrame(s *match.Seat, fan *catalog.Fan) bool {
	return catalog.SameFrame(float64(s.Width.Or(0)), float64(fan.Width.Or(0))) && catalog.SameFrame(float64(s.Height.Or(0)), float64(fan.Height.Or(0)))
}

func fill[T any](at *quantity.Known[T], with quantity.Known[T]) {
	if !at.Known() {
		*at = with
	}
}
