package partscsv

import (
	"strconv"

	"lowsone/catalog/tabular"
)

// plainNumber reads digits with at most one decimal mark, the most frequent
// cell, without taking it apart.
func plainNumber(text string, mark tabular.Mark) (float64, bool) {
	if mark == 0 {
		mark = tabular.Point
	}
	const most = 15 // digits that a float64 holds
	var room [most + 1]byte
	if len(text) == 0 || len(text) > len(room) {
		return 0, false
	}
	marked := false
	for i := 0; i < len(text); i++ {
		c := text[i]
		switch {
		case isDigit(c):
		case c == byte(mark) && !marked && i > 0 && i+1 < len(text):
			marked, c = true, '.'
		default:
			return 0, false
		}
		room[i] = c
	}
	v, err := strconv.ParseFloat(string(room[:len(text)]), 64)
	return v, err == nil
}

// parsePlain reads a number of a header; a comma may be its decimal mark.
func parsePlain(text string) (float64, error) {
	mark := tabular.Point
	for i := range len(text) {
		if text[i] == ',' {
			mark = tabular.Comma
		}
	}
	return tabular.ParseNumber(text, mark)
}
