package cli

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"
)

// workbookOf makes a workbook of what a session holds in its place: a line
// "[NAME]", or "[NAME] hidden", begins a sheet; every other line is a row, its
// cells between bars. A cell that reads as a number or a date is one, unless an
// apostrophe stands before it; numbers are shown without digits behind the point,
// so that who reads what is shown reads something else.
func workbookOf(t *testing.T, text string) []byte {
	t.Helper()
	f := excelize.NewFile()
	w := bookWriter{t: t, file: f}
	var err error
	w.whole, err = f.NewStyle(&excelize.Style{NumFmt: 1})
	w.must(err)
	for line := range strings.Lines(text) {
		w.line(strings.TrimSpace(line))
	}
	w.must(f.DeleteSheet("Sheet1"))
	var out bytes.Buffer
	w.must(f.Write(&out))
	return out.Bytes()
}

type bookWriter struct {
	t     *testing.T
	file  *excelize.File
	whole int // style of numbers
	sheet string
	row   int
}

func (w *bookWriter) must(err error) {
	w.t.Helper()
	if err != nil {
		w.t.Fatal(err)
	}
}

func (w *bookWriter) line(line string) {
	if name, rest, ok := strings.Cut(strings.TrimPrefix(line, "["), "]"); ok && strings.HasPrefix(line, "[") {
		w.sheet, w.row = name, 0
		_, err := w.file.NewSheet(name)
		w.must(err)
		w.must(w.file.SetSheetVisible(name, strings.TrimSpace(rest) != "hidden"))
		return
	}
	w.row++
	for i, cell := range strings.Split(line, "|") {
		column, err := excelize.ColumnNumberToName(i + 1)
		w.must(err)
		w.cell(fmt.Sprintf("%s%d", column, w.row), strings.TrimSpace(cell))
	}
}

func (w *bookWriter) cell(at, cell string) {
	if text, ok := strings.CutPrefix(cell, "'"); ok {
		w.must(w.file.SetCellStr(w.sheet, at, text))
		return
	}
	if day, err := time.Parse(time.DateOnly, cell); err == nil {
		w.must(w.file.SetCellValue(w.sheet, at, day))
		return
	}
	if v, err := strconv.ParseFloat(cell, 64); err == nil {
		w.must(w.file.SetCellFloat(w.sheet, at, v, -1, 64))
		w.must(w.file.SetCellStyle(w.sheet, at, at, w.whole))
		return
	}
	if cell != "" {
		w.must(w.file.SetCellStr(w.sheet, at, cell))
	}
}
