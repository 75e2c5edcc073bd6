package resistance

import (
	"math"

	"lowsone/match/curve"
)

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
	if err := e.locate(c, GeometryBand); err != nil {
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

// Rougher returns the estimate of a device whose loss is factor times that of
// e, with the working point of the fan c there. The error is an
// *curve.OutsideError, *curve.SystemError or curve.ErrNoCurve.
func Rougher(c curve.Curve, e Estimate, factor float64) (Estimate, error) {
	e.System.A *= factor
	e.System.B *= factor
	point, _, err := curve.Operate(c, e.System)
	e.Q, e.P = point.Q, point.P
	return e, err
}
