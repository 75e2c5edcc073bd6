package partscsv

import (
	"strconv"
	"strings"
)

// What a spreadsheet may have made of a number: a date, a time, an error. Their
// digits are never values.
const (
	dateFault  = "a date, not a value"
	timeFault  = "a time of day, not a value"
	errorFault = "an error of a spreadsheet, not a value"
)

// turnedFault says what a cell is that a spreadsheet turned into something else;
// empty for others.
func turnedFault(text string) string {
	if text == "" {
		return ""
	}
	if last := text[len(text)-1]; text[0] == '#' && (last == '!' || last == '?') {
		return errorFault
	}
	date, time, both := strings.Cut(text, " ")
	switch {
	case isDate(date) && (!both || isClock(strings.TrimSpace(time))):
		return dateFault
	case isClock(text):
		return timeFault
	}
	return ""
}

// turnedPart doubts a part number that a spreadsheet may have made of another;
// empty for others.
func turnedPart(text string) string {
	const check = ": look at the list, and give the column the form of text there"
	switch {
	case text == "" || !isDigit(text[0]):
	case len(text) == len("2029-06-25") && isDate(text):
		return "a date: a spreadsheet may have made it of a part number" + check
	case isScientific(text):
		return "a number with an exponent: a spreadsheet may have cut it from a longer part number" + check
	}
	return ""
}

// isScientific says whether a text is a number as spreadsheets show long ones:
// 1.23457E+12.
func isScientific(text string) bool {
	mantissa, exponent, ok := strings.Cut(text, "E+")
	whole, fraction, _ := strings.Cut(strings.Replace(mantissa, ",", ".", 1), ".")
	return ok && len(whole) == 1 && digits(whole) && (fraction == "" || digits(fraction)) && len(exponent) >= 2 && digits(exponent)
}

// isDate says whether a text is a date in figures: 2029-06-25, 25.06.2029, 25.6.29,
// 6/25/2029. Two figures for the year are enough between points alone, where three
// groups are no range and no pair.
func isDate(text string) bool {
	for _, sign := range [...]string{"-", ".", "/"} {
		groups := strings.Split(text, sign)
		if len(groups) != 3 {
			continue
		}
		if year(groups[0], 4) {
			return within(groups[1], 12) && within(groups[2], 31)
		}
		days := within(groups[0], 31) && within(groups[1], 31) && (within(groups[0], 12) || within(groups[1], 12))
		return days && (year(groups[2], 4) || sign == "." && year(groups[2], 2))
	}
	return false
}

// isClock says whether a text is a time with seconds: 12:30:00, 12:30:00.500.
func isClock(text string) bool {
	whole, fraction, _ := strings.Cut(text, ".")
	groups := strings.Split(whole, ":")
	return len(groups) == 3 && digits(groups[0]) && sixties(groups[1]) && sixties(groups[2]) && (fraction == "" || digits(fraction))
}

// year says whether a group is a year of so many figures.
func year(group string, figures int) bool { return len(group) == figures && digits(group) }

// within says whether a group is a number from 1 to most, of two figures at most.
func within(group string, most int) bool {
	n, err := strconv.Atoi(group)
	return err == nil && len(group) <= 2 && digits(group) && 1 <= n && n <= most
}

// sixties says whether a group is minutes or seconds.
func sixties(group string) bool { return len(group) == 2 && digits(group) && group < "60" }

func digits(text string) bool { return text != "" && strings.Trim(text, "0123456789") == "" }
