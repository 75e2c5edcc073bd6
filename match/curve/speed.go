package curve

import "fmt"

// Match is a speed at which a fan moves a needed flow through a device.
type Match struct {
	Ratio float64 // speed over the speed of the curve
	X     float64 // m³/s: the point of the curve that the fan then works at
	// Stable: the fan stays there. Where it is false the fan passes the needed
	// flow only on its way to another working point, see Held.
	Stable bool
}

// NeedError reports a needed flow that is not above zero, or not finite.
type NeedError struct{ Need float64 } // m³/s

func (e *NeedError) Error() string {
	return fmt.Sprintf("needed flow of %.6g m³/h: it must be above zero", e.Need*hour)
}

// SpeedsFor appends to dst every speed at which the fan c moves the flow need
// in m³/s through s, by falling ratio. By the affinity laws the point x of the
// curve moves to (r·x, r²·p(x)), hence
//
//	p(x)/x² = Δp(need)/need²,  r = need/x
//
// the crossings of c with a purely quadratic system through the needed point.
// Where s costs nothing at need, x is the free delivery, if the curve reaches
// it. A need that is not above zero has no speeds.
func SpeedsFor(dst []Match, c Curve, s System, need float64) []Match {
	if !(need > 0) || !isFinite(need) || !s.valid() {
		return dst
	}
	var w walk
	for w.start(c, throughNeed(s, need)); w.next(); {
		if x := w.crossing(c); x.Q > 0 { // the origin lies on every such system and moves nothing
			dst = append(dst, matchAt(c, s, need, x.Q))
		}
	}
	return dst
}

// throughNeed returns the quadratic system through (need, Δp(need)).
func throughNeed(s System, need float64) System {
	return System{B: s.A/need + s.B}
}

func matchAt(c Curve, s System, need, x float64) Match {
	m := Match{Ratio: need / x, X: x}
	left, right := c.slopes(x)
	limit := (s.A + 2*s.B*need) / m.Ratio     // slope of the device, on the scale of c
	m.Stable = left < limit && right <= limit // the device bends up: at equal slope it takes more on both sides
	return m
}

// slopes returns dp/dQ just below and just above x, both the same inside a
// segment and at an end.
func (c Curve) slopes(x float64) (left, right float64) {
	x /= c.flow
	q, p := c.raw()
	i := 1
	for i < len(q)-1 && q[i] < x*(1-equalPressure) {
		i++
	}
	slope := func(i int) float64 {
		return (p[i] - p[i-1]) / (q[i] - q[i-1]) * c.pressure / c.flow
	}
	left = slope(i)
	if i < len(q)-1 && q[i] <= x*(1+equalPressure) {
		return left, slope(i + 1)
	}
	return left, left
}

// SpeedFor returns the speed at which c moves need through s: of several the
// one with the smallest x, the fastest and most cautious, with their count. The
// error is a *NeedError, *OutsideError (its device pressure is then the one on
// the scale of c), *SystemError or ErrNoCurve. A ratio above one is no error:
// whether the fan can run that fast is for the caller.
func SpeedFor(c Curve, s System, need float64) (m Match, count int, err error) {
	if !(need > 0) || !isFinite(need) {
		return Match{}, 0, &NeedError{Need: need}
	}
	if !s.valid() {
		return Match{}, 0, &SystemError{System: s}
	}
	if a, b, ok := c.inKnots(throughNeed(s, need)); ok {
		q, p := c.raw()
		if x := meet(q, p, c.knots.once, a, b); x.knot > 0 {
			m = Match{Ratio: need / (x.q * c.flow), X: x.q * c.flow, Stable: true}
			if !x.falling(q, p) || !isFinite(m.Ratio) {
				m = matchAt(c, s, need, m.X)
			}
			return m, 1, nil
		}
	}
	return walkForSpeed(c, s, need)
}

// walkForSpeed is SpeedFor for any curve.
func walkForSpeed(c Curve, s System, need float64) (m Match, count int, err error) {
	var w walk
	for w.start(c, throughNeed(s, need)); w.next(); {
		x := w.crossing(c)
		if x.Q == 0 {
			continue
		}
		if count == 0 {
			m = matchAt(c, s, need, x.Q)
		}
		count++
	}
	if count == 0 {
		return Match{}, 0, whyNone(c, throughNeed(s, need))
	}
	return m, count, nil
}
