package tabular

import (
	"strconv"
	"strings"
)

// maxRows is the most rows a sheet has in the common spreadsheets.
const maxRows = 1 << 20

// columnName writes the number of a column, counted from 1, in letters: 28 is AB.
func columnName(n int) string {
	var letters []byte
	for ; n > 0; n = (n - 1) / 26 {
		letters = append([]byte{byte('A' + (n-1)%26)}, letters...)
	}
	return string(letters)
}

// parseRef reads where a cell is, such as AB12, as numbers counted from 1. It has
// no answer beyond MaxColumns and maxRows.
func parseRef(ref string) (column, row int, ok bool) {
	i := 0
	for ; i < len(ref) && ref[i]|0x20 >= 'a' && ref[i]|0x20 <= 'z'; i++ {
		column = 26*column + int(ref[i]|0x20-'a') + 1
		if column > MaxColumns {
			return 0, 0, false
		}
	}
	row, ok = parseRow(ref[i:])
	return column, row, ok && column > 0
}

// parseRow reads the number of a row.
func parseRow(text string) (row int, ok bool) {
	if text == "" || !allDigits(text) || len(text) > len("1048576") {
		return 0, false
	}
	row, err := strconv.Atoi(text)
	return row, err == nil && row >= 1 && row <= maxRows
}

// placeText is how messages write a place: 12:3 for line 12, character 3 of a
// text, Fans!C12 for row 12, column 3 of a sheet. Parts that are not known are
// left out.
func placeText(sheet string, at Position) string {
	if sheet != "" && strings.Trim(sheet, sheetLetters) != "" {
		sheet = "'" + strings.ReplaceAll(sheet, "'", "''") + "'"
	}
	line := strconv.Itoa(at.Line)
	switch {
	case at.Line == 0:
		return sheet
	case sheet != "":
		return sheet + "!" + columnName(at.Column) + line
	case at.Column == 0:
		return line
	}
	return line + ":" + strconv.Itoa(at.Column)
}

// sheetLetters are those of a sheet's name that needs no quotes; other names stand
// in single ones, as in formulas.
const sheetLetters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789_äöüÄÖÜßéèêàçñ"

// Place is how messages write a place in a file that is written so.
func (d *Dialect) Place(at Position) string { return placeText(d.Sheet, at) }
