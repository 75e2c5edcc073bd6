package resistance

import (
	"math"

	"lowsone/match/curve"
)

// geometryBand is how far off a loss from drawings may be: screens and sharp
// edges depend on detail (common practice).
const geometryBand = 0.30

// Geometry returns the estimate from the pieces of a device's air path, in the
// air that flows through it; c is the curve of the fitted fan in that air. The
// working point is the lowest stable crossing of the fan with the path; its span
// is that of the loss ±30 %. Where the path is not of the form a·Q + b·Q², System
// is fitted about the working point and exact there (Path.System).
//
// The error is an *InputError, ErrNoPath, *curve.OutsideError or
// curve.ErrNoCurve. Path.Costs says which piece costs how much at the flow found.
func Geometry(c curve.Curve, in Air, path Path) (Estimate, error) {
	if err := in.check(); err != nil {
		return Estimate{}, err
	}
	if err := path.check(); err != nil {
		return Estimate{}, err
	}
	if c.Len() < 2 {
		return Estimate{}, curve.ErrNoCurve
	}
	s, err := path.atWork(c, in)
	if err != nil {
		return Estimate{}, err
	}
	e := Estimate{Method: ByGeometry, System: s, Assumed: path.assumed()}
	if err := e.locate(c, geometryBand); err != nil {
		return Estimate{}, err
	}
	for _, d := range path.doubts(e.Q, in) {
		e.warn("%s", d)
	}
	return e, nil
}

// atWork returns the system of a path about the working point of c. Fit and
// working point settle each other within a few rounds, since the fit is near
// the truth wherever it is made; what is left after the last round is rounding.
func (p Path) atWork(c curve.Curve, in Air) (curve.System, error) {
	const rounds = 30
	q, _ := c.FreeDelivery()
	s := p.System(q, in)
	for range rounds {
		x, _, err := curve.Operate(c, s)
		if err != nil {
			return curve.System{}, err
		}
		if !(x.Q > 0) || math.Abs(x.Q-q) <= sameFlow*q {
			break
		}
		q = x.Q
		s = p.System(q, in)
	}
	return s, nil
}
