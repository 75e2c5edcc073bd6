package acoustics

import (
	"fmt"
	"math"

	"lowsone/catalog/quantity"
)

// Hearing is how two tones beside each other are heard.
type Hearing uint8

// The ways.
const (
	AsOne    Hearing = iota // equal: one tone, louder
	Swelling                // one tone that swells and fades slowly, each time to be followed
	Flutter                 // one tone that fluctuates
	Rough                   // one tone, rough
	Apart                   // two tones
)

// String gives the way in words.
func (h Hearing) String() string {
	switch h {
	case AsOne:
		return "one tone"
	case Swelling:
		return "slow swelling"
	case Flutter:
		return "fluctuation"
	case Rough:
		return "roughness"
	case Apart:
		return "two tones"
	}
	return fmt.Sprintf("Hearing(%d)", uint8(h))
}

// rounding is the share of two frequencies that they differ by where they are equal
// but for how they were worked out.
const rounding = 1e-12

// Limits in Hz between the ways in which a beat is heard. [Fastl]
const (
	mostFluctuation = 4   // where fluctuation is strongest; slower, it is followed
	fluctuationEnds = 20  // the change to roughness lies at 15 to 20 Hz
	roughnessEnds   = 300 // roughness is strongest at 70 Hz and gone here
)

// HowHeard says how two tones at f and g are heard, which beat at |f − g|:
//
//	none                         one tone
//	up to 4 Hz                   slow swelling
//	to 20 Hz                     fluctuation
//	to 300 Hz                    roughness, if within one critical band
//	beyond, or not in one band   two tones
//
// The critical band is that around the mean of the two. The changes are gradual;
// the nearer the tones are in level, the stronger all this is. [Fastl],
// [ECMA418]
func HowHeard(f, g quantity.Frequency) Hearing {
	beat := Beat(f, g)
	switch {
	case beat <= rounding*(f+g):
		return AsOne
	case !(beat < apart((f+g)/2)):
		return Apart
	case beat <= mostFluctuation:
		return Swelling
	case beat <= fluctuationEnds:
		return Flutter
	}
	return Rough
}

// apart gives the beat from which on two tones around f are heard apart.
func apart(f quantity.Frequency) quantity.Frequency {
	return min(roughnessEnds, CriticalBandwidth(f))
}

// BeatPeak gives how far two beating tones together rise above the louder one at
// their peaks, where d is how far the other lies below it:
//
//	20·lg(1 + 10^(−d/20))
//
// 6.02 dB for equal ones. In the mean they are as loud as Sum has it.
func BeatPeak(d quantity.Decibel) quantity.Decibel {
	return quantity.Decibel(20 * math.Log10(1+math.Pow(10, -math.Abs(float64(d))/20)))
}

// SpeedsApart gives how far the speeds of two fans with the same number of
// blades should differ, the slower one at n, so that their blade tones are not
// heard to beat. From steady on nothing swells or fluctuates any more, but the
// tone is rough; from distinct on there are two tones:
//
//	steady   = 20 Hz/blades
//	distinct = Δf/blades, Δf the smaller of 300 Hz and the critical bandwidth
//	           at the mean of the two tones
//
// Harmonics beat too, faster in proportion; being weaker they count less. The
// other way is equal speeds, by one supply and one control: two fans on one
// voltage still differ by a few per cent (common practice), so that it takes a
// regulated speed. blades and n must be above 0, else the results are infinite
// or NaN. [Fastl], [ECMA418]
func SpeedsApart(blades float64, n quantity.Speed) (steady, distinct quantity.Speed) {
	slower := BladeTone(blades, n)
	beat := apart(slower)
	for range 20 { // the bandwidth grows by a tenth of the beat at most: each turn adds a digit
		beat = apart(slower + beat/2)
	}
	return quantity.Speed(fluctuationEnds / blades), quantity.Speed(float64(beat) / blades)
}
