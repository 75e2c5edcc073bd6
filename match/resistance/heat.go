package resistance

import (
	"fmt"
	"math"

	"lowsone/match/air"
	"lowsone/match/curve"
)

// Place is where the fan sits in the air path.
type Place uint8

// The places of a fan.
const (
	Inlet  Place = iota // it blows in and meets the air that enters the device
	Outlet              // it sucks out and meets the warm air
)

// HeatInput is a heat balance: the heat goes with the air and warms it.
type HeatInput struct {
	Power        float64 // W put into this air path, useful output taken off
	AirRise      float64 // K, of the mixed air from inlet to outlet
	InletC       float64 // °C
	InletKnown   bool
	Ambient      float64 // Pa, absolute
	AmbientKnown bool
	FanAt        Place
}

const (
	roomC            = 20.0     // °C where the inlet is not known
	seaLevel         = 101325.0 // Pa where the ambient is not known
	coldest, hottest = -60.0, 200.0
)

// Heat returns the estimate from a heat balance,
//
//	Q = P / (ρ·c_p·ΔT)
//
// with ρ of the air at the fan: at its inlet temperature, or that plus the rise
// where the fan sits at the outlet. standard is the curve of the fan at its
// speed in air of 1.2 kg/m³; ρ scales its pressure too. The span is ±20 %. The
// error is an *InputError, *ContradictionError, *BeyondCurveError or
// curve.ErrNoCurve.
func Heat(standard curve.Curve, in HeatInput) (Estimate, error) {
	in, assumed := in.completed()
	if err := in.check(); err != nil {
		return Estimate{}, err
	}
	rho := in.densityAtFan()
	q := air.FlowForHeat(in.Power, in.AirRise, rho)
	e, err := throughFlow(ByHeat, standard.AtDensity(rho), q, (1-HeatBand)*q, (1+HeatBand)*q)
	if err != nil {
		return Estimate{}, err
	}
	e.Density, e.Assumed = rho, assumed
	return e, nil
}

// completed fills what is not known by defaults and names them.
func (in HeatInput) completed() (full HeatInput, assumed []string) {
	if !in.InletKnown {
		in.InletC = roomC
		assumed = append(assumed, fmt.Sprintf("%g °C at the inlet", roomC))
	}
	if !in.AmbientKnown {
		in.Ambient = seaLevel
		assumed = append(assumed, "air pressure at sea level")
	}
	return in, assumed
}

func (in HeatInput) check() error {
	switch {
	case !(in.Power > 0) || math.IsInf(in.Power, 0):
		return &InputError{What: "heat in W", Value: in.Power, Want: "above zero"}
	case !(in.AirRise > 0) || math.IsInf(in.AirRise, 0):
		return &InputError{What: "rise of the air in K", Value: in.AirRise, Want: "above zero"}
	case !(in.InletC >= coldest && in.InletC <= hottest):
		return &InputError{What: "inlet temperature in °C", Value: in.InletC, Want: fmt.Sprintf("between %g and %g", coldest, hottest)}
	case !(in.Ambient > 0) || math.IsInf(in.Ambient, 0):
		return &InputError{What: "air pressure in Pa", Value: in.Ambient, Want: "above zero"}
	}
	return nil
}

// densityAtFan returns the density of the air the fan meets in kg/m³.
func (in HeatInput) densityAtFan() float64 {
	celsius := in.InletC
	if in.FanAt == Outlet {
		celsius += in.AirRise
	}
	return air.Density(celsius, in.Ambient)
}
