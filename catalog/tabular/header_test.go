package tabular

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
)

// scoreWords counts the cells that are one of some words.
func scoreWords(words ...string) func([]string) float64 {
	return func(cells []string) float64 {
		n := 0.0
		for _, c := range cells {
			if slices.Contains(words, strings.TrimSpace(c)) {
				n++
			}
		}
		return n
	}
}

func TestHeaderLine(t *testing.T) {
	words := scoreWords("Typ", "U", "Q", "V")
	const titled = "Liste 2024\n\nnur für Händler;V\nTyp;U;Q\nA;12;30\nB;24;40\n"
	tests := []struct {
		name, text string
		opts       Options
		line       int
		titles     []string
		how        string
	}{
		{"first line", "Typ;U;Q\nA;12;30\n", Options{}, 1, nil, "as wide"},
		{"by shape", titled, Options{}, 4, []string{"Liste 2024", "nur für Händler|V"}, "as wide"},
		{"by score", titled, Options{HeaderScore: words}, 4, []string{"Liste 2024", "nur für Händler|V"}, "most like"},
		{"by score, the first of equals", "x;y\nTyp;U\n1;2\nTyp;U\n3;4\n", Options{HeaderScore: words}, 2, []string{"x|y"}, "most like"},
		{"no score above zero", titled, Options{HeaderScore: func([]string) float64 { return 0 }}, 4,
			[]string{"Liste 2024", "nur für Händler|V"}, "as wide"},
		{"forced", titled, Options{HeaderLine: 3, HeaderScore: words}, 3, []string{"Liste 2024"}, "as given"},
		{"forced, behind lines within quotes", "\"a\n\nb\";c\nTyp;U\n1;2\n", Options{HeaderLine: 4}, 4, []string{"a\n\nb|c"}, "as given"},
		{"below a sep line", "sep=;\nListe\nTyp;U\n1;2\n", Options{}, 3, []string{"Liste"}, "as wide"},
		{"below a title of two cells, last column sparse", "Lager: Halle 3; Tel. 99\nTyp;Preis;Maker\nA;7;\nB;8;x\nC;9;\nD;9;y\nE;9;\nF;9;z\n",
			Options{}, 2, []string{"Lager: Halle 3| Tel. 99"}, "as wide"},
		{"below more titles than rows", strings.Repeat("note\n", 12) + "Typ;U;Q\nA;12;30\nB;24;40\nC;12;50\n",
			Options{}, 13, slices.Repeat([]string{"note"}, 12), "as wide"},
		{"padded titles", "Liste;;\n;;\nTyp;U;Q\nA;12;30\n", Options{}, 3, []string{"Liste||"}, "as wide"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			f := opened(t, tt.text, tt.opts)
			d := f.Dialect()
			if d.HeaderLine.Value != tt.line || d.HeaderLine.Forced != (tt.opts.HeaderLine > 0) || !strings.Contains(d.HeaderLine.How, tt.how) {
				t.Errorf("header line = %+v, want %d, %q", d.HeaderLine, tt.line, tt.how)
			}
			if got := cellsOf(f.Titles()); !slices.Equal(got, tt.titles) || d.TitleLines != len(tt.titles) {
				t.Errorf("titles = %q, %d of them, want %q", got, d.TitleLines, tt.titles)
			}
		})
	}
}

func TestHeaderLineMissing(t *testing.T) {
	const text = "\"a\nb\";c\nTyp;U\n\n1;2\n"
	for line, hint := range map[int]string{2: "the next row begins on line 3", 4: "the next row begins on line 5", 9: ""} {
		e := refused(t, text, Options{HeaderLine: line})
		if !errors.Is(e, ErrHeaderLine) || e.Hint != hint {
			t.Errorf("header line %d: error = %v, hint %q, want ErrHeaderLine, hint %q", line, e, e.Hint, hint)
		}
	}
}

// TestManyTitles: the search has an end, a forced line has none.
func TestManyTitles(t *testing.T) {
	text := strings.Repeat("note\n", 80) + "Typ;U\nA;12\n"
	f := opened(t, text, Options{HeaderLine: 81})
	if d := f.Dialect(); d.TitleLines != 80 || len(f.Titles()) != MaxTitles || f.Header()[1] != "U" {
		t.Errorf("titles = %d, %d kept, header %q, want 80, %d, Typ U", d.TitleLines, len(f.Titles()), f.Header(), MaxTitles)
	}
	f = opened(t, text, Options{HeaderScore: scoreWords("Typ", "U")})
	if d := f.Dialect(); d.HeaderLine.Value != 1 {
		t.Errorf("header line = %d, want 1: row 81 is not offered", d.HeaderLine.Value)
	}
}

func TestNameColumns(t *testing.T) {
	tests := []struct{ cells, want []string }{
		{[]string{" Typ ", "Volumen\u00a0strom\n(m³/h)", "\ufeffU"}, []string{"Typ", "Volumen strom (m³/h)", "U"}},
		{[]string{"Name", "Name", "Name"}, []string{"Name", "Name (2)", "Name (3)"}},
		{[]string{"Name", "Name", "Name (2)", "Name"}, []string{"Name", "Name (3)", "Name (2)", "Name (4)"}},
		{[]string{"", "a", "\t", "column 1"}, []string{"column 1", "a", "column 3", "column 1 (2)"}},
		{[]string{"a", "A"}, []string{"a", "A"}},
	}
	for _, tt := range tests {
		if got := nameColumns(tt.cells); !slices.Equal(got, tt.want) {
			t.Errorf("nameColumns(%q) = %q, want %q", tt.cells, got, tt.want)
		}
	}
}

// TestUnnamedColumns: columns without a name at the end of the header count only
// if some row uses them.
func TestUnnamedColumns(t *testing.T) {
	f := opened(t, "a;b;;;\n1;2\n3;4;x;;\n5;6;;;\n7;8;;;;;\n9\n1;2;3;4;5;6\n", Options{})
	if got, want := f.Header(), []string{"a", "b", "column 3"}; !slices.Equal(got, want) {
		t.Fatalf("header = %q, want %q", got, want)
	}
	rows := rowsOf(t, f)
	want := []string{"1|2|", "3|4|x", "5|6|", "7|8|", "9", "1|2|3|4|5|6"}
	if got := cellsOf(rows); !slices.Equal(got, want) {
		t.Errorf("rows = %q, want %q", got, want)
	}
	for i, r := range rows {
		if r.Ragged != (i >= 4) {
			t.Errorf("row %q: ragged = %v", r.Fields, r.Ragged)
		}
	}
	if got, want := opened(t, "a;b;;;\n1;2;;;\n", Options{}).Header(), []string{"a", "b"}; !slices.Equal(got, want) {
		t.Errorf("header = %q, want %q", got, want)
	}
}

// TestBelow: a line of units is offered, and lost only if the caller says so.
func TestBelow(t *testing.T) {
	text := "Typ;B;U;\n;mm;V;\nA;60;12;\n"
	f := opened(t, text, Options{})
	if got, want := f.Below(), "|mm|V"; strings.Join(got.Fields, "|") != want || got.Line != 2 || got.At(1) != (Position{2, 2}) {
		t.Errorf("row below the header = %q, line %d, want %q, line 2", got.Fields, got.Line, want)
	}
	if got, want := cellsOf(rowsOf(t, f)), []string{"|mm|V", "A|60|12"}; !slices.Equal(got, want) {
		t.Errorf("rows = %q, want %q", got, want)
	}
	for range 2 { // the second call changes nothing
		f.SkipBelow()
	}
	if got, want := cellsOf(rowsOf(t, f)), []string{"A|60|12"}; !slices.Equal(got, want) {
		t.Errorf("rows without the one below the header = %q, want %q", got, want)
	}
	if n, _ := f.RowCount(); n != 1 {
		t.Errorf("row count = %d, want 1", n)
	}
	f = opened(t, "Typ;B;U\nmm;V\n", Options{})
	f.SkipBelow()
	if n, ragged := f.RowCount(); n != 0 || ragged != 0 || len(rowsOf(t, f)) != 0 {
		t.Errorf("without its only row: row count = %d, %d ragged, want 0, 0", n, ragged)
	}
}

func TestNothingInIt(t *testing.T) {
	tests := []struct {
		name, text string
		opts       Options
		want       error
	}{
		{"no byte", "", Options{}, ErrEmpty},
		{"only a mark", "\xef\xbb\xbf", Options{}, ErrEmpty},
		{"blank lines", "\n\r\n  \n;;;\n\t\n", Options{}, ErrEmpty},
		{"many blank lines", strings.Repeat("\n", 3<<20), Options{}, ErrEmpty},
		{"a sep line alone", "sep=;\n", Options{}, ErrEmpty},
		{"header alone", "Typ;U\n", Options{}, ErrNoRows},
		{"header and blank lines", "Typ;U\n;\n\n \n", Options{}, ErrNoRows},
		{"forced header last", "x;y\nTyp;U\n", Options{HeaderLine: 2}, ErrNoRows},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if e := refused(t, tt.text, tt.opts); !errors.Is(e, tt.want) {
				t.Errorf("error = %v, want %v", e, tt.want)
			}
		})
	}
}

func TestErrorText(t *testing.T) {
	for want, e := range map[string]*Error{
		"a.csv: reason":      {File: "a.csv", Reason: "reason"},
		"a.csv:3: reason":    {File: "a.csv", At: Position{Line: 3}, Reason: "reason"},
		"a.csv:3:14: reason": {File: "a.csv", At: Position{3, 14}, Reason: "reason", Hint: "not shown here"},
	} {
		if got := e.Error(); got != want {
			t.Errorf("Error() = %q, want %q", got, want)
		}
	}
}

func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	text := "a;b\n" + strings.Repeat("1;2\n", 200_000)
	f := opened(t, text, Options{})
	n := 0
	var last error
	for _, err := range f.Rows(ctx) {
		if n++; n == 10 {
			cancel()
		}
		last = err
	}
	var e *Error
	if !errors.Is(last, context.Canceled) || errors.As(last, &e) || n > 100_000 {
		t.Errorf("after %d rows: error = %v, want context.Canceled soon", n, last)
	}
	if _, err := Open(ctx, "x.csv", strings.NewReader(text), int64(len(text)), Options{}); !errors.Is(err, context.Canceled) || errors.As(err, &e) {
		t.Errorf("Open = %v, want context.Canceled and no *Error", err)
	}
}

// TestChanged: the second pass does not believe the first blindly.
func TestChanged(t *testing.T) {
	const before = "a;b\n1;2\n33;4\n"
	tests := []struct {
		name, after string
		want        error
	}{
		{"a row less", "a;b\n1;2\n\n\n\n\n\n", ErrChanged},
		{"cut off", "a;b\n1;2\n33;", ErrChanged},
		{"a quote mark inside a cell", "a;b\n1;2\n3;4\"\n", ErrChanged},
		{"a quote mark that opens a cell", "a;b\n1;2\n3;\"4\n", ErrUnclosedQuote},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			src := &swapped{text: before}
			f, err := Open(context.Background(), "x.csv", src, int64(len(before)), Options{})
			if err != nil {
				t.Fatal(err)
			}
			src.text = tt.after
			var last error
			for _, err := range f.Rows(context.Background()) {
				last = err
			}
			if !errors.Is(last, tt.want) {
				t.Errorf("error = %v, want %v", last, tt.want)
			}
		})
	}
}

// swapped is a file that is written while it is read.
type swapped struct{ text string }

func (s *swapped) ReadAt(p []byte, off int64) (int, error) {
	return strings.NewReader(s.text).ReadAt(p, off)
}

// TestUnreadable: what a disk does is passed on.
func TestUnreadable(t *testing.T) {
	broken := errors.New("bad sector")
	for _, good := range []int64{0, 100, 3 * chunk} {
		_, err := Open(context.Background(), "x.csv", failing{broken, good}, 10*chunk, Options{})
		var e *Error
		if !errors.Is(err, broken) || !errors.As(err, &e) {
			t.Errorf("failing behind %d bytes: error = %v, want bad sector in an *Error", good, err)
		}
	}
}

// failing is a file that can be read only up to a place.
type failing struct {
	err  error
	good int64
}

func (f failing) ReadAt(p []byte, off int64) (int, error) {
	for i := range p {
		if off+int64(i) >= f.good {
			return i, f.err
		}
		p[i] = "1;2\n"[(off+int64(i))%4]
	}
	return len(p), nil
}

func ExampleOpen() {
	const text = "Price list\n\nPart;Width;Voltage\nKX-1;60 mm;12,0 V\nKX-2;80 mm\n"
	f, err := Open(context.Background(), "list.csv", strings.NewReader(text), int64(len(text)), Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(f.Header(), DelimiterName(f.Dialect().Delimiter.Value), f.Dialect().Decimal.Value)
	for row, err := range f.Rows(context.Background()) {
		if err != nil {
			fmt.Println(err)
			return
		}
		if row.Ragged {
			fmt.Printf("line %d has %d cells, not %d: %s\n", row.Line, row.Cells, row.Want, row.Raw())
			continue
		}
		fmt.Println(row.Line, row.Fields, row.At(2))
	}
	// Output:
	// [Part Width Voltage] semicolon comma
	// 4 [KX-1 60 mm 12,0 V] {4 12}
	// line 5 has 2 cells, not 3: KX-2;80 mm
}
