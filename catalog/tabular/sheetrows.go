package tabular

import (
	"bytes"
	"context"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
)

// sheet is one sheet of a workbook.
type sheet struct {
	*workbook
	name   string
	part   string
	shared []string
	forms  []numberForm

	// Known only once all rows have been seen:
	end    int     // how many columns count; 0 for all
	marks  []Mark  // of the columns with cells that are numbers
	merges []merge // of several rows
	header int     // its row
}

// rows begins to read the sheet.
func (s *sheet) rows(ctx context.Context) (*sheetRows, error) {
	if err := s.mustHave(s.part); err != nil {
		return nil, err
	}
	r, err := s.open(ctx, s.part, MaxSheet)
	if err != nil {
		return nil, err
	}
	return &sheetRows{sheet: s, xml: newMarkup(r), spread: newSpread(s.merges, s.header)}, nil
}

// sheetRows reads the rows of a sheet, ECMA-376 part 1, 18.3.1.73. Rows that are
// not there have no cells.
type sheetRows struct {
	sheet  *sheet
	xml    *markup
	spread *spread

	row     int // number of the current row
	fields  []string
	isTyped []bool
	cell    sheetCell
	size    int // bytes of text in the row
	total   int // and in all rows
	seen    sheetSeen
	line    bytes.Buffer // for raw
	csv     *csv.Writer
}

// sheetSeen is what a reader should know about a sheet.
type sheetSeen struct {
	cells    []int // that are not blank, by column
	merges   []merge
	hidden   int      // rows
	uncached int      // formulas without a value
	first    Position // of the first of them
}

// next reads one row, or returns io.EOF behind the last, an *Error, or the error
// of a context.
func (s *sheetRows) next() error {
	for {
		if err := s.xml.next(); err != nil {
			return s.explain(err)
		}
		m := s.xml
		switch {
		case m.is(opens, "sheetData", "row"):
			if err := s.readRow(); err != nil {
				return s.explain(err)
			}
			return nil
		case m.is(opens, "mergeCells", "mergeCell"):
			if err := s.takeMerge(); err != nil {
				return err
			}
		}
	}
}

// explain turns an error of markup into one of ours.
func (s *sheetRows) explain(err error) error {
	var own *Error
	switch {
	case err == io.EOF:
		return io.EOF
	case errors.Is(err, errLong):
		return s.tooLong()
	case errors.As(err, &own) && own.Sheet != "":
		return own
	}
	broken := s.sheet.broken(s.sheet.part, err)
	if errors.As(broken, &own) {
		own.Sheet, own.At = s.sheet.name, Position{Line: s.row}
	}
	return broken
}

func (s *sheetRows) takeMerge() error {
	m, ok := parseMerge(s.xml.attr("ref"))
	if ok {
		s.seen.merges = append(s.seen.merges, m)
	}
	if len(s.seen.merges) > maxMerges {
		return s.fail(ErrTooLarge, Position{}, "more than %d cells of the sheet go over several rows", maxMerges)
	}
	return nil
}

// readRow reads the row that has just opened.
func (s *sheetRows) readRow() error {
	if err := s.beginRow(); err != nil {
		return err
	}
	column := 0
	for {
		if err := s.xml.next(); err != nil {
			return err
		}
		switch {
		case s.xml.is(closes, "sheetData", "row"):
			s.endRow()
			return nil
		case s.xml.is(opens, "row", "c"):
			var err error
			if column, err = s.readCell(column); err != nil {
				return err
			}
		}
	}
}

func (s *sheetRows) beginRow() error {
	before := s.row
	s.row++
	if number := s.xml.attr("r"); number != "" {
		row, ok := parseRow(number)
		if !ok {
			return s.fail(ErrDamaged, Position{Line: before}, "%q is no number of a row", number)
		}
		s.row = row
	}
	switch {
	case s.row <= before:
		return s.fail(ErrDamaged, Position{Line: s.row}, "row %d stands behind row %d", s.row, before)
	case s.row > maxRows:
		return s.fail(ErrTooLarge, Position{Line: before}, "the sheet has more than %d rows", maxRows)
	}
	if isTrue(s.xml.attr("hidden")) {
		s.seen.hidden++
	}
	s.fields, s.isTyped, s.size = s.fields[:0], s.isTyped[:0], 0
	return nil
}

// endRow gives the row its last form.
func (s *sheetRows) endRow() {
	if !s.blank() {
		s.spread.fill(s)
	}
	for i, typed := range s.isTyped {
		if typed && i < len(s.sheet.marks) && s.sheet.marks[i] == Comma {
			s.fields[i] = withComma(s.fields[i])
		}
	}
}

// withComma writes a number, which a unit may stand behind, with a decimal comma.
func withComma(text string) string {
	number, unit, _ := strings.Cut(text, " ")
	return withUnit(strings.Replace(number, ".", ",", 1), unit)
}

// set puts a text into the row.
func (s *sheetRows) set(column int, text string, typed bool) {
	for len(s.fields) <= column {
		s.fields, s.isTyped = append(s.fields, ""), append(s.isTyped, false)
	}
	s.fields[column], s.isTyped[column] = text, typed
}

func (s *sheetRows) tooLong() error {
	return s.fail(ErrTooLong, Position{Line: s.row}, "the row holds more than %d bytes of text", MaxRecord)
}

func (s *sheetRows) fail(kind error, at Position, format string, args ...any) *Error {
	return &Error{File: s.sheet.file, Sheet: s.sheet.name, At: at, Reason: fmt.Sprintf(format, args...), Err: kind}
}

func (s *sheetRows) begins() int     { return s.row }
func (s *sheetRows) cells() []string { return s.fields }
func (s *sheetRows) typed() []bool   { return s.isTyped }
func (s *sheetRows) blank() bool     { return allBlank(s.fields) }
func (s *sheetRows) whole() []byte   { return nil }
func (s *sheetRows) tail() int64     { return s.xml.offset() }

func (s *sheetRows) fieldPlace(column int) Position {
	return Position{Line: s.row, Column: column + 1}
}

// raw is the row as a CSV with commas has it.
func (s *sheetRows) raw() string {
	if s.csv == nil {
		s.csv = csv.NewWriter(&s.line)
	}
	s.line.Reset()
	_ = s.csv.Write(s.fields[:filled(s.fields)]) // a Buffer takes everything
	s.csv.Flush()
	return strings.TrimSuffix(s.line.String(), "\n")
}
