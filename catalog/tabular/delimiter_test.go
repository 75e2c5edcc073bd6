package tabular

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
)

func TestFindDelimiter(t *testing.T) {
	many := func(row string) string { return strings.Repeat(row, 200) }
	tests := []struct {
		name, text string
		want       rune
	}{
		{"comma", "a,b,c\n1,2,3\n", ','},
		{"semicolon", "a;b;c\n1;2;3\n", ';'},
		{"tab", "a\tb\tc\n1\t2\t3\n", '\t'},
		{"bar", "a|b|c\n1|2|3\n", '|'},
		{"decimal commas, more of them than semicolons", "Typ;U;I;Q\nA;12,0;0,15;10,5\nB;24,0;0,1;11\n", ';'},
		{"a decimal comma on every row", "Typ;U;Q\n" + many("A;12,0;10,5\n"), ';'},
		{"as many decimal commas in the title as on the rows", "Stand, neu, 2024\nTyp;U;Q\n" + many("A;12,0;10,5\n"), ';'},
		{"and rows that are cut off", "Typ;U;Q\n" + many("A;12,0;10,5\n") + "A;1,2\nA;1,3\n", ';'},
		{"a comma in the header and on every row", "Typ;Spannung, V;Strom, A\n" + many("A;12,0;0,15\n"), ';'},
		{"curve points with semicolons", "part,width,curve\n" + many("A,60,0:42;10:35\n"), ','},
		{"one row with a curve", "part,curve\nA,0:42;10:35\n", ','},
		{"voltages with bars", "part,voltage\n" + many("A,12|24\n"), ','},
		{"tabs beside prose", "Name, Art\tU\nA, axial\t12\nB, radial\t24\n", '\t'},
		{"cut rows, and decimal commas on the last", "Typ;U;Q\n" + strings.Repeat("A;1;2\nA;1;2\nA;1;2\nA;1\n", 50) +
			strings.Repeat("A;1,5;2,5\n", 3), ';'},
		{"tabs beside more prose", "Name, Art, Form\tU\nA, axial, x\t12\nB, radial, y\t24\n", '\t'},
		{"more semicolons than tabs", "a\tb;c;d\n1\t2;3;4\n", ';'},
		{"a comma in the title, in the header and on every row", "alle Preise in EUR, ohne MwSt.\nTyp\tSpannung, V\tStrom\n" + many("A\t5\t0,86 A\n"), '\t'},
		{"readings in two columns below a title", "Messung\n\nQ,p\n" + many("10,20\n"), ','},
		{"lines of blanks", "Typ;U\n \n\t\n \n \nA;12\n \n \n", ';'},
		{"titles with commas above a short table", strings.Repeat("Muster, Lager\n", 6) +
			"Typ;B;H;T;U;I;Q;P\n" + strings.Repeat("A;60;60;25;12,0;0,1;20;40\n", 4), ';'},
		{"delimiters within quotes", "\"a;b\",\"c;d\"\n\"1;2\",\"3;4\"\n", ','},
		{"line ends within quotes", "a,b\n\"1;\n2;\n3;\n4;\",2\n\"1;\n2;\n3;\n4;\",3\n", ','},
		{"an inch mark", "a;b\n2.36\" (60mm);1\n3.15\" (80mm);2\n", ';'},
		{"rows of uneven length", "a,b,c,d\n1,2,3\n1,2,3,4\n1,2\n1,2,3,4\n", ','},
		{"padded title", "Liste;;;\na;b;c;d\n1;2;3;4\n", ';'},
		{"spaces after commas", "part, width, depth\nA, 60, 25\nB, 80, 25\n", ','},
		{"one column", "Name\nA\nB\n", NoDelimiter},
		{"one column of prose", "Name\nFan, axial\nFan, radial\nFan\n", NoDelimiter},
		{"one column with a rare comma", "Name\nA\nB\nC,1\nD\nE\n", NoDelimiter},
		{"one column with lists for a while", "Name\nx, y, z\nx, y, z\n" + many("A\n"), NoDelimiter},
		{"decimal commas below an unclosed quote", "Teil;Größe;U;Q\nU1;60x60x25;12,5;30,5\nU2;\"80x80x25;12,5;50,1\nU3;92x92x25;12,5;60,2\n", ';'},
		{"decimal commas below an unclosed quote on the first row", "Teil;Größe;U;Q\nU1;\"60x60x25;12,5;30,5\nU2;80x80x25;12,5;50,1\nU3;92x92x25;12,5;60,2\n", ';'},
		{"an unclosed quote on the last row", "Teil;Größe;U;Q\nU1;60x60x25;12,5;30,5\nU3;\"92x92x25;12,5;60,2\n", ';'},
		{"inch marks that are not doubled at the end of the line", "Teil;U;Q;Maß\n" + many("A;12,5;1,5;\"1.0\"\"\n"), ';'},
		{"sep line", "sep=|\na,b|c,d\n1,2|3,4\n", '|'},
		{"sep line, quoted and padded", "\"SEP=~\"~\na;b~c;d\n1;2~3;4\n", '~'},
		{"any sign on a sep line", "sep=~\na~b\n1~2\n", '~'},
		{"no sep line, a title", "sep=\na;b\n1;2\n", ';'},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := findDelimiter([]byte(tt.text), true, 0)
			if got.Value != tt.want || got.Forced {
				t.Errorf("findDelimiter(%.60q) = %s (%s), want %s", tt.text, DelimiterName(got.Value), got.How, DelimiterName(tt.want))
			}
		})
	}
}

// TestCutSample: the last row of a sample that ends within it does not count.
func TestCutSample(t *testing.T) {
	text := "Typ;U;Q\nA;1;2\nB;1;2"
	if got := measure([]byte(text), false, ';'); got.all != 2 {
		t.Errorf("rows of a cut sample = %d, want 2", got.all)
	}
	if got := measure([]byte(text), true, ';'); got.all != 3 {
		t.Errorf("rows of a whole sample = %d, want 3", got.all)
	}
}

func TestForcedDelimiter(t *testing.T) {
	for _, d := range []rune{'~', '§', ' ', 'x', '\u2063', ','} {
		text := strings.ReplaceAll("sep=;\na_b\n\"1_1\"_2\n", "_", string(d))
		f := opened(t, text, Options{Delimiter: d})
		if got := f.Dialect().Delimiter; got.Value != d || !got.Forced {
			t.Errorf("delimiter = %+v, want %q, forced", got, d)
		}
		rows := rowsOf(t, f)
		if got, want := cellsOf(rows), []string{"1" + string(d) + "1|2"}; !slices.Equal(got, want) {
			t.Errorf("delimiter %q: rows = %q, want %q", d, got, want)
		}
		if got, want := rows[0].At(1), (Position{3, 7}); got != want {
			t.Errorf("delimiter %q: second cell at %v, want %v", d, got, want)
		}
	}
	f := opened(t, "axa;b|\n1,2\n", Options{Delimiter: NoDelimiter})
	if got, want := f.Header(), []string{"axa;b|"}; !slices.Equal(got, want) {
		t.Errorf("header = %q, want %q", got, want)
	}
	for _, d := range []rune{'"', '\n', '\r', '\f', '\ufffd', -2} {
		if e := refused(t, "a;b\n1;2\n", Options{Delimiter: d}); !errors.Is(e, ErrDelimiter) {
			t.Errorf("delimiter %q: error = %v, want ErrDelimiter", d, e)
		}
	}
}

func TestParseDelimiter(t *testing.T) {
	for text, want := range map[string]rune{
		"comma": ',', "Semicolon": ';', "tab": '\t', "BAR": '|', "none": NoDelimiter, ";": ';', "\t": '\t', "§": '§',
	} {
		got, err := ParseDelimiter(text)
		if err != nil || got != want {
			t.Errorf("ParseDelimiter(%q) = %q, %v, want %q", text, got, err, want)
		}
		again, err := ParseDelimiter(DelimiterName(got))
		if err != nil || again != got {
			t.Errorf("ParseDelimiter(DelimiterName(%q)) = %q, %v", got, again, err)
		}
	}
	for _, text := range []string{"", "colons", "\"", "\n", "\xff", ";;"} {
		if got, err := ParseDelimiter(text); err == nil || !strings.Contains(err.Error(), fmt.Sprintf("%q", text)) {
			t.Errorf("ParseDelimiter(%q) = %q, %v, want an error that shows it", text, got, err)
		}
	}
}
