package tabular

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// messy draws a parts table as somebody's program or hand may have written it,
// and how it was written.
type messy struct {
	delimiter rune
	decimal   Mark
	titles    []string
	header    []string
	rows      [][]string
}

// column is what a column may hold; its cells get their decimal mark later.
type column struct {
	header []string
	cells  []string // # stands for the decimal mark, 9 for any digit
}

var partColumn = column{[]string{"Typ", "Part", "Article no.", "Artikel, Nr."}, []string{"KX-9999", "LM 99-99", "A9.99-B"}}

var otherColumns = []column{
	{[]string{"Hersteller", "Maker"}, []string{"Lumora", "Vento & Söhne", "", "Nordwind, Gruppe"}},
	{[]string{"U (V)", "Spannung, V", "Voltage"}, []string{"12", "24", "5", "12#0", "12 V DC", "10#2 – 13#8"}},
	{[]string{"I [A]", "Strom"}, []string{"0#9", "0#99 A", "0#099"}},
	{[]string{"m³/h", "Volumenstrom, m³/h", "Airflow; CFM"}, []string{"99#9", "199", "9#9 m³/h", ""}},
	{[]string{"Druck (Pa)", "Static pressure"}, []string{"99", "99#9", "k. A."}},
	{[]string{"Größe", "Size mm"}, []string{"60x60x25", "80 × 80 × 25#4", "40"}},
	{[]string{"Kennlinie", "Curve"}, []string{"0:42;10:35;20:0", "0:99#9;99:0", ""}},
	{[]string{"Preis", "Price"}, []string{"9#90", "99#95", "1234#00", "on request"}},
	{[]string{"Bemerkung", "Notes"}, []string{"", "axial, 3 leads, 300 mm", "sleeve; quiet", "see \"data sheet\"", "a | b", "with\ttab"}},
}

func (c column) name(t *rapid.T) string { return rapid.SampledFrom(c.header).Draw(t, "header") }

func (c column) cell(t *rapid.T, decimal Mark) string {
	text := strings.ReplaceAll(rapid.SampledFrom(c.cells).Draw(t, "cell"), "#", string(byte(decimal)))
	digits := rapid.StringMatching(`[1-9]{16}`).Draw(t, "digits")
	return strings.Map(func(r rune) rune {
		if r == '9' {
			r, digits = rune(digits[0]), digits[1:]
		}
		return r
	}, text)
}

var titleLines = []string{
	"Preisliste 2024, gültig ab 01.02.2024", "", "Lager: Halle 3; Tel. 99", "alle Preise in EUR, ohne MwSt.",
	"Fan list | export", "Stand 12.5.2024",
}

func drawMessy(t *rapid.T) messy {
	m := messy{
		delimiter: rapid.SampledFrom([]rune{',', ';', '\t', '|'}).Draw(t, "delimiter"),
		decimal:   rapid.SampledFrom([]Mark{Comma, Point}).Draw(t, "decimal"),
		titles:    rapid.SliceOfN(rapid.SampledFrom(titleLines), 0, 4).Draw(t, "titles"),
	}
	columns := append([]column{partColumn}, rapid.SliceOfNDistinct(rapid.SampledFrom(otherColumns), 2, 8,
		func(c column) string { return c.header[0] }).Draw(t, "columns")...)
	for _, c := range columns {
		m.header = append(m.header, c.name(t))
	}
	for range rapid.IntRange(8, 40).Draw(t, "rows") {
		var row []string
		for _, c := range columns {
			row = append(row, c.cell(t, m.decimal))
		}
		m.rows = append(m.rows, row)
	}
	return m
}

// text writes the table as encoding/csv would, but for the titles.
func (m messy) text() string {
	w := &tableWriter{delimiter: m.delimiter, end: "\r\n"}
	for _, title := range m.titles {
		w.put(title + "\r\n")
	}
	w.row(m.header)
	for _, r := range m.rows {
		w.row(r)
	}
	return w.text.String()
}

// TestMessyTables: 300 tables nobody prepared, the same in every run, are each
// read as they were written.
func TestMessyTables(t *testing.T) {
	tables := rapid.Custom(drawMessy)
	for seed := range 300 {
		m := tables.Example(seed)
		text := m.text()
		f := opened(t, text, Options{HeaderScore: scoreWords(allHeaders()...)})
		d := f.Dialect()
		if d.Delimiter.Value != m.delimiter || !slices.Equal(f.HeaderRow().Fields, m.header) {
			t.Errorf("delimiter %s, header %q, want %s, %q, in\n%s", DelimiterName(d.Delimiter.Value),
				f.HeaderRow().Fields, DelimiterName(m.delimiter), m.header, text)
		}
		if d.Decimal.Value != m.decimal && strings.HasPrefix(d.Decimal.How, "proven") || len(d.Notes) > 0 {
			t.Errorf("decimal %v, %s, notes %q, want %v, in\n%s", d.Decimal.Value, d.Decimal.How, d.Notes, m.decimal, text)
		}
		if n, ragged := f.RowCount(); n != len(m.rows) || ragged > 0 {
			t.Errorf("%d rows, %d ragged, want %d, 0, in\n%s", n, ragged, len(m.rows), text)
		}
	}
}

func allHeaders() []string {
	words := slices.Clone(partColumn.header)
	for _, c := range otherColumns {
		words = append(words, c.header...)
	}
	return words
}
