// Package sources reads the published values that tests are held against. It is
// for tests only.
package sources

import (
	"embed"
	"encoding/csv"
	"testing"
)

//go:embed *.csv
var files embed.FS

// Rows reads a file, the header first. A file that is missing, ragged or has no
// rows fails the test.
func Rows(t testing.TB, name string) [][]string {
	t.Helper()
	f, err := files.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	if len(rows) < 2 {
		t.Fatalf("%s has no rows", name)
	}
	return rows
}

// Records reads a file, each row by the names of its columns.
func Records[R ~map[string]string](t testing.TB, name string) []R {
	t.Helper()
	rows := Rows(t, name)
	var all []R
	for _, row := range rows[1:] {
		r := R{}
		for i, column := range rows[0] {
			r[column] = row[i]
		}
		all = append(all, r)
	}
	return all
}
