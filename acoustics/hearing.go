package acoustics

import (
	"math"

	"lowsone/catalog/quantity"
)

// hearingThreshold holds the threshold of hearing T_f in dB of a pure tone at the
// middle of each third octave, for young people with normal hearing, both ears,
// in a free field from the front. [ISO226] table 1
var hearingThreshold = [NumThirds]float64{
	68.7, 59.5, 51.1, 44.0, 37.5, 31.5, 26.5, 22.1, 17.9, 14.4, 11.4, 8.6, 6.2, 4.4,
	3.0, 2.2, 2.4, 3.5, 1.7, -1.3, -4.2, -6.0, -5.4, -1.5, 6.0, 12.6, 13.9, 12.3,
}

// HearingThreshold gives the unweighted level in dB re 20 µPa below which a tone
// at f is not heard in silence, by straight lines over lg f between the middles of
// the third octaves. It is NaN below 25 Hz and above 12.5 kHz. [ISO226]
func HearingThreshold(f quantity.Frequency) quantity.Decibel {
	x := 10*math.Log10(float64(f)) - firstThird
	if x = math.Round(1e9*x) / 1e9; !(x >= 0 && x <= NumThirds-1) {
		return quantity.Decibel(math.NaN())
	}
	i := min(int(x), NumThirds-2)
	return quantity.Decibel(hearingThreshold[i] + (x-float64(i))*(hearingThreshold[i+1]-hearingThreshold[i]))
}
