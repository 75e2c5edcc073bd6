package curve

// clear is the relative difference above which fan and device surely do not
// agree at a knot: what comes closer is for a walk to tell.
const clear = 10 * equalPressure

// meeting is the one crossing of a curve with a device, from above to below, in
// the units of the knots.
type meeting struct {
	q, p float64
	knot int // the first behind it; 0: nothing is said
}

// meet finds the crossing of a curve with a device a, b, all in the units of the
// knots, where it is the only one and none comes near elsewhere: the usual case,
// in a fraction of the time of a walk, with the same result to the last bit.
// Anything else it leaves to a walk. once: see meetsOnce.
func meet(q, p []float64, once bool, a, b float64) (m meeting) {
	if len(q) < 2 || len(p) < len(q) || tooSmall(q, a, b) {
		return m
	}
	i := -1
	if !once {
		i = countAbove(q, p, a*(1+2*clear), b*(1+2*clear))
	}
	if i < 0 && (once || meetsOnce(q, p)) {
		i = firstBelow(q, p, a, b)
	}
	if i < 1 || i >= len(q) || i >= len(p) {
		return m
	}
	low, high := q[i-1], q[i]
	loss0, loss1 := low*(a+b*low), high*(a+b*high)
	g0, g1 := p[i-1]-loss0, p[i]-loss1
	if !(g0 > clear*(p[i-1]+loss0) && g1 < -clear*(p[i]+loss1)) || p[i-1] < smallest {
		return m
	}
	dq := high - low
	k := b * dq * dq
	t := rootDown(g0, g1-g0+k, k)
	return meeting{low + t*dq, p[i-1] + t*(p[i]-p[i-1]), i}
}

// smallest is the number below which products lose their digits: what is as small
// is no fan and no device, and is for a walk to tell.
const smallest = 1e-100

func tooSmall(q []float64, a, b float64) bool {
	return q[1] < smallest || q[0] > 0 && q[0] < smallest || a > 0 && a < smallest || b > 0 && b < smallest
}

// falling tells whether m lies within a segment that falls, surely not at its
// ends.
func (m meeting) falling(q, p []float64) bool {
	i := m.knot
	return i > 0 && i < len(q) && i < len(p) &&
		p[i] < p[i-1] && m.q*(1-2*equalPressure) > q[i-1] && m.q*(1+2*equalPressure) < q[i]
}

// inKnots returns the device s in the units of the knots of c; not ok where
// there is no curve, no device, or one that lets no air through.
func (c Curve) inKnots(s System) (a, b float64, ok bool) {
	scale := 1.0
	if c.flow != c.pressure { // a division is long to wait for
		scale = c.flow / c.pressure
	}
	a, b = s.A*scale, s.B*c.flow*scale
	return a, b, c.knots != nil && s.A >= 0 && s.B >= 0 && a < closed && b < closed
}

// one counts what is true, without a branch: one that cannot be foreseen costs
// more than to look at all knots.
func one(is bool) (n int) {
	if is {
		n = 1
	}
	return n
}

// countAbove counts the knots at which the fan gives more than the device takes,
// if they all come first and the pressure does not rise after them: behind the
// last of them is the one crossing then. Otherwise it returns −1.
func countAbove(q, p []float64, a, b float64) (n int) {
	p = p[:len(q)]
	before := 0.0
	for i, x := range q {
		y := p[i]
		if y > before && n < i {
			return -1
		}
		n += one(y > x*(a+b*x))
		before = y
	}
	return n
}

// firstBelow returns the first knot at which the fan gives no more than the
// device takes, or else the last knot, of a curve that meets it once.
// It goes in strides, and counts within the last one.
func firstBelow(q, p []float64, a, b float64) int {
	const stride = 4
	p = p[:len(q)]
	last := len(q) - 1
	i := stride
	for ; i < last; i += stride {
		if x := q[i]; p[i] < x*(a+b*x) {
			break
		}
	}
	from, to := i-stride+1, min(i, last)
	n := from
	for j := from; j < to; j++ {
		x := q[j]
		n += one(p[j] > x*(a+b*x))
	}
	return n
}
