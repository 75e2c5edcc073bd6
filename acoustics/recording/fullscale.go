package recording

import (
	"math"

	"lowsone/acoustics"
	"lowsone/catalog/quantity"
)

// FullScale is a level in dB re full scale: 0 dB is a mean square of 1 where the
// largest sample is 1, so that a sine which just reaches full scale has −3.01 dB.
// It says nothing of how loud a sound was; a [Calibration] does. -Inf is no
// sound, NaN a level that is not known.
type FullScale struct{ db float64 }

// DB gives the level in dB re full scale.
func (l FullScale) DB() float64 { return l.db }

// Above gives how far l lies above m. It holds for two recordings only if they
// were made with the same gain.
func (l FullScale) Above(m FullScale) quantity.Decibel { return quantity.Decibel(l.db - m.db) }

// Thirds holds levels re full scale, unweighted, of the third octaves of
// [acoustics.Thirds].
type Thirds [acoustics.NumThirds]FullScale

// ofPower gives the level of a mean square.
func ofPower(power float64) FullScale { return FullScale{10 * math.Log10(power)} }

// ratio gives the ratio of energies of db decibels.
func ratio(db float64) float64 { return math.Pow(10, db/10) }
