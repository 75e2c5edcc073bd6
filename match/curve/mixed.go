package curve

var (
	mixedMean   = between(&axialMean, &centrifugalMean, 0.5)
	mixedFamily = betweenFamilies(axialFamily, centrifugalFamily)
)

// Mixed returns the shapes of mixed-flow fans, of which no reference curve is
// at hand: the middle lies halfway between those of axial and centrifugal
// fans, Low is the axial lower shape and High the centrifugal upper one. By
// [Shapes.At] the share u lies u of the way from the axial shape for u to the
// centrifugal one, as if such fans stood evenly anywhere between the kinds: the
// widest family of the three. Assumptions, without a published source.
func Mixed() Shapes { return Shapes{&mixedMean, &axialLow, &centrifugalHigh, mixedFamily} }

// betweenFamilies returns the family that goes from a to b as its members rise.
func betweenFamilies(a, b *family) *family {
	var f family
	for i := range f {
		f[i] = between(&a[i], &b[i], (float64(i)+0.5)/familySize)
	}
	return &f
}

// between returns the shape a share of the way from a to b.
func between(a, b *Shape, share float64) Shape {
	var p [shapeKnots]float64
	for i := range p {
		p[i] = lerp(0, a.p[i], 1, b.p[i], share)
	}
	return shape(p)
}
