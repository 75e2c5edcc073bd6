package resistance

import (
	"fmt"

	"lowsone/match/curve"
)

// Filter returns a filter of which a and b were measured (Points fits them) or
// are stated, in the given air. In other air a goes with the viscosity and b
// with the density.
func Filter(name string, measured curve.System, in Air) (Element, error) {
	if err := in.check(); err != nil {
		return Element{}, err
	}
	if !(measured.A >= 0 && measured.B >= 0) {
		return Element{}, &curve.SystemError{System: measured}
	}
	if err := positive(of("loss in Pa at 1 m³/s", name), measured.Loss(1)); err != nil {
		return Element{}, err
	}
	return Element{
		Name: name, Source: "measured", Valid: "the flows it was measured at, clean",
		made: true, fouls: true, law: law{viscous: measured.A / in.Viscosity, inertial: measured.B / in.Density},
	}, nil
}

// FilterAt returns a filter of which one point is stated: the pressure in Pa at
// the face velocity in m/s over the area in m², in the given air. One point does
// not tell a from b: half of it is taken as viscous, so that the loss goes about
// as Q^1.5 there (common practice, no source; between Q for dense mats and Q²
// for open ones). At half the flow it is then at most 25 % too low for a mat and
// 50 % too high for an open one.
func FilterAt(name string, area, velocity, pressure float64, in Air) (Element, error) {
	for _, x := range []struct {
		what  string
		value float64
	}{{"face area in m²", area}, {"face velocity in m/s", velocity}, {"pressure in Pa", pressure}} {
		if err := positive(of(x.what, name), x.value); err != nil {
			return Element{}, err
		}
	}
	q := area * velocity
	e, err := Filter(name, curve.System{A: pressure / 2 / q, B: pressure / 2 / (q * q)}, in)
	if err != nil {
		return Element{}, err
	}
	e.Area, e.Velocity, e.Source = area, ahead, "one point stated"
	e.Valid = fmt.Sprintf("near %.3g m/s, clean", velocity)
	e.assumed = fmt.Sprintf("half of the loss of %q viscous, as one point does not tell", name)
	return e, nil
}
