package tabular

import (
	"slices"
	"strings"
	"testing"
)

func TestRagged(t *testing.T) {
	const text = "Typ;B;U\nA;60;12\nB;60\nC;60;12;x\nD;60;12;;\nE;;\nF;60;12; ;\t;\nG;60;;x\n"
	f := opened(t, text, Options{})
	rows := rowsOf(t, f)
	want := []struct {
		cells  int
		ragged bool
		fields string
	}{
		{3, false, "A|60|12"}, {2, true, "B|60"}, {4, true, "C|60|12|x"}, {3, false, "D|60|12"},
		{3, false, "E||"}, {3, false, "F|60|12"}, {4, true, "G|60||x"},
	}
	if len(rows) != len(want) {
		t.Fatalf("rows = %q, want %d", cellsOf(rows), len(want))
	}
	for i, r := range rows {
		w := want[i]
		if r.Cells != w.cells || r.Want != 3 || r.Ragged != w.ragged || strings.Join(r.Fields, "|") != w.fields {
			t.Errorf("row %q: %d cells of %d, ragged %v, want %q: %d of 3, %v", r.Fields, r.Cells, r.Want, r.Ragged, w.fields, w.cells, w.ragged)
		}
	}
	if n, ragged := f.RowCount(); n != 7 || ragged != 3 {
		t.Errorf("row count = %d, %d ragged, want 7, 3", n, ragged)
	}
}

func TestRaw(t *testing.T) {
	raws := []string{
		"A;60;12", "\"B\";\"6\"\"0\";12;;", "C;\"one\r\ntwo\rthree\nfour\";2", " D ;60", "E;\"\";\"\r\r\"", "F;6\f0;1",
	}
	want := slices.Clone(raws)
	want[5] = "F;60;1"
	for _, end := range []string{"\n", "\r\n", "\r"} {
		text := "Typ;B;U" + end + end + strings.Join(raws, end+end+";;"+end) + end
		var got []string
		for _, r := range rowsOf(t, opened(t, text, Options{})) {
			got = append(got, r.Raw())
		}
		if !slices.Equal(got, want) {
			t.Errorf("raw rows between %q = %q, want %q", end, got, want)
		}
	}
}

// TestPlaces: cells stand where an editor shows them.
func TestPlaces(t *testing.T) {
	text := "Typ;Ü;U\r\rÄÖ;\"x\rß\";\"y\r\n\r\nz\";7\rB;;12"
	f := opened(t, text, Options{})
	if got, want := f.HeaderRow().At(2), (Position{1, 7}); got != want {
		t.Errorf("third header cell at %v, want %v", got, want)
	}
	rows := rowsOf(t, f)
	want := [][]Position{
		{{3, 1}, {3, 4}, {4, 4}, {6, 4}},
		{{7, 1}, {7, 3}, {7, 4}, {7, 0}},
	}
	for i, places := range want {
		for column, want := range places {
			if got := rows[i].At(column); got != want {
				t.Errorf("row %d, cell %d at %v, want %v", i, column, got, want)
			}
		}
	}
	if got, want := rows[0].At(-1), (Position{Line: 3}); got != want {
		t.Errorf("cell -1 at %v, want %v", got, want)
	}
}

// TestRowIsReused: a row handed out and its clone say the same, and the clone
// goes on saying it.
func TestRowIsReused(t *testing.T) {
	f := opened(t, "a;b\n1;\"x\ny\"\n2;z\n", Options{})
	var first *Row
	for row, err := range f.Rows(t.Context()) {
		if err != nil {
			t.Fatal(err)
		}
		c := row.Clone()
		if c.Raw() != row.Raw() || c.At(1) != row.At(1) || c.Line != row.Line || !slices.Equal(c.Fields, row.Fields) {
			t.Errorf("clone = %q at %v, row = %q at %v", c.Raw(), c.At(1), row.Raw(), row.At(1))
		}
		if first == nil {
			first = c
		}
	}
	if first.Fields[1] != "x\ny" || first.Raw() != "1;\"x\ny\"" || first.Clone().At(1) != (Position{2, 3}) {
		t.Errorf("first row = %q, %q at %v", first.Fields, first.Raw(), first.At(1))
	}
}

// TestRowsTwice: two passes at the same time do not disturb each other.
func TestRowsTwice(t *testing.T) {
	f := opened(t, "a;b\n1;2\n3;4\n5;6\n", Options{})
	n := 0
	for outer, err := range f.Rows(t.Context()) {
		if err != nil {
			t.Fatal(err)
		}
		before := outer.Fields[0]
		for range f.Rows(t.Context()) {
			n++
		}
		if outer.Fields[0] != before {
			t.Errorf("row %q changed under an inner pass", before)
		}
	}
	if n != 9 {
		t.Errorf("inner rows = %d, want 9", n)
	}
}

func TestLineEnds(t *testing.T) {
	tests := []struct {
		text string
		want LineEnd
	}{
		{"a;b\n1;2\n", LF},
		{"a;b\r\n1;2", CRLF},
		{"a;b\r1;2\r", CR},
		{"a;b\r\n1;2\n", Mixed},
		{"a;b\r\n1;\"2\n3\"\r\n", CRLF}, // what ends rows counts, not what stands in cells
		{"a;b\r\n1;\"2\r3\"", CRLF},
	}
	for _, tt := range tests {
		if got := opened(t, tt.text, Options{}).Dialect().LineEnd.Value; got != tt.want {
			t.Errorf("line end of %q = %s, want %s", tt.text, got, tt.want)
		}
	}
	var none lineEnds
	none.count([]byte("a;b"))
	if got := none.kind(); got != Unended {
		t.Errorf("line end of one row without = %s, want %s", got, Unended)
	}
}
