package resistance

import (
	"math"

	"lowsone/match/curve"
)

// Shares of the free delivery (all common practice).
const (
	DefaultShare = 0.55 // where nothing was measured
	LowShare     = 0.40 // and every verdict is tried
	HighShare    = 0.70 // at these two as well

	rareLow  = 0.3 // fans in devices move between
	rareHigh = 0.9 // these two shares
)

// Share returns the estimate for a device in which the fan c moves the given
// share of its free delivery, 0 < share < 1. The span is ±0.15 of the free
// delivery, on the low side no more than half the share. A share outside 0.3 …
// 0.9 is warned of. The error is an *InputError, *FreeDeliveryError,
// *BeyondCurveError or curve.ErrNoCurve.
func Share(c curve.Curve, share float64) (Estimate, error) {
	if !(share > 0 && share < 1) {
		return Estimate{}, &InputError{What: "share of the free delivery", Value: share, Want: "above 0 and below 1"}
	}
	if c.Len() < 2 {
		return Estimate{}, curve.ErrNoCurve
	}
	q0, free := c.FreeDelivery()
	if !free {
		q, p := c.Knot(c.Len() - 1)
		return Estimate{}, &FreeDeliveryError{Q: q, P: p}
	}
	low, high := max(share-ShareBand, share/2), share+ShareBand
	e, err := throughFlow(ByShare, c, share*q0, low*q0, high*q0)
	if err != nil {
		return Estimate{}, err
	}
	if share < rareLow || share > rareHigh {
		e.warn("a share of %.3g of the free delivery is rare in devices, where it is mostly between %g and %g", share, rareLow, rareHigh)
	}
	return e, nil
}

// Flow returns the estimate for a device in which the fan c was measured to
// move q in m³/s. The span is ±10 %. The error is an *InputError,
// *ContradictionError, *BeyondCurveError or curve.ErrNoCurve.
func Flow(c curve.Curve, q float64) (Estimate, error) {
	if !(q > 0) || math.IsInf(q, 0) {
		return Estimate{}, &InputError{What: "flow in m³/h", Value: q * hour, Want: "above zero"}
	}
	return throughFlow(ByFlow, c, q, (1-FlowBand)*q, (1+FlowBand)*q)
}
