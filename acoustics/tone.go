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
// fade: |f − g|. HowHeard says what the ear makes of it.
func Beat(f, g quantity.Frequency) quantity.Frequency {
	return quantity.Frequency(math.Abs(float64(f - g)))
}

// A Harmonic is one of the tones of a fan's blades.
type Harmonic struct {
	Order     int // 1 is the blade tone itself
	Frequency quantity.Frequency
	Third     int // the third octave it falls in, -1 below and above them
}

// Harmonics gives the first count tones at whole multiples of a blade tone, as
// far as the third octaves reach. A tone that is not above 0 has none.
func Harmonics(tone quantity.Frequency, count int) []Harmonic {
	var list []Harmonic
	for order := 1; order <= count && tone > 0; order++ {
		f := quantity.Frequency(order) * tone
		third, ok := ThirdOf(f)
		switch {
		case !ok && f > OctaveHz(0):
			return list
		case !ok:
			third = -1
		}
		list = append(list, Harmonic{Order: order, Frequency: f, Third: third})
	}
	return list
}
