package resistance

import (
	"math"

	"lowsone/match/curve"
)

const (
	widePress  = 0.25 // of the flow: a wider span is no answer
	betterHeat = "a heat balance (heat and rise of the air) tells more"
)

// Pressure returns the estimate from the pressure p in Pa measured across
// everything but the fan, with the fan c running. The fan is then somewhere on
// its curve within p ± max(2 Pa, 10 %): those flows are the span. Points holds
// every flow at which the curve passes p exactly; with several of them the
// lowest at which the fan stays is taken, and all are warned of. A span wider
// than ±25 % is warned of. Above the largest pressure of the curve, but within
// the tolerance, the middle of the span is taken, and warned of. The error is
// an *InputError, *ContradictionError, *BeyondCurveError or curve.ErrNoCurve.
func Pressure(c curve.Curve, p float64) (Estimate, error) {
	if !(p > 0) || math.IsInf(p, 0) {
		return Estimate{}, &InputError{What: "pressure in Pa", Value: p, Want: "above zero"}
	}
	if c.Len() < 2 {
		return Estimate{}, curve.ErrNoCurve
	}
	tolerance := PressureOff(p)
	low, high, ok := flowsBetween(c, p-tolerance, p+tolerance)
	if !ok {
		return Estimate{}, beyondPressure(c, p)
	}
	e := Estimate{Method: ByPressure, Located: true, Points: flowsAt(c, p)}
	e.pick(c, low, high)
	e.System = quadratic(e.Q, e.P)
	e.bound(c, low, high)
	e.judge(c)
	e.doubt()
	return e, nil
}

// pick chooses the working point among the answers, or in the middle of the
// span where there is none with a flow.
func (e *Estimate) pick(c curve.Curve, low, high float64) {
	if len(e.Points) == 0 {
		e.Q = (low + high) / 2
		e.P, _ = c.At(e.Q)
		e.warn("the fan gives that pressure at no flow, only within the tolerance of the measurement: the middle of what is possible is taken")
		return
	}
	e.Q, e.P = e.Points[0].Q, e.Points[0].P
	for _, x := range e.Points {
		if stays(c, x) {
			e.Q, e.P = x.Q, x.P
			return
		}
	}
}

// stays tells whether the fan is stable at x against a purely quadratic device.
func stays(c curve.Curve, x Point) bool {
	for _, y := range curve.Crossings(nil, c, quadratic(x.Q, x.P)) {
		if y.Stable && math.Abs(y.Q-x.Q) <= sameFlow*x.Q {
			return true
		}
	}
	return false
}

// doubt warns where a pressure tells little of the flow.
func (e *Estimate) doubt() {
	if len(e.Points) > 1 {
		e.warn("the fan gives that pressure at %d flows, from %.4g to %.4g m³/h; the lowest at which it stays is taken; %s",
			len(e.Points), e.Points[0].Q*hour, e.Points[len(e.Points)-1].Q*hour, betterHeat)
	}
	if e.LowQ < (1-widePress)*e.Q || e.HighQ > (1+widePress)*e.Q {
		e.warn("the curve is flat there: any flow from %.4g to %.4g m³/h agrees with the pressure; %s",
			e.LowQ*hour, e.HighQ*hour, betterHeat)
	}
}

// beyondPressure says why no point of c comes near p.
func beyondPressure(c curve.Curve, p float64) error {
	least, most := math.Inf(1), 0.0
	for i := range c.Len() {
		_, pi := c.Knot(i)
		least, most = min(least, pi), max(most, pi)
	}
	_, shut := c.ShutOff()
	if p > most && shut {
		return &ContradictionError{What: "pressure", Got: p, Limit: most, Unit: "Pa", Causes: pressureCauses()}
	}
	return &BeyondCurveError{What: "pressure", Got: p, Low: least, High: most, Unit: "Pa"}
}

// flowsBetween returns the least and the most flow at which the curve lies
// between two pressures.
func flowsBetween(c curve.Curve, low, high float64) (least, most float64, ok bool) {
	least = math.Inf(1)
	for i := 1; i < c.Len(); i++ {
		q0, p0 := c.Knot(i - 1)
		q1, p1 := c.Knot(i)
		t0, t1, inside := stretch(p0, p1, low, high)
		if !inside {
			continue
		}
		ok = true
		least = min(least, q0+t0*(q1-q0))
		most = max(most, q0+t1*(q1-q0))
	}
	return least, most, ok
}

// stretch returns the part t0 … t1 of 0 … 1 in which the line from p0 to p1
// lies between low and high.
func stretch(p0, p1, low, high float64) (t0, t1 float64, ok bool) {
	if p0 == p1 {
		return 0, 1, p0 >= low && p0 <= high
	}
	a, b := (low-p0)/(p1-p0), (high-p0)/(p1-p0)
	t0, t1 = max(min(a, b), 0), min(max(a, b), 1)
	return t0, t1, t0 <= t1
}

// flowsAt returns every point with flow at which the curve has the pressure p,
// by rising flow, a level stretch by its low end.
func flowsAt(c curve.Curve, p float64) []Point {
	var all []Point
	for i := 1; i < c.Len(); i++ {
		q0, p0 := c.Knot(i - 1)
		q1, p1 := c.Knot(i)
		t0, _, inside := stretch(p0, p1, p, p)
		q := q0 + t0*(q1-q0)
		if !inside || q == 0 || len(all) > 0 && q-all[len(all)-1].Q <= sameFlow*q {
			continue
		}
		if i > 1 && p0 == p { // a knot, met at the end of the segment before
			continue
		}
		all = append(all, Point{Q: q, P: p})
	}
	return all
}
