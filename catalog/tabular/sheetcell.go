package tabular

import (
	"math"
	"strconv"
	"strings"
)

// text is what the cell says, and whether it is a number to the workbook, or a
// time with a fraction, written with a point.
func (s *sheet) text(c *sheetCell) (text string, typed, ok bool) {
	switch c.kind {
	case "s":
		i, err := strconv.Atoi(strings.TrimSpace(string(c.value)))
		if err != nil || i < 0 || i >= len(s.shared) {
			return "", false, len(c.value) == 0
		}
		return s.shared[i], false, true
	case "b":
		return truthText(string(c.value)), false, true
	case "d":
		return isoText(string(c.value)), false, true
	case "", "n":
		text, typed = s.number(strings.TrimSpace(string(c.value)), c.style)
		return text, typed, true
	}
	// Text within the cell, the text a formula came to, an error such as #N/A.
	return unescaped(string(c.value)), false, true
}

// truthText writes a truth as a word.
func truthText(value string) string {
	switch value {
	case "1":
		return "true"
	case "0":
		return "false"
	}
	return value
}

// isoText writes a date of ISO 8601 as dayText does.
func isoText(value string) string {
	date, time, _ := strings.Cut(value, "T")
	time = strings.TrimSuffix(time, "Z")
	if strings.Trim(time, "0:.") == "" {
		return date
	}
	return strings.TrimSpace(date + " " + time)
}

// number writes a number as its style says it is to be taken, with the unit that
// stands in the style.
func (s *sheet) number(value string, style int) (text string, typed bool) {
	plain := plainDecimal(value)
	form := numberForm{}
	if style >= 0 && style < len(s.forms) {
		form = s.forms[style]
	}
	if plain && form.kind == plainForm {
		return withUnit(value, form.unit), true
	}
	if !isDecimal(value) {
		return value, false
	}
	v, err := strconv.ParseFloat(value, 64)
	if err != nil || math.IsInf(v, 0) {
		return value, false
	}
	if !plain {
		value = decimalText(v)
	}
	days, ok := "", false
	switch form.kind {
	case dateForm:
		days, ok = dayText(v, s.from1904)
	case elapsedForm:
		days, ok = elapsedText(v)
	case codeForm:
		if allDigits(value) {
			return strings.Repeat("0", max(0, form.digits-len(value))) + value, true
		}
	}
	if ok {
		return days, true
	}
	return withUnit(value, form.unit), true
}

// withUnit puts a unit behind a number.
func withUnit(value, unit string) string {
	if unit == "" {
		return value
	}
	return value + " " + unit
}

// wholeDigits is how many digits of a number a spreadsheet keeps. What stands
// beyond is left by reckoning in twos: 28.399999999999999 for 28.4.
const wholeDigits = 15

// plainDecimal reports whether a text is a number as people write it, with no more
// digits than count, or whole: 28.5, -3, 4006381333931.
func plainDecimal(text string) bool {
	digits := strings.TrimPrefix(text, "-")
	whole, fraction, point := strings.Cut(digits, ".")
	if whole == "" || !allDigits(whole) || point && (fraction == "" || !allDigits(fraction)) {
		return false
	}
	return !point || len(whole)+len(fraction) <= wholeDigits
}

// isDecimal reports whether a text is a number of XML Schema, but for infinities
// and the like: digits, a point, an exponent.
func isDecimal(text string) bool {
	return text != "" && strings.Trim(text, "0123456789+-.eE") == "" && strings.ContainsAny(text, "0123456789")
}

// decimalText writes a number without exponent, unless it is very large or small.
func decimalText(v float64) string {
	text := strconv.FormatFloat(v, 'e', wholeDigits-1, 64)
	rounded, err := strconv.ParseFloat(text, 64)
	if err != nil { // the last numbers there are round up to infinity
		rounded = v
	}
	if size := math.Abs(rounded); size != 0 && (size < 1e-9 || size >= 1e21) {
		return strconv.FormatFloat(rounded, 'e', -1, 64)
	}
	return strconv.FormatFloat(rounded, 'f', -1, 64)
}
