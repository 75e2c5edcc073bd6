package catalog

import (
	"strconv"
	"strings"
	"unicode"
)

// running lists what a spreadsheet takes for the start of a formula, also in
// its full-width forms, and what it skips before looking.
const (
	running = "=+-@＝＋－＠"
	skipped = " \t\r\n"
)

// Guarded gives a text for a CSV cell, with an apostrophe before it where a
// spreadsheet would run it. A text that already stands behind apostrophes gets one more, so that
// Unguarded gives back exactly what went in. Numbers are left alone.
func Guarded(text string) string {
	if !runs(text) || plainNumber(text) {
		return text
	}
	return "'" + text
}

// Unguarded takes off the apostrophe that Guarded put there.
func Unguarded(text string) string {
	if rest, ok := strings.CutPrefix(text, "'"); ok && runs(rest) {
		return rest
	}
	return text
}

// runs says whether a formula, a tab or a carriage return stands at the start
// of text or behind apostrophes there.
func runs(text string) bool {
	core := strings.TrimLeft(text, "'")
	if strings.HasPrefix(core, "\t") || strings.HasPrefix(core, "\r") {
		return true
	}
	core = strings.TrimLeft(core, skipped)
	return core != "" && strings.ContainsRune(running, []rune(core)[0])
}

func plainNumber(text string) bool {
	if strings.ContainsAny(text, "xXpPiInN_") { // hexadecimal, Inf, NaN: no spreadsheet reads them as numbers
		return false
	}
	_, err := strconv.ParseFloat(text, 64)
	return err == nil
}

// Printable makes white space a blank and drops what has no shape, for
// strings.Map.
func Printable(r rune) rune {
	switch {
	case unicode.IsSpace(r):
		return ' '
	case unicode.IsControl(r), unicode.Is(unicode.Cf, r):
		return -1
	}
	return r
}
