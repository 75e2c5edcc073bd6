package tabular

import (
	"bytes"
	"encoding/csv"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"pgregory.net/rapid"
)

// dress is one way of writing a table.
type dress struct {
	name string // forced, where the bytes cannot show it
	enc  encoding.Encoding
	bom  string
}

var dresses = []dress{
	{"", nil, ""},
	{"", nil, "\xef\xbb\xbf"},
	{"", utf16.le, "\xff\xfe"},
	{"", utf16.be, "\xfe\xff"},
	{"utf-16le", utf16.le, ""},
	{"utf-16be", utf16.be, ""},
	{"windows-1252", charmap.Windows1252, ""},
}

// writtenRow is a row, and where each of its cells was put.
type writtenRow struct {
	cells  []string
	places []Position
}

// tableWriter writes a table with encoding/csv and counts, on its own, where it
// puts what.
type tableWriter struct {
	text      strings.Builder
	delimiter rune
	end       string
	at        Position
}

func (w *tableWriter) put(text string) {
	w.text.WriteString(text)
	for _, line := range strings.SplitAfter(text, w.end) {
		w.at.Column += utf8.RuneCountInString(line)
		if strings.HasSuffix(line, w.end) {
			w.at = Position{w.at.Line + 1, 1}
		}
	}
}

func (w *tableWriter) row(cells []string) writtenRow {
	r := writtenRow{cells: cells}
	for i, c := range cells {
		if i > 0 {
			w.put(string(w.delimiter))
		}
		r.places = append(r.places, w.at)
		w.put(strings.ReplaceAll(w.cell(c), "\n", w.end))
	}
	w.put(w.end)
	return r
}

// cell is a cell as encoding/csv writes it.
func (w *tableWriter) cell(text string) string {
	var b bytes.Buffer
	c := csv.NewWriter(&b)
	c.Comma = w.delimiter
	if err := c.Write([]string{text, ""}); err != nil {
		panic(err)
	}
	c.Flush()
	return strings.TrimSuffix(b.String(), string(w.delimiter)+"\n")
}

// TestAnyTable: a table written in any way reads back equal, each cell in its place.
func TestAnyTable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.SampledFrom(dresses).Draw(t, "dress")
		w := &tableWriter{
			delimiter: rapid.SampledFrom([]rune{',', ';', '\t', '|', '§'}).Draw(t, "delimiter"),
			end:       rapid.SampledFrom([]string{"\n", "\r\n", "\r"}).Draw(t, "end"),
			at:        Position{1, 1},
		}
		letters := []rune("aZ19 .,;|\t\n\n\"\"'é§½")
		if d.enc != charmap.Windows1252 {
			letters = append(letters, 'Ł', '漢', '😀', '\u2028')
		}
		cell := rapid.StringOf(rapid.SampledFrom(letters))
		columns := rapid.IntRange(1, 6).Draw(t, "columns")
		drawn := rapid.SliceOfN(rapid.SliceOfN(cell, columns, columns), 3, 12).Draw(t, "rows")

		blank := rapid.SliceOfN(rapid.IntRange(0, 2), 12, 12).Draw(t, "blank lines")
		var want []writtenRow
		for i, cells := range drawn {
			cells[0] = "k" + cells[0] // not blank
			want = append(want, w.row(cells))
			w.put(strings.Repeat(w.end, blank[i]))
		}
		text := encode(t, d, w.text.String())
		f := openedIn(t, text, Options{Encoding: d.name, Delimiter: w.delimiter, HeaderLine: want[1].places[0].Line})
		checkRow(t, "title", f.Titles()[0], want[0])
		checkRow(t, "header", f.HeaderRow(), want[1])
		checkRows(t, f, want[2:])
	})
}

func encode(t *rapid.T, d dress, text string) string {
	if d.enc == nil {
		return d.bom + text
	}
	out, err := d.enc.NewEncoder().String(text)
	if err != nil {
		t.Fatal(err)
	}
	return d.bom + out
}

func openedIn(t *rapid.T, text string, opts Options) *File {
	f, err := Open(t.Context(), "fans.csv", strings.NewReader(text), int64(len(text)), opts)
	if err != nil {
		t.Fatalf("Open(%q) = %v", text, err)
	}
	return f
}

func checkRows(t *rapid.T, f *File, want []writtenRow) {
	width := len(f.Header())
	i := 0
	for row, err := range f.Rows(t.Context()) {
		if err != nil {
			t.Fatal(err)
		}
		if i == len(want) {
			t.Fatalf("more rows than the %d written", i)
		}
		// Columns without a name that nothing stands in are dropped, and only they.
		w := want[i]
		for _, c := range w.cells[width:] {
			if !isBlank(c) {
				t.Fatalf("cell %q of a dropped column", c)
			}
		}
		w.cells = w.cells[:width]
		checkRow(t, "row", row, w)
		i++
	}
	if i != len(want) {
		t.Fatalf("rows = %d, want %d", i, len(want))
	}
}

func checkRow(t *rapid.T, what string, got *Row, want writtenRow) {
	if !slices.Equal(got.Fields, want.cells) || got.Line != want.places[0].Line {
		t.Fatalf("%s = %q on line %d, want %q on line %d", what, got.Fields, got.Line, want.cells, want.places[0].Line)
	}
	for i, p := range want.places {
		if got.At(i) != p {
			t.Fatalf("%s %q: cell %d at %v, want %v", what, got.Fields, i, got.At(i), p)
		}
	}
}

// TestPlainTable: a table of plain cells needs no options.
func TestPlainTable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.SampledFrom(dresses).Draw(t, "dress")
		w := &tableWriter{
			delimiter: rapid.SampledFrom([]rune{',', ';', '\t', '|'}).Draw(t, "delimiter"),
			end:       rapid.SampledFrom([]string{"\n", "\r\n", "\r"}).Draw(t, "end"),
			at:        Position{1, 1},
		}
		columns := rapid.IntRange(2, 6).Draw(t, "columns")
		row := rapid.SliceOfN(rapid.StringMatching(`[A-Za-zé][a-z0-9 /()]{0,8}`), columns, columns)
		var want []writtenRow
		for range rapid.IntRange(0, 3).Draw(t, "titles") {
			w.put("Preisliste" + w.end + w.end)
		}
		line := w.at.Line
		for _, cells := range rapid.SliceOfN(row, 8, 12).Draw(t, "rows") {
			want = append(want, w.row(cells))
		}
		text := encode(t, d, w.text.String())
		f := openedIn(t, text, Options{})
		if got := f.Dialect(); got.Delimiter.Value != w.delimiter || got.HeaderLine.Value != line {
			t.Fatalf("delimiter %s, header on line %d, want %s, %d", DelimiterName(got.Delimiter.Value),
				got.HeaderLine.Value, DelimiterName(w.delimiter), line)
		}
		checkRows(t, f, want[1:])
	})
}
