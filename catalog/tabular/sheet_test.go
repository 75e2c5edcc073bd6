package tabular

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// TestMergedCells: what stands in a cell of several rows holds for each of them,
// but not above the header, in it, or in rows that are none.
func TestMergedCells(t *testing.T) {
	text := book(t, func(f *excelize.File) {
		rowsInto(t, f, "Fans",
			[]any{"maker", "part", "U"},
			[]any{"", "", "V"},
			[]any{"Lumora", "KX-1", 1.5}, []any{"", "KX-2"}, []any{}, []any{"", "KX-3", "24"},
			[]any{"Nordwehe", "NW-1", 12}, []any{"", "NW-2"})
		for _, m := range [][2]string{{"A1", "A2"}, {"A3", "A6"}, {"C3", "C4"}, {"B7", "C7"}, {"A7", "A20"}} {
			must(t, f.MergeCell("Fans", m[0], m[1]))
		}
		must(t, f.SetCellStr("Fans", "C5", " ")) // there, but blank
		must(t, f.SetRowVisible("Fans", 4, false))
	})
	f := opened(t, text, Options{HeaderLine: 1})
	rows := rowsOf(t, f)
	want := []string{"||V", "Lumora|KX-1|1.5", "Lumora|KX-2|1.5", "Lumora|KX-3|24", "Nordwehe|NW-1|", "Nordwehe|NW-2|"}
	if got := cellsOf(rows); !slices.Equal(got, want) {
		t.Errorf("rows = %q, want %q", got, want)
	}
	if got, want := rows[2].Raw(), "Lumora,KX-2,1.5"; got != want {
		t.Errorf("filled row = %s, want %s", got, want)
	}
	notes := []string{
		"merged cells that go over several rows: 3; what stands in one holds for each of its rows",
		"hidden rows, which are read too: 1",
	}
	if got := f.Dialect().Notes; !slices.Equal(got, notes) {
		t.Errorf("notes = %q, want %q", got, notes)
	}
}

// TestOddMerges: a merged cell that begins in a row without cells holds nothing,
// and what a cell below has of its own stands.
func TestOddMerges(t *testing.T) {
	p := handmade(`<row r="1"><c t="s"><v>0</v></c><c t="s"><v>1</v></c></row><row r="3"><c><v>3</v></c><c t="s"><v>2</v></c></row>`+
		`<row r="4"><c r="B4"><v>4</v></c></row><row r="5"><c r="A5"><v>5</v></c><c r="B5"/></row><row r="6"><c r="A6"><v>6</v></c></row>`).
		with("xl/worksheets/sheet1.xml", "</sheetData>", `</sheetData><mergeCells><mergeCell ref="A2:A4"/><mergeCell ref="B3:B5"/><mergeCell ref="B5:C5"/><mergeCell/></mergeCells>`)
	if got, want := cellsOf(rowsOf(t, opened(t, p.zipped(t), Options{}))), []string{"3|c", "|4", "5|c", "6|"}; !slices.Equal(got, want) {
		t.Errorf("rows = %q, want %q", got, want)
	}
}

// TestMergedNumbers: a number that is handed down is written as its column has it.
func TestMergedNumbers(t *testing.T) {
	text := book(t, func(f *excelize.File) {
		rowsInto(t, f, "Fans", []any{"part", "price"}, []any{"KX-1", 1.5}, []any{"KX-2"}, []any{"KX-3", "2,5"})
		must(t, f.MergeCell("Fans", "B2", "B3"))
	})
	if got, want := cellsOf(rowsOf(t, opened(t, text, Options{}))), []string{"KX-1|1,5", "KX-2|1,5", "KX-3|2,5"}; !slices.Equal(got, want) {
		t.Errorf("rows = %q, want %q", got, want)
	}
}

// TestFormulas: values that were reckoned before are read, nothing is reckoned.
func TestFormulas(t *testing.T) {
	p := handmade(`<row r="3"><c r="A3" t="s"><v>0</v></c><c r="B3" t="s"><v>1</v></c></row>` +
		`<row r="5"><c r="A5"><f>1+1</f><v>7</v></c><c r="B5"><f>HYPERLINK("file:///x")</f></c></row>` +
		`<row r="6"><c r="A6"><f/></c><c r="B6" t="str"><f>A1</f><v></v></c></row>`)
	f := opened(t, p.zipped(t), Options{})
	if got, want := cellsOf(rowsOf(t, f)), []string{"7|"}; !slices.Equal(got, want) {
		t.Errorf("rows = %q, want %q", got, want)
	}
	want := "formulas without a value, which read as empty: 3, the first in Fans!B5; save the file in a spreadsheet program, which fills them in"
	if got := f.Dialect().Notes; !slices.Equal(got, []string{want}) {
		t.Errorf("notes = %q, want %q", got, want)
	}
}

// TestWideRows: cells to the right of the header have columns without a name, and
// a row that ends early is no row cut off.
func TestWideRows(t *testing.T) {
	f := opened(t, plainBook(t, []any{"a", "b"}, []any{1}, []any{1, 2, "", "note"}, []any{1, 2}), Options{HeaderLine: 1})
	if got, want := f.Header(), []string{"a", "b", "column 3", "column 4"}; !slices.Equal(got, want) {
		t.Errorf("header = %q, want %q", got, want)
	}
	for _, r := range rowsOf(t, f) {
		if r.Ragged || len(r.Fields) != 4 {
			t.Errorf("row %q: ragged %v, want four cells that fit", r.Fields, r.Ragged)
		}
	}
	if got := f.HeaderRow().Fields; len(got) != 4 {
		t.Errorf("header row = %q, want four cells", got)
	}
}

// TestFarCells: a cell far to the right is no reason for columns without end, and a
// row of such cells no row.
func TestFarCells(t *testing.T) {
	const note = "cells far to the right of the table, which are left out: "
	tests := []struct {
		name, far string // far: columns with a cell in row 3, and alone in row 4
		columns   int
		notes     []string
	}{
		{"near", "D", 4, nil},
		{"as far as can be", "V", 22, nil},
		{"one further", "W", 2, []string{note + "2, the first in column W"}},
		{"the last column", "XFD", 2, []string{note + "2, the first in column XFD"}},
		{"two, of which one is near enough to the other", "W AA", 2, []string{note + "4, the first in column W"}},
		{"two, with the table reaching up to the first", "V AP", 42, nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			f := opened(t, book(t, func(f *excelize.File) {
				rowsInto(t, f, "Fans", []any{"part", "U"}, []any{"KX-1", 12.5}, []any{"KX-2", 24}, nil, []any{"KX-3", 48})
				must(t, f.SetCellStr("Fans", "ZZ2", " ")) // nobody sees it
				for far := range strings.FieldsSeq(tt.far) {
					must(t, f.SetCellStr("Fans", far+"3", "note"))
					must(t, f.SetCellFloat("Fans", far+"4", 1.5, -1, 64))
				}
			}), Options{HeaderLine: 1})
			rows, want := rowsOf(t, f), 4
			if tt.notes != nil {
				want = 3
			}
			if len(f.Header()) != tt.columns || len(rows) != want || rows[want-1].Line != 5 || !slices.Equal(f.Dialect().Notes, tt.notes) {
				t.Errorf("%d columns, rows %q, notes %q, want %d, %d rows, %q", len(f.Header()), cellsOf(rows), f.Dialect().Notes, tt.columns, want, tt.notes)
			}
		})
	}
	f := opened(t, book(t, func(f *excelize.File) {
		must(t, f.SetSheetRow("Fans", "AX7", &[]any{"part", "U"}))
		must(t, f.SetSheetRow("Fans", "AX8", &[]any{"KX-1", 12.5}))
	}), Options{})
	if got := rowsOf(t, f)[0]; got.Fields[49] != "KX-1" || got.At(49) != (Position{8, 50}) {
		t.Errorf("a table that begins far to the right: row %q", got.Fields)
	}
}

// TestDamagedWorkbook: what is wrong is refused, and where it stands is said. It
// is never taken for a shorter sheet.
func TestDamagedWorkbook(t *testing.T) {
	const (
		sheet1 = "xl/worksheets/sheet1.xml"
		good   = `<row><c t="s"><v>0</v></c></row><row><c t="s"><v>1</v></c></row>`
	)
	tests := []struct {
		name, part, old, new string
		want                 error
		message              string
	}{
		{"a sheet cut off", sheet1, `</sheetData></worksheet>`, ``, ErrDamaged, "fans.csv:Fans!2: the workbook cannot be read: it is damaged: xl/worksheets/sheet1.xml: it ends within <sheetData>"},
		{"a tag cut off", sheet1, `</sheetData></worksheet>`, `<row`, ErrDamaged, "Fans!2: the workbook cannot be read: it is damaged: xl/worksheets/sheet1.xml: it ends within a tag"},
		{"tags crossed", sheet1, `<v>0</v></c>`, `<v>0</c></v>`, ErrDamaged, "</c> closes nothing"},
		{"no XML", sheet1, `<worksheet>`, `\x01`, ErrDamaged, "</worksheet> closes nothing"},
		{"a zero byte", sheet1, `<v>1</v>`, "<v>\x00</v>", ErrDamaged, "U+0000"},
		{"no UTF-8", sheet1, `<v>1</v>`, "<v>\xff</v>", ErrDamaged, "byte 126 of its XML: it is no UTF-8"},
		{"half a pair in UTF-8", sheet1, `<v>1</v>`, "<v>\xed\xa0\x80</v>", ErrDamaged, "byte 126 of its XML: it is no UTF-8"},
		{"a type of its own", sheet1, `<worksheet>`, `<!DOCTYPE w [<!ENTITY l "lol"><!ENTITY m "&l;&l;&l;">]><worksheet>`, ErrDamaged, "document type"},
		{"another character set", sheet1, `UTF-8`, `UTF-16`, ErrDamaged, `it is not written in UTF-8, but in "UTF-16"`},
		{"an entity of its own", sheet1, `<v>1</v>`, `<v>&lol;</v>`, ErrDamaged, "&lol;"},
		{"a text that is not there", sheet1, `<v>1</v>`, `<v>3</v>`, ErrDamaged, `Fans!A2: the cell refers to text "3" of 3`},
		{"a text before the first", sheet1, `<v>1</v>`, `<v>-1</v>`, ErrDamaged, `Fans!A2: the cell refers to text "-1" of 3`},
		{"a text that is no number", sheet1, `<v>1</v>`, `<v>x</v>`, ErrDamaged, `Fans!A2: the cell refers to text "x" of 3`},
		{"a cell of another row", sheet1, `<c t="s"><v>1`, `<c r="A3" t="s"><v>1`, ErrDamaged, `Fans!2: a cell of row 2 says it is "A3"`},
		{"a cell nowhere", sheet1, `<c t="s"><v>1`, `<c r="XFE2" t="s"><v>1`, ErrDamaged, `"XFE2"`},
		{"rows back to front", sheet1, `<row><c t="s"><v>1`, `<row r="1"><c t="s"><v>1`, ErrDamaged, "Fans!1: row 1 stands behind row 1"},
		{"a row nowhere", sheet1, `<row><c t="s"><v>1`, `<row r="1048577"><c t="s"><v>1`, ErrDamaged, `"1048577" is no number of a row`},
		{"a row of no number", sheet1, `<row><c t="s"><v>1`, `<row r="two"><c t="s"><v>1`, ErrDamaged, `"two" is no number of a row`},
		{"rows beyond the last", sheet1, `<row><c t="s"><v>1`, `<row r="1048576"/><row><c t="s"><v>1`, ErrTooLarge, "more than 1048576 rows"},
		{"cells beyond the last", sheet1, `<c t="s"><v>1`, `<c r="XFD2"/><c t="s"><v>1`, ErrTooWide, "more than the 16384 cells"},
		{"elements without end", sheet1, `<v>1</v>`, strings.Repeat("<v>", 200), ErrDamaged, "more than 100 elements"},
		{"shared texts cut off", "xl/sharedStrings.xml", `</sst>`, ``, ErrDamaged, "xl/sharedStrings.xml: it ends within <sst>"},
		{"no shared texts", "xl/sharedStrings.xml", `<si><t>a</t></si><si><t>b</t></si>`, ``, ErrDamaged, `text "1" of 1`},
		{"no list of sheets", "xl/workbook.xml", `<sheets>`, `<`, ErrDamaged, "xl/workbook.xml: byte 189 of its XML: </sheets> closes nothing"},
		{"relations cut off", "xl/_rels/workbook.xml.rels", `</Relationships>`, ``, ErrDamaged, "xl/_rels/workbook.xml.rels"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			e := refused(t, handmade(good).with(tt.part, tt.old, tt.new).zipped(t), Options{})
			if !errors.Is(e, tt.want) || !strings.Contains(e.Error(), tt.message) {
				t.Errorf("error = %v, want %v: %q", e, tt.want, tt.message)
			}
		})
	}
}

// TestEveryFlippedByte: a workbook with one byte wrong reads as the whole one, or
// is refused; a row that is lost or altered would be a lie.
func TestEveryFlippedByte(t *testing.T) {
	text := handmade(`<row r="1"><c t="s"><v>0</v></c><c t="s"><v>1</v></c></row><row r="2"><c><v>28.5</v></c><c t="s"><v>2</v></c></row>`).zipped(t)
	want := []string{"28.5|c"}
	refusals := 0
	for i := range len(text) {
		flipped := []byte(text)
		flipped[i] ^= 0x10
		f, err := Open(t.Context(), "fans.xlsx", strings.NewReader(string(flipped)), int64(len(flipped)), Options{})
		if err != nil {
			refusals++
			continue
		}
		if got := cellsOf(rowsOf(t, f)); !slices.Equal(got, want) {
			t.Fatalf("byte %d wrong: rows = %q, want %q or an error", i, got, want)
		}
	}
	if refusals < len(text)/2 {
		t.Errorf("%d of %d wrong bytes are refused, want most", refusals, len(text))
	}
	for n := range len(text) {
		if _, err := Open(t.Context(), "fans.xlsx", strings.NewReader(text[:n]), int64(n), Options{}); err == nil {
			t.Fatalf("the first %d of %d bytes are read as a whole workbook", n, len(text))
		}
	}
}
