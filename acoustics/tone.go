package acoustics

import (
	"math"

	"lowsone/catalog/quantity"
)

// BladeTone gives the frequency at which a fan's blades pass a fixed point, its
// main tone: f = blades·n, n in revolutions per second. Harmonics lie at whole
// multiples of it.
func BladeTone(blades float64, n quantity.Speed) quantity.Frequency {
	return quantity.Frequency(blades * float64(n))
}

// TachFrequency gives the pulse frequency of a tach lead with that many pulses
// per revolution (usually 2) at speed n.
func TachFrequency(pulses float64, n quantity.Speed) quantity.Frequency {
	return quantity.Frequency(pulses * float64(n))
}

// Beat gives the frequency at which two tones of nearly the same pitch swell and
// fade: |f − g|. Above some 15 Hz the ear hears two tones instead.
func Beat(f, g quantity.Frequency) quantity.Frequency {
	return quantity.Frequency(math.Abs(float64(f - g)))
}
