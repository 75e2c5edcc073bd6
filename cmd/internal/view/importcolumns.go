package view

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/partscsv"
	"lowsone/catalog/tabular"
)

// dialectWords says how a file is written; what was forced is marked so.
func dialectWords(d tabular.Dialect) string {
	words, line := []string{"workbook", fmt.Sprintf("sheet %q", d.Sheet)}, "row "
	if d.Sheet == "" {
		words = []string{traitWord(d.Encoding.Forced, d.Encoding.Value), traitWord(d.Delimiter.Forced, delimiterWord(d.Delimiter.Value))}
		line = "line "
	}
	words = append(words,
		traitWord(d.Decimal.Forced, "decimal "+markWord(d.Decimal.Value)),
		traitWord(d.HeaderLine.Forced, "header on "+line+strconv.Itoa(d.HeaderLine.Value)))
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

// columnTable shows what each column was taken for.
func (m *Import) columnTable() *Table {
	t := &Table{Columns: []Column{
		{Title: "header", Wrap: true},
		{Title: "read as", Wrap: true},
		{Title: "unit"},
		{Title: "known by", Wrap: true},
		{Title: "samples", Wrap: true},
	}}
	for i := range m.Columns {
		c := &m.Columns[i]
		t.Add(c.Header, readAs(c), c.Unit, m.knownBy(c), sampleTexts(c))
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

// knownBy says by what a column was recognised, in full where the person wants
// to know more.
func (m *Import) knownBy(c *partscsv.Column) string {
	known := howKnown(c)
	if m.Verbose {
		known = c.Why
	}
	if c.Assumed != "" {
		known += ", " + c.Assumed + " assumed"
	}
	return known
}

// howKnown names the way in which a column was recognised.
func howKnown(c *partscsv.Column) string {
	switch c.How {
	case partscsv.Unread:
		return ""
	case partscsv.ByForce:
		return "--column"
	case partscsv.ByName:
		return "own name"
	case partscsv.ByRest:
		return "no other left"
	}
	return string(c.How)
}

// sampleTexts shows cells and what was read from them, where that is not the
// same.
func sampleTexts(c *partscsv.Column) string {
	var parts []string
	var faults []string
	for _, s := range c.Samples {
		if s.Fault && slices.Contains(faults, s.Value) {
			continue // once is enough
		}
		if s.Fault {
			faults = append(faults, s.Value)
		}
		text := short(Clean(s.Cell))
		if value := sampleValue(c, s); value != "" {
			text += " →" + figureBlank + value
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, " · ")
}

// sampleValue gives what was read from a cell; empty where the cell already
// says the same. Where each field of the column got a value, their names are
// left out: they stand in the same order beside it.
func sampleValue(c *partscsv.Column, s partscsv.Sample) string {
	if !c.Taken() {
		return ""
	}
	rest, values := ", "+Clean(s.Value), []string(nil)
	for i, id := range c.Fields {
		_, after, found := strings.Cut(rest, ", "+catalog.Fields[id].Title+" ")
		if !found {
			break
		}
		value := after
		if i+1 < len(c.Fields) {
			value, _, _ = strings.Cut(after, ", "+catalog.Fields[c.Fields[i+1]].Title+" ")
		}
		values = append(values, glued(value))
		rest = after[len(value):]
	}
	alone := len(values) == 1 && rest == ""
	switch {
	case alone && c.Fields[0] == catalog.FieldCurve:
		return glued(count(1+strings.Count(values[0], ";"), "point"))
	case alone && c.Fields[0] == catalog.FieldNoiseBands && c.Unit == "":
		return glued(count(1+strings.Count(values[0], ";"), "band"))
	case alone && saysTheSame(c, s.Cell, values[0]):
		return ""
	case alone || len(values) == len(c.Fields):
		return strings.Join(values, ", ")
	}
	return Clean(s.Value)
}

// saysTheSame reports whether a cell shows a value as it is, the unit of the
// column aside.
func saysTheSame(c *partscsv.Column, cell, value string) bool {
	cell = strings.TrimSpace(Clean(cell))
	number := strings.TrimSuffix(value, figureBlank+c.Unit)
	return glued(cell) == value || (catalog.Fields[c.Fields[0]].Numeric() || c.Unit != "") && number == Trim(cell)
}

// shortest is how much of a long cell is shown.
const shortest = 30

// short cuts a long text.
func short(text string) string {
	runes := []rune(text)
	if len(runes) <= shortest {
		return text
	}
	return string(runes[:shortest-1]) + "…"
}

// columnNotes says what was assumed about columns, and which columns were not
// read although they look like a field.
func (m *Import) columnNotes(p *printer) {
	for i := range m.Columns {
		c := &m.Columns[i]
		notes := c.Notes
		if !c.Taken() && strings.HasPrefix(c.Why, "looks like") {
			notes = append([]string{c.Why}, notes...)
		}
		for _, note := range notes {
			p.wrapped("note: ", Clean(fmt.Sprintf("%q: %s", headerOf(c.Header), note)))
		}
	}
}
