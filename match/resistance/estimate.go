package resistance

import (
	"fmt"
	"math"

	"lowsone/match/curve"
)

// Method is a way from a measurement to the resistance.
type Method uint8

// The ways, the zero Method being none of them.
const (
	None       Method = iota
	ByShare           // a share of the fitted fan's free delivery
	ByFlow            // the flow, measured
	ByPressure        // the pressure across the device, measured
	ByHeat            // heat and the rise of the air's temperature
	ByPoints          // two or more measured pairs of flow and pressure
	ByGeometry        // the pieces of the air path, from drawings
)

var methodNames = [...]string{"none", "share", "flow", "pressure", "heat", "points", "geometry"}

func (m Method) String() string {
	if int(m) < len(methodNames) {
		return methodNames[m]
	}
	return methodNames[None]
}

// Point is a flow in m³/s and a pressure in Pa.
type Point struct{ Q, P float64 }

// Estimate is what a measurement says of a device.
type Estimate struct {
	Method Method
	System curve.System
	// Located: the working point of the fitted fan, Q and P, and its span are
	// known. Only Points without a fan leaves it false, and the four at zero,
	// where they say nothing.
	Located     bool
	Q, P        float64 // m³/s, Pa
	LowQ, HighQ float64 // m³/s, about 10 to 90 %; HighQ is above zero
	// OneSided: near free delivery only a largest resistance is known.
	OneSided bool
	// Density of the air at the fan in kg/m³ where the way found it (ByHeat);
	// 0 elsewhere: it is the one the given curve was brought to.
	Density float64
	// Points are all answers of ByPressure, or what was measured of ByPoints.
	Points   []Point
	Assumed  []string // defaults taken, to be said
	Warnings []string
}

const (
	nearlyFree = 0.85 // of the free delivery: above it b is hardly bound from below (common practice)
	hour       = 3600 // s, for flows in messages
	sameFlow   = 1e-9 // relative difference below which two flows are one
)

func (e *Estimate) warn(format string, args ...any) {
	e.Warnings = append(e.Warnings, fmt.Sprintf(format, args...))
}

// quadratic returns the system b·Q² through a working point with q > 0.
func quadratic(q, p float64) curve.System { return curve.System{B: p / (q * q)} }

// throughFlow returns the estimate of a device in which the fan c moves q,
// with the span given by its low and high end in m³/s.
func throughFlow(m Method, c curve.Curve, q, low, high float64) (Estimate, error) {
	p, err := pressureAt(m, c, q)
	if err != nil {
		return Estimate{}, err
	}
	e := Estimate{Method: m, System: quadratic(q, p), Located: true, Q: q, P: p}
	e.bound(c, low, high)
	e.judge(c)
	return e, nil
}

// bound sets the span, kept within the flows of the curve.
func (e *Estimate) bound(c curve.Curve, low, high float64) {
	first, _ := c.Knot(0)
	last, _ := c.FreeDelivery()
	e.LowQ = min(max(low, first), e.Q)
	e.HighQ = max(min(high, last), e.Q)
}

// judge warns of a working point near free delivery, where the span is one
// sided, and of one where the fan would not stay.
func (e *Estimate) judge(c curve.Curve) {
	q0, free := c.FreeDelivery()
	if free && e.Q > nearlyFree*q0 {
		e.OneSided = true
		e.HighQ = q0
		e.warn("at %.0f %% of free delivery the device hardly holds the air back: only the most its resistance can be is known", 100*e.Q/q0)
	}
	if c.Stalled(e.Q) {
		e.warn("the fan works in or near the dip of its curve, where its flow is unsteady")
	}
	for _, x := range curve.Crossings(nil, c, e.System) {
		if !x.Stable && math.Abs(x.Q-e.Q) <= sameFlow*e.Q {
			e.warn("the fan would not stay at %.4g m³/h: its pressure rises there faster than the device's", e.Q*hour)
		}
	}
}

// pressureAt returns what the fan gives at the flow q > 0, or why it cannot
// move that much.
func pressureAt(m Method, c curve.Curve, q float64) (float64, error) {
	if c.Len() < 2 {
		return 0, curve.ErrNoCurve
	}
	if p, ok := c.At(q); ok {
		return p, nil
	}
	first, _ := c.Knot(0)
	last, free := c.FreeDelivery()
	if q > last && free {
		return 0, &ContradictionError{What: "flow", Got: q, Limit: last, Unit: "m³/s", Causes: flowCauses(m)}
	}
	return 0, &BeyondCurveError{What: "flow", Got: q, Low: first, High: last, Unit: "m³/s"}
}
