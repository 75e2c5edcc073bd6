package tabular

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"
)

// TestWorkbook reads a sheet as a person leaves it: titles above the header, empty
// rows, cells of every kind, a total below.
func TestWorkbook(t *testing.T) {
	text := book(t, func(f *excelize.File) {
		must(t, f.SetCellStr("Fans", "A1", "Price list"))
		must(t, f.MergeCell("Fans", "A1", "E1"))
		must(t, f.SetSheetRow("Fans", "A3", &[]any{"part", "noise dB(A)", "PWM", "since", "note"}))
		must(t, f.SetSheetRow("Fans", "A5", &[]any{"KX-1", 28.5, true, time.Date(2024, 3, 12, 0, 0, 0, 0, time.UTC), "two\nlines"}))
		must(t, f.SetSheetRow("Fans", "A6", &[]any{"KX-2", nil, false, nil, "a,b;\"c\""}))
		must(t, f.SetSheetRow("Fans", "B9", &[]any{31}))
		style, err := f.NewStyle(&excelize.Style{NumFmt: 1}) // shows 28.5 as 29
		must(t, err)
		must(t, f.SetCellStyle("Fans", "B5", "B9", style))
	})
	f := opened(t, text, Options{})
	d := f.Dialect()
	if d.Sheet != "Fans" || d.HeaderLine.Value != 3 || d.TitleLines != 1 || len(d.Notes)+len(d.OtherSheets) != 0 {
		t.Errorf("dialect = %+v, want sheet Fans, header on row 3 below one title, no notes", d)
	}
	if d.Encoding.Value != "" || d.Delimiter.Value != 0 || d.LineEnd.Value != "" {
		t.Errorf("dialect = %+v, want nothing that only texts have", d)
	}
	if want := []string{"part", "noise dB(A)", "PWM", "since", "note"}; !slices.Equal(f.Header(), want) {
		t.Errorf("header = %q, want %q", f.Header(), want)
	}
	rows := rowsOf(t, f)
	want := []string{"KX-1|28.5|true|2024-03-12|two\nlines", "KX-2||false||a,b;\"c\"", "|31|||"}
	if got := cellsOf(rows); !slices.Equal(got, want) {
		t.Errorf("rows = %q, want %q", got, want)
	}
	if got, want := linesOf(rows), []int{5, 6, 9}; !slices.Equal(got, want) {
		t.Errorf("rows stand in %v, want %v", got, want)
	}
	if got, want := rows[1].At(4), (Position{6, 5}); got != want {
		t.Errorf("last cell of the second row is at %v, want %v", got, want)
	}
	if got, want := rows[1].Raw(), `KX-2,,false,,"a,b;""c"""`; got != want {
		t.Errorf("second row = %s, want %s", got, want)
	}
	if n, ragged := f.RowCount(); n != 3 || ragged != 0 {
		t.Errorf("row count = %d, %d ragged, want 3, 0", n, ragged)
	}
}

// TestSheetIsTheSameTable writes one table as a text and as a sheet.
func TestSheetIsTheSameTable(t *testing.T) {
	lines := []string{"Liste", "", "Typ;U;Q;", ";V;m³/h;", "A;12;30;x", ";;;", "B;24;31;"}
	var rows [][]any
	for _, l := range lines {
		var row []any
		for c := range strings.SplitSeq(l, ";") {
			row = append(row, c)
		}
		rows = append(rows, row)
	}
	score := Options{HeaderScore: scoreWords("Typ", "U", "Q")}
	asText, asSheet := opened(t, strings.Join(lines, "\n"), score), opened(t, plainBook(t, rows...), score)
	for _, f := range []*File{asText, asSheet} {
		f.SkipBelow()
	}
	if a, b := asText.Header(), asSheet.Header(); !slices.Equal(a, b) {
		t.Errorf("header of the sheet = %q, of the text %q", b, a)
	}
	a, b := rowsOf(t, asText), rowsOf(t, asSheet)
	if !slices.Equal(cellsOf(a), cellsOf(b)) || !slices.Equal(linesOf(a), linesOf(b)) {
		t.Errorf("rows of the sheet = %q in %v, of the text %q in %v", cellsOf(b), linesOf(b), cellsOf(a), linesOf(a))
	}
}

func TestSheetChoice(t *testing.T) {
	text := book(t, func(f *excelize.File) {
		for _, name := range []string{"Cover", "24 V", "Old"} {
			_, err := f.NewSheet(name)
			must(t, err)
		}
		rowsInto(t, f, "Fans", []any{"part", "U"}, []any{"hidden", 1})
		rowsInto(t, f, "24 V", []any{"part", "U"}, []any{"KX-24", 24})
		rowsInto(t, f, "Old", []any{"part", "U"}, []any{"KX-old", 12})
		f.SetActiveSheet(1)
		must(t, f.SetSheetVisible("Fans", false))
		must(t, f.SetSheetVisible("Old", false, true))
	})
	tests := []struct{ sheet, row, others string }{
		{"24 V", "KX-24|24", `other sheets, which are not read: "Fans" (hidden), "Cover", "Old" (hidden); to read one: --sheet "Cover"`},
		{"24 v", "KX-24|24", `other sheets, which are not read: "Fans" (hidden), "Cover", "Old" (hidden); to read one: --sheet "Cover"`},
		{"Old", "KX-old|12", `other sheets, which are not read: "Fans" (hidden), "Cover", "24 V"; to read one: --sheet "Cover"`},
	}
	for _, tt := range tests {
		f := opened(t, text, Options{Sheet: tt.sheet})
		if got := cellsOf(rowsOf(t, f)); !slices.Equal(got, []string{tt.row}) || !slices.Equal(f.Dialect().Notes, []string{tt.others}) {
			t.Errorf("sheet %q: rows = %q, notes = %q, want %q, %q", tt.sheet, got, f.Dialect().Notes, tt.row, tt.others)
		}
	}
	if got, want := opened(t, text, Options{Sheet: "24 V"}).Name(), "fans.csv:24 V"; got != want {
		t.Errorf("name = %q, want %q", got, want)
	}
	e := refused(t, text, Options{}) // the first that is not hidden is empty
	if !errors.Is(e, ErrEmpty) || e.Error() != "fans.csv:Cover: the sheet holds no rows" || !strings.Contains(e.Hint, `"24 V"`) {
		t.Errorf("error = %v, hint %q, want an empty sheet Cover and the others", e, e.Hint)
	}
	e = refused(t, text, Options{Sheet: "25 V"})
	if !errors.Is(e, ErrSheet) || !strings.Contains(e.Reason, `"25 V"`) || e.Hint != `its sheets are "Fans" (hidden), "Cover", "24 V", "Old" (hidden)` {
		t.Errorf("error = %v, hint %q, want ErrSheet and the sheets", e, e.Hint)
	}
}

// TestSheetRefused: what has no sheet to read, and what only texts have.
func TestSheetRefused(t *testing.T) {
	const workbook = "xl/workbook.xml"
	hidden := handmade("").with(workbook, `sheetId="1"`, `sheetId="1" state="hidden"`)
	chart := handmade("").with("xl/_rels/workbook.xml.rels", "/worksheet", "/chartsheet")
	lost := handmade("")
	delete(lost, "xl/worksheets/sheet1.xml")
	table := plainBook(t, []any{"a", "b"}, []any{1, 2})
	tests := []struct {
		name, text string
		opts       Options
		want       error
		message    string
	}{
		{"all hidden", hidden.zipped(t), Options{}, ErrSheet, "every sheet is hidden"},
		{"a chart", chart.zipped(t), Options{}, ErrEmpty, "the workbook holds no sheet of cells"},
		{"a sheet that is not there", lost.zipped(t), Options{}, ErrDamaged, "xl/worksheets/sheet1.xml: it is not there"},
		{"no rows", handmade("").zipped(t), Options{}, ErrEmpty, "fans.csv:Fans: the sheet holds no rows"},
		{"a header alone", plainBook(t, []any{"a", "b"}), Options{}, ErrNoRows, "fans.csv:Fans!1: there is a header but no row below it"},
		{"no such header", table, Options{HeaderLine: 9}, ErrHeaderLine, "no row begins on line 9"},
		{"a delimiter", table, Options{Delimiter: ';'}, ErrDelimiter, "a delimiter is given"},
		{"a character set", table, Options{Encoding: "utf-8"}, ErrEncoding, "a character set is given"},
		{"a sheet of a text", "a;b\n1;2\n", Options{Sheet: "Fans"}, ErrSheet, `sheet "Fans" is asked for`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if e := refused(t, tt.text, tt.opts); !errors.Is(e, tt.want) || !strings.Contains(e.Error(), tt.message) {
				t.Errorf("error = %v, want %v: %q", e, tt.want, tt.message)
			}
		})
	}
}

// TestOtherContainers: what people take for a workbook.
func TestOtherContainers(t *testing.T) {
	compound := "\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + strings.Repeat("\x00", 100_000)
	utf16 := func(name string) string { return string(wide(name)) }
	tests := []struct {
		name, text string
		want       error
		reason     string
	}{
		{".xls", compound + utf16("Workbook"), ErrNotText, "an old workbook (.xls)"},
		{"the first .xls", compound + utf16("Book"), ErrNotText, "an old workbook (.xls)"},
		{".doc in a face called Bookman", compound + utf16("Bookman") + utf16("WordDocument"), ErrNotText, "an old text document (.doc)"},
		{"locked", compound + utf16("EncryptionInfo") + utf16("EncryptedPackage"), ErrLocked, "locked with a password"},
		{".ods", parts{"mimetype": "application/vnd.oasis.opendocument.spreadsheet", "content.xml": ""}.zipped(t), ErrNotText, "(.ods)"},
		{".odt", parts{"mimetype": "application/vnd.oasis.opendocument.text", "content.xml": ""}.zipped(t), ErrNotText, "OpenDocument file"},
		{".numbers", parts{"Index/Document.iwa": "", "preview.jpg": ""}.zipped(t), ErrNotText, ".numbers"},
		{".xlsb", parts{"_rels/.rels": "", "xl/workbook.bin": ""}.zipped(t), ErrNotText, "(.xlsb)"},
		{".docx", parts{"_rels/.rels": strings.Replace(handmade("")["_rels/.rels"], "xl/workbook", "word/document", 1), "word/document.xml": ""}.zipped(t), ErrNotText, "(.docx)"},
		{".pptx", parts{"_rels/.rels": "", "ppt/presentation.xml": ""}.zipped(t), ErrNotText, "(.pptx)"},
		{".zip", parts{"parts.csv": "a;b\n1;2\n"}.zipped(t), ErrNotText, "a ZIP archive"},
		{"an empty .zip", parts{}.zipped(t), ErrNotText, "an empty ZIP archive"},
		{"half a .zip", plainBook(t, []any{"a"})[:2000], ErrDamaged, "damaged: its list of contents"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			e := refused(t, tt.text, Options{})
			if !errors.Is(e, tt.want) || !strings.Contains(e.Error(), tt.reason) || e.Hint == "" && tt.name != "an empty .zip" {
				t.Errorf("error = %v, hint %q, want %v with %q and a hint", e, e.Hint, tt.want, tt.reason)
			}
		})
	}
	locked := book(t, func(f *excelize.File) { rowsInto(t, f, "Fans", []any{"a"}, []any{1}) })
	sealed, err := excelize.Encrypt([]byte(locked), &excelize.Options{Password: "fan"})
	must(t, err)
	if e := refused(t, string(sealed), Options{}); !errors.Is(e, ErrLocked) {
		t.Errorf("a workbook with a password: %v, want ErrLocked", e)
	}
}

// TestWorkbookElsewhere: parts may have other names than they mostly have.
func TestWorkbookElsewhere(t *testing.T) {
	p := handmade(`<row><c t="s"><v>0</v></c></row><row><c t="s"><v>1</v></c></row>`)
	moved := parts{}
	for name, text := range p {
		name = strings.ReplaceAll(strings.ReplaceAll(name, "workbook", "Book22"), "sheet1", "SHEET7")
		moved[strings.ReplaceAll(name, "/", `\`)] = text
	}
	moved.with(`_rels\.rels`, "xl/workbook.xml", "/XL/book22.xml")
	moved.with(`xl\_rels\Book22.xml.rels`, "worksheets/sheet1.xml", "../xl/./worksheets/sheet7.xml")
	if got := cellsOf(rowsOf(t, opened(t, moved.zipped(t), Options{}))); !slices.Equal(got, []string{"b"}) {
		t.Errorf("rows = %q, want b", got)
	}
}

// TestNamelessSheet: a sheet without a name has a number.
func TestNamelessSheet(t *testing.T) {
	p := handmade(`<row><c t="s"><v>0</v></c></row><row><c t="s"><v>1</v></c><c><v>2</v></c></row>`).with("xl/workbook.xml", `name="Fans"`, `name=""`)
	f := opened(t, p.zipped(t), Options{HeaderLine: 1})
	if got := cellsOf(rowsOf(t, f)); f.Dialect().Sheet != "sheet 1" || !slices.Equal(got, []string{"b|2"}) {
		t.Errorf("sheet %q, rows = %q, want sheet 1, b|2", f.Dialect().Sheet, got)
	}
}

func TestPlaceText(t *testing.T) {
	tests := []struct {
		sheet string
		at    Position
		want  string
	}{
		{"", Position{}, ""}, {"", Position{Line: 12}, "12"}, {"", Position{12, 3}, "12:3"},
		{"Fans", Position{}, "Fans"}, {"Fans", Position{Line: 12}, "Fans!12"}, {"Fans", Position{12, 3}, "Fans!C12"},
		{"24 V", Position{12, 28}, "'24 V'!AB12"}, {"it's", Position{1, MaxColumns}, "'it''s'!XFD1"}, {"Lüfter", Position{1, 26}, "Lüfter!Z1"},
	}
	for _, tt := range tests {
		if got := (&Dialect{Sheet: tt.sheet}).Place(tt.at); got != tt.want {
			t.Errorf("Place(%v) in %q = %s, want %s", tt.at, tt.sheet, got, tt.want)
		}
	}
}

// TestParseRef: every column there is, there and back.
func TestParseRef(t *testing.T) {
	for column := 1; column <= MaxColumns; column++ {
		ref := fmt.Sprintf("%s%d", columnName(column), 1+column%maxRows)
		if c, r, ok := parseRef(ref); c != column || r != 1+column%maxRows || !ok {
			t.Fatalf("parseRef(%s) = %d, %d, %v, want %d, %d", ref, c, r, ok, column, 1+column%maxRows)
		}
		if want, err := excelize.ColumnNumberToName(column); err != nil || columnName(column) != want {
			t.Fatalf("columnName(%d) = %s, want %s", column, columnName(column), want)
		}
	}
	for _, ref := range []string{"", "A", "1", "A0", "XFE1", "A1048577", "AAAAAAAAAAAAAAAAAAAAAAA1", "A99999999999999999999", "1A", "A-1", "A1:B2", "$A$1", "Ä1"} {
		if c, r, ok := parseRef(ref); ok {
			t.Errorf("parseRef(%q) = %d, %d, want none", ref, c, r)
		}
	}
}
