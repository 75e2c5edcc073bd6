package tabular

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// benchBook is the table of benchTable as a sheet.
func benchBook(b *testing.B) string {
	return book(b, func(f *excelize.File) {
		w, err := f.NewStreamWriter("Fans")
		must(b, err)
		n := 0
		for line := range strings.Lines(benchTable()) {
			var row []any
			for cell := range strings.SplitSeq(strings.TrimSpace(line), ";") {
				if v, err := ParseNumber(cell, Comma); err == nil {
					row = append(row, v)
				} else {
					row = append(row, strings.Trim(cell, `"`))
				}
			}
			n++
			must(b, w.SetRow(fmt.Sprintf("A%d", n), row))
		}
		must(b, w.Flush())
	})
}

func BenchmarkSheet(b *testing.B) {
	text := benchBook(b)
	ctx := context.Background()
	f, err := Open(ctx, "bench.xlsx", strings.NewReader(text), int64(len(text)), Options{})
	must(b, err)
	b.ReportAllocs()
	for b.Loop() {
		n := 0
		for _, err := range f.Rows(ctx) {
			must(b, err)
			n++
		}
		if n != benchRows {
			b.Fatalf("%d rows, want %d", n, benchRows)
		}
	}
	perSecond(b)
}

// BenchmarkSheetOfLibrary is what the one above is held against.
func BenchmarkSheetOfLibrary(b *testing.B) {
	text := benchBook(b)
	b.ReportAllocs()
	for b.Loop() {
		f, err := excelize.OpenReader(strings.NewReader(text), excelize.Options{RawCellValue: true})
		must(b, err)
		rows, err := f.Rows("Fans")
		must(b, err)
		for rows.Next() {
			_, err := rows.Columns()
			must(b, err)
		}
		must(b, f.Close())
	}
	perSecond(b)
}
