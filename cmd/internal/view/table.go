package view

import (
	"io"
	"slices"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"
)

// Column is one column of a Table.
type Column struct {
	Title string
	Unit  string // below the title
	// Number puts the column right, its decimal points below each other.
	Number bool
	// Wrap lets a column of words be broken where the terminal is narrow.
	Wrap bool
	// Optional leaves the column out where no row has anything in it.
	Optional bool
	// Spare leaves the column out where the terminal is too narrow: the highest
	// first, of equal ones the last first; 0 never.
	Spare int
}

// Table is a table for people. Its cells are cleaned when they are written.
type Table struct {
	Columns []Column
	Rows    [][]string
	Notes   []string // under the table, one a line
	Whole   string   // the form of output that has all columns; empty: csv

	parts []int // the rows that a line stands above
}

// Part draws a line between the rows added so far and those that follow.
func (t *Table) Part() { t.parts = append(t.parts, len(t.Rows)) }

// Add appends a row.
func (t *Table) Add(cells ...string) { t.Rows = append(t.Rows, cells) }

// gap stands between columns; beyond is what the line under the header has of
// it after the last one.
const (
	gap    = "  "
	beyond = "──"
)

// Write writes the table.
func (t *Table) Write(w io.Writer, s Style) error {
	cells := t.cells()
	keep, widths := t.fit(cells, s.Width)
	tw := table.NewWriter()
	tw.SetStyle(plainStyle())
	tw.AppendHeader(t.header(keep, s))
	for i, row := range cells {
		if slices.Contains(t.parts, i) {
			tw.AppendSeparator()
		}
		tw.AppendRow(pick(row, keep))
	}
	tw.SetColumnConfigs(t.configs(keep, widths))
	var b strings.Builder
	for line := range strings.Lines(tw.Render() + "\n") {
		b.WriteString(tidy(line))
		b.WriteByte('\n')
	}
	for _, note := range append(t.leftOut(cells, keep, s.Width), t.Notes...) {
		b.WriteString(s.Faint(Clean(note)))
		b.WriteByte('\n')
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// tidy drops from a line what the table library puts behind its last column,
// and makes figure blanks blanks.
func tidy(line string) string {
	line = strings.TrimRight(strings.ReplaceAll(line, figureBlank, " "), " \n")
	return strings.TrimRight(strings.TrimSuffix(line, beyond), " ")
}

// cells gives the rows cleaned, with the decimal points of number columns
// aligned.
func (t *Table) cells() [][]string {
	cells := make([][]string, len(t.Rows))
	for i, row := range t.Rows {
		cells[i] = make([]string, len(t.Columns))
		for j := range t.Columns {
			if j < len(row) {
				cells[i][j] = Clean(row[j])
			}
		}
	}
	for j, c := range t.Columns {
		if c.Number {
			alignPoints(cells, j)
		}
	}
	return cells
}

// alignPoints fills the numbers of a column with blanks on their right so that
// their decimal points stand below each other once they are aligned right.
func alignPoints(cells [][]string, j int) {
	most := 0
	for _, row := range cells {
		most = max(most, text.StringWidth(fraction(row[j])))
	}
	for _, row := range cells {
		if row[j] != "" {
			row[j] += strings.Repeat(figureBlank, most-text.StringWidth(fraction(row[j])))
		}
	}
}

// fraction gives what follows the whole part of the number in a cell: its
// decimals, and marks and units behind them. A word such as "yes" has none.
func fraction(cell string) string {
	if i := strings.IndexByte(cell, '.'); i >= 0 {
		return cell[i:]
	}
	i := strings.LastIndexAny(cell, "0123456789")
	if i < 0 && text.StringWidth(cell) > 1 {
		return ""
	}
	return cell[i+1:]
}

// figureBlank is a blank at which nothing is trimmed or broken, until tidy
// makes it one.
const figureBlank = "\u2800"

// glued keeps a number and its unit on one line of a cell that may wrap.
func glued(text string) string { return strings.ReplaceAll(text, " ", figureBlank) }

// kept lists the columns to show.
func (t *Table) kept(cells [][]string) []int {
	var keep []int
	for j, c := range t.Columns {
		filled := func(row []string) bool {
			cell := strings.Trim(row[j], figureBlank)
			return cell != "" && cell != Unknown
		}
		if !c.Optional || slices.ContainsFunc(cells, filled) {
			keep = append(keep, j)
		}
	}
	return keep
}

func (t *Table) header(keep []int, s Style) table.Row {
	units := slices.ContainsFunc(keep, func(j int) bool { return t.Columns[j].Unit != "" })
	var row table.Row
	for _, j := range keep {
		title := s.Bold(t.Columns[j].Title)
		if units {
			title += "\n" + s.Faint(t.Columns[j].Unit)
		}
		row = append(row, title)
	}
	return row
}

func pick(row []string, keep []int) table.Row {
	var out table.Row
	for _, j := range keep {
		out = append(out, row[j])
	}
	return out
}

func (t *Table) configs(keep, widths []int) []table.ColumnConfig {
	var configs []table.ColumnConfig
	for n, j := range keep {
		c := table.ColumnConfig{Number: n + 1, Align: text.AlignLeft, AlignHeader: text.AlignLeft,
			WidthMax: widths[n], WidthMaxEnforcer: wrapSoft}
		if t.Columns[j].Number {
			c.Align, c.AlignHeader = text.AlignRight, text.AlignRight
		}
		configs = append(configs, c)
	}
	return configs
}

// plainStyle has no lines but the one under the header.
func plainStyle() table.Style {
	style := table.StyleLight
	style.Format.Header = text.FormatDefault // else m³/h becomes M³/H
	style.Options = table.OptionsNoBordersAndSeparators
	style.Options.SeparateHeader = true
	style.Box.PaddingLeft = ""
	style.Box.PaddingRight = gap
	style.Color = table.ColorOptions{}
	return style
}
