package acoustics

import (
	"math"

	"lowsone/catalog/quantity"
)

// CriticalBandwidth gives the width of the band within which the ear takes
// sounds at f together:
//
//	Δf = 25 + 75·(1 + 1.4·(f/1 kHz)²)^0.69 Hz
//
// [ECMA418] clause 10.
func CriticalBandwidth(f quantity.Frequency) quantity.Frequency {
	khz := float64(f) / 1000
	return quantity.Frequency(25 + 75*math.Pow(1+1.4*khz*khz, 0.69))
}

// criticalBand gives the ends of the critical band around f: evenly up to 500
// Hz, above so that f is their geometric mean. [ECMA418] clause 10.
func criticalBand(f float64) (low, high float64) {
	width := float64(CriticalBandwidth(quantity.Frequency(f)))
	low = f - width/2
	if f > 500 {
		low = (math.Sqrt(width*width+4*f*f) - width) / 2
	}
	return low, low + width
}

// Critical bands next to that around a tone, by [ECMA418] clause 12.
const (
	lowerMeets20 = 171.4 // Hz: up to this tone the band below begins at 20 Hz
	lowestHeard  = 20.0  // Hz
	edgesChange  = 1600.0
)

// bandBelow gives the low end of the critical band that lies below the one
// around f. [ECMA418] table 2
func bandBelow(f float64) float64 {
	switch {
	case f <= lowerMeets20:
		return lowestHeard
	case f <= edgesChange:
		return -149.5 + 1.001*f - 6.90e-5*f*f
	}
	return 6.8 + 0.806*f - 8.20e-6*f*f
}

// bandAbove gives the high end of the critical band that lies above the one
// around f. [ECMA418] table 3
func bandAbove(f float64) float64 {
	if f <= edgesChange {
		return 149.5 + 1.035*f + 7.70e-5*f*f
	}
	return 3.3 + 1.215*f + 2.16e-5*f*f
}
