package thermal

import (
	"math"
	"slices"
)

// noise returns the scatter of single readings in K, as one standard deviation:
// from the distance of each reading to the straight line between its neighbours,
// by their median, so that neither the curve nor single wild readings count; and
// not under what the resolution of the log alone makes.
func noise(log []Reading) float64 {
	var off []float64
	for i := 1; i+1 < len(log); i++ {
		span := log[i+1].Time - log[i-1].Time
		w := 0.5
		if span > 0 {
			w = (log[i].Time - log[i-1].Time) / span
		}
		d := log[i].Celsius - (1-w)*log[i-1].Celsius - w*log[i+1].Celsius
		off = append(off, math.Abs(d)/math.Sqrt(1+w*w+(1-w)*(1-w)))
	}
	return max(perMAD*median(off), rounded*resolution(log))
}

const perMAD = 1.4826 // standard deviation over median deviation of a normal scatter

// rounded is the standard deviation of what rounding to steps of 1 takes away.
var rounded = 1 / math.Sqrt(12)

// resolution returns the step in K all readings are whole multiples of, 0 for
// one finer than 0.01 K.
func resolution(log []Reading) float64 {
	for _, step := range []float64{1, 0.5, 0.25, 0.2, 0.1, 0.05, 0.02, 0.01} {
		if all(log, func(r Reading) bool {
			steps := r.Celsius / step
			return math.Abs(steps-math.Round(steps)) < 1e-6
		}) {
			return step
		}
	}
	return 0
}

func all(log []Reading, is func(Reading) bool) bool {
	return !slices.ContainsFunc(log, func(r Reading) bool { return !is(r) })
}

// median returns the middle of the values, 0 of none. It sorts them.
func median(v []float64) float64 {
	if len(v) == 0 {
		return 0
	}
	slices.Sort(v)
	if n := len(v); n%2 == 0 {
		return (v[n/2-1] + v[n/2]) / 2
	}
	return v[len(v)/2]
}

// tame returns the log without its wild readings: single ones, or two, that stand
// off from the median of the five about them by more than wildFrom scatters, as a
// loose plug makes them. The median of a log that only rises or falls is its
// middle reading, however steep it is. The two at either end stay.
func tame(log []Reading, scatter float64) []Reading {
	var kept []Reading
	for i, r := range log {
		if i >= 2 && i < len(log)-2 && math.Abs(r.Celsius-median(celsius(log[i-2:i+3]))) > wildFrom*scatter {
			continue
		}
		kept = append(kept, r)
	}
	return kept
}

// mostReadings is what a fit is given: longer logs are drawn together.
const mostReadings = 400

// thinned returns a log of at most mostReadings: the median of each few
// neighbours at their mean time.
func thinned(log []Reading) []Reading {
	if len(log) <= mostReadings {
		return log
	}
	few := (len(log) + mostReadings - 1) / mostReadings
	var thin []Reading
	for part := range slices.Chunk(log, few) {
		var t float64
		for _, r := range part {
			t += (r.Time - part[0].Time) / float64(len(part))
		}
		thin = append(thin, Reading{part[0].Time + t, median(celsius(part))})
	}
	return thin
}
