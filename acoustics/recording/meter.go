package recording

import (
	"math"

	"lowsone/catalog/quantity"
)

// fast is the time constant of a sound level meter on "fast", in s. [IEC61672]
const fast = 0.125

// Statistics of levels: how many times a second the fast level is counted, and
// the classes it is counted in.
const (
	countsPerSecond = 100
	classWidth      = 0.1 // dB
	lowestClass     = -220.0
	classes         = 3600 // up to 140 dB re full scale, which only floating point can reach
)

// meter follows the A-weighted level as a sound level meter does.
type meter struct {
	rate    float64
	alpha   float64 // share of a new square in the fast average
	fast    float64
	started bool

	count   int64 // samples taken
	total   float64
	loudest float64
	when    int64 // sample of the loudest

	every  int // samples between counts
	counts [classes]int

	second []float64 // mean square of each second that is over
	open   float64   // sum of the one that runs
	filled int
}

func newMeter(rate quantity.Frequency) *meter {
	return &meter{
		rate:  float64(rate),
		alpha: -math.Expm1(-1 / (float64(rate) * fast)),
		every: int(math.Ceil(float64(rate) / countsPerSecond)),
	}
}

// take follows the squares of the next samples.
func (m *meter) take(energy []float64) {
	if !m.started {
		m.fast = mean(energy[:min(len(energy), int(m.rate*fast))])
		m.started = true
	}
	for _, e := range energy {
		m.fast += (e - m.fast) * m.alpha
		if m.fast > m.loudest {
			m.loudest, m.when = m.fast, m.count
		}
		if m.count%int64(m.every) == 0 {
			m.counts[class(m.fast)]++
		}
		m.count++
		m.total += e
		m.open += e
		if m.filled++; m.filled == int(m.rate) {
			m.closeSecond()
		}
	}
}

func (m *meter) closeSecond() {
	m.second = append(m.second, m.open/float64(m.filled))
	m.open, m.filled = 0, 0
}

// finish closes the last second if at least half of it is there.
func (m *meter) finish() {
	if 2*m.filled >= int(m.rate) {
		m.closeSecond()
	}
}

// class gives the class of a mean square; what is silent or beyond the classes
// goes to the ends.
func class(power float64) int {
	c := (10*math.Log10(power) - lowestClass) / classWidth
	return int(max(0, min(classes-1, c)))
}

// exceeded gives the level in dB that is exceeded for the given share of the
// time, to a tenth of a dB, or -Inf where the recording is silent for longer.
func (m *meter) exceeded(share float64) float64 {
	all := 0
	for _, n := range m.counts {
		all += n
	}
	above := 0.0
	for c := classes - 1; c > 0; c-- {
		n := float64(m.counts[c])
		if above+n >= share*float64(all) && n > 0 {
			into := (share*float64(all) - above) / n
			return lowestClass + classWidth*(float64(c)+1-into)
		}
		above += n
	}
	return math.Inf(-1)
}

func mean(values []float64) float64 {
	sum := 0.0
	for _, v := range values {
		sum += v
	}
	return sum / float64(len(values))
}
