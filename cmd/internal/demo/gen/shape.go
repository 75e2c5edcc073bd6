package gen

// knots is the number of points of a curve, ends included, equally spaced in flow.
const knots = 11

// shape is a fan curve as shares: p/p₀ at q = 0, 0.1, … 1.
type shape [knots]float64

// The shapes are ours, drawn inside what testdata/sources/air_fan_curves.csv shows for real fans: axial fans sag in the middle and
// some dip (stall) on the way, centrifugal ones stay flat, then drop.
var (
	axialSag  = shape{1, 0.93, 0.86, 0.74, 0.54, 0.40, 0.345, 0.315, 0.20, 0.10, 0}
	axialMid  = shape{1, 0.92, 0.80, 0.68, 0.57, 0.50, 0.46, 0.40, 0.31, 0.17, 0}
	axialDip  = shape{1, 0.88, 0.72, 0.61, 0.55, 0.56, 0.575, 0.52, 0.41, 0.23, 0}
	radialOld = shape{1, 1.005, 1.0, 0.985, 0.94, 0.86, 0.76, 0.63, 0.46, 0.25, 0}
	radialNew = shape{1, 1.0, 1.0, 0.995, 0.97, 0.92, 0.83, 0.69, 0.51, 0.27, 0}
	crossflow = shape{1, 0.98, 0.93, 0.87, 0.80, 0.71, 0.60, 0.48, 0.34, 0.18, 0}
)

// blend joins two shapes: all a at t = 0, all b at t = 1.
func blend(a, b shape, t float64) shape {
	for i := range a {
		a[i] += t * (b[i] - a[i])
	}
	return a
}

// best is the largest q·(p/p₀) on the shape: air power over Q₀·p₀.
func (s shape) best() float64 {
	most := 0.0
	for i, p := range s {
		most = max(most, p*float64(i)/(knots-1))
	}
	return most
}

// shapeOf draws the curve of a family. Axial families lie between the sagging, the mean and the dipping shape.
func shapeOf(kind string, draw func(lo, hi float64) float64) shape {
	t := draw(-1, 1)
	switch {
	case kind == kindRadial:
		return blend(radialOld, radialNew, (t+1)/2)
	case kind == kindMixed:
		return blend(axialMid, radialOld, 0.35+0.15*t)
	case kind == kindCross:
		return crossflow
	case t < 0:
		return blend(axialMid, axialSag, -t)
	default:
		return blend(axialMid, axialDip, t)
	}
}
