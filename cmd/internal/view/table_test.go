package view

import (
	"bytes"
	"strings"
	"testing"

	"github.com/jedib0t/go-pretty/v6/text"
	"pgregory.net/rapid"
)

func shown() *Table {
	t := &Table{
		Columns: []Column{
			{Title: "part", Wrap: true},
			{Title: "airflow", Unit: "m³/h", Number: true},
			{Title: "price", Number: true, Spare: 1, Optional: true},
			{Title: "note", Optional: true},
		},
		Notes: []string{EstimateNote},
	}
	t.Add("NW60", "27.2", "4.20 EUR", "")
	t.Add("a part with a long name", "~120", "12.50 EUR", "")
	t.Add("風扇", Unknown, "", "")
	return t
}

func TestTable(t *testing.T) {
	rows := []struct {
		name  string
		style Style
		want  string
	}{
		{"no limit", Style{}, `
part                     airflow      price
                            m³/h
───────────────────────────────────────────
NW60                        27.2   4.20 EUR
a part with a long name   ~120    12.50 EUR
風扇                          –
~ estimated: no sheet gave it
`},
		{"too narrow for the price, and for the part", Style{Width: 24}, `
part             airflow
                    m³/h
────────────────────────
NW60                27.2
a part with a     ~120
long name
風扇                  –
left out for the width:
price (a wider window,
or --format csv, shows
it)
~ estimated: no sheet gave it
`},
	}
	for _, r := range rows {
		var b bytes.Buffer
		if err := shown().Write(&b, r.style); err != nil {
			t.Fatal(err)
		}
		if got := b.String(); got != r.want[1:] {
			t.Errorf("%s: table is\n%swant\n%s", r.name, got, r.want[1:])
		}
	}
}

// A character two columns wide does not stand across the end of a line.
func TestWrapSoft(t *testing.T) {
	for _, r := range []struct {
		said  string
		width int
		want  string
	}{
		{"abcd風扇x", 5, "abcd\n風扇x"},
		{"風扇風扇風扇", 5, "風扇\n風扇\n風扇"},
		{"ab 風扇風扇 cd", 6, "ab\n風扇風\n扇 cd"},
		{"風扇風扇", 6, "風扇風\n扇"},
		{"two\nwords abcdefgh", 6, "two\nwords\nabcdef\ngh"},
	} {
		lines := strings.Split(wrapSoft(r.said, r.width), "\n")
		for i, line := range lines {
			lines[i] = strings.TrimRight(line, " ")
		}
		if got := strings.Join(lines, "\n"); got != r.want {
			t.Errorf("wrapSoft(%q, %d) = %q, want %q", r.said, r.width, got, r.want)
		}
	}
}

// Property: with words that may wrap, no line is wider than the terminal, and
// no cell can reach it raw.
func TestTableFits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		table := &Table{Columns: []Column{{Title: "part", Wrap: true}, {Title: "noise", Number: true}, {Title: "stock", Number: true, Spare: 1}}}
		for range rapid.IntRange(0, 5).Draw(t, "rows") {
			table.Add(rapid.String().Draw(t, "part"), rapid.StringMatching(`~?[0-9]{1,3}(\.[0-9])?`).Draw(t, "noise"), "1")
		}
		width := rapid.IntRange(25, 60).Draw(t, "width")
		var b bytes.Buffer
		if err := table.Write(&b, Style{Width: width}); err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(b.String()) {
			line = strings.TrimSuffix(line, "\n")
			if n := text.StringWidth(line); n > width {
				t.Fatalf("%d of %d columns: %q", n, width, line)
			}
			if strings.ContainsFunc(line, func(r rune) bool { return r < ' ' || hidden(r) }) {
				t.Fatalf("raw: %q", line)
			}
		}
	})
}
