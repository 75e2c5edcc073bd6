package tabular

import (
	"fmt"
	"strings"
)

// Evidence is how many cells say something, and the first of them.
type Evidence struct {
	Cells int
	First Position
	Text  string // the first cell
}

// add counts a cell. A copy is kept, since the cell is cut out of a longer text.
func (e *Evidence) add(row *Row, column int) {
	if e.Cells == 0 {
		e.First, e.Text = row.At(column), strings.Clone(row.Fields[column])
	}
	e.Cells++
}

// Why names what a decimal mark was decided by.
type Why string

// What decides, the strongest first.
const (
	WhyForced    Why = "as given"
	WhyColumn    Why = "its own cells"
	WhyFile      Why = "the other columns"
	WhyTyped     Why = "its cells are numbers to the workbook"
	WhyDelimiter Why = "the delimiter"
	WhyAssumed   Why = "nothing in the file: assumed"
)

// Decision is the decimal mark of one column, and the evidence in its cells.
type Decision struct {
	Mark  Mark
	Why   Why
	Comma Evidence // cells that can only be read with a decimal comma
	Point Evidence // cells that can only be read with a decimal point
	// Ambiguous are cells that read either way, with different values.
	Ambiguous Evidence

	typed int // cells that the file itself says are numbers, and that show a mark
}

// Contradiction says where the cells of the column prove both marks, or is
// empty. In a column of words that may well be; in one of numbers it is an error
// in the file.
func (d Decision) Contradiction() string {
	if d.Comma.Cells == 0 || d.Point.Cells == 0 {
		return ""
	}
	return fmt.Sprintf("line %d has a decimal comma (%q), line %d a decimal point (%q)",
		d.Comma.First.Line, d.Comma.Text, d.Point.First.Line, d.Point.Text)
}

// proven is the mark the column's own cells prove, by the greater number where
// they contradict each other, or 0.
func (d Decision) proven() Mark {
	switch {
	case d.Comma.Cells > d.Point.Cells:
		return Comma
	case d.Point.Cells > d.Comma.Cells:
		return Point
	}
	return 0
}

// observe adds what a cell proves. A cell that is a number to the workbook proves
// nothing about those that are text.
func (d *Decision) observe(row *Row, column int) {
	if column < len(row.typed) && row.typed[column] {
		number, _, _ := strings.Cut(row.Fields[column], " ")
		if strings.IndexByte(number, byte(Point)) >= 0 {
			d.typed++
		}
		return
	}
	var seen [ambiguous + 1]bool
	eachNumber(row.Fields[column], func(token string) { seen[classify(token)] = true })
	if seen[provesComma] {
		d.Comma.add(row, column)
	}
	if seen[provesPoint] {
		d.Point.add(row, column)
	}
	if seen[ambiguous] {
		d.Ambiguous.add(row, column)
	}
}

// decide settles the mark of the file and of each column. Only the columns that
// vote have a say about the others.
//
// A column that proves a mark keeps it. The file's mark is that of most columns
// that prove one; between equals, what goes with the delimiter, then the number
// of cells. Without any proof a semicolon goes with a decimal comma, since that
// is why it delimits, and a comma with a decimal point.
func decide(evidence []Decision, delimiter rune, force Mark, votes func(column int) bool) (Trait[Mark], []Decision) {
	file, why := fileMark(evidence, delimiter, votes)
	if force != 0 {
		file = forced(force)
		why = WhyForced
	}
	columns := make([]Decision, len(evidence))
	for i, d := range evidence {
		d.Mark, d.Why = file.Value, why
		if own := d.proven(); own != 0 && force == 0 {
			d.Mark, d.Why = own, WhyColumn
		}
		columns[i] = d
	}
	return file, columns
}

func fileMark(evidence []Decision, delimiter rune, votes func(int) bool) (Trait[Mark], Why) {
	var columns, cells [2]int // comma, point
	for i, d := range evidence {
		if votes != nil && !votes(i) {
			continue
		}
		cells[0] += d.Comma.Cells
		cells[1] += d.Point.Cells
		switch d.proven() {
		case Comma:
			columns[0]++
		case Point:
			columns[1]++
		}
	}
	habit := habitOf(delimiter)
	switch {
	case columns[0] > columns[1]:
		return found(Comma, provenBy(columns[0], cells[0])), WhyFile
	case columns[1] > columns[0]:
		return found(Point, provenBy(columns[1], cells[1])), WhyFile
	case habit != 0:
		return found(habit, "goes with the delimiter"), WhyDelimiter
	case cells[0] > cells[1]:
		return found(Comma, provenBy(columns[0], cells[0])), WhyFile
	case cells[1] > cells[0]:
		return found(Point, provenBy(columns[1], cells[1])), WhyFile
	}
	return found(Point, "assumed: no cell shows it"), WhyAssumed
}

func provenBy(columns, cells int) string {
	return fmt.Sprintf("proven by %d cells in %d columns", cells, columns)
}

// habitOf is the decimal mark that goes with a delimiter, if any does.
func habitOf(delimiter rune) Mark {
	switch delimiter {
	case ';':
		return Comma
	case ',':
		return Point
	}
	return 0
}
