package view

import (
	"cmp"
	"fmt"
	"io"
	"strconv"
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/intake"
	"lowsone/catalog/partscsv"
	"lowsone/catalog/tabular"
)

// Import is what became of an import.
type Import struct{ intake.Account }

// Text writes how the file was read, what its columns were taken for, and what
// became of its rows.
func (m *Import) Text(w io.Writer, style Style) error {
	p := &printer{w: w, style: style}
	p.wrapped("", fmt.Sprintf("%s: %s", Clean(m.File), dialectWords(m.Format)))
	for _, note := range m.Format.Notes {
		p.wrapped("  ", Clean(note))
	}
	p.line("")
	if p.err == nil {
		p.err = m.columnTable().Write(w, style)
	}
	m.columnNotes(p)
	m.warnings(p)
	m.rejects(p)
	m.totals(p)
	return p.err
}

// dialectWords says how a file is written; what was forced is marked so.
func dialectWords(d tabular.Dialect) string {
	words := []string{
		traitWord(d.Encoding.Forced, d.Encoding.Value),
		traitWord(d.Delimiter.Forced, delimiterWord(d.Delimiter.Value)),
		traitWord(d.Decimal.Forced, "decimal "+markWord(d.Decimal.Value)),
		traitWord(d.HeaderLine.Forced, "header on line "+strconv.Itoa(d.HeaderLine.Value)),
	}
	return strings.Join(words, ", ")
}

func traitWord(forced bool, word string) string {
	if forced {
		return word + " (as given)"
	}
	return word
}

func delimiterWord(r rune) string {
	if r == tabular.NoDelimiter {
		return "one column"
	}
	return tabular.DelimiterName(r) + "-separated"
}

func markWord(m tabular.Mark) string {
	if m == tabular.Comma {
		return "comma"
	}
	return "point"
}

func (m *Import) columnTable() *Table {
	t := &Table{Columns: []Column{
		{Title: "header", Wrap: true},
		{Title: "read as", Wrap: true},
		{Title: "unit"},
		{Title: "because", Wrap: true},
		{Title: "samples", Wrap: true},
	}}
	for i := range m.Columns {
		c := &m.Columns[i]
		why := cmp.Or(c.Why, string(c.How))
		if !c.Taken() {
			why = c.Why
		}
		t.Add(c.Header, readAs(c), c.Unit, why, sampleText(c.Samples))
	}
	return t
}

// readAs names what a column is read into.
func readAs(c *partscsv.Column) string {
	if !c.Taken() {
		return "(kept as it is)"
	}
	var names []string
	for _, id := range c.Fields {
		names = append(names, catalog.Fields[id].Name)
	}
	text := strings.Join(names, ", ")
	if c.Check {
		text += " (check)"
	}
	return text
}

// sampleText shows cells and what was read from them, where that is not the
// same.
func sampleText(samples []partscsv.Sample) string {
	var parts []string
	for _, s := range samples {
		cell := short(Clean(s.Cell), 24)
		if value := Clean(s.Value); value != "" && value != Clean(s.Cell) {
			cell += " → " + value
		}
		parts = append(parts, cell)
	}
	return strings.Join(parts, " · ")
}

// short cuts a text to n characters.
func short(text string, n int) string {
	runes := []rune(text)
	if len(runes) <= n {
		return text
	}
	return string(runes[:n-1]) + "…"
}

func (m *Import) columnNotes(p *printer) {
	for i := range m.Columns {
		for _, note := range m.Columns[i].Notes {
			p.wrapped("note: ", Clean(fmt.Sprintf("%q: %s", m.Columns[i].Header, note)))
		}
	}
}

// warnings writes what the reading of cells had to say, ten kinds of it.
func (m *Import) warnings(p *printer) {
	if len(m.Warnings) == 0 {
		return
	}
	p.line("")
	p.line("%s", p.style.Bold("warnings"))
	for _, w := range m.Warnings[:min(len(m.Warnings), listRows)] {
		text := w.Reason
		if w.Header != "" {
			text = fmt.Sprintf("%q: %s", w.Header, text)
		}
		p.wrapped("  ", Clean(fmt.Sprintf("%s (%s, first on line %d)", text, count(w.Count, "row"), w.Line)))
	}
	if more := len(m.Warnings) - listRows; more > 0 {
		p.line("  %d more kinds: --format json shows all", more)
	}
}

// rejects writes the first rejected rows.
func (m *Import) rejects(p *printer) {
	if m.Rejected == 0 {
		return
	}
	p.line("")
	p.line("%s", p.style.Bold("rejected rows"))
	shown := min(len(m.Rejects), listRows)
	for _, r := range m.Rejects[:shown] {
		p.wrapped("  ", Clean(m.rejectText(r)))
	}
	if more := m.Rejected - shown; more > 0 {
		p.line("  %d more", more)
	}
	if m.RejectsFile != "" {
		p.line("  all of them, whole: %s", Clean(m.RejectsFile))
	}
}

// rejectText is file:line:column: "header": reason, with the mend behind it.
func (m *Import) rejectText(r intake.Reject) string {
	text := fmt.Sprintf("%s:%d", m.File, r.At.Line)
	if r.At.Column > 0 {
		text += ":" + strconv.Itoa(r.At.Column)
	}
	if r.Header != "" {
		text += fmt.Sprintf(": %q", r.Header)
	}
	text += ": " + r.Reason
	if r.Hint != "" {
		text += " (" + r.Hint + ")"
	}
	return text
}

func (m *Import) totals(p *printer) {
	p.line("")
	p.line("%s: %d imported, %d rejected, %d repeated", count(m.Rows, "row"), m.Imported, m.Rejected, m.Repeated)
	if m.Gone > 0 {
		p.line("%s of the last import of %q: no longer in the file", count(m.Gone, "fan"), Clean(m.Source))
	}
	if m.Unrankable > 0 {
		p.line("%s not rankable: airflow, pressure or noise is not stated", count(m.Unrankable, "fan"))
	}
	if m.DryRun {
		p.line("dry run: nothing was written")
	}
}
