package tabular

import (
	"errors"
	"slices"
	"strings"
	"testing"
)

// TestQuotes: RFC 4180, section 2, rules 5 to 7, with its own examples.
func TestQuotes(t *testing.T) {
	tests := []struct {
		name, text string
		want       []string
	}{
		{"rule 5: quotes or none", "h1,h2,h3\r\n\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx", []string{"aaa|bbb|ccc", "zzz|yyy|xxx"}},
		{"rule 6: a line end within", "h1,h2,h3\r\n\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx", []string{"aaa|b\nbb|ccc", "zzz|yyy|xxx"}},
		{"rule 6: a comma within", "h1,h2\r\n\"aa,a\",b\r\n", []string{"aa,a|b"}},
		{"rule 7: a doubled quote mark", "h1,h2,h3\r\n\"aaa\",\"b\"\"bb\",\"ccc\"\r\n", []string{"aaa|b\"bb|ccc"}},
		{"rule 4: spaces belong to the cell", "h1,h2\r\n a , b\r\n", []string{" a | b"}},
		{"a lone CR within", "h1,h2\r\"a\rb\",c\r", []string{"a\nb|c"}},
		{"a form feed, on its own line and within", "h1,h2\n\f\na\fb,\"c\f\"\n", []string{"ab|c"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			f := opened(t, tt.text, Options{})
			if got := cellsOf(rowsOf(t, f)); !slices.Equal(got, tt.want) {
				t.Errorf("rows = %q, want %q (RFC 4180)", got, tt.want)
			}
			if d := f.Dialect(); d.Lenient || len(d.Notes) > 0 {
				t.Errorf("lenient = %v, notes = %q, want false and none", d.Lenient, d.Notes)
			}
		})
	}
}

func TestRelaxedQuotes(t *testing.T) {
	tests := []struct {
		name, text string
		lenient    bool
		want       []string
		note       string
	}{
		{"an inch mark", "Typ;Maß;U\nA;2.36\" (60mm);12\nB;\"3;15\";24\n", true,
			[]string{"A|2.36\" (60mm)|12", "B|3;15|24"}, "line 2, character 7"},
		{"an inch mark at the end of a cell", "Typ;Maß\nä;2.36\"\n", true, []string{"ä|2.36\""}, "line 2, character 7"},
		{"an inch mark within quotes", "Typ;Maß\nA;\"2.36\" (60mm)\"\nB;1\n", true,
			[]string{"A|2.36\" (60mm)", "B|1"}, "line 2, character 8"},
		{"blanks before quotes", "Typ, Maß\nA, \"60, 25\"\nB, \"x\ny\"\n", false,
			[]string{"A|60, 25", "B|x\ny"}, "blanks before a quote mark"},
		{"blanks before quotes, and an inch mark", "Typ,Maß\nA, \"60, 25\"\nB,2\"\n", true,
			[]string{"A|60, 25", "B|2\""}, "blanks before a quote mark"},
		{"blanks before quotes between tabs", "Typ\tMaß\tU\nA\t\t \"60\"\n", true,
			[]string{"A|| \"60\""}, "inside a cell"},
		{"text of several lines", "Typ;Maß\nA;2\"\nB;\"see:\n2.36\" frame\nend\"\nC;3\n", true,
			[]string{"A|2\"", "B|see:\n2.36\" frame\nend", "C|3"}, "line 2"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			f := opened(t, tt.text, Options{})
			if got := cellsOf(rowsOf(t, f)); !slices.Equal(got, tt.want) {
				t.Errorf("rows = %q, want %q", got, tt.want)
			}
			d := f.Dialect()
			if d.Lenient != tt.lenient || !strings.Contains(strings.Join(d.Notes, "\n"), tt.note) || len(d.Notes) != 1+strings.Count(tt.name, ", and ") {
				t.Errorf("lenient = %v, notes = %q, want %v and %q", d.Lenient, d.Notes, tt.lenient, tt.note)
			}
		})
	}
}

func TestUnclosedQuote(t *testing.T) {
	rest := strings.Repeat("D;60;12\n", 3)
	tests := []struct {
		name, text string
		at         Position
	}{
		{"to the end of the file", "Typ;B;U\nA;60;12\nÄ;\"60;12\n" + rest, Position{3, 3}},
		{"behind a cell of several lines", "Typ;B;U\n\"A\nB\";\"60;12\n" + rest, Position{3, 4}},
		{"in the header", "Typ;\"B;U\n" + rest, Position{1, 5}},
		{"last in the file", "Typ;B;U\nA;60;\"", Position{2, 6}},
		{"behind blank lines and CRs", "Typ;B;U\r\r\rA;60;\"12\r", Position{4, 6}},
		{"behind blanks", "Typ, B, U\nA, \"60, 12\n" + strings.ReplaceAll(rest, ";", ", "), Position{2, 4}},
		{"lenient, on the last line", "Typ;B;U\nA;2\";12\nB;\"60", Position{3, 3}},
		{"lenient, to the end of the file", "Typ;B;U\nA;2\";12\nB;\"60;12\n" + rest, Position{3, 3}},
		{"lenient, up to the next quoted cell", "Typ;B;U\nA;2\";12\nB;\"60;12\n" + rest + "C;\"60\";12\n" + rest, Position{3, 3}},
		{"strict, up to the next quoted cell", "Typ;B;U\nB;\"60;12\n" + rest + "C;\"60\";12\n" + rest, Position{2, 3}},
		{"the same, first in its line", "Typ;B;U\nB;\"60;12\n\"C\";60;12\n" + rest, Position{2, 3}},
		{"which would give as many cells as the header", "Typ;B;U\nA;\"60;12\nB;\"60\";12\n" + rest, Position{2, 3}},
		{"an unclosed quote below inch marks that are not doubled", "Typ;B;U\nA;\"60 = 2.36\"\";12\nB;\"60;12\nC;\"60\";12\n", Position{2, 3}},
		{"inch marks that are not doubled, and a cell of two lines", "Typ;B;U\nA;\"60 = 2.36\"\";12\nB;\"60\n\";12\nC;\"60\";12\n", Position{2, 3}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			e := refused(t, tt.text, Options{})
			if !errors.Is(e, ErrUnclosedQuote) || e.At != tt.at || e.Hint == "" {
				t.Errorf("error = %v, hint %q, want ErrUnclosedQuote at %v and a hint", e, e.Hint, tt.at)
			}
		})
	}
}

// TestUndoubledQuotes: cells in quotes with inch marks that are not doubled.
func TestUndoubledQuotes(t *testing.T) {
	tests := []struct {
		name, text string
		want       []string
		raw        string // of the first row
		position   Position
	}{
		{"last in a cell", "Typ;B;U\nA;\"60 = 2.36\"\";12\nB;\"60\";12\n", []string{"A|60 = 2.36\"|12", "B|60|12"},
			"A;\"60 = 2.36\"\";12", Position{2, 16}},
		{"last in the first cell", "B;Typ;U\n\"2.36\"\";A;12\n\"60\";B;12\n", []string{"2.36\"|A|12", "60|B|12"},
			"\"2.36\"\";A;12", Position{2, 11}},
		{"last in the last cell", "Typ;U;B\r\nA;12;\"60 = 2.36\"\"\r\nB;12;\"60\"\r\n", []string{"A|12|60 = 2.36\"", "B|12|60"},
			"A;12;\"60 = 2.36\"\"", Position{2, 6}},
		{"last in the file", "Typ;U;B\rA;12;\"2.36\"\"\rB;12;\"3.15\"\"", []string{"A|12|2.36\"", "B|12|3.15\""},
			"A;12;\"2.36\"\"", Position{2, 6}},
		{"several", "Typ;B;U\nA;\"2.36\" x 2.36\"\";\"1\"\"\n", []string{"A|2.36\" x 2.36\"|1\""},
			"A;\"2.36\" x 2.36\"\";\"1\"\"", Position{2, 19}},
		{"beside doubled ones", "Typ;B;U\nA;\"2.36\"\" x 2.36\"\";12\nB;\"x\"\"\";2\"\n", []string{"A|2.36\" x 2.36\"|12", "B|x\"|2\""},
			"A;\"2.36\"\" x 2.36\"\";12", Position{2, 20}},
		{"behind blanks", "Typ, B, U\nA, \"2.36\"\", 12\nB, \"60\", \"12\"\n", []string{"A|2.36\"|12", "B|60|12"},
			"A, \"2.36\"\", 12", Position{2, 13}},
		{"one row that is only cut into too few cells", "Typ,B,T,U\nA,2.36\",1.0\",12\nB,\"2.36\"\",1.0\",24\nC,60,25,12\n",
			[]string{"A|2.36\"|1.0\"|12", "B|2.36\"|1.0\"|24", "C|60|25|12"}, "A,2.36\",1.0\",12", Position{2, 9}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			f := opened(t, tt.text, Options{})
			rows := rowsOf(t, f)
			if got := cellsOf(rows); !slices.Equal(got, tt.want) {
				t.Errorf("rows = %q, want %q", got, tt.want)
			}
			if got, at := rows[0].Raw(), rows[0].At(2); got != tt.raw || at != tt.position {
				t.Errorf("first row is %q with its third cell at %v, want %q, %v", got, at, tt.raw, tt.position)
			}
			if d := f.Dialect(); !d.Lenient || !strings.Contains(strings.Join(d.Notes, "\n"), "not doubled") {
				t.Errorf("lenient = %v, notes = %q, want true and that quote marks are not doubled", d.Lenient, d.Notes)
			}
		})
	}
}

// TestDoubledQuotesStand: where the doubling is right, a rejected row is no
// reason to read another way.
func TestDoubledQuotesStand(t *testing.T) {
	f := opened(t, "Typ;B;U\nA;2\";12\nB;\"2\"\";3\"\"\";24\nC\n", Options{})
	if got, want := cellsOf(rowsOf(t, f)), []string{"A|2\"|12", "B|2\";3\"|24", "C"}; !slices.Equal(got, want) {
		t.Errorf("rows = %q, want %q", got, want)
	}
}

// TestClosedQuotes: nothing of this is an unclosed quote.
func TestClosedQuotes(t *testing.T) {
	for _, text := range []string{
		"a;b\n1;\"x\"", "a;b\n1;\"x\"\n", "a;b\n1;\"x\"\r", "a;b\n1;\"\"", "a;b\n1;\"\"\"\"\n", "a;b\n1;\"\n\n\"\n\n",
		"a;b\n2\";\"x\"", "a;b\n2\";\"\"\"\"", "a;b\n2\";x\"", "a;b\n2\";\"x\n\"\"y\"\"\n\"",
		"a;b\n2\";\"x;\"y\"", "a;b\n2\";\"x\n\"\"\"y\"",
	} {
		opened(t, text, Options{})
	}
}
