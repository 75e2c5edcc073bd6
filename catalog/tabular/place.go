package tabular

import (
	"bytes"
	"unicode/utf8"
)

// text is the record as it stands in the file, without its line end.
func (r *records) text() []byte {
	text := trimLineEnd(r.win.text(r.start, r.end))
	if r.undoubler != nil {
		return unstray(text)
	}
	return text
}

func trimLineEnd(b []byte) []byte {
	n := len(b)
	if n > 0 && b[n-1] == '\n' {
		n--
	}
	if n > 0 && b[n-1] == '\r' && (n == len(b) || n == len(b)-1) {
		n--
	}
	return b[:n]
}

// fieldPlace is where a cell begins, or the line of the record where it has none.
func (r *records) fieldPlace(i int) Position {
	if i >= len(r.fields) {
		return Position{Line: r.line}
	}
	line, column := r.csv.FieldPos(i)
	return r.place(line, column)
}

func (r *records) begins() int     { return r.line }
func (r *records) cells() []string { return r.fields }
func (r *records) typed() []bool   { return nil }
func (r *records) raw() string     { return string(r.text()) }
func (r *records) whole() []byte   { return r.win.text(r.start, r.end) }
func (r *records) tail() int64     { return r.end }

// cursor is a place in the current record that has been worked out. The next is
// counted on from there, so that asking for all cells from left to right takes
// one look at the record.
type cursor struct {
	offset       int // in the record
	line         int
	bytes, chars int // columns
}

// place turns a byte column of encoding/csv into one in characters.
func (r *records) place(line, byteColumn int) Position {
	c := r.cursor
	if c.line == 0 || line < c.line || line == c.line && byteColumn < c.bytes {
		c = cursor{line: r.line, bytes: 1, chars: 1}
	}
	text := r.win.text(r.start, r.end)
	for c.line < line {
		n := lineLength(text[c.offset:])
		if n < 0 {
			break
		}
		c = cursor{offset: c.offset + n, line: c.line + 1, bytes: 1, chars: 1}
	}
	step := min(byteColumn-c.bytes, len(text)-c.offset)
	c.chars += utf8.RuneCount(text[c.offset : c.offset+step])
	c.bytes += step
	c.offset += step
	r.cursor = c
	return Position{Line: line, Column: c.chars}
}

// offsetPlace is where the byte at an offset from the record's start stands.
func (r *records) offsetPlace(offset int) Position {
	before := r.win.text(r.start, r.start+int64(offset))
	line := r.line
	for {
		n := lineLength(before)
		if n < 0 {
			return Position{Line: line, Column: utf8.RuneCount(before) + 1}
		}
		before = before[n:]
		line++
	}
}

// physical is the text of one of the lines the record stands on, to the end of
// the record.
func (r *records) physical(line int) []byte {
	text := r.win.text(r.start, r.end)
	for at := r.line; at < line; at++ {
		n := lineLength(text)
		if n < 0 {
			break
		}
		text = text[n:]
	}
	return text
}

// lineLength is the length of the first line with its end, or -1 if it has none.
func lineLength(text []byte) int {
	i := bytes.IndexAny(text, "\r\n")
	switch {
	case i < 0:
		return -1
	case text[i] == '\r' && i+1 < len(text) && text[i+1] == '\n':
		return i + 2
	}
	return i + 1
}
