package curve

import "slices"

// Dip is the stall dip of a fan curve: a place where the pressure falls and
// then recovers as the flow grows.
type Dip struct {
	Valley float64 // m³/s: flow of the lowest pressure
	Peak   float64 // m³/s: flow at which the pressure has recovered
}

const (
	// digitising is the share of the largest pressure by which a curve may rise
	// again without that being a dip: the noise of reading points off a sheet.
	digitising = 0.01
	// stallMargin is how far right of the recovery peak, as a share of its
	// flow, a working point must lie to be clear of stall (common practice).
	stallMargin = 0.10
)

// Dip returns the dip of the curve; of several the one at the highest flow,
// for right of it the fan is clear of them all. A recovery of less than 1 % of
// the largest pressure is taken for noise of digitising. A curve that only
// rises from its first point to a single hump has no valley and so no dip:
// the usual shape of many centrifugal fans.
func (c Curve) Dip() (d Dip, ok bool) {
	q, p := c.raw()
	if len(p) < 3 {
		return Dip{}, false
	}
	noise := digitising * slices.Max(p)
	last := len(p) - 1
	peak, valley := last, -1
	for i := last - 1; i >= 0; i-- {
		switch {
		case valley < 0 && p[i] >= p[peak]: // still on the falling branch, seen from its foot
			peak = i
		case valley < 0 && p[i] < p[peak]-noise:
			valley = i
		case valley >= 0 && p[i] < p[valley]:
			valley = i
		case valley >= 0 && p[i] > p[valley]+noise: // it fell before: a valley indeed
			return Dip{Valley: q[valley] * c.flow, Peak: q[peak] * c.flow}, true
		}
	}
	return Dip{}, false
}

// Stalled tells whether the point x of the curve, in m³/s, lies left of the
// recovery peak of a dip or within 10 % of it.
func (c Curve) Stalled(x float64) bool {
	d, ok := c.Dip()
	return ok && x < (1+stallMargin)*d.Peak
}
