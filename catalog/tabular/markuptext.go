package tabular

import (
	"bytes"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"
)

// decoded is what a text of XML stands for: its entities and line ends as the
// characters they are. It is raw itself where there is nothing to do, else written
// into room.
func decoded(raw, room []byte, entities bool) (plain, newRoom []byte, err error) {
	if isPlain(raw) {
		return raw, room, nil
	}
	room = room[:0]
	for i := 0; i < len(raw); {
		c := raw[i]
		switch {
		case c == '&' && entities:
			r, size, err := entity(raw[i:])
			if err != nil {
				return nil, room, err
			}
			room = utf8.AppendRune(room, r)
			i += size
		case c == '\r':
			room = append(room, '\n')
			i++
			if i < len(raw) && raw[i] == '\n' {
				i++
			}
		default:
			r, size := utf8.DecodeRune(raw[i:])
			if r == utf8.RuneError && size == 1 {
				return nil, room, errors.New("it is no UTF-8")
			}
			if !isXMLRune(r) {
				return nil, room, fmt.Errorf("%U is no character of XML", r)
			}
			room = append(room, raw[i:i+size]...)
			i += size
		}
	}
	return room, room, nil
}

// isPlain reports whether a text is ASCII that stands for itself.
func isPlain(raw []byte) bool {
	for _, c := range raw {
		if c >= utf8.RuneSelf || c == '&' || c < ' ' && c != '\t' && c != '\n' {
			return false
		}
	}
	return true
}

// isXMLRune says what is a character, XML 1.0, section 2.2.
func isXMLRune(r rune) bool {
	return r == '\t' || r == '\n' || r == '\r' || r >= ' ' && r < 0xfffe || r > 0xffff
}

// entity reads an entity that text begins with: one of the five XML has, or the
// number of a character.
func entity(text []byte) (r rune, size int, err error) {
	const longest = 12
	end := bytes.IndexByte(text[:min(len(text), longest)], ';')
	if end < 0 {
		return 0, 0, errors.New("& begins no entity")
	}
	name := string(text[1:end])
	switch name {
	case "lt":
		r = '<'
	case "gt":
		r = '>'
	case "amp":
		r = '&'
	case "apos":
		r = '\''
	case "quot":
		r = '"'
	default:
		number, ok := strings.CutPrefix(name, "#")
		base := 10
		if hex, isHex := strings.CutPrefix(number, "x"); isHex {
			number, base = hex, 16
		}
		n, err := strconv.ParseUint(number, base, 32)
		if !ok || err != nil || n > utf8.MaxRune {
			return 0, 0, fmt.Errorf("&%s; is no entity of XML", name)
		}
		r = rune(n)
		if !utf8.ValidRune(r) {
			r = utf8.RuneError // half a surrogate pair
		}
	}
	if !isXMLRune(r) {
		return 0, 0, fmt.Errorf("%U is no character of XML", r)
	}
	return r, end + 1, nil
}

// unescaped turns _xHHHH_ into the character it stands for in the texts of a
// workbook, ECMA-376 part 1, 22.9.2.19 (ST_Xstring). Half a surrogate pair is no
// character.
func unescaped(s string) string {
	if !strings.Contains(s, "_x") {
		return s
	}
	var b strings.Builder
	for {
		i := strings.Index(s, "_x")
		if i < 0 {
			break
		}
		b.WriteString(s[:i])
		s = s[i:]
		r, ok := escapedRune(s)
		if !ok {
			b.WriteString(s[:2])
			s = s[2:]
			continue
		}
		b.WriteRune(r)
		s = s[len("_xHHHH_"):]
	}
	b.WriteString(s)
	return b.String()
}

// escapedRune reads an escape that text begins with.
func escapedRune(text string) (rune, bool) {
	if len(text) < len("_xHHHH_") || text[6] != '_' {
		return 0, false
	}
	code, err := strconv.ParseUint(text[2:6], 16, 16)
	return rune(code), err == nil
}
