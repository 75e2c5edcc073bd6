package tabular

import (
	"slices"
	"strings"
	"unicode/utf8"
)

// Row is one record of a file. A row that [File.Rows] hands out is good until
// the next one is asked for, and so are its Fields; Clone keeps it.
type Row struct {
	// Line is the physical line the row begins on.
	Line int
	// Fields are the cells, as they stand between delimiters and quotes. A row
	// that is not ragged has exactly one for each column of the header.
	Fields []string
	// Cells is how many cells the row has, without surplus empty ones at its end.
	Cells int
	// Want is how many the header has.
	Want int
	// Ragged says that Cells cannot be matched to the columns.
	Ragged bool

	from  source     // while it is the current row
	kept  []Position // of the cells, once cloned
	raw   string
	typed []bool // which cells are numbers to the file itself
}

// At is where the cell of a column begins; for a cell the row does not have it
// is the line of the row alone.
func (r *Row) At(column int) Position {
	switch {
	case column < 0:
	case r.from != nil:
		return r.from.fieldPlace(column)
	case column < len(r.kept):
		return r.kept[column]
	}
	return Position{Line: r.Line}
}

// Raw is the row as it stands in the file, decoded, with its quotes, delimiters
// and inner line ends, without the line end behind it. A row of a sheet is
// written as one of a CSV with commas.
func (r *Row) Raw() string {
	if r.from != nil {
		return r.from.raw()
	}
	return r.raw
}

// Clone returns a copy that stays good.
func (r *Row) Clone() *Row {
	c := *r
	c.Fields, c.typed = slices.Clone(r.Fields), slices.Clone(r.typed)
	c.raw = r.Raw()
	if r.from != nil {
		c.kept = make([]Position, len(r.from.cells()))
		for i := range c.kept {
			c.kept[i] = r.from.fieldPlace(i)
		}
	}
	c.from = nil
	return &c
}

// width is how many columns a header has: wide with and narrow without the
// cells at its end that have no name. A row may have any number between.
//
// The rows of a sheet have no ends, so any number fits. Its width is open until
// all rows have been seen.
type width struct {
	narrow, wide int
	open         bool
}

// take makes r the row of the current record.
func (r *Row) take(from source, w width) {
	r.from = from
	r.Line = from.begins()
	r.Fields = append(r.Fields[:0], from.cells()...)
	r.typed = append(r.typed[:0], from.typed()...)
	r.fit(w)
}

// fit matches the cells to the columns.
func (r *Row) fit(w width) {
	if w.open {
		w.narrow, w.wide = 0, filled(r.Fields)
	}
	for len(r.Fields) > w.wide && isBlank(r.Fields[len(r.Fields)-1]) {
		r.Fields = r.Fields[:len(r.Fields)-1]
	}
	r.Cells, r.Want = len(r.Fields), w.wide
	r.Ragged = r.Cells < w.narrow || r.Cells > w.wide
	for !r.Ragged && len(r.Fields) < w.wide {
		r.Fields = append(r.Fields, "")
	}
}

// isBlank reports whether a cell holds nothing a person would see.
func isBlank(cell string) bool {
	if cell == "" {
		return true
	}
	if c := cell[0]; c > ' ' && c < utf8.RuneSelf {
		return false
	}
	return strings.Trim(cell, blanks) == ""
}

// blanks are the characters of an empty cell and around a header: white space,
// spaces of fixed width, the byte order mark, the old end-of-file mark.
const blanks = " \t\n\v\r\u0085\u00a0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u200b\u2028\u2029\u202f\u205f\u3000\ufeff\x1a"

// allBlank reports whether a record is no row.
func allBlank(fields []string) bool {
	for _, f := range fields {
		if !isBlank(f) {
			return false
		}
	}
	return true
}
