package tabular

import (
	"bytes"
	"unicode/utf8"
)

// text is the record as it stands in the file, without its line end.
func (r *records) text() []byte {
	return trimLineEnd(r.win.text(r.start, r.end))
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

// fieldPlace is where a cell begins.
func (r *records) fieldPlace(i int) Position {
	line, column := r.csv.FieldPos(i)
	return r.place(line, column)
}

// place turns a byte column of encoding/csv into one in characters.
func (r *records) place(line, byteColumn int) Position {
	text := r.physical(line)
	before := text[:min(byteColumn-1, len(text))]
	return Position{Line: line, Column: utf8.RuneCount(before) + 1}
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
