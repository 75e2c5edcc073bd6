package thermal

import "math"

// ratioFor returns the least μ with
//
//	f_air/μ + f_film/μ^m + f_solid ≤ allowed
//
// where allowed is the allowed rise over that at the present flow. With nothing
// left above the solid part it returns +Inf: no flow is enough.
//
// In x = ln μ the logarithm of the first two terms falls and is convex, so that
// Newton's step from a point left of the root lands left of it again. The root
// lies between the point where the larger of the two terms alone fills what is
// left and that where each fills half of it.
func (c Corner) ratioFor(allowed float64) float64 {
	left := allowed - c.Solid
	if !(left > 0) {
		return math.Inf(1)
	}
	film := func(room float64) float64 { return math.Pow(c.Film/room, 1/c.Exponent) }
	low, high := max(c.Air/left, film(left)), max(2*c.Air/left, film(left/2))
	if math.IsInf(low, 1) {
		return low
	}
	x, end := math.Log(low), math.Log(high)
	for range newtonSteps {
		u, v := c.Air*math.Exp(-x), c.Film*math.Exp(-c.Exponent*x)
		step := math.Log((u+v)/left) * (u + v) / (u + c.Exponent*v)
		next := min(x+step, end)
		if !(next > x) {
			break
		}
		x = next
	}
	return math.Exp(x)
}

// newtonSteps bounds the search; five are enough for sixteen digits.
const newtonSteps = 50
