package loudness

import (
	"math"

	"lowsone/acoustics"
)

// A coreLaw holds what turns the level of one critical band into core loudness:
// N′ = gain·((0.75 + 0.25·10^((L + shift)/10))^¼ − 1) above the threshold.
// [ISO532-1] 5.3, A.3
type coreLaw struct {
	threshold float64 // least third-octave level in dB that is heard
	shift     float64 // dB
	gain      float64 // sone/Bark
	// The same for a sum of energies in place of a level.
	leastEnergy, factor float64
}

// coreLaws holds the law of each band, for a free and for a diffuse field.
var coreLaws = [2][coreBands]coreLaw{lawsIn(Free), lawsIn(Diffuse)}

func lawsIn(f Field) (laws [coreBands]coreLaw) {
	for i := range laws {
		atEar := -earLoss[i]
		if f == Diffuse {
			atEar += diffuseGain[i]
		}
		tq := quietThreshold[i]
		law := &laws[i]
		law.threshold = tq - atEar
		law.shift = atEar - bandAdaptation[i] - tq
		law.gain = 0.0635 * math.Pow(10, 0.025*tq)
		law.leastEnergy = math.Pow(10, law.threshold/10)
		law.factor = math.Pow(10, law.shift/10)
	}
	return laws
}

// lowLimit holds the level in dB at which each low third octave leaves range k.
// [ISO532-1] A.3, table A.3
var lowLimit = lowLimits()

func lowLimits() (limit [lowBands][lowRanges - 1]float64) {
	for band := range limit {
		for k := range limit[band] {
			limit[band][k] = lowRangeEnd[k] - lowCorrection[k][band]
		}
	}
	return limit
}

// correctLow gives the level of a low third octave after the correction for the
// ear's loss there.
func correctLow(band int, level float64) float64 {
	k := 0
	for k < lowRanges-1 && level > lowLimit[band][k] {
		k++
	}
	return level + lowCorrection[k][band]
}

// core gives the core loudness of each critical band in sone/Bark, and false if
// a level is NaN or the field is none of the two. [ISO532-1] 5.2, 5.3
func core(l *acoustics.Thirds, f Field, out *[allBands]float64) bool {
	if f > Diffuse {
		return false
	}
	laws := &coreLaws[f]
	band := 0
	for i, end := range lowGroupEnd {
		sum := 0.0
		for ; band < end; band++ {
			sum += energy(correctLow(band, l[band]))
		}
		if sum != sum {
			return false
		}
		out[i] = 0
		if law := &laws[i]; sum > law.leastEnergy {
			out[i] = law.loudness(sum * law.factor)
		}
	}
	out[0] *= min(1, 0.4+0.32*math.Pow(out[0], 0.2)) // [ISO532-1] A.3: the threshold varies within the lowest band
	for i := lowGroups; i < coreBands; i++ {
		level := l[i+lowBands-lowGroups]
		if level != level {
			return false
		}
		out[i] = 0
		if law := &laws[i]; level > law.threshold {
			out[i] = law.loudness(energy(level + law.shift))
		}
	}
	out[coreBands] = 0
	return true
}

// loudness gives the core loudness in sone/Bark of the energy e relative to the
// threshold in quiet. [ISO532-1] 5.3, A.3
func (law *coreLaw) loudness(e float64) float64 {
	return law.gain * max(0, math.Sqrt(math.Sqrt(0.75+0.25*e))-1)
}
