package partscsv

import (
	"strings"

	"lowsone/catalog/tabular"
)

// Defuse keeps a spreadsheet from running a text cell as a formula: one that
// begins, behind any apostrophes, with one of = + - @ TAB CR gets an apostrophe
// in front. A number is left alone. Reading undoes exactly this, so that what
// was written is read back: a text that begins with apostrophes and such a sign
// gets one more apostrophe, and loses one.
func Defuse(text string) string {
	if !dangerous(text) || text[0] != '\'' && isNumber(text) {
		return text
	}
	return "'" + text
}

// fuse takes the apostrophe of Defuse away.
func fuse(text string) string {
	if text != "" && text[0] == '\'' && dangerous(text) {
		return text[1:]
	}
	return text
}

// dangerous says whether a spreadsheet would run the text, but for apostrophes
// in front.
func dangerous(text string) bool {
	rest := strings.TrimLeft(text, "'")
	return rest != "" && strings.IndexByte("=+-@\t\r", rest[0]) >= 0
}

func isNumber(text string) bool {
	_, err := tabular.ParseNumber(text, tabular.Point)
	return err == nil
}
