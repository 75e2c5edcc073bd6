package resistance

import (
	"fmt"
	"strings"
)

// InputError reports a measured value that cannot be one.
type InputError struct {
	What  string
	Value float64
	Want  string // what it must be
}

func (e *InputError) Error() string {
	return fmt.Sprintf("%s of %.6g: it must be %s", e.What, e.Value, e.Want)
}

// ContradictionError reports a measurement that claims more flow or pressure
// than the fitted fan can give at its speed.
type ContradictionError struct {
	What       string   // "flow" or "pressure"
	Got, Limit float64  // claimed, and the most the fan can give
	Unit       string   // of both: "m³/s" or "Pa"
	Causes     []string // the usual ones, the likeliest first
}

func (e *ContradictionError) Error() string {
	return fmt.Sprintf("the %s comes to %s, but the fitted fan at its speed gives at most %s",
		e.What, shown(e.Got, e.Unit), shown(e.Limit, e.Unit))
}

// Hint names the usual causes.
func (e *ContradictionError) Hint() string { return "usual causes: " + strings.Join(e.Causes, "; ") }

// BeyondCurveError reports a measurement beyond the points of a curve that ends
// before zero flow or free delivery, so that nothing is known there.
type BeyondCurveError struct {
	What      string
	Got       float64
	Low, High float64 // what the curve holds
	Unit      string  // of the three: "m³/s" or "Pa"
}

func (e *BeyondCurveError) Error() string {
	return fmt.Sprintf("the %s comes to %s, but the curve of the fitted fan is known only from %s to %s",
		e.What, shown(e.Got, e.Unit), shown(e.Low, e.Unit), shown(e.High, e.Unit))
}

// FreeDeliveryError reports a share asked of a curve that ends above zero
// pressure, so that its free delivery is not known.
type FreeDeliveryError struct{ Q, P float64 } // its last point, m³/s and Pa

func (e *FreeDeliveryError) Error() string {
	return fmt.Sprintf("a share of the free delivery is asked for, but the curve of the fitted fan ends at %s and %s; give the flow instead",
		shown(e.Q, "m³/s"), shown(e.P, "Pa"))
}

// FallingError reports measured points whose pressure falls while the flow
// rises: no resistance does that.
type FallingError struct{ A, B Point } // the two, by rising flow

func (e *FallingError) Error() string {
	return fmt.Sprintf("the measured points contradict each other: %s costs %s but %s only %s; usual causes: the device was changed in between, or the two were measured in different places",
		shown(e.A.Q, "m³/s"), shown(e.A.P, "Pa"), shown(e.B.Q, "m³/s"), shown(e.B.P, "Pa"))
}

// shown gives a value in the unit people know: flows in m³/h.
func shown(value float64, unit string) string {
	if unit == "m³/s" {
		return fmt.Sprintf("%.4g m³/h", value*hour)
	}
	return fmt.Sprintf("%.4g %s", value, unit)
}

const tooFast = "the fan turns faster than its label says"

// flowCauses are the usual reasons for too much flow.
func flowCauses(m Method) []string {
	switch m {
	case ByHeat:
		return []string{
			"part of the heat leaves through the case and not with the air",
			"the outlet air is not mixed where its temperature was taken",
			tooFast,
		}
	case ByFlow:
		return []string{
			"the highest velocity was taken for the mean one",
			"the open area is smaller than was taken",
			tooFast,
		}
	}
	return []string{tooFast}
}

// pressureCauses are the usual reasons for too much pressure.
func pressureCauses() []string {
	return []string{
		"the probe faced the stream and read its velocity as well",
		"another fan moves the same air",
		tooFast,
	}
}
