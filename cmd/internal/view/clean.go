package view

import (
	"io"
	"strings"
	"unicode/utf8"
)

// Clean makes a text from a catalogue safe for a terminal and keeps it on one
// line: white space becomes a blank, control characters their pictures (␛ for
// ESC), what turns the direction of writing and what is no UTF-8 the
// replacement character.
func Clean(text string) string {
	if !strings.ContainsFunc(text, unsafe) && utf8.ValidString(text) {
		return text
	}
	return strings.TrimSpace(strings.Map(picture, text))
}

// unsafe reports whether a terminal would do anything but show r.
func unsafe(r rune) bool { return r < ' ' || r == utf8.RuneError || hidden(r) }

// hidden reports whether r is a control character above ASCII's first 32, a
// line or paragraph separator, or a mark that turns the direction of writing
// or has no width.
func hidden(r rune) bool {
	switch {
	case r >= 0x7f && r <= 0x9f:
		return true
	case r == 0x061c, r >= 0x200b && r <= 0x200f, r >= 0x2028 && r <= 0x202e, r >= 0x2060 && r <= 0x206f, r == 0xfeff:
		return true
	}
	return false
}

func picture(r rune) rune {
	switch {
	case r == '\t', r == '\n', r == '\r', r == '\v', r == '\f', r == 0x2028, r == 0x2029:
		return ' '
	case r < ' ':
		return 0x2400 + r
	case r == 0x7f:
		return '␡'
	case hidden(r):
		return utf8.RuneError
	}
	return r
}

// cleaning cleans what passes through it to a terminal, line by line. Its user
// writes whole characters.
type cleaning struct{ w io.Writer }

// Write cleans text and passes it on.
func (c cleaning) Write(text []byte) (int, error) {
	clean := strings.Map(func(r rune) rune {
		if r == '\n' {
			return r
		}
		return picture(r)
	}, string(text))
	if _, err := io.WriteString(c.w, clean); err != nil {
		return 0, err
	}
	return len(text), nil
}
