package curve

import (
	"fmt"
	"slices"
	"sort"
)

// RangeError reports two fans with no flow (in series) or no pressure (in
// parallel) that both can give.
type RangeError struct {
	Of   string     // "flow" in m³/s or "pressure" in Pa
	A, B [2]float64 // the least and most of either fan
}

func (e *RangeError) Error() string {
	unit, scale := "Pa", 1.0
	if e.Of == "flow" {
		unit, scale = "m³/h", hour
	}
	return fmt.Sprintf("the two fans share no %s: one has %.4g to %.4g %s, the other %.4g to %.4g %s",
		e.Of, e.A[0]*scale, e.A[1]*scale, unit, e.B[0]*scale, e.B[1]*scale, unit)
}

// Parallel returns the curve of two fans side by side: flows add at equal
// pressure, exactly, knot for knot.
//
// It uses the falling branch of each fan, right of its last peak (a level top
// included), where one pressure means one flow or a level stretch; a ripple of under 1 % of the largest pressure
// within that branch is bridged level. The result reaches from the higher of
// the two last pressures up to the lower of the two peaks: above that the
// weaker fan would be blown through backwards, of which its curve says
// nothing, so that a device needing more ends in an *OutsideError with both
// numbers. Such a pair can move less than the stronger fan alone. With no
// pressure in common the error is a *RangeError.
func Parallel(a, b Curve) (Curve, error) {
	if a.Len() < 2 || b.Len() < 2 {
		return Curve{}, ErrNoCurve
	}
	fa, fb := a.falling(), b.falling()
	top, bottom := min(fa.p[0], fb.p[0]), max(fa.foot(), fb.foot())
	if top <= bottom {
		return Curve{}, &RangeError{Of: "pressure", A: [2]float64{fa.foot(), fa.p[0]}, B: [2]float64{fb.foot(), fb.p[0]}}
	}
	var sum branch
	for _, p := range slices.Backward(levels(fa.p, fb.p, bottom, top)) {
		la, ra := fa.flows(p)
		lb, rb := fb.flows(p)
		sum.extend(la+lb, p)
		sum.extend(ra+rb, p) // the far end, where one of them is level
	}
	return New(sum.q, sum.p)
}

// Series returns the curve of two fans one behind the other: pressures add at
// equal flow, exactly, on the flows both curves have. Beyond the smaller free
// delivery the weaker fan would be in the way of the stronger, of which its
// curve says nothing: a working point there is an *OutsideError with both
// numbers. With no flow in common the error is a *RangeError.
func Series(a, b Curve) (Curve, error) {
	if a.Len() < 2 || b.Len() < 2 {
		return Curve{}, ErrNoCurve
	}
	fa, fb := a.points(), b.points()
	la, lb := len(fa.q)-1, len(fb.q)-1
	low, high := max(fa.q[0], fb.q[0]), min(fa.q[la], fb.q[lb])
	if low >= high {
		return Curve{}, &RangeError{Of: "flow", A: [2]float64{fa.q[0], fa.q[la]}, B: [2]float64{fb.q[0], fb.q[lb]}}
	}
	var sum branch
	for _, q := range levels(fa.q, fb.q, low, high) {
		pa, _ := a.At(q)
		pb, _ := b.At(q)
		sum.add(q, pa+pb)
	}
	return New(sum.q, sum.p)
}

// branch is a run of knots in m³/s and Pa.
type branch struct{ q, p []float64 }

func (b *branch) add(q, p float64) {
	b.q = append(b.q, q)
	b.p = append(b.p, p)
}

// extend adds a knot if it lies further on than the last one.
func (b *branch) extend(q, p float64) {
	if n := len(b.q); n == 0 || q > b.q[n-1] {
		b.add(q, p)
	}
}

// foot returns the last pressure.
func (b *branch) foot() float64 { return b.p[len(b.p)-1] }

// points returns the knots of c, scaled.
func (c Curve) points() branch {
	var b branch
	for i := range c.Len() {
		b.add(c.Knot(i))
	}
	return b
}

// falling returns the branch of c right of its last peak, made level where it
// would rise (by no more than noise, or it were a peak).
func (c Curve) falling() branch {
	b := c.points()
	from := 0
	if d, ok := c.Dip(); ok {
		from = sort.SearchFloat64s(b.q, d.Peak)
	}
	for i := from; i < len(b.p); i++ {
		if b.p[i] > b.p[from] {
			from = i
		}
	}
	b.q, b.p = b.q[from:], b.p[from:]
	return b.level()
}

// level bridges every rise of a branch by a level stretch at the height of the
// peak that follows, whose beginning becomes a knot of its own.
func (b branch) level() branch {
	last := len(b.p) - 1
	out := branch{q: []float64{b.q[last]}, p: []float64{b.p[last]}}
	for i := last - 1; i >= 0; i-- {
		height := out.foot()
		switch {
		case b.p[i] < height: // under the bridge
		case b.p[i+1] < height: // it begins between these two
			out.add(lerp(b.p[i], b.q[i], b.p[i+1], b.q[i+1], height), height)
			fallthrough
		default:
			out.add(b.q[i], b.p[i])
		}
	}
	slices.Reverse(out.q)
	slices.Reverse(out.p)
	return out
}

// flows returns the least and the most flow at which a falling branch gives
// the pressure p; they differ where it is level.
func (b *branch) flows(p float64) (least, most float64) {
	last := len(b.p) - 1
	i := sort.Search(last, func(i int) bool { return b.p[i] <= p }) // first knot not above p
	least = b.q[i]
	if i > 0 && b.p[i] < p {
		least = lerp(b.p[i-1], b.q[i-1], b.p[i], b.q[i], p)
	}
	most = least
	for ; i <= last && b.p[i] == p; i++ {
		most = b.q[i]
	}
	return least, most
}

// levels returns the values of both lists that lie within low … high, both
// included, rising and each once.
func levels(a, b []float64, low, high float64) []float64 {
	all := []float64{low, high}
	for _, list := range [][]float64{a, b} {
		for _, x := range list {
			if x > low && x < high {
				all = append(all, x)
			}
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}
