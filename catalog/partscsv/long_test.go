package partscsv

import (
	"strings"
	"testing"
	"unicode/utf8"

	"lowsone/catalog/tabular"
)

// TestLongCells: a cell longer than any value is none, is not taken apart, and is
// not told whole.
func TestLongCells(t *testing.T) {
	for _, r := range []struct{ header, cell string }{
		{"Size (mm)", strings.Repeat("60x", 80_000) + "60"},
		{"Airflow [m³/h]", strings.Repeat("1-", 100_000) + "2"},
		{"Current [A]", strings.Repeat("0.2 y ", 50_000)},
		{"noise_bands", strings.Repeat("y", 200_000)},
		{"kind", strings.Repeat("lüfter", 40_000)},
	} {
		got, remarks := readCellOf(t, tabular.Point, r.header, r.cell)
		told := got
		for _, m := range remarks {
			told += m.Text + m.Warning
		}
		if told == "" || len(told) > 2000 {
			t.Errorf("%.20q under %q: %d bytes are told of it: %.300s", r.cell, r.header, len(told), told)
		}
	}
	got, _ := readCellOf(t, tabular.Point, "Airflow [m³/h]", strings.Repeat("1-", 100_000)+"2")
	if want := "reject: too long for a value: 200001 bytes"; got != want {
		t.Errorf("a long range = %s, want %s", got, want)
	}
}

// TestLongHeader: a header longer than any name of a column names none.
func TestLongHeader(t *testing.T) {
	h := newLexicon().parseHeader(strings.Repeat("airflow CFM +/- ", 20_000), "")
	if len(h.tokens) > 0 || len(h.units) > 0 {
		t.Errorf("%d words and %d units in a header of 300 KB, want none", len(h.tokens), len(h.units))
	}
}

// TestLongWord: a word longer than any compound is taken as it is.
func TestLongWord(t *testing.T) {
	long := strings.Repeat("luft", 50_000)
	if got := newLexicon().vocabulary.tokens(long); len(got) != 1 {
		t.Errorf("%d words, want the one", len(got))
	}
}

func TestClipped(t *testing.T) {
	for _, r := range []struct {
		text string
		want int // characters
	}{
		{"", 0}, {strings.Repeat("y", mostTold), mostTold}, {strings.Repeat("ü", mostTold), mostTold}, {strings.Repeat("ü", mostTold+1), mostTold + 1},
		{strings.Repeat("y", 5000), mostTold + 1},
	} {
		got := clipped(r.text)
		if n := utf8.RuneCountInString(got); n != r.want || !utf8.ValidString(got) {
			t.Errorf("clipped(%.20q…) has %d characters, want %d", r.text, n, r.want)
		}
	}
}
