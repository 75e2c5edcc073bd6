package thermal

import "math"

// lowest returns where f is least between low and high: the best of an even grid
// of so many steps, narrowed by so many rounds of golden section, so that the
// least of several dips is found as long as the grid tells them apart. A round
// leaves 0.62 of the span.
func lowest(low, high float64, steps, rounds int, f func(float64) float64) float64 {
	step := (high - low) / float64(steps)
	best, least := low, math.Inf(1)
	for i := range steps + 1 {
		x := low + float64(i)*step
		if v := f(x); v < least {
			best, least = x, v
		}
	}
	return golden(max(best-step, low), min(best+step, high), rounds, f)
}

func golden(low, high float64, rounds int, f func(float64) float64) float64 {
	cut := (math.Sqrt(5) - 1) / 2
	a, b := high-cut*(high-low), low+cut*(high-low)
	fa, fb := f(a), f(b)
	for range rounds {
		if fa <= fb {
			high, b, fb = b, a, fa
			a = high - cut*(high-low)
			fa = f(a)
			continue
		}
		low, a, fa = a, b, fb
		b = low + cut*(high-low)
		fb = f(b)
	}
	return (low + high) / 2
}
