package curve

// points are the knots of one curve, or of many laid one after the other.
type points struct {
	q, p []float64
	once bool // known to be such as meetsOnce tells; false: not known
}

// span is where the knots of a curve stand among others: from to to−1.
type span struct{ from, to uint32 }

// whole returns the curve through all of the points.
func (k *points) whole() Curve {
	return Curve{knots: k, span: span{to: uint32(len(k.q))}, flow: 1, pressure: 1}
}

// raw returns the knots of c before they are scaled, as many flows as pressures.
func (c Curve) raw() (q, p []float64) {
	if c.knots == nil {
		return nil, nil
	}
	return c.knots.q[c.span.from:c.span.to], c.knots.p[c.span.from:c.span.to]
}

// meetsOnce tells whether p/q never rises from knot to knot. It does not rise
// between them either then, while A + B·Q of a device never falls, so that a fan
// that once gives less than a device takes never gives more again. Every curve
// that falls is such, and one that dips, unless it rises faster than along the
// line from the origin.
func meetsOnce(q, p []float64) bool {
	x0, y0 := q[0], p[0]
	for i, x := range q {
		if !(x*y0 >= x0*p[i]) {
			return false
		}
		x0, y0 = x, p[i]
	}
	return true
}
