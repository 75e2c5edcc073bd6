package tabular

import (
	"archive/zip"
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// book writes a workbook with a library that is not ours, as spreadsheets do: its
// first sheet is called Fans.
func book(t testing.TB, fill func(f *excelize.File)) string {
	t.Helper()
	f := excelize.NewFile()
	must(t, f.SetSheetName("Sheet1", "Fans"))
	fill(f)
	var b bytes.Buffer
	must(t, f.Write(&b))
	must(t, f.Close())
	return b.String()
}

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// rowsInto writes rows into a sheet from A1 on.
func rowsInto(t testing.TB, f *excelize.File, sheet string, rows ...[]any) {
	t.Helper()
	for i, row := range rows {
		must(t, f.SetSheetRow(sheet, fmt.Sprintf("A%d", i+1), &row))
	}
}

// plainBook is a workbook of one sheet of rows.
func plainBook(t testing.TB, rows ...[]any) string {
	t.Helper()
	return book(t, func(f *excelize.File) { rowsInto(t, f, "Fans", rows...) })
}

// parts are the parts of a workbook written by hand, by name.
type parts map[string]string

// handmade are the parts of a workbook whose one sheet, called Fans, holds the rows
// given as XML, and whose shared texts are a, b and c.
func handmade(rows string) parts {
	const (
		relations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/"
		head      = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>`
	)
	return parts{
		"_rels/.rels":                head + `<Relationships><Relationship Id="rId1" Type="` + relations + `officeDocument" Target="xl/workbook.xml"/></Relationships>`,
		"xl/workbook.xml":            head + `<workbook xmlns:r="` + relations + `"><sheets><sheet name="Fans" sheetId="1" r:id="rId1"/></sheets></workbook>`,
		"xl/_rels/workbook.xml.rels": head + `<Relationships><Relationship Id="rId1" Type="` + relations + `worksheet" Target="worksheets/sheet1.xml"/></Relationships>`,
		"xl/worksheets/sheet1.xml":   head + `<worksheet><sheetData>` + rows + `</sheetData></worksheet>`,
		"xl/sharedStrings.xml":       head + `<sst><si><t>a</t></si><si><t>b</t></si><si><r><t>c</t></r><rPh sb="0" eb="1"><t>x</t></rPh></si></sst>`,
	}
}

// zipped packs parts.
func (p parts) zipped(t testing.TB) string { return p.archived(t, zip.Deflate) }

// archived puts parts into an archive, packed or as they are.
func (p parts) archived(t testing.TB, method uint16) string {
	t.Helper()
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	names := make([]string, 0, len(p))
	for name := range p {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		part, err := w.CreateHeader(&zip.FileHeader{Name: name, Method: method})
		must(t, err)
		_, err = part.Write([]byte(p[name]))
		must(t, err)
	}
	must(t, w.Close())
	return b.String()
}

// with replaces a text in one of the parts.
func (p parts) with(name, old, new string) parts {
	if !strings.Contains(p[name], old) {
		panic(fmt.Sprintf("%s does not hold %q", name, old))
	}
	p[name] = strings.Replace(p[name], old, new, 1)
	return p
}
