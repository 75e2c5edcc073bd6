package tabular

import (
	"archive/zip"
	"context"
	"encoding/csv"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"
)

// seedBooks are workbooks as a library writes them.
func seedBooks(t testing.TB) []string {
	return []string{
		plainBook(t, []any{"part", "U"}, []any{"KX-1", 12.5}, []any{"KX-2", "12,5 V"}),
		book(t, func(f *excelize.File) {
			rowsInto(t, f, "Fans", []any{"Price list"}, nil, []any{"part", "since", "ok"},
				[]any{"KX-1", time.Date(2030, 4, 5, 12, 0, 0, 0, time.UTC), true}, []any{"", 28.5, false})
			must(t, f.MergeCell("Fans", "A4", "A5"))
			must(t, f.SetCellFormula("Fans", "D4", "=1+1"))
			_, err := f.NewSheet("Old")
			must(t, err)
			must(t, f.SetSheetVisible("Old", false))
		}),
		handmade(`<row><c t="s"><v>0</v></c></row><row><c t="e"><v>#N/A</v></c></row>`).zipped(t),
		parts{"mimetype": "application/vnd.oasis.opendocument.spreadsheet"}.zipped(t),
	}
}

// FuzzWorkbook reads any bytes as a workbook: no panic, no more memory than the
// bounds allow, and an error of a kind that is named, or rows that agree.
func FuzzWorkbook(f *testing.F) {
	for _, text := range seedBooks(f) {
		f.Add([]byte(text), "", byte(0))
		f.Add([]byte(text), "Old", byte(3))
		f.Add([]byte(text[:len(text)-1]), "Fans", byte(0))
	}
	f.Add([]byte("PK\x05\x06"+strings.Repeat("\x00", 18)), "", byte(0))
	f.Fuzz(func(t *testing.T, data []byte, sheet string, headerLine byte) {
		checkBook(t, string(data), Options{Sheet: sheet, HeaderLine: int(headerLine % 8)})
	})
}

// FuzzSheet does the same from within: any XML in the parts that matter.
func FuzzSheet(f *testing.F) {
	const styles = `<styleSheet><numFmts><numFmt numFmtId="164" formatCode="000"/></numFmts><cellXfs><xf/><xf numFmtId="14"/><xf numFmtId="164"/><xf numFmtId="46"/></cellXfs></styleSheet>`
	const texts = `<sst><si><t>a</t></si><si><r><t>1,5</t></r><rPh><t>x</t></rPh></si></sst>`
	for _, rows := range []string{
		`<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" t="s"><v>1</v></c></row><row r="2"><c r="A2"><v>1.5</v></c><c r="B2" s="1"><v>45363.5</v></c></row>`,
		`<row/><row><c/><c t="inlineStr"><is><t>a_x0041_</t></is></c></row><row hidden="1"><c><f>1</f></c><c s="2"><v>7</v></c></row></sheetData><mergeCells><mergeCell ref="A3:A9"/></mergeCells><sheetData>`,
		`<row><c t="b"><v>1</v></c></row><row><c t="d"><v>2030-04-05T12:00:00</v></c><c t="e"><v>#N/A</v></c></row><row><c t="str"><v>=1&amp;2</v></c><c s="3"><v>2.5</v></c></row>`,
		`<row><c r="XFD1"><v>1e-9</v></c></row><row r="1048576"><c><v>-1E+300</v></c></row>`,
	} {
		f.Add(rows, texts, styles, byte(0))
		f.Add(rows, "", "", byte(1))
	}
	f.Fuzz(func(t *testing.T, rows, texts, styles string, headerLine byte) {
		p := handmade(rows)
		p["xl/sharedStrings.xml"], p["xl/styles.xml"] = texts, styles
		checkBook(t, p.archived(t, zip.Store), Options{HeaderLine: int(headerLine % 4)})
	})
}

// checkBook wants a refusal by name, or rows that agree with themselves.
func checkBook(t *testing.T, text string, opts Options) {
	before := allocated()
	file, err := Open(context.Background(), "fuzz.xlsx", strings.NewReader(text), int64(len(text)), opts)
	const narrow = 200 // columns: wider sheets are read, but not looked at cell by cell, for time
	switch {
	case err != nil:
		checkRefusal(t, err)
	case len(file.Header()) > narrow:
		for _, err := range file.Rows(context.Background()) {
			must(t, err)
		}
	default:
		rows := rowsOf(t, file)
		checkCells(t, file, rows)
		checkSheetRows(t, file, rows)
	}
	if got := allocated() - before; got > 256<<20 {
		t.Fatalf("allocated %d MiB in all for %d bytes, want less than 256", got>>20, len(text))
	}
}

// checkSheetRows wants rows in order, within the sheet, that the rejects of an
// import can keep whole.
func checkSheetRows(t *testing.T, f *File, rows []*Row) {
	if f.sheet == nil {
		return // the bytes are a text
	}
	last := f.HeaderRow().Line
	again := rowsOf(t, f)
	for i, r := range rows {
		if r.Line <= last || r.Line > maxRows || r.Ragged || len(r.Fields) > MaxColumns || !slices.Equal(r.Fields, again[i].Fields) {
			t.Fatalf("row %q on line %d behind line %d, read again %q", r.Fields, r.Line, last, again[i].Fields)
		}
		last = r.Line
		back, err := csv.NewReader(strings.NewReader(r.Raw())).Read()
		want := slices.Clone(r.Fields[:filled(r.Fields)])
		for i := range want {
			want[i] = strings.ReplaceAll(want[i], "\r\n", "\n") // a CSV does not tell them apart
		}
		if err != nil || !slices.Equal(back, want) {
			t.Fatalf("raw row %q reads back as %q, %v, want %q", r.Raw(), back, err, want)
		}
	}
}
