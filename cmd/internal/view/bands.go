package view

import (
	"strings"

	"lowsone/catalog/quantity"
)

// octaveStep is a ratio of frequencies between that of neighbouring third
// octaves, 1.26, and that of octaves, 2.
const octaveStep = 1.6

// bandsText gives band levels as the tool's own CSV does, with fewer digits.
func bandsText(bands []quantity.BandLevel) string {
	parts := make([]string, len(bands))
	width := "octaves"
	for i, b := range bands {
		parts[i] = Trim(Fixed(float64(b.Frequency), 1)) + ":" + Trim(Fixed(float64(b.Level), 1))
		if i > 0 && b.Frequency < octaveStep*bands[i-1].Frequency {
			width = "third octaves"
		}
	}
	return width + ", unweighted, Hz:dB " + strings.Join(parts, "; ")
}
