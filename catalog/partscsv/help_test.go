package partscsv

import (
	"errors"
	"strings"
	"testing"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/catalog/tabular"
)

// marksOf gives every column the same decimal mark.
func marksOf(m tabular.Mark, columns int) func(func(int) bool) []tabular.Mark {
	return func(func(int) bool) []tabular.Mark {
		marks := make([]tabular.Mark, columns)
		for i := range marks {
			marks[i] = m
		}
		return marks
	}
}

// table cuts lines at | into a header and rows.
func table(text string) (header []string, rows [][]string) {
	for line := range strings.Lines(strings.TrimSpace(text)) {
		cells := strings.Split(strings.TrimSuffix(line, "\n"), "|")
		if header == nil {
			header = cells
			continue
		}
		rows = append(rows, cells)
	}
	return header, rows
}

// planOf makes a plan of a table.
func planOf(t *testing.T, mark tabular.Mark, text string, assign ...Assignment) (*Plan, [][]string) {
	t.Helper()
	header, rows := table(text)
	p, err := NewPlan(Input{File: "f.csv", Header: header, Sample: rows, Marks: marksOf(mark, len(header)), Assign: assign})
	if err != nil {
		t.Fatalf("NewPlan(%q) = %v", header, err)
	}
	return p, rows
}

// said writes what a fan says, as NAME=VALUE in the order of the fields; an
// estimate is marked with ~.
func said(f *catalog.Fan) string {
	var parts []string
	for i := range catalog.Fields {
		d := &catalog.Fields[i]
		v, origin := d.Get(f)
		if origin == quantity.Unknown {
			continue
		}
		text := d.Format(f)
		if d.Numeric() {
			text = catalog.Number(significant(d.InUnit(v.Number)))
		}
		if origin == quantity.Estimate {
			text += "~"
		}
		parts = append(parts, d.Name+"="+text)
	}
	return strings.Join(parts, " ")
}

// readCellOf reads one cell of a column beside a part number. The other rows of
// its sample hold the same cell.
func readCellOf(t *testing.T, mark tabular.Mark, header, cell string) (string, []Remark) {
	t.Helper()
	rows := [][]string{{"A1", cell, "12"}, {"A2", cell, "12"}, {"A3", cell, "12"}}
	names := []string{"Part number", header, "Frame [mm]"}
	if isFrame(header) {
		names = names[:2]
		for i := range rows {
			rows[i] = rows[i][:2]
		}
	}
	p, err := NewPlan(Input{File: "f.csv", Header: names, Sample: rows, Marks: marksOf(mark, len(names))})
	if err != nil {
		t.Fatalf("NewPlan(%q, cell %q) = %v", names, cell, err)
	}
	r := p.Reader()
	fan, remarks, err := r.Read(rows[0])
	if err != nil {
		var e *RowError
		if !errors.As(err, &e) {
			t.Fatalf("Read(%q) = %v, no *RowError", cell, err)
		}
		return "reject: " + e.Reason, remarks
	}
	fan.Part = ""
	if !isFrame(header) {
		for _, id := range []catalog.FieldID{catalog.FieldWidth, catalog.FieldHeight} {
			catalog.Fields[id].Put(fan, catalog.Value{}, quantity.Unknown)
		}
	}
	return said(fan), remarks
}

// isFrame says whether the header under test is itself the frame.
func isFrame(header string) bool {
	x := newBuilder(Input{})
	c := &column{header: x.lexicon.parseHeader(header, "")}
	for _, id := range []catalog.FieldID{catalog.FieldWidth, catalog.FieldHeight} {
		if g, ok := x.guessWord(c, id); ok && g.score >= forHint {
			return true
		}
	}
	return false
}
