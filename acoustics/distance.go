package acoustics

import (
	"math"

	"lowsone/catalog/quantity"
)

// LabelDistance is the distance rated levels are stated for where a label is
// silent (common practice).
const LabelDistance = quantity.Metre

// FromPower gives the sound pressure level 1 m from a source of sound power
// level lw that radiates evenly into free air: Lp = Lw − 11 dB. The exact
// figure is 10·lg 4π = 10.99 dB. [Bies] ch. 4.
func FromPower(lw quantity.SoundPowerLevel) quantity.SoundPressureLevel {
	return quantity.PressureLevel(lw.DB()).Plus(-quantity.PowerOverPressure)
}

// AtDistance carries a level from one distance to another in free air:
//
//	L(to) = L(from) − 20·lg(to/from)
//
// It holds for to and from above the size of the source, some fan diameters;
// nearer the true level is lower. Distances must be above 0, else the result is
// infinite or NaN. [Bies] ch. 4.
func AtDistance(l quantity.SoundPressureLevel, from, to quantity.Length) quantity.SoundPressureLevel {
	return l.Plus(quantity.Decibel(20 * math.Log10(float64(from/to))))
}
