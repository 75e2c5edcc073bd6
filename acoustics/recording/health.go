package recording

import "math"

// clipRun is how many samples in a row at the same end of full scale are taken
// for a cut wave: a sound that merely touches full scale seldom stays there.
const clipRun = 3

// health watches the samples of one channel for what spoils a recording.
type health struct {
	limit   float64 // size of a sample at full scale
	beyond  float64 // size above which it is no longer cut off there
	count   int64
	sum     float64
	low     float64
	high    float64
	clipped int64 // samples at full scale
	runs    int64 // of at least clipRun of them
	longest int64
	run     int64
	sign    bool // of the run
}

// newHealth takes the largest integer for full scale. Floating point goes on
// beyond it; there a wave is cut off that was one of integers before, of 16 bits
// or more.
func newHealth(f Format) *health {
	h := &health{limit: 1 - math.Exp2(-float64(f.valid-1)), beyond: 1, low: math.Inf(1), high: math.Inf(-1)}
	if f.Float {
		h.limit = 1 - math.Exp2(-(minBits - 1))
	}
	return h
}

func (h *health) take(samples []float64) {
	h.count += int64(len(samples))
	for _, v := range samples {
		h.sum += v
		h.low, h.high = min(h.low, v), max(h.high, v)
		if size := math.Abs(v); size < h.limit || size > h.beyond {
			if h.run > 0 {
				h.endRun()
			}
			continue
		}
		if h.run > 0 && h.sign != (v < 0) {
			h.endRun()
		}
		h.clipped++
		h.run++
		h.sign = v < 0
	}
}

func (h *health) endRun() {
	if h.run >= clipRun {
		h.runs++
	}
	h.longest = max(h.longest, h.run)
	h.run = 0
}

// offset is the mean of the samples.
func (h *health) offset() float64 { return h.sum / float64(h.count) }

// silentSwing is the least from the lowest sample to the highest that is taken
// for a sound: that of a sine of −150 dB re full scale, 2·√2·10^(−7.5). A step of
// 24 bits is more, and no microphone's noise lies as low; numbers of floating
// point can.
const silentSwing = 8.94427191e-8

// silent says that nothing moves, or by less than any microphone gives.
func (h *health) silent() bool { return h.count == 0 || h.high-h.low < silentSwing }

// peak is the largest distance of a sample from zero.
func (h *health) peak() float64 { return max(math.Abs(h.low), math.Abs(h.high)) }
