package curve

import (
	"errors"
	"fmt"
)

// ErrNoCurve reports a question put to a curve without points.
var ErrNoCurve = errors.New("no fan curve")

// End names an end of a curve.
type End int

// The two ends of a curve.
const (
	LowFlow  End = iota // the first point
	HighFlow            // the last point
)

func (e End) String() string {
	if e == HighFlow {
		return "high-flow"
	}
	return "low-flow"
}

// OutsideError reports a working point beyond the points of a curve: at its
// end the fan still gives more (high-flow end) or already less (low-flow end)
// than the device takes.
type OutsideError struct {
	End    End
	Q      float64 // flow at that end, m³/s
	Fan    float64 // what the fan gives there, Pa
	System float64 // what the device takes there, Pa
}

func (e *OutsideError) Error() string {
	return fmt.Sprintf("the working point lies beyond the %s end of the fan curve: at %.4g m³/h the fan gives %.4g Pa, the device takes %.4g Pa",
		e.End, e.Q*hour, e.Fan, e.System)
}

// Operate returns the working point of the fan c in the device s, the lowest
// stable crossing, and how many stable crossings there are: above one the
// lowest is the cautious answer, and the others deserve a warning. With none
// the error is an *OutsideError, *SystemError or ErrNoCurve.
func Operate(c Curve, s System) (point Crossing, stable int, err error) {
	if a, b, ok := c.inKnots(s); ok {
		q, p := c.raw()
		if m := meet(q, p, c.knots.once, a, b); m.knot > 0 {
			return Crossing{Q: m.q * c.flow, P: m.p * c.pressure, Stable: true}, 1, nil
		}
	}
	return walkForPoint(c, s)
}

// walkForPoint is Operate for any curve.
func walkForPoint(c Curve, s System) (point Crossing, stable int, err error) {
	var w walk
	for w.start(c, s); w.next(); {
		x := w.crossing(c)
		if !x.Stable {
			continue
		}
		if stable == 0 {
			point = x
		}
		stable++
	}
	if stable == 0 {
		return Crossing{}, 0, whyNone(c, s)
	}
	return point, stable, nil
}

// Held returns the working point with the fan held at the speed ratio r of c:
// it solves r²·p(Q/r) = Δp(Q). With A > 0 the flow is then not r times the flow
// at full speed.
func Held(c Curve, s System, r float64) (point Crossing, stable int, err error) {
	return Operate(c.AtSpeed(r), s)
}

// whyNone says why c and s have no stable crossing.
func whyNone(c Curve, s System) error {
	if c.Len() < 2 {
		return ErrNoCurve
	}
	if !s.valid() {
		return &SystemError{System: s}
	}
	last := c.Len() - 1
	if q, p := c.Knot(last); p > s.Loss(q) {
		return &OutsideError{End: HighFlow, Q: q, Fan: p, System: s.Loss(q)}
	}
	q, p := c.Knot(0)
	return &OutsideError{End: LowFlow, Q: q, Fan: p, System: s.Loss(q)}
}
