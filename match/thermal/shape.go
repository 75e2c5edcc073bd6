package thermal

import (
	"math"
	"slices"
)

// blocks is a log drawn together to at most mostBlocks points, so that its shape
// stands out of the noise.
type blocks struct {
	time, celsius []float64
	sd            []float64 // K, of each
}

const (
	mostBlocks  = 10
	medianCosts = 1.2533 // √(π/2), its standard error over that of a mean of many
	clearly     = 5.0    // standard errors
	leastChange = 1.0    // K, less is no step (common practice)
)

// drawTogether returns the log in blocks of nearly the same number of readings,
// by their median, with errors from the scatter of single readings in K, and from
// the resolution, which no number of readings mends.
func drawTogether(log []Reading, scatter float64) blocks {
	var b blocks
	step := rounded * resolution(log)
	n := min(len(log), mostBlocks)
	for i := range n {
		part := log[i*len(log)/n : (i+1)*len(log)/n]
		b.time = append(b.time, (part[0].Time+part[len(part)-1].Time)/2)
		b.celsius = append(b.celsius, median(celsius(part)))
		b.sd = append(b.sd, math.Hypot(step, scatter*medianError(len(part))))
	}
	return b
}

// medianError returns the standard error of the median of n readings over their
// scatter.
func medianError(n int) float64 {
	if n < 3 { // the mean
		return 1 / math.Sqrt(float64(n))
	}
	return medianCosts / math.Sqrt(float64(n))
}

func celsius(log []Reading) []float64 {
	v := make([]float64, len(log))
	for i, r := range log {
		v[i] = r.Celsius
	}
	return v
}

// direction returns +1 for a log that ends warmer than it began, else −1.
func (b blocks) direction() float64 {
	if b.celsius[len(b.celsius)-1] >= b.celsius[0] {
		return 1
	}
	return -1
}

// change returns from its coldest to its warmest block, in K.
func (b blocks) change() float64 { return slices.Max(b.celsius) - slices.Min(b.celsius) }

// flat tells whether the log holds no step worth the name.
func (b blocks) flat() bool {
	return b.change() < max(leastChange, clearly*slices.Max(b.sd))
}

// turnsBack returns by how many K the log goes against its direction, 0 for no
// more than its scatter makes.
func (b blocks) turnsBack() float64 {
	d, far, back := b.direction(), math.Inf(-1), 0.0
	for _, t := range b.celsius {
		far = max(far, d*t)
		back = max(back, far-d*t)
	}
	if back < max(leastChange, clearly*slices.Max(b.sd)) {
		return 0
	}
	return back
}

// startsAnew tells where the log, after it slowed down, gathers speed once more,
// as it does when the load changes: the time in s of the block from which on. A
// response to one step, of however many time constants, only slows down, but for
// its very beginning, where the place of a probe may delay it.
func (b blocks) startsAnew() (from float64, ok bool) {
	var last rate // the fastest until it slowed down, then the slowest
	slowed := false
	for i := 1; i < len(b.time); i++ {
		r, ok := b.rate(i)
		switch {
		case !ok:
		case last.time == 0:
			last = r
		case slowed && r.clearlyAbove(last) && (r.perSecond-last.perSecond)*r.time > leastChange:
			return b.time[i-1], true
		case !slowed && last.clearlyAbove(r):
			last, slowed = r, true
		case slowed == (r.perSecond < last.perSecond):
			last = r
		}
	}
	return 0, false
}

// rate is how fast a log goes in its direction from one block to the next.
type rate struct {
	perSecond, sd float64 // K/s
	time          float64 // s it takes
}

func (b blocks) rate(i int) (rate, bool) {
	dt := b.time[i] - b.time[i-1]
	if !(dt > 0) {
		return rate{}, false
	}
	return rate{
		perSecond: b.direction() * (b.celsius[i] - b.celsius[i-1]) / dt,
		sd:        math.Hypot(b.sd[i], b.sd[i-1]) / dt,
		time:      dt,
	}, true
}

func (r rate) clearlyAbove(o rate) bool {
	return r.perSecond-o.perSecond > clearly*math.Hypot(r.sd, o.sd)
}
