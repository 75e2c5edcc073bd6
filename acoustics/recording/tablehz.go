package recording

import (
	"math"
	"regexp"
	"strings"

	"lowsone/catalog/quantity"
	"lowsone/catalog/tabular"
)

// Where a third octave may lie that a person writes down, in Hz. "1.250" is
// 1250 Hz, for no one measures a band at 1.25 Hz.
const (
	lowestBand  = 15.0
	highestBand = 21000.0
	nearBand    = 0.03 // most that a frequency may lie off 10^(n/10) Hz
)

// frequencyUnit reads the unit of a frequency: the factor to Hz.
func frequencyUnit(unit string) (factor float64, ok bool) {
	switch unit = strings.ToLower(strings.Trim(unit, " .:[]()")); unit {
	case "":
		return 1, true
	case "k":
		return 1000, true
	}
	u, ok := quantity.UnitOf(quantity.DimFrequency, unit)
	return u.Factor, ok
}

// parseHz reads the frequency of a band: a number, a unit or a k behind it. bare
// is the factor of a number without unit. Of several decimal marks the first
// counts that makes a band, else the first that can be read.
func parseHz(cell string, bare float64, marks ...tabular.Mark) (hz float64, ok bool) {
	number, unit := cutNumber(cell)
	factor, ok := frequencyUnit(unit)
	if !ok || number == "" {
		return 0, false
	}
	if unit == "" {
		factor = bare
	}
	hz = math.NaN()
	for _, m := range marks {
		v, err := tabular.ParseNumber(number, m)
		if err != nil {
			continue
		}
		if isBand(v * factor) {
			return v * factor, true
		}
		if math.IsNaN(hz) {
			hz = v * factor
		}
	}
	return hz, !math.IsNaN(hz)
}

// marksOf lists the decimal marks that a column may have, the likely one first.
func marksOf(d tabular.Decision) []tabular.Mark {
	if d.Why == tabular.WhyColumn || d.Why == tabular.WhyForced {
		return []tabular.Mark{d.Mark}
	}
	return []tabular.Mark{d.Mark, otherMark(d.Mark)}
}

func otherMark(m tabular.Mark) tabular.Mark {
	if m == tabular.Comma {
		return tabular.Point
	}
	return tabular.Comma
}

// isBand says whether a third octave lies at f.
func isBand(f float64) bool {
	n := math.Round(10 * math.Log10(f))
	return f > lowestBand && f < highestBand && math.Abs(f/math.Pow(10, n/10)-1) <= nearBand
}

// cutNumber parts a number from what stands behind it.
func cutNumber(cell string) (number, rest string) {
	cell = strings.TrimSpace(cell)
	i := strings.IndexFunc(cell, func(r rune) bool { return !strings.ContainsRune("0123456789.,'+-−– \u00a0\u202f", r) })
	if i < 0 {
		i = len(cell)
	}
	return strings.TrimSpace(cell[:i]), strings.TrimSpace(cell[i:])
}

// inHeader finds a frequency with its unit in a header with other words, such as
// "LZeq 12,5 kHz [dB]".
var inHeader = regexp.MustCompile(`(?i)(?:^|[^0-9.,])([0-9][0-9.,]*)\s*(k?hz|k)\b`)

// behindBand is what may stand behind a bare frequency in a header.
var behindBand = regexp.MustCompile(`(?i)\s*[(\[]?\s*db.*$|\s*[(\[].*$`)

// headerHz finds the band that a header names: a number alone, perhaps with a
// level's unit behind it, or a number with the unit of a frequency among other
// words. A number that hangs on letters (L50) is none.
func headerHz(header string) (hz float64, ok bool) {
	header = strings.ReplaceAll(header, "_", " ")
	either := []tabular.Mark{tabular.Point, tabular.Comma}
	if m := inHeader.FindStringSubmatch(header); m != nil {
		if hz, ok = parseHz(m[1]+m[2], 1, either...); ok && isBand(hz) {
			return hz, true
		}
	}
	hz, ok = parseHz(behindBand.ReplaceAllString(header, ""), 1, either...)
	return hz, ok && isBand(hz)
}
