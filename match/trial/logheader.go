package trial

import (
	"slices"
	"strings"
	"unicode"

	"lowsone/catalog/quantity"
)

// kelvin is the absolute temperature, which no sheet of a fan has.
var kelvin = quantity.Unit{Symbol: "K", Dimension: quantity.DimTemperature, Factor: 1, Offset: -273.15}

// temperatureUnit finds the unit of a temperature by its spelling.
func temperatureUnit(spelling string) (quantity.Unit, bool) {
	if quantity.Fold(spelling) == "k" || quantity.Fold(spelling) == "kelvin" {
		return kelvin, true
	}
	return quantity.UnitOf(quantity.DimTemperature, spelling)
}

// words parts a header into its words: "heat_sink [°C]" has heat, sink and °C.
func words(header string) []string {
	return strings.FieldsFunc(header, func(r rune) bool { return unicode.IsSpace(r) || strings.ContainsRune("_[](){}/,;|:", r) })
}

// timeWords name a column of times in four languages; the first ones are sure.
var (
	sureTimeWords = []string{"time", "elapsed", "timestamp", "zeit", "uhrzeit", "zeitstempel", "temps", "heure", "tiempo", "hora"}
	timeWords     = []string{"t", "date", "datum", "fecha", "minutes", "minuten", "minutos", "seconds", "sekunden", "segundos", "secondes", "hours", "stunden", "heures", "horas", "min", "sec", "s", "h"}
	countWords    = []string{"no", "no.", "nr", "nr.", "#", "n", "record", "sample", "index", "id", "count", "nummer", "row", "scan", "sweep"}
)

// timeScore says how much a column looks like that of times. A date alone is
// none: its cells hold no clock.
func timeScore(header string, cells []string) int {
	if len(cells) == 0 || !clockLike(cells[0]) {
		return 0
	}
	score := 0
	for _, w := range words(strings.ToLower(header)) {
		switch {
		case slices.Contains(sureTimeWords, w):
			score = max(score, 3)
		case slices.Contains(timeWords, w):
			score = max(score, 1)
		}
	}
	if score > 0 && strings.Contains(cells[0], ":") {
		score++
	}
	return score
}

// clockLike says whether a cell may hold a time: a number, or a clock.
func clockLike(cell string) bool {
	return strings.ContainsAny(cell, "0123456789") && !(strings.Count(cell, "-")+strings.Count(cell, ".")+strings.Count(cell, "/") == 2 && !strings.Contains(cell, ":"))
}

// meaning tells what a header says of a column: the name of the probe, the unit
// of its temperatures, or why it is none.
func meaning(header string) (name string, unit quantity.Unit, why string) {
	all := words(header)
	if len(all) == 0 {
		return header, quantity.Unit{}, ""
	}
	lower := strings.ToLower(strings.Join(all, " "))
	if slices.Contains(countWords, lower) {
		return header, quantity.Unit{}, "counts the rows"
	}
	if slices.ContainsFunc(words(strings.ToLower(header)), func(w string) bool {
		return slices.Contains(sureTimeWords, w) || w == "date" || w == "datum" || w == "fecha"
	}) {
		return header, quantity.Unit{}, "is a time"
	}
	last := all[len(all)-1]
	switch u, ok := temperatureUnit(last); {
	case ok && len(all) > 1:
		return strings.Join(all[:len(all)-1], " "), u, ""
	case ok && strings.Contains(last, "°"):
		return header, u, ""
	}
	if other := otherUnit(last); other && len(all) > 1 {
		return header, quantity.Unit{}, "is no temperature"
	}
	return strings.TrimSpace(header), quantity.Unit{}, ""
}

// otherUnit says whether a word is a unit of something else.
func otherUnit(word string) bool {
	return slices.Contains([]string{"%", "%rh", "rh", "mv", "lx", "lux", "bar", "g"}, strings.ToLower(word)) || len(quantity.UnitsSpelled(word)) > 0
}

// headerScore says how much a row looks like the header of a log: it names a
// time, and holds no numbers.
func headerScore(cells []string) float64 {
	score := 0.0
	for _, cell := range cells {
		for _, w := range words(strings.ToLower(cell)) {
			if slices.Contains(sureTimeWords, w) || slices.Contains(timeWords, w) {
				score = 1
			}
		}
	}
	filled := slices.DeleteFunc(slices.Clone(cells), func(c string) bool { return strings.TrimSpace(c) == "" })
	for _, cell := range filled {
		if first := []rune(strings.TrimSpace(cell))[0]; unicode.IsDigit(first) || first == '-' || first == '+' {
			return 0
		}
	}
	if len(filled) < 2 {
		return 0
	}
	return score
}
