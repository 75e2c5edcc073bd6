package recording

import (
	"math"

	"lowsone/acoustics"
	"lowsone/catalog/quantity"
)

// halfBand is the ratio of the edges of a third octave to its middle, 10^(1/20).
// [IEC61260]
var halfBand = math.Pow(10, 1.0/20)

// thirdsOf sums a spectrum of mean squares, step Hz a bin, into third octaves
// between their exact edges; a bin that lies across an edge is parted there. A
// band that reaches beyond the spectrum is not known.
func thirdsOf(power []float64, step float64) (t Thirds) {
	for i := range t {
		middle := float64(acoustics.ThirdHz(i))
		t[i] = ofPower(between(power, step, middle/halfBand, middle*halfBand))
	}
	return t
}

// between sums the mean squares from low to high Hz. Bin k stands for the
// frequencies (k ± 1/2)·step. It is NaN where the spectrum ends before.
func between(power []float64, step, low, high float64) float64 {
	if high > float64(len(power)-1)*step {
		return math.NaN()
	}
	first, last := int(low/step+0.5), int(high/step+0.5)
	sum := 0.0
	for k := first; k <= last && k < len(power); k++ {
		from, to := max(low, (float64(k)-0.5)*step), min(high, (float64(k)+0.5)*step)
		sum += power[k] * max(0, to-from) / step
	}
	return sum
}

// weightedSum sums the mean squares that the ear may hear, from the lower edge of
// the third octave of 25 Hz on, with a weighting.
func weightedSum(power []float64, step float64, weighting func(quantity.Frequency) quantity.Decibel) float64 {
	lowest := float64(acoustics.ThirdHz(0)) / halfBand
	sum := 0.0
	for k, p := range power {
		if f := float64(k) * step; f >= lowest {
			sum += p * ratio(float64(weighting(quantity.Frequency(f)))) * audible(quantity.Frequency(f))
		}
	}
	return sum
}

// unweighted is the weighting Z.
func unweighted(quantity.Frequency) quantity.Decibel { return 0 }

// Spread gives the standard deviation in dB of the level of a band that is width
// Hz wide, measured for a time t in random noise: 4.34/√(B·T), for B·T well above
// 1. It is +Inf where either is 0. [BendatPiersol] ch. 8
func Spread(width quantity.Frequency, t quantity.Time) quantity.Decibel {
	return quantity.Decibel(10 * math.Log10E / math.Sqrt(float64(width)*float64(t)))
}

// thirdWidth is how wide third octave i is.
func thirdWidth(i int) quantity.Frequency {
	return acoustics.ThirdHz(i) * quantity.Frequency(halfBand-1/halfBand)
}

// filterOrder is that of the low-pass from which the third-octave filters come.
const filterOrder = 3

// filterQuality makes such a filter let as much of white noise through as its
// exact band holds: (π/2N)/sin(π/2N) over the relative width of the band, N the
// order. [ANSIS1.11], from memory.
var filterQuality = math.Pi / (2 * filterOrder) / math.Sin(math.Pi/(2*filterOrder)) / (halfBand - 1/halfBand)

// filteredThirds sums a spectrum into third octaves as filters do, which let some
// of a tone into the bands beside it, 19 dB down in the next: loudness by ISO
// 532-1 is made for such levels. A Butterworth band-pass passes
//
//	|H(f)|² = 1 / (1 + (Q·(f/f_m − f_m/f))^6)
//
// A band that reaches beyond the spectrum is not known.
func filteredThirds(power []float64, step float64) (t Thirds) {
	for i := range t {
		middle := float64(acoustics.ThirdHz(i))
		if middle*halfBand > float64(len(power)-1)*step {
			t[i] = FullScale{math.NaN()}
			continue
		}
		sum := 0.0
		for k := 1; k < len(power); k++ {
			x := float64(k) * step / middle
			q := filterQuality * (x - 1/x)
			sum += power[k] / (1 + q*q*q*q*q*q)
		}
		t[i] = ofPower(sum)
	}
	return t
}
