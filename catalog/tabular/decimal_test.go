package tabular

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestClassify(t *testing.T) {
	names := map[proof]string{provesNothing: "nothing", provesComma: "comma", provesPoint: "point", ambiguous: "ambiguous"}
	tests := []struct {
		cell string
		want string // what each number with a mark proves
	}{
		{"1,5", "comma"}, {"12,75", "comma"}, {"1.234,5", "comma"}, {"1.234.567", "comma"}, {",5", "comma"}, {"1 500,5", "comma"},
		{"1.5", "point"}, {"1,234.5", "point"}, {"1,234,567", "point"}, {".5", "point"}, {"1'500.5", "point"}, {"1’500.5", "point"},
		{"1.500", "ambiguous"}, {"1,500", "ambiguous"}, {"999.999", "ambiguous"},
		{"0,500", "comma"}, {"0.500", "point"}, {"1234,567", "comma"}, {"1234.567", "point"}, {"1 500,500", "comma"}, {"1'500.500", "point"},
		{"1\u00a0500,5", "comma"}, {"1\u2009500.5", "point"}, {"1\u202f234\u202f567,5", "comma"}, {"１２．５", "point"},
		{"1.5 500", "point"}, {"12,5 240 V", "comma"}, {"1234 500,5", "comma"}, {"1 5000,5", "comma"},
		{"12,5 V", "comma"}, {"12.5V", "point"}, {"Ø60,5 mm", "comma"}, {"ca. 12,5 V", "comma"}, {"±0.5", "point"}, {"≤12,5", "comma"},
		{"10,2 – 13,8", "comma comma"}, {"10,2-13,8 V", "comma comma"}, {"10.2...13.8", "point point"}, {"4,5..13,8", "comma comma"},
		{"60x60x25", ""}, {"60.5x60x25.4", "point point"}, {"60,5 × 60,5 × 25 mm", "comma comma"}, {"60.0*60.0", "point point"},
		{"0:42,5;10:35,5", "comma comma"}, {"12.5/24.5", "point point"}, {"1,5; 2.5", "comma point"}, {"1.5, 2.5", "point point"},
		{"-12,5", "comma"}, {"1,5e3", "comma"}, {"12.5.", "point"}, {"€ 12,50", "comma"}, {"12,-", ""}, {"50.", ""},
		{"12", ""}, {"1 500", ""}, {"a, b", ""}, {"", ""}, {".,", ""}, {"12 V, 24 V", ""},
		{"12.03.2024", "nothing"}, {"1.2.3", "nothing"}, {"1,2,3", "nothing"}, {"1.5,2.5", "nothing"}, {"1,500.5,5", "nothing"},
		{"0,500.5", "nothing"}, {"1234,567.5", "nothing"}, {"192.168.1.1", "nothing"}, {"1 500.500,5", "nothing"},
		{"1 234'567.5", "nothing"}, {".1.500", "nothing"}, {"1.500.50", "nothing"}, {"1.5000.500", "nothing"},
		{"KX1.5", ""}, {"KX-12.5", ""}, {"KX1-12.5", ""}, {"KX1.5-2.5", ""}, {"Rev.2.1", ""}, {"v2.1", ""}, {"#1.5", ""}, {"a_1.5", ""},
	}
	for _, tt := range tests {
		var got []string
		eachNumber(tt.cell, func(token string) { got = append(got, names[classify(token)]) })
		if strings.Join(got, " ") != tt.want {
			t.Errorf("numbers of %q prove %q, want %q", tt.cell, strings.Join(got, " "), tt.want)
		}
	}
}

// TestProofsHold: a number that proves a mark can be read with it and not with
// the other; an ambiguous one can be read with both, as different values.
func TestProofsHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cell := rapid.StringMatching(`[01]{1,4}([ '.,](5|50|500|5000)){0,3}`).Draw(t, "cell")
		eachNumber(cell, func(token string) {
			point, errPoint := ParseNumber(token, Point)
			comma, errComma := ParseNumber(token, Comma)
			got := classify(token)
			want := provesNothing
			switch {
			case errPoint == nil && errComma == nil && point != comma:
				want = ambiguous
			case errPoint == nil && errComma != nil:
				want = provesPoint
			case errComma == nil && errPoint != nil:
				want = provesComma
			}
			if got != want {
				t.Fatalf("classify(%q) = %v, want %v: read as %v, %v with a point, %v, %v with a comma",
					token, got, want, point, errPoint, comma, errComma)
			}
		})
	})
}

func TestDecide(t *testing.T) {
	tests := []struct {
		name, text string
		opts       Options
		file       Mark
		columns    string // mark and why of each column
	}{
		{"proven column by column", "a;b\n1,5;2.5\n1,5;2,500\n", Options{}, Comma, "comma:its own cells point:its own cells"},
		{"an ambiguous column follows the others", "a;b;c\n1.5;2.5;1.500\n", Options{}, Point,
			"point:its own cells point:its own cells point:the other columns"},
		{"not its neighbours but most", "a;b;c;d\n1,5;2,5;3.5;1.500\n", Options{}, Comma,
			"comma:its own cells comma:its own cells point:its own cells comma:the other columns"},
		{"a semicolon goes with a decimal comma", "a;b\nx;1,500\n", Options{}, Comma, "comma:the delimiter comma:the delimiter"},
		{"a comma with a decimal point", "a,b\nx,\"1,500\"\n", Options{}, Point, "point:the delimiter point:the delimiter"},
		{"proof is stronger than the delimiter", "a;b\n1.5;1.500\n", Options{}, Point, "point:its own cells point:the other columns"},
		{"a tab goes with nothing", "a\tb\nx\t1,500\n", Options{}, Point,
			"point:nothing in the file: assumed point:nothing in the file: assumed"},
		{"between equals, more cells decide", "a\tb\tc\n1,5\t2.5\t1,500\n1,5\tx\t\n", Options{}, Comma,
			"comma:its own cells point:its own cells comma:the other columns"},
		{"forced", "a;b\n1,5;2.5\n", Options{Decimal: Point}, Point, "point:as given point:as given"},
		{"a contradictory column goes by number", "a;b\n1,5;x\n2.5;x\n3,5;x\n", Options{}, Comma, "comma:its own cells comma:the other columns"},
		{"a balanced one by the others", "a;b;c\n1,5;2.5;3.5\n2.5;x;y\n", Options{}, Point,
			"point:the other columns point:its own cells point:its own cells"},
		{"titles, header and ragged rows prove nothing", "Stand 12.5;;\na 1.5;b 2.5;c\nx;1,500;y\n1.5;2.5\n1;2;3\n", Options{HeaderLine: 2}, Comma,
			"comma:the delimiter comma:the delimiter comma:the delimiter"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			f := opened(t, tt.text, tt.opts)
			file, columns := f.Decide(nil)
			var got []string
			for _, c := range columns {
				got = append(got, fmt.Sprintf("%v:%s", c.Mark, c.Why))
			}
			if file.Value != tt.file || strings.Join(got, " ") != tt.columns {
				t.Errorf("decimal = %v, columns %q, want %v, %q", file.Value, got, tt.file, tt.columns)
			}
			if d := f.Dialect().Decimal; d != file || d.Forced != (tt.opts.Decimal != 0) {
				t.Errorf("dialect has %+v, want %+v", d, file)
			}
		})
	}
}

// TestVotes: part numbers with points do not outvote the one column of numbers.
func TestVotes(t *testing.T) {
	f := opened(t, "art\tsub\tQ\tP\n4711.12\t9.1\t12,5\t1.500\n4712.13\t9.2\t13\t1\n", Options{})
	file, columns := f.Decide(nil)
	if file.Value != Point || columns[3].Mark != Point {
		t.Fatalf("with all columns: %v, %v, want point, point", file.Value, columns[3].Mark)
	}
	file, columns = f.Decide(func(column int) bool { return column >= 2 })
	if file.Value != Comma || columns[3].Mark != Comma || columns[3].Why != WhyFile || columns[0].Mark != Point {
		t.Errorf("with the last two: %v, %+v, want comma, comma by the other columns", file.Value, columns[3])
	}
}

func TestEvidence(t *testing.T) {
	f := opened(t, "Typ;Q;P\nA;\"12,5\nx\";1\nB; 1.5 m3/h;\nC;13,5 – 14.5;2\nD;1.500;1,500\n", Options{})
	_, columns := f.Decide(nil)
	got := columns[1]
	want := Decision{
		Mark: Comma, Why: WhyDelimiter,
		Comma:     Evidence{2, Position{2, 3}, "12,5\nx"},
		Point:     Evidence{2, Position{4, 3}, " 1.5 m3/h"},
		Ambiguous: Evidence{1, Position{6, 3}, "1.500"},
	}
	if got != want {
		t.Errorf("evidence = %+v, want %+v", got, want)
	}
	if want := (Evidence{1, Position{6, 9}, "1,500"}); columns[2].Ambiguous != want || columns[2].Contradiction() != "" {
		t.Errorf("evidence = %+v, want %+v", columns[2], want)
	}
	both := `line 2 has a decimal comma ("12,5\nx"), line 4 a decimal point (" 1.5 m3/h")`
	if got := got.Contradiction(); got != both {
		t.Errorf("contradiction = %s, want %s", got, both)
	}
}

// TestLongCells: cells of a megabyte take no more than one look.
func TestLongCells(t *testing.T) {
	for _, piece := range []string{"123 ", "1.", "1,5 ", "1'", "x1.5-", ", ", "1x", "é1.5"} {
		text := "a;b\n" + strings.Repeat(piece, (MaxRecord-10)/len(piece)) + ";1\n"
		f := opened(t, text, Options{Delimiter: ';'})
		if got := len(rowsOf(t, f)); got != 1 {
			t.Errorf("%q: rows = %d, want 1", piece, got)
		}
	}
}
