package intake

import (
	"bytes"
	"context"
	"errors"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"

	"lowsone/catalog/partscsv"
	"lowsone/catalog/quantity"
	"lowsone/catalog/store"
	"lowsone/catalog/tabular"
)

// asBook writes semicolon lists as the sheets of a workbook, named a, b and so on.
// What reads as a number, with a decimal comma, is one.
func asBook(t *testing.T, lists ...string) string {
	t.Helper()
	f := excelize.NewFile()
	for i, list := range lists {
		name := string(rune('a' + i))
		_, err := f.NewSheet(name)
		row := 0
		for line := range strings.Lines(list) {
			var cells []any
			for cell := range strings.SplitSeq(strings.TrimSuffix(line, "\n"), ";") {
				if v, err := strconv.ParseFloat(strings.Replace(cell, ",", ".", 1), 64); err == nil {
					cells = append(cells, v)
				} else {
					cells = append(cells, cell)
				}
			}
			row++
			err = errors.Join(err, f.SetSheetRow(name, "A"+strconv.Itoa(row), &cells))
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	var out bytes.Buffer
	if err := errors.Join(f.DeleteSheet("Sheet1"), f.Write(&out)); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// TestWorkbook: the same list as a text and as a sheet is the same list, and told
// by its bytes, not by its name.
func TestWorkbook(t *testing.T) {
	p := newPlace(t, listHeader+goodRows)
	p.ok(nil)
	p.write(asBook(t, listHeader+goodRows))
	p.wants(p.ok(nil), counts{Rows: 2, Repeated: 2, Fans: 2})
	p.wants(p.ok(func(o *Options) { o.Source = "other" }), counts{Rows: 2, Imported: 2, Fans: 2, Changed: true})
	p.wants(p.ok(func(o *Options) { o.Source = "other" }), counts{Rows: 2, Repeated: 2, Fans: 2})
}

// TestWorkbookRejects: a row of a sheet that cannot be read is kept whole, as a
// CSV has it, with the numbers of its row and column.
func TestWorkbookRejects(t *testing.T) {
	p := newPlace(t, asBook(t, listHeader+goodRows+"A3;Nordwehe;60x60x25;12 VDC;viel, \"sehr\" viel;28,5\n\n"+listHeader))
	a := p.ok(func(o *Options) { o.DryRun = true })
	p.wants(a, counts{Rows: 4, Imported: 2, Rejected: 2, Fans: 2})
	if entries, err := os.ReadDir(p.cat); err == nil {
		t.Errorf("a dry run leaves %v", entries)
	}
	a = p.ok(nil)
	r := a.Rejects[0]
	if r.At != (tabular.Position{Line: 4, Column: 5}) || r.Header != "Luftstrom m³/h" || r.Cell != `viel, "sehr" viel` {
		t.Errorf("rejected at %v in %q: %q, want 4:5, the airflow", r.At, r.Header, r.Cell)
	}
	if r := a.Rejects[1]; r.At.Line != 6 || r.Reason != "the header again, no row of data" {
		t.Errorf("rejected at %v: %s, want the header in row 6", r.At, r.Reason)
	}
	rows := p.records(a.RejectsFile)
	if got, want := rows[1][6], `A3,Nordwehe,60x60x25,12 VDC,"viel, ""sehr"" viel",28.5`; got != want || rows[1][0] != "4" || rows[1][1] != "5" {
		t.Errorf("rejected row = %q, want %s", rows[1], want)
	}
}

// TestWorkbookSheets: the sheet that is asked for, and what is said of the others.
func TestWorkbookSheets(t *testing.T) {
	p := newPlace(t, asBook(t, "address;phone\nsomewhere;12\n", listHeader+goodRows, listHeader+"A9;Nordwehe;x;y;z;1\n"))
	_, err := p.run(nil)
	var others *OtherSheetsError
	var not *partscsv.NotPartsError
	if !errors.As(err, &others) || !errors.As(err, &not) || !slices.Equal(others.Sheets, []string{"b", "c"}) {
		t.Fatalf("a cover: %v, want no parts table, and sheets b and c", err)
	}
	if !strings.HasPrefix(err.Error(), p.file+":a: not a parts table") || !strings.HasPrefix(others.Hint(), `read another sheet with --sheet NAME: "b", "c"; or `) {
		t.Errorf("error = %v, hint %s", err, others.Hint())
	}
	p.wants(p.ok(func(o *Options) { o.Format.Sheet = "b" }), counts{Rows: 2, Imported: 2, Fans: 2, Changed: true})
	_, err = p.run(func(o *Options) { o.Format.Sheet = "c" })
	if want := p.file + `: none of 1 rows can be used; c!C2, "Abmessungen (mm)": `; err == nil || !strings.HasPrefix(err.Error(), want) {
		t.Errorf("error = %v, want %s…", err, want)
	}
}

// TestSheetsAreSources: the sheets of a workbook do not replace each other, and the
// one that is read where none is named has one name, named or not.
func TestSheetsAreSources(t *testing.T) {
	p := newPlace(t, asBook(t, listHeader+goodRows, listHeader+"A9;Nordwehe;60x60x25;12 VDC;20;30\n"))
	sheet := func(name string) func(*Options) { return func(o *Options) { o.Format.Sheet = name } }
	if a := p.ok(nil); a.Source != "liste.csv" || a.Sheet != "a" {
		t.Errorf("the first sheet, unnamed: source %q, sheet %q", a.Source, a.Sheet)
	}
	b := p.ok(sheet("B"))
	p.wants(b, counts{Rows: 1, Imported: 1, Fans: 1, Changed: true})
	if b.Source != "liste.csv#b" || b.Before.Name != "" {
		t.Errorf("the second sheet: source %q, which was %+v", b.Source, b.Before)
	}
	a := p.ok(sheet("a"))
	p.wants(a, counts{Rows: 2, Repeated: 2, Fans: 2})
	if a.Source != "liste.csv" || a.Before.Sheet != "a" || a.Before.Path != p.file {
		t.Errorf("the first sheet, named: source %q, which was %+v", a.Source, a.Before)
	}
	named := p.ok(func(o *Options) { o.Format.Sheet, o.Source = "b", "spares" })
	if named.Source != "spares" {
		t.Errorf("source %q, want the one named", named.Source)
	}
}

// TestUnitsOfFormats: a unit or a currency that stands in the number format alone
// says what the numbers are, as it does in the text of a CSV.
func TestUnitsOfFormats(t *testing.T) {
	f := excelize.NewFile()
	style := func(code string) int {
		n, err := f.NewStyle(&excelize.Style{CustomNumFmt: &code})
		if err != nil {
			t.Fatal(err)
		}
		return n
	}
	err := errors.Join(
		f.SetSheetRow("Sheet1", "A1", &[]any{"part", "maker", "width_mm", "Airflow", "Price", "Depth mm"}),
		f.SetSheetRow("Sheet1", "A2", &[]any{"A1", "Nordwehe", 60, 24.5, 8.5, 25}),
		f.SetSheetRow("Sheet1", "A3", &[]any{"A2", "Nordwehe", 60, 30, 1234.25, "25,4"}),
		f.SetCellStyle("Sheet1", "D2", "D3", style(`0.0" CFM"`)),
		f.SetCellStyle("Sheet1", "E2", "E3", style(`_-* #,##0.00 "€"_-;-* #,##0.00 "€"_-`)),
	)
	var out bytes.Buffer
	if err := errors.Join(err, f.Write(&out)); err != nil {
		t.Fatal(err)
	}
	p := newPlace(t, out.String())
	p.wants(p.ok(nil), counts{Rows: 2, Imported: 2, Fans: 2, Changed: true})
	c, err := store.Open(context.Background(), p.cat)
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	fans, err := c.Fans(context.Background(), []int{0, 1})
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []struct{ cfm, price float64 }{{24.5, 8.5}, {30, 1234.25}} {
		flow, price := fans[i].Airflow.Or(0), fans[i].Price.Or(0)
		if got := float64(flow / quantity.CFM); math.Abs(got-want.cfm) > 1e-9 || price != want.price || fans[i].Currency != "EUR" {
			t.Errorf("%s: %g CFM for %g %s, want %g CFM for %g EUR", fans[i].Part, got, price, fans[i].Currency, want.cfm, want.price)
		}
	}
}

// TestImportedLast: of parts in two lists the one imported last counts, also where
// it is imported again without anything new in it.
func TestImportedLast(t *testing.T) {
	p := newPlace(t, listHeader+goodRows)
	at := func(hour int, source string) func(*Options) {
		return func(o *Options) { o.Source, o.Time = source, time.Date(2030, 4, 5, hour, 0, 0, 0, time.UTC) }
	}
	p.ok(at(1, "first"))
	p.ok(at(2, "second"))
	counting := func() string {
		c, err := store.Open(context.Background(), p.cat)
		if err != nil {
			t.Fatal(err)
		}
		defer c.Close()
		rows, err := c.Lookup("A1")
		if err != nil || len(rows) != 2 {
			t.Fatalf("rows of A1: %v, %v", rows, err)
		}
		return c.Source(rows[c.Counting(rows)])
	}
	if got := counting(); got != "second" {
		t.Fatalf("%q counts, want second", got)
	}
	again := at(3, "first")
	if a := p.ok(func(o *Options) { again(o); o.DryRun = true }); a.Renewed || counting() != "second" {
		t.Error("a dry run changes which source counts")
	}
	a := p.ok(again)
	p.wants(a, counts{Rows: 2, Repeated: 2, Fans: 2, Changed: true})
	if got := counting(); got != "first" || !a.Renewed {
		t.Errorf("%q counts, renewed %t, want first", got, a.Renewed)
	}
	p.wants(p.ok(at(4, "first")), counts{Rows: 2, Repeated: 2, Fans: 2})
}

// TestWorkbookFromAPipe: a workbook is read from its end, so what comes by a pipe
// is kept meanwhile, and no longer.
func TestWorkbookFromAPipe(t *testing.T) {
	t.Setenv("TMPDIR", t.TempDir())
	p := newPlace(t, "")
	book := strings.NewReader(asBook(t, listHeader+goodRows))
	a := p.ok(func(o *Options) { o.File, o.Stdin = "-", book })
	p.wants(a, counts{Rows: 2, Imported: 2, Fans: 2, Changed: true})
	if left, err := os.ReadDir(os.TempDir()); err != nil || len(left) > 0 {
		t.Errorf("left behind: %v, %v", left, err)
	}
}
