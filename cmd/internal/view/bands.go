package view

import (
	"strings"

	"lowsone/catalog/quantity"
)

// octaveStep is a ratio of frequencies between that of neighbouring third
// octaves, 1.26, and that of octaves, 2.
const octaveStep = 1.6

// bandsText gives unweighted band levels, each behind the frequency by which
// people call its band.
func bandsText(bands []quantity.BandLevel) string {
	parts := make([]string, len(bands))
	width := "octaves"
	for i, b := range bands {
		parts[i] = glued(hertz(b.Frequency) + " " + Trim(Fixed(float64(b.Level), 1)))
		if i > 0 && b.Frequency < octaveStep*bands[i-1].Frequency {
			width = "third octaves"
		}
	}
	return width + ", unweighted dB: " + strings.Join(parts, ", ")
}

// hertz writes a mid-band frequency: 31.5 Hz, 1.25 kHz.
func hertz(f quantity.Frequency) string {
	if f >= 1000*quantity.Hertz {
		return Trim(Digits(float64(f)/1000, 3)) + " kHz"
	}
	return Trim(Digits(float64(f), 3)) + " Hz"
}
