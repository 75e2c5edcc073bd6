package acoustics

import (
	"math"

	"lowsone/catalog/quantity"
)

// Counts of bands.
const (
	NumThirds  = 28 // third octaves from 25 Hz to 12.5 kHz, as ISO 532-1 takes them
	NumOctaves = 9  // octaves from 31.5 Hz to 8 kHz, three of those thirds each but for the ends
)

// Thirds holds unweighted sound pressure levels in dB re 20 µPa of the third
// octaves from 25 Hz to 12.5 kHz. -Inf is a band without sound, NaN one that is
// not known.
type Thirds [NumThirds]float64

// Octaves holds unweighted sound pressure levels in dB re 20 µPa of the octaves
// from 31.5 Hz to 8 kHz, with -Inf and NaN as in Thirds.
type Octaves [NumOctaves]float64

// Exponents of the first mid-band frequencies: 10^(n/10) Hz. [IEC61260]
const (
	firstThird  = 14 // 25 Hz
	firstOctave = 15 // 31.5 Hz
	perOctave   = 3
)

// ThirdHz gives the exact mid-band frequency of third octave i, 10^((14+i)/10)
// Hz: base ten, 1 kHz among them. [IEC61260]
func ThirdHz(i int) quantity.Frequency {
	return quantity.Frequency(math.Pow(10, float64(firstThird+i)/10))
}

// OctaveHz gives the exact mid-band frequency of octave i, 10^((15+3i)/10) Hz.
// [IEC61260]
func OctaveHz(i int) quantity.Frequency {
	return quantity.Frequency(math.Pow(10, float64(firstOctave+perOctave*i)/10))
}

// ThirdNominal lists the nominal mid-band frequencies in Hz of third octaves, by
// which people call them. [IEC61260]
var ThirdNominal = [NumThirds]float64{
	25, 31.5, 40, 50, 63, 80, 100, 125, 160, 200, 250, 315, 400, 500,
	630, 800, 1000, 1250, 1600, 2000, 2500, 3150, 4000, 5000, 6300, 8000, 10000, 12500,
}

// OctaveNominal lists the nominal mid-band frequencies in Hz of octaves.
// [IEC61260]
var OctaveNominal = [NumOctaves]float64{31.5, 63, 125, 250, 500, 1000, 2000, 4000, 8000}

// ThirdOf gives the third octave that f lies in; ok is false below 22.4 Hz and
// from 14.1 kHz, where none of these bands lies. [IEC61260]
func ThirdOf(f quantity.Frequency) (i int, ok bool) {
	exponent := 10 * math.Log10(float64(f))
	if !(exponent >= firstThird-0.5 && exponent < firstThird+NumThirds-0.5) {
		return 0, false
	}
	return int(math.Floor(exponent+0.5)) - firstThird, true
}

// nearestThird gives the third octave nearest to f, the first and the last for
// all that lies beyond; the first where f is no frequency.
func nearestThird(f quantity.Frequency) int {
	if i, ok := ThirdOf(f); ok {
		return i
	}
	if f > OctaveHz(0) {
		return NumThirds - 1
	}
	return 0
}
