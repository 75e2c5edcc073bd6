package tabular

import (
	"context"
	"errors"
	"strings"
	"testing"
)

// opened looks through a text that must be accepted.
func opened(t testing.TB, text string, opts Options) *File {
	t.Helper()
	f, err := Open(context.Background(), "fans.csv", strings.NewReader(text), int64(len(text)), opts)
	if err != nil {
		t.Fatalf("Open(%.80q) = %v, want no error", text, err)
	}
	return f
}

// refused looks through a text that must not be accepted.
func refused(t testing.TB, text string, opts Options) *Error {
	t.Helper()
	_, err := Open(context.Background(), "fans.csv", strings.NewReader(text), int64(len(text)), opts)
	var e *Error
	if !errors.As(err, &e) {
		t.Fatalf("Open(%.80q) = %v, want an *Error", text, err)
	}
	return e
}

// rowsOf reads all rows and keeps them.
func rowsOf(t testing.TB, f *File) []*Row {
	t.Helper()
	var rows []*Row
	for row, err := range f.Rows(context.Background()) {
		if err != nil {
			t.Fatalf("Rows: %v", err)
		}
		rows = append(rows, row.Clone())
	}
	return rows
}

// cellsOf are the cells of rows, with | between them.
func cellsOf(rows []*Row) []string {
	var lines []string
	for _, r := range rows {
		lines = append(lines, strings.Join(r.Fields, "|"))
	}
	return lines
}

// linesOf are the physical lines of rows.
func linesOf(rows []*Row) []int {
	var lines []int
	for _, r := range rows {
		lines = append(lines, r.Line)
	}
	return lines
}
