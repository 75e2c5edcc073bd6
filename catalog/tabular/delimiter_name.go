package tabular

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// NoDelimiter marks a file of one column: nothing in it parts cells.
const NoDelimiter rune = -1

// delimiterNames are the words for delimiters, in the order they are shown.
var delimiterNames = []struct {
	name string
	r    rune
}{
	{"comma", ','},
	{"semicolon", ';'},
	{"tab", '\t'},
	{"bar", '|'},
	{"none", NoDelimiter},
}

// ParseDelimiter reads the name of a delimiter (comma, semicolon, tab, bar,
// none) or the one character it is.
func ParseDelimiter(text string) (rune, error) {
	for _, d := range delimiterNames {
		if strings.EqualFold(text, d.name) {
			return d.r, nil
		}
	}
	r, size := utf8.DecodeRuneInString(text)
	if size == 0 || size != len(text) || !usableDelimiter(r) {
		return 0, fmt.Errorf("delimiter %q is none of comma, semicolon, tab, bar, none, or one character other than a quote mark or a line end", text)
	}
	return r, nil
}

// DelimiterName is the name ParseDelimiter reads, or the character itself.
func DelimiterName(r rune) string {
	for _, d := range delimiterNames {
		if d.r == r {
			return d.name
		}
	}
	return string(r)
}

// usableDelimiter reports whether encoding/csv can part cells at r. A form feed
// is dropped before it could part anything.
func usableDelimiter(r rune) bool {
	switch r {
	case 0, '"', '\r', '\n', '\f', utf8.RuneError:
		return false
	}
	return r == NoDelimiter || utf8.ValidRune(r)
}

// comma is what encoding/csv is told to part cells at. Form feeds never reach
// it, so it finds none of them in a file of one column.
func comma(delimiter rune) rune {
	if delimiter == NoDelimiter {
		return '\f'
	}
	return delimiter
}
