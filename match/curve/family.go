package curve

import "math"

const (
	// familySize is odd, so that one member is the middle.
	familySize   = 33
	familyMiddle = familySize / 2

	// peakAboveShutOff is the most by which the peak of a fan lies above its
	// shut-off pressure (common practice).
	peakAboveShutOff = 1.06
)

// family holds the shapes a kind of fan may have. Member i stands for the
// fans between the shares i/familySize and (i+1)/familySize in order of flow.
type family [familySize]Shape

// spread describes how far the fans of a kind lie from their mean shape.
type spread struct {
	// sd is one standard deviation of ln(x/(1−x)), x = Q/Q₀ at the crossing,
	// along the quadratic system through each knot of the mean. The shut-off
	// pressure is known; near the free delivery the last value stays.
	sd [shapeKnots]float64
	// z is how many of them the members above the middle lie away from it.
	z [familyMiddle]float64
}

// At returns the shape that the share u of the fans of the kind lie below, in
// flow along any quadratic system, 0 < u < 1: 0.5 gives Mean, and eight fans of
// ten lie between 0.1 and 0.9. It is one of 33 read-only shapes, each for an
// equal share, so that u drawn evenly draws fans as they occur. For u outside it
// is the outermost shape, for NaN nil, of which [TwoEnded] makes no curve.
func (s Shapes) At(u float64) *Shape {
	if s.family == nil || math.IsNaN(u) {
		return nil
	}
	u = min(max(u, 0), 1)
	return &s.family[min(int(u*familySize), familySize-1)]
}

// familyOf returns the shapes of a kind around their mean.
func familyOf(mean *Shape, s spread) *family {
	var f family
	f[familyMiddle] = *mean
	for i, z := range s.z {
		f[familyMiddle+1+i] = member(mean, &s.sd, z)
		f[familyMiddle-1-i] = member(mean, &s.sd, -z)
	}
	return &f
}

// member returns the shape z standard deviations from the mean. Along each
// quadratic system the odds x/(1−x) of its crossing are those of the mean times
// exp(z·sd): it keeps both ends, and a larger z never gives less flow. No
// pressure rises above peakAboveShutOff.
func member(mean *Shape, sd *[shapeKnots]float64, z float64) Shape {
	const (
		fine   = 4 // points a segment of the mean: a hundred change a member by less than 0.001
		points = (shapeKnots - 1) * fine
	)
	var q, p [points + 1]float64
	p[0], q[points] = 1, 1
	for i := 1; i < points; i++ {
		k, t := i/fine, float64(i%fine)/fine
		x := float64(i) / points
		y := lerp(0, mean.p[k], 1, mean.p[k+1], t)
		odds := x / (1 - x) * math.Exp(z*lerp(0, sd[k], 1, sd[k+1], t))
		q[i] = odds / (1 + odds)
		p[i] = min(y*(q[i]/x)*(q[i]/x), peakAboveShutOff)
	}
	var even [shapeKnots]float64
	for i := range even {
		even[i], _ = View(q[:], p[:]).At(float64(i) / (shapeKnots - 1))
	}
	return shape(even)
}
