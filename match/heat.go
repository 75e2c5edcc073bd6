package match

import (
	"fmt"
	"math"

	"lowsone/catalog/quantity"
	"lowsone/match/air"
	"lowsone/match/curve"
	"lowsone/match/resistance"
	"lowsone/match/thermal"
)

// Surroundings are what the device stands in, while it was measured and at the
// worst.
type Surroundings struct {
	Ambient      quantity.Known[quantity.Temperature]
	AmbientWorst quantity.Known[quantity.Temperature]
	Altitude     quantity.Known[quantity.Length]
}

// Surroundings gives what the device stands in.
func (d *Device) Surroundings() Surroundings {
	return Surroundings{d.Ambient, d.AmbientWorst, d.Altitude}
}

// SpotTemperature is how hot a watched spot gets with a candidate, at the
// worst: as a band where the shares of its rise are not known.
type SpotTemperature struct {
	Name          string
	Full, Planned thermal.Band // °C, at full and at planned speed
	Limit, Margin float64      // °C, K
	// Life is the life of a capacitor at the planned speed over that with the
	// fitted fan as found, both at the worst; NaN for other parts.
	Life float64
}

// Kept says whether the limit less the margin is kept at the planned speed
// whatever the shares are.
func (t *SpotTemperature) Kept() bool { return t.Planned.High <= t.Limit-t.Margin+asEqual }

// asEqual is what a temperature may pass its limit less the margin by, in K: no
// probe tells it, and a fan within tooFast of the needed flow counts as enough.
const asEqual = 0.2

// Within says whether the limit itself is kept at the planned speed whatever the
// shares are.
func (t *SpotTemperature) Within() bool { return t.Planned.High <= t.Limit+asEqual }

// HeatNeed is the least flow that keeps every watched spot at its limit.
type HeatNeed struct {
	thermal.Whole
	Flow    float64  // m³/s at the fan, in the worst case; +Inf where no flow is enough
	Density float64  // kg/m³ there
	Assumed []string // what was not recorded and how it was filled
}

// cooling is what the air of a path cools, ready to be asked.
type cooling struct {
	models   []thermal.Model
	spots    []Spot
	worst    thermal.Conditions
	heat     float64 // W at the worst, NaN unknown
	mass     float64 // kg/s while measured
	inlet    float64 // °C at the worst
	pressure float64 // Pa at the altitude
	outlet   bool    // the fan sits in the warm air
	need     HeatNeed
}

// NoFlowError says that no flow keeps a spot at its limit.
type NoFlowError struct{ Need thermal.Whole }

// Error gives the reason.
func (e *NoFlowError) Error() string { return e.Need.Why() }

// Hint names what else can be done.
func (e *NoFlowError) Hint() string {
	return "less heat, a cooler room, better contact to the heat sink, or a limit that allows more"
}

// cool prepares the spots of a path that was found at the working point of s; x
// draws what of them is not certain, nil spans it. Without spots it gives nil.
func cool(path *Path, around Surroundings, s *System, x *Draw) (*cooling, error) {
	if len(path.Spots) == 0 {
		return nil, nil
	}
	if !s.Located {
		return nil, &NeedError{"the present flow is not known, so the watched spots say nothing", "give another way to the device's resistance"}
	}
	c := &cooling{spots: path.Spots, mass: s.Q * s.Density, outlet: path.balance().Outlet}
	then, err := c.conditions(path, around)
	if err != nil {
		return nil, err
	}
	var each []thermal.Need
	for i := range path.Spots {
		model, err := c.model(path, &path.Spots[i], then, x.spot(i))
		if err != nil {
			return nil, fmt.Errorf("spot %q: %w", path.Spots[i].Name, err)
		}
		need, err := model.Need(c.worst)
		if err != nil {
			return nil, fmt.Errorf("spot %q: %w", path.Spots[i].Name, err)
		}
		c.models, each = append(c.models, model), append(each, need)
		c.inlet = model.Inlet(c.worst)
	}
	if c.need.Whole, err = thermal.Largest(each...); err != nil {
		return nil, err
	}
	c.need.Density = c.density(c.need.Ratio * c.mass)
	c.need.Flow = thermal.FlowAtFan(c.need.Ratio, s.Q, s.Density, c.need.Density)
	return c, nil
}

// conditions gives room and heat while measured, and sets those at the worst.
// What was not recorded of the worst is as it was found, and said.
func (c *cooling) conditions(path *Path, around Surroundings) (thermal.Conditions, error) {
	assume := func(text string) { c.need.Assumed = append(c.need.Assumed, text) }
	room, ok := around.Ambient.Get()
	if !ok {
		return thermal.Conditions{}, &NeedError{"the room's temperature while the spots were measured is not known", "give the room's temperature then"}
	}
	worst, ok := around.AmbientWorst.Get()
	if !ok {
		worst = room
		assume("the hottest room is as warm as the room was")
	}
	then := thermal.Conditions{Ambient: room.Celsius(), Heat: 1}
	c.worst = thermal.Conditions{Ambient: worst.Celsius(), Heat: 1}
	c.heat = math.NaN()
	if heat, ok := path.heatNow(); ok {
		then.Heat = float64(heat)
		c.worst.Heat = float64(path.HeatWorst.Or(heat))
		c.heat = c.worst.Heat
	}
	if !path.HeatWorst.Known() {
		assume("the heat at the worst is as it was found")
	}
	var err error
	altitude, ok := around.Altitude.Get()
	if !ok {
		assume("at sea level")
	}
	c.pressure, err = air.PressureAtAltitude(float64(altitude))
	return then, err
}

// balance gives the heat balance of the path, whichever way its resistance is
// taken from; zero where none was recorded.
func (p *Path) balance() Heat {
	for _, way := range append([]Way{p.Way}, p.Ways...) {
		if way.Method == resistance.ByHeat {
			return way.Heat
		}
	}
	return p.Way.Heat
}

// InWarmAir says whether the fan of the path meets the air that leaves, as far as
// a heat balance was recorded.
func (p *Path) InWarmAir() bool { return p.balance().Outlet }

// heatNow gives the heat put into the path while it was measured.
func (p *Path) heatNow() (quantity.Power, bool) {
	if heat, ok := p.Heat.Get(); ok {
		return heat, true
	}
	heat := p.balance().Power
	return heat, heat > 0
}

// model makes one spot ready.
func (c *cooling) model(path *Path, s *Spot, then thermal.Conditions, x *SpotDraw) (thermal.Model, error) {
	spot := thermal.Spot{Name: s.Name, Found: s.Found.Celsius(), Then: then, Limit: s.Limit.Celsius()}
	if x != nil {
		spot.Found += x.Found
	}
	if inlet, ok := path.Inlet.Get(); ok {
		spot.Inlet, spot.InletKnown = inlet.Celsius(), true
	} else if inlet, ok := path.balance().Inlet.Get(); ok {
		spot.Inlet, spot.InletKnown = inlet.Celsius(), true
	}
	if margin, ok := s.Margin.Get(); ok {
		spot.Margin, spot.MarginKnown = float64(margin), true
	}
	if solid, ok := s.Solid.Get(); ok {
		spot.Shares.Solid = thermal.Exactly(solid)
	}
	if film, ok := s.Film.Get(); ok {
		spot.Shares.Exponent = thermal.Exactly(film)
	}
	rise := spot.Found - then.Ambient
	if spot.InletKnown {
		rise = spot.Found - spot.Inlet
	}
	share, err := c.airShare(path, s, rise)
	if err != nil {
		return thermal.Model{}, err
	}
	spot.Shares.Air = share
	model, err := thermal.New(spot)
	if err == nil && x != nil {
		model = model.At(x.Air, x.Solid, x.Film)
	}
	return model, err
}

// airShare gives the part of a spot's rise that the air's own rise makes up,
// as far as air rise or heat tell; unknown else. Where it is not recorded which
// air the spot meets, it lies between half the rise and the whole.
func (c *cooling) airShare(path *Path, s *Spot, rise float64) (thermal.Share, error) {
	of := func(seen thermal.Seen) (thermal.Share, error) {
		if up := float64(path.balance().AirRise); up > 0 {
			return thermal.AirShare(up, rise, seen)
		}
		if heat, ok := path.heatNow(); ok {
			return thermal.AirShareOfHeat(float64(heat), c.mass, rise, seen)
		}
		return thermal.Share{}, nil
	}
	switch s.Seen.Or(0) {
	case AirOutlet:
		return of(thermal.OutletAir)
	case AirMean:
		return of(thermal.MeanAir)
	}
	mean, err := of(thermal.MeanAir)
	if err != nil || !mean.Known() {
		return mean, err
	}
	low, _ := mean.Span()
	whole, err := of(thermal.OutletAir)
	if err != nil { // the spot cannot meet the air at the outlet: that is warmer
		return thermal.Between(low, math.Min(1, 2*low)), nil
	}
	_, high := whole.Span()
	return thermal.Between(low, high), nil
}

// density gives that of the air at the fan in the worst case, with the mass
// flow mass in kg/s.
func (c *cooling) density(mass float64) float64 {
	return air.Density(c.fanAir(mass), c.pressure)
}

// fanAir gives the temperature in °C of the air the fan meets in the worst
// case: that of the inlet, or of the outlet where it sits there and the heat is
// known.
func (c *cooling) fanAir(mass float64) float64 {
	if rise := thermal.OutletRise(c.heat, mass); c.outlet && rise > 0 && !math.IsInf(rise, 0) {
		return c.inlet + rise
	}
	return c.inlet
}

// temperatures gives each spot's temperature at the worst with two mass flows.
func (c *cooling) temperatures(full, planned float64) ([]SpotTemperature, error) {
	out := make([]SpotTemperature, len(c.models))
	for i, m := range c.models {
		t := SpotTemperature{Name: m.Name(), Limit: c.need.Each[i].Limit, Margin: c.need.Each[i].Margin, Life: math.NaN()}
		var err error
		if t.Full, err = m.Temperature(c.worst, full/c.mass); err != nil {
			return nil, err
		}
		if t.Planned, err = m.Temperature(c.worst, planned/c.mass); err != nil {
			return nil, err
		}
		if c.spots[i].Part == SpotCapacitor {
			now, err := m.Temperature(c.worst, 1)
			if err != nil {
				return nil, err
			}
			t.Life = thermal.CapacitorLife(now.Middle, t.Planned.Middle)
		}
		out[i] = t
	}
	return out, nil
}

// atWorst gives the device's resistance in the air of the worst case: the
// quadratic part goes with the density.
func (c *cooling) atWorst(s curve.System, density float64) curve.System {
	s.B *= c.need.Density / density
	return s
}
