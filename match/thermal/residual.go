package thermal

import "math"

// Huber's weights: a reading within huberBend scatters counts fully, one further
// off as its distance grows less [Huber].
const (
	huberBend   = 1.345
	huberRounds = 10
	wildFrom    = 6.0 // scatters, from which a reading is called wild
)

// reweigh sets the weights from the residuals and returns their scale, by the
// median and not under floor. With a scale of zero all count fully.
func reweigh(weight, off []float64, floor float64) (scale float64) {
	size := make([]float64, len(off))
	for i, d := range off {
		size[i] = math.Abs(d)
	}
	scale = max(perMAD*median(size), floor)
	for i, d := range off {
		weight[i] = 1
		if d = math.Abs(d); scale > 0 && d > huberBend*scale {
			weight[i] = huberBend * scale / d
		}
	}
	return scale
}

// variance returns that of a reading in K², from what is left of the residuals
// under their weights, so that wild ones count no more than huberBend scatters
// [Huber]. With no readings to spare it takes one.
func variance(weight, off []float64, unknowns int) float64 {
	var squares float64
	for i, d := range off {
		squares += weight[i] * d * weight[i] * d
	}
	return squares / float64(max(len(off)-unknowns, 1))
}

// together returns by how much the variance of what is fitted grows since
// neighbouring residuals go together: (1+r)/(1−r) with their correlation r, not
// under 1.
func together(weight, off []float64) float64 {
	var own, next float64
	for i, d := range off {
		w := weight[i]
		own += w * w * d * d
		if i > 0 {
			next += w * weight[i-1] * d * off[i-1]
		}
	}
	if !(own > 0) {
		return 1
	}
	r := min(max(next/own, 0), closest)
	return (1 + r) / (1 - r)
}

// closest bounds the correlation of neighbours: more cannot be told from a log.
const closest = 0.98

func ones(n int) []float64 {
	v := make([]float64, n)
	for i := range v {
		v[i] = 1
	}
	return v
}
