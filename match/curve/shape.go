package curve

// shapeKnots is the number of knots of a shape, evenly spaced over Q/Q₀.
const shapeKnots = 17

// Shape is a normalised fan curve p/p₀ = f(Q/Q₀) from (0, 1) to (1, 0), in
// straight lines between 17 knots.
type Shape struct{ points }

// Shapes are the curves a kind of fan may have between two known ends: the
// middle one, a lower and an upper one that bound real fans, and by [Shapes.At]
// the ones between, by the share of fans below.
type Shapes struct {
	Mean, Low, High *Shape
	family          *family
}

// Axial returns the shapes of axial fans: a sag in the middle, then a steep
// end. Low and High lie 20 % in flow from Mean where that is widest.
func Axial() Shapes { return Shapes{&axialMean, &axialLow, &axialHigh, axialFamily} }

// Centrifugal returns the shapes of centrifugal fans: flat, then a steep end.
// Low and High lie 10 % in flow from Mean where that is widest.
func Centrifugal() Shapes {
	return Shapes{&centrifugalMean, &centrifugalLow, &centrifugalHigh, centrifugalFamily}
}

// TwoEnded returns the curve of a fan of which only the ends are known: the
// free delivery q0 in m³/s and the shut-off pressure p0 in Pa, joined by a
// shape. It copies nothing. Ends that are not finite and above zero, or no
// shape, give the zero Curve.
func TwoEnded(s *Shape, q0, p0 float64) Curve {
	if s == nil {
		return Curve{}
	}
	return s.whole().Scaled(q0, p0)
}

// shape returns the shape with the pressures p at the evenly spaced flows.
func shape(p [shapeKnots]float64) Shape {
	var q [shapeKnots]float64
	for i := range q {
		q[i] = float64(i) / (shapeKnots - 1)
	}
	return Shape{points{q[:], p[:], meetsOnce(q[:], p[:])}}
}
