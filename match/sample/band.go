package sample

import (
	"math"
	"slices"
)

// Band is the middle of what was drawn and the range that holds 10 to 90 % of it.
type Band struct{ Low, Middle, High float64 }

// bandOf gives the band of values, without those that are NaN. Of none it is
// NaN.
func bandOf(values []float64) Band {
	v := slices.DeleteFunc(slices.Clone(values), math.IsNaN)
	slices.Sort(v)
	return Band{quantile(v, 0.1), quantile(v, 0.5), quantile(v, 0.9)}
}

// quantile gives the share p of sorted values, on straight lines between them.
func quantile(sorted []float64, p float64) float64 {
	if len(sorted) == 0 {
		return math.NaN()
	}
	at := p * float64(len(sorted)-1)
	i := int(at)
	if i+1 >= len(sorted) || sorted[i] == sorted[i+1] || at == float64(i) {
		return sorted[i]
	}
	return sorted[i] + (at-float64(i))*(sorted[i+1]-sorted[i])
}

// share gives the part of values for which it holds.
func share[T any](values []T, holds func(T) bool) float64 {
	n := 0
	for _, v := range values {
		if holds(v) {
			n++
		}
	}
	return float64(n) / float64(len(values))
}
