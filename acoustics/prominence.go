package acoustics

import (
	"math"

	"lowsone/catalog/quantity"
)

// Frequencies between which a tone can be prominent. [ECMA418] clause 4
const (
	LeastTone quantity.Frequency = 89.1
	MostTone  quantity.Frequency = 11200
)

// ToneToNoiseLimit gives the tone-to-noise ratio from which on a tone at f is
// prominent:
//
//	8 dB                       f ≥ 1 kHz
//	8 + 8.33·lg(1 kHz/f) dB    below
//
// It holds from LeastTone to MostTone; beyond, it is NaN. [ECMA418] clause 11.
func ToneToNoiseLimit(f quantity.Frequency) quantity.Decibel { return toneLimit(f, 8, 8.33) }

// ProminenceLimit gives the prominence ratio from which on a tone at f is
// prominent:
//
//	9 dB                     f ≥ 1 kHz
//	9 + 10·lg(1 kHz/f) dB    below
//
// It holds from LeastTone to MostTone; beyond, it is NaN. [ECMA418] clause 12.
func ProminenceLimit(f quantity.Frequency) quantity.Decibel { return toneLimit(f, 9, 10) }

func toneLimit(f quantity.Frequency, level, slope float64) quantity.Decibel {
	if !(f >= LeastTone && f <= MostTone) {
		return quantity.Decibel(math.NaN())
	}
	return quantity.Decibel(level + slope*max(0, math.Log10(1000/float64(f))))
}

// Tone is a tone that stands out of a narrow-band spectrum.
type Tone struct {
	Frequency quantity.Frequency // between the lines of the spectrum
	Level     quantity.Decibel   // 10·lg of its power in the spectrum's unit
	TNR       quantity.Decibel   // tone-to-noise ratio; NaN where its critical band is not all there
	PR        quantity.Decibel   // prominence ratio; NaN where the bands beside are not all there
	Prominent bool               // TNR or PR reaches its limit
}

// toneToNoise gives the tone-to-noise ratio of tone i of the list,
//
//	ΔL = 10·lg( W_T/W_N )
//
// W_T is its power; W_N that of its critical band without all tones in it,
// brought to the full width of the band. Where the strongest tone of a band has
// others within the proximity spacing, they count with it. [ECMA418] clause 11
func (s *spectrum) toneToNoise(list []peak, i int) float64 {
	f := list[i].frequency
	low, high := criticalBand(f)
	if high > s.end() {
		return math.NaN()
	}
	tone, strongest, reach := list[i].power, true, proximity(f)
	together, noise, taken := 0.0, s.energy(low, high), 0.0
	for j, p := range list {
		from, to := max(low, p.low), min(high, p.high)
		if from >= to {
			continue
		}
		noise -= s.energy(from, to)
		taken += to - from
		if inside := p.frequency > low && p.frequency < high; inside && j != i {
			strongest = strongest && p.power <= tone
			if math.Abs(p.frequency-f) < reach {
				together += p.power
			}
		}
	}
	if strongest {
		tone += together
	}
	width := high - low
	return decibel(tone / (max(noise, 0) * width / (width - taken)))
}

// proximity gives within what distance of a tone at f another one in its
// critical band counts with it:
//
//	21·10^(1.2·|lg(f/212 Hz)|^1.8) Hz below 1 kHz
//
// From 1 kHz on that is everywhere in the band. [ECMA418] clause 11.6
func proximity(f float64) float64 {
	if f >= 1000 {
		return math.Inf(1)
	}
	return 21 * math.Pow(10, 1.2*math.Pow(math.Abs(math.Log10(f/212)), 1.8))
}

// prominence gives the prominence ratio of a tone at f,
//
//	ΔL = 10·lg( W_M/((W_L + W_U)/2) )
//
// with the powers of the critical band around it and of those below and above.
// For a tone up to 171.4 Hz the one below begins at 20 Hz, and its power is
// brought to a width of 100 Hz. [ECMA418] clause 12
func (s *spectrum) prominence(f float64) float64 {
	low, high := criticalBand(f)
	below, above := bandBelow(f), bandAbove(f)
	if above > s.end() {
		return math.NaN()
	}
	lower := s.energy(below, low)
	if f <= lowerMeets20 {
		lower *= 100 / (low - below)
	}
	return decibel(s.energy(low, high) / ((lower + s.energy(high, above)) / 2))
}
