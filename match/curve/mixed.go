package curve

var mixedMean = between(&axialMean, &centrifugalMean)

// Mixed returns the shapes of mixed-flow fans, of which no reference curve is
// at hand: the middle lies halfway between those of axial and centrifugal
// fans, Low is the axial lower shape and High the centrifugal upper one. An
// assumption, without a published source.
func Mixed() Shapes { return Shapes{Mean: &mixedMean, Low: &axialLow, High: &centrifugalHigh} }

// between returns the shape halfway between two.
func between(a, b *Shape) Shape {
	var p [shapeKnots]float64
	for i := range p {
		p[i] = (a.p[i] + b.p[i]) / 2
	}
	return shape(p)
}
