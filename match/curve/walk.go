package curve

import "math"

const (
	// equalPressure is the relative difference below which fan and device
	// agree at a knot: some thousands of roundings.
	equalPressure = 1e-12
	// touching is the share of its larger term below which a discriminant is
	// zero: two crossings that close are one touch.
	touching = 1e-12
	// sameFlow is the share of a segment below which two crossings are one.
	sameFlow = 1e-9
	// closed is the resistance, in the units of the knots, that lets no air
	// through; squares of larger ones overflow.
	closed = 1e100
)

// walk goes along a curve, knot by knot, and hands out the crossings with a
// system one at a time, so that asking for the first few allocates nothing.
// It works in the units of the knots. Signs: +1 the fan gives more than the
// device takes, −1 less, 0 not known (before the curve, or equal).
type walk struct {
	q, p   []float64
	a, b   float64 // the system in the units of the knots
	i      int     // the last knot reached
	g      float64 // surplus of the fan there
	line   line    // the segment that ends there
	before int8    // sign on the near side of here

	found [4]Crossing // two within a segment, one at either knot
	n     int         // how many of them there are
	out   int         // how many of them are handed out
	open  bool        // the last one waits for the sign beyond it
}

// line is a segment from its lower knot (q, p) to (q+dq, p+dp).
type line struct{ q, p, dq, dp float64 }

// start stands at the first knot; without curve or system it is at the end.
func (w *walk) start(c Curve, s System) {
	a, b, ok := c.inKnots(s)
	q, p := c.raw()
	if !ok || len(q) < 2 {
		return
	}
	w.q, w.p, w.a, w.b = q, p, a, b
	w.g = surplus(w.a, w.b, w.q[0], w.p[0])
	if w.g == 0 {
		w.meet(w.q[0], w.p[0])
	}
}

// next goes on to the next crossing; false says there is none.
func (w *walk) next() bool {
	for w.out == w.n || w.open && w.out == w.n-1 {
		if w.i+1 >= len(w.q) {
			return false
		}
		w.step()
	}
	w.out++
	return true
}

// crossing returns the one that next came to, on the scale of c.
func (w *walk) crossing(c Curve) Crossing {
	x := w.found[w.out-1]
	return Crossing{Q: x.Q * c.flow, P: x.P * c.pressure, Stable: x.Stable}
}

// step searches the next segment that can hold a crossing, and its far knot.
// All crossings found before are handed out by now but one that may wait.
func (w *walk) step() {
	if w.open {
		w.found[0] = w.found[w.n-1]
		w.n = 1
	} else {
		w.n = 0
	}
	w.out = 0
	g0, g1, k, more := w.skip()
	if !more {
		return
	}
	w.segment(g0, g1, k)
	if g1 == 0 {
		w.meet(w.q[w.i], w.p[w.i])
	}
	if w.i == len(w.q)-1 {
		w.end()
	}
}

// skip goes to the end of the next segment that can hold a crossing and returns
// its surpluses and k = B·ΔQ²; it passes those above the device at both ends,
// since the crown is up, and those below at both whose crown is outside.
func (w *walk) skip() (g0, g1, k float64, more bool) {
	q, p := w.q, w.p[:len(w.q)]
	a, b, i := w.a, w.b, w.i
	for g0 = w.g; i+1 < len(q); g0 = g1 {
		i++
		g1 = surplus(a, b, q[i], p[i])
		if g0 > 0 && g1 > 0 {
			continue
		}
		dq := q[i] - q[i-1]
		k = b * dq * dq
		if g0 < 0 && g1 < 0 && g1-g0 <= -k {
			continue
		}
		w.i, w.g = i, g1
		w.line = line{q[i-1], p[i-1], dq, p[i] - p[i-1]}
		return g0, g1, k, true
	}
	w.i, w.g = i, g0
	return 0, 0, 0, false
}

// surplus returns what a fan gives at a knot less what the device takes,
// exactly 0 where they agree within rounding.
func surplus(a, b, q, p float64) float64 {
	loss := q * (a + b*q)
	g := p - loss
	if math.Abs(g) <= equalPressure*(p+loss) {
		return 0
	}
	return g
}

// at records a crossing at t of the segment.
func (w *walk) at(t float64) { w.meet(w.line.q+t*w.line.dq, w.line.p+t*w.line.dp) }

// meet records a crossing here; the side beyond decides what it is.
func (w *walk) meet(q, p float64) {
	if w.open {
		return // still the same stretch of equality
	}
	w.found[w.n] = Crossing{Q: q, P: p}
	w.n++
	w.open = true
}

// side notes the sign beyond the crossings met so far.
func (w *walk) side(sign int8) {
	if w.open {
		w.found[w.n-1].Stable = w.before >= 0 && sign < 0
		w.open = false
	}
	w.before = sign
}

// end closes the walk: beyond the last knot nothing is known.
func (w *walk) end() {
	if w.open {
		w.found[w.n-1].Stable = w.before > 0
		w.open = false
	}
}

// segment records the crossings strictly between two knots with the surpluses
// g0 and g1, and the signs around them; k = B·ΔQ².
func (w *walk) segment(g0, g1, k float64) {
	slope := g1 - g0 + k // of g at t = 0
	switch {
	case g0 >= 0 && g1 >= 0: // the crown is up: none between
		if g0 > 0 || g1 > 0 || k > 0 {
			w.side(+1)
		}
	case g0 == 0: // g1 < 0
		if slope > sameFlow*k {
			w.side(+1)
			w.at(slope / k)
		}
		w.side(-1)
	case g0 > 0: // g1 < 0
		w.side(+1)
		w.at(rootDown(g0, slope, k))
		w.side(-1)
	case g1 > 0: // g0 < 0
		w.side(-1)
		w.at(rootUp(g0, slope, rootOf(g0, slope, k)))
		w.side(+1)
	case g1 == 0: // g0 < 0
		w.side(-1)
		if t := -g0 / k; t < 1-sameFlow {
			w.at(t)
			w.side(+1)
		}
	default: // both below
		w.side(-1)
		w.hump(g0, slope, k)
	}
}

// hump records the crossings where a segment starts and ends below the device
// and may rise above it between.
func (w *walk) hump(g0, slope, k float64) {
	if !(slope > 0 && slope < 2*k) { // crown outside the segment
		return
	}
	d := slope*slope + 4*k*g0
	limit := touching * slope * slope
	switch {
	case d > limit:
		root := math.Sqrt(d)
		w.at(rootUp(g0, slope, root))
		w.side(+1)
		w.at(clamp((slope + root) / (2 * k)))
		w.side(-1)
	case d >= -limit:
		w.at(slope / (2 * k))
		w.side(-1)
	}
}

// rootOf returns the root of the discriminant of g₀ + l·t − k·t² where two real
// roots are known to exist.
func rootOf(g0, slope, k float64) float64 {
	return math.Sqrt(max(slope*slope+4*k*g0, 0))
}

// rootUp returns the smaller root for g₀ < 0, l > 0, in the form that does not
// cancel.
func rootUp(g0, slope, root float64) float64 {
	return clamp(-2 * g0 / (slope + root))
}

// rootDown returns the positive root for g₀ > 0, in the form that does not
// cancel.
func rootDown(g0, slope, k float64) float64 {
	root := math.Sqrt(slope*slope + 4*k*g0)
	if slope < 0 {
		return upToOne(2 * g0 / (root - slope))
	}
	return upToOne((slope + root) / (2 * k))
}

// upToOne keeps a root that rounding pushed out at the far end.
func upToOne(t float64) float64 {
	if t > 1 {
		return 1
	}
	return t
}

// clamp keeps a root that rounding pushed out inside its segment.
func clamp(t float64) float64 { return min(max(t, 0), 1) }
