package curve

import (
	"fmt"
	"math"
	"slices"
	"sort"
)

// Curve is the pressure rise p of a fan over its volume flow q: knots joined by
// straight lines, and nothing outside them. It is a small value, a view over
// the knots with two factors, so that scaling it never copies a knot; of four
// words, so that it is handed on in registers. The zero Curve has no points;
// every question put to it is answered with no.
type Curve struct {
	knots          *points // nil: it has none
	span           span    // its own among them
	flow, pressure float64 // a knot (q, p) stands for (q·flow, p·pressure)
}

// noPressure is the share of the largest pressure below which a pressure is
// zero within rounding.
const noPressure = 1e-9

// largest is the flow in m³/s and the pressure in Pa above which numbers are
// refused, so that no arithmetic on them can overflow.
const largest = 1e9

// PointsError says why points are no curve.
type PointsError struct {
	Index  int     // of the offending point, from 0; -1 where the list as a whole is meant
	Q, P   float64 // m³/s, Pa
	Reason string
}

func (e *PointsError) Error() string {
	if e.Index < 0 {
		return "curve points: " + e.Reason
	}
	return fmt.Sprintf("curve point %d (%.6g m³/h, %.6g Pa): %s", e.Index+1, e.Q*hour, e.P, e.Reason)
}

// hour is the seconds of one, for flows in messages.
const hour = 3600

// New returns the curve through the points (q[i], p[i]), in m³/s and Pa, which
// it copies. It wants two points or more, all finite, q ≥ 0 and strictly
// rising, p ≥ 0 and not zero throughout, none above 1e9; otherwise the error is
// a *PointsError.
// A last pressure below 1e-9 of the largest is taken for the zero it stands
// for.
func New(q, p []float64) (Curve, error) {
	if len(q) != len(p) {
		return Curve{}, &PointsError{Index: -1, Reason: fmt.Sprintf("%d flows but %d pressures", len(q), len(p))}
	}
	if len(q) < 2 {
		return Curve{}, &PointsError{Index: -1, Reason: fmt.Sprintf("two or more are needed, got %d", len(q))}
	}
	for i := range q {
		if reason := flawOf(q, p, i); reason != "" {
			return Curve{}, &PointsError{Index: i, Q: q[i], P: p[i], Reason: reason}
		}
	}
	peak := slices.Max(p)
	if peak == 0 {
		return Curve{}, &PointsError{Index: -1, Reason: "no pressure at any of them"}
	}
	q, p = slices.Clone(q), slices.Clone(p)
	if last := len(p) - 1; p[last] < noPressure*peak {
		p[last] = 0
	}
	return (&points{q, p, meetsOnce(q, p)}).whole(), nil
}

// flawOf says what is wrong with point i after those before it, or "".
func flawOf(q, p []float64, i int) string {
	switch {
	case !isFinite(q[i]) || !isFinite(p[i]):
		return "not a finite number"
	case q[i] < 0:
		return "flow below zero"
	case p[i] < 0:
		return "pressure below zero"
	case q[i] > largest || p[i] > largest:
		return "larger than any fan's"
	case i > 0 && q[i] <= q[i-1]:
		return fmt.Sprintf("flow does not rise from %.6g m³/h before it", q[i-1]*hour)
	}
	return ""
}

func isFinite(x float64) bool { return math.Abs(x) <= math.MaxFloat64 }

// View returns the curve through points that New has accepted before. It
// neither copies nor checks: the caller must not change them afterwards. For
// many curves that are kept, Rows do without an allocation each.
func View(q, p []float64) Curve {
	return (&points{q: q, p: p}).whole()
}

// Len returns the number of knots.
func (c Curve) Len() int { return int(c.span.to - c.span.from) }

// Knot returns knot i, 0 ≤ i < Len, in m³/s and Pa.
func (c Curve) Knot(i int) (q, p float64) {
	k := int(c.span.from) + i
	return c.knots.q[k] * c.flow, c.knots.p[k] * c.pressure
}

// At returns the pressure in Pa at flow q in m³/s; ok is false outside the
// points, where there is no curve. A flow that misses an end by no more than
// rounding (1e-12 of it) is taken as that end.
func (c Curve) At(q float64) (p float64, ok bool) {
	flows, pressures := c.raw()
	if len(flows) < 2 {
		return 0, false
	}
	x := q / c.flow
	last := len(flows) - 1
	const rounding = 1e-12
	switch {
	case !(x >= flows[0]*(1-rounding) && x <= flows[last]*(1+rounding)):
		return 0, false
	case x <= flows[0]:
		return pressures[0] * c.pressure, true
	case x >= flows[last]:
		return pressures[last] * c.pressure, true
	}
	i := sort.SearchFloat64s(flows, x)
	return lerp(flows[i-1], pressures[i-1], flows[i], pressures[i], x) * c.pressure, true
}

// lerp returns y at x on the straight line through (x0, y0) and (x1, y1).
func lerp(x0, y0, x1, y1, x float64) float64 {
	t := (x - x0) / (x1 - x0)
	return y0*(1-t) + y1*t
}

// ShutOff returns the pressure of the first knot in Pa; ok says that it is the
// pressure at zero flow.
func (c Curve) ShutOff() (p float64, ok bool) {
	flows, pressures := c.raw()
	if len(flows) == 0 {
		return 0, false
	}
	return pressures[0] * c.pressure, flows[0] == 0
}

// FreeDelivery returns the flow of the last knot in m³/s; ok says that it is
// the flow at zero pressure, within rounding.
func (c Curve) FreeDelivery() (q float64, ok bool) {
	flows, pressures := c.raw()
	if len(flows) == 0 {
		return 0, false
	}
	last := len(flows) - 1
	return flows[last] * c.flow, pressures[last] <= noPressure*slices.Max(pressures)
}
