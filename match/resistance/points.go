package resistance

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"lowsone/match/curve"
)

const (
	wideResidual = 0.10 // of a measured pressure: the fit misses a point by more

	// sameDirection is the share of its terms below which a determinant is
	// rounding: the flows are too close together to tell a from b.
	sameDirection = 1e-12
)

// Points returns the estimate from two or more measured pairs of flow q in
// m³/s and pressure p in Pa across the device: a, b ≥ 0 with the least sum of
// squared relative errors
//
//	Σ ((a·qᵢ + b·qᵢ²)/pᵢ − 1)²
//
// relative, since what is measured is known to a share of itself. A point
// missed by more than 10 % is warned of. Pressure that falls with rising flow
// is a *FallingError.
//
// The working point is the lowest stable crossing with the fan c; its span is
// that of the device's pressure ±10 % or ± the largest miss. With a zero Curve
// for a fan that is not known, Located is false.
func Points(c curve.Curve, q, p []float64) (Estimate, error) {
	measured, err := measuredPoints(q, p)
	if err != nil {
		return Estimate{}, err
	}
	e := Estimate{Method: ByPoints, Points: measured, System: fit(measured)}
	worst := worstMiss(e.System, measured)
	if worst > wideResidual {
		e.warn("a·Q + b·Q² misses one of the measured points by %.0f %%", 100*worst)
	}
	if c.Len() == 0 {
		return e, nil
	}
	if err := e.locate(c, max(worst, PointsBand)); err != nil {
		return Estimate{}, err
	}
	return e, nil
}

// measuredPoints checks the points and returns them by rising flow, at one
// flow by rising pressure.
func measuredPoints(q, p []float64) ([]Point, error) {
	if len(q) != len(p) || len(q) < 2 {
		return nil, &InputError{What: "number of measured points", Value: float64(min(len(q), len(p))), Want: "two or more, each with flow and pressure"}
	}
	all := make([]Point, len(q))
	for i := range q {
		if !(q[i] > 0) || math.IsInf(q[i], 0) {
			return nil, &InputError{What: fmt.Sprintf("flow in m³/h of measured point %d", i+1), Value: q[i] * hour, Want: "above zero"}
		}
		if !(p[i] > 0) || math.IsInf(p[i], 0) {
			return nil, &InputError{What: fmt.Sprintf("pressure in Pa of measured point %d", i+1), Value: p[i], Want: "above zero"}
		}
		all[i] = Point{Q: q[i], P: p[i]}
	}
	slices.SortStableFunc(all, func(a, b Point) int {
		return cmp.Or(cmp.Compare(a.Q, b.Q), cmp.Compare(a.P, b.P))
	})
	for i := 1; i < len(all); i++ {
		if all[i].P < all[i-1].P {
			return nil, &FallingError{A: all[i-1], B: all[i]}
		}
	}
	if all[0].Q == all[len(all)-1].Q {
		return nil, &InputError{What: "number of different flows measured", Value: 1, Want: "two or more, or a cannot be told from b"}
	}
	return all, nil
}

// fit returns the non-negative least squares fit of relative pressure. With
// two unknowns it is the free fit where that is not negative, else the better
// of the fits with one of them alone [NNLS].
func fit(points []Point) curve.System {
	var uu, uv, vv, u1, v1 float64 // sums of products of u = q/p, v = q²/p and 1
	for _, x := range points {
		u, v := x.Q/x.P, x.Q*x.Q/x.P
		uu += u * u
		uv += u * v
		vv += v * v
		u1 += u
		v1 += v
	}
	if det := uu*vv - uv*uv; det > sameDirection*uu*vv {
		both := curve.System{A: (u1*vv - v1*uv) / det, B: (v1*uu - u1*uv) / det}
		if both.A >= 0 && both.B >= 0 {
			return both
		}
	}
	a, b := curve.System{A: u1 / uu}, curve.System{B: v1 / vv}
	if squares(a, points) < squares(b, points) {
		return a
	}
	return b
}

// miss returns the relative error of the fit at a point.
func miss(s curve.System, x Point) float64 { return s.Loss(x.Q)/x.P - 1 }

// squares returns the sum of squared misses.
func squares(s curve.System, points []Point) (sum float64) {
	for _, x := range points {
		sum += miss(s, x) * miss(s, x)
	}
	return sum
}

// worstMiss returns the largest relative error of the fit.
func worstMiss(s curve.System, points []Point) (worst float64) {
	for _, x := range points {
		worst = max(worst, math.Abs(miss(s, x)))
	}
	return worst
}

// locate finds the working point of c and its span for a loss off by ± band.
func (e *Estimate) locate(c curve.Curve, band float64) error {
	x, stable, err := curve.Operate(c, e.System)
	if err != nil {
		return err
	}
	e.Located, e.Q, e.P = true, x.Q, x.P
	if stable > 1 {
		e.warn("the fan has %d working points in this device; the one with the least flow is taken", stable)
	}
	low, high := 0.0, math.Inf(1)
	if y, _, err := curve.Operate(c, times(e.System, 1+band)); err == nil {
		low = y.Q
	}
	if y, _, err := curve.Operate(c, times(e.System, max(1-band, 0))); err == nil {
		high = y.Q
	}
	e.bound(c, low, high)
	e.judge(c)
	return nil
}

// times returns the system with its loss multiplied.
func times(s curve.System, by float64) curve.System {
	return curve.System{A: s.A * by, B: s.B * by}
}
