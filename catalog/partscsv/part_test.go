package partscsv

import (
	"strings"
	"testing"

	"lowsone/catalog/tabular"
)

// Of two columns that may be the part the one with a maker's part numbers is
// taken, in every language, and what to write for the other is said.
func TestPartBesideRunningNumber(t *testing.T) {
	parts := []string{"AV80-25 12", "AV92-38 H", "TR120S", "TR60-25P"}
	sizes := []string{"80x80x25", "92x92x38", "120x120x38", "60x60x25"}
	tests := []struct {
		headers string // of running number and part
		numbers [4]string
	}{
		{"Cód. artículo|Referencia", [4]string{"V-1001", "V-1002", "V-1003", "V-1004"}},
		{"Código|Artículo", [4]string{"20.001", "20.002", "20.003", "20.004"}},
		{"Code art.|Réf.", [4]string{"200417", "200418", "200422", "200430"}},
		{"Numéro d'article|Référence", [4]string{"A0017", "A0018", "A0019", "A0020"}},
		{"Bestell-Nr.|Artikel", [4]string{"L10021", "L10022", "L10023", "L10024"}},
		{"Artikelnummer|Referenz", [4]string{"4711-01", "4711-02", "4711-03", "4711-04"}},
		{"Item no.|Reference", [4]string{"S/000912", "S/000913", "S/000917", "S/000921"}},
		{"ID|Item", [4]string{"1", "2", "3", "4"}},
	}
	for _, test := range tests {
		number, part, _ := strings.Cut(test.headers, "|")
		for _, swapped := range []bool{false, true} {
			text := test.headers + "|Size mm"
			if swapped {
				text = part + "|" + number + "|Size mm"
			}
			for i := range parts {
				first, second := test.numbers[i], parts[i]
				if swapped {
					first, second = second, first
				}
				text += "\n" + first + "|" + second + "|" + sizes[i]
			}
			p, _ := planOf(t, tabular.Point, text)
			for _, c := range p.Columns() {
				notes := strings.Join(c.Notes, "; ")
				switch {
				case c.Header == part && c.FieldName() != "part":
					t.Errorf("%q beside %q is %q, want part", part, number, c.FieldName())
				case c.Header == part && !strings.Contains(notes, "--column part="+ShellQuoted(number)):
					t.Errorf("%q beside %q is part with the notes %q, want the option for the other", part, number, notes)
				case c.Header == number && c.FieldName() == "part":
					t.Errorf("%q beside %q is the part", number, part)
				}
			}
		}
	}
}

func TestPartNotes(t *testing.T) {
	tests := []struct{ name, text, header, want string }{
		{"the only one", "Order no.|Size\n1001|60\n1002|80", "Order no.", "as no other column is; if one is: --column part=HEADER"},
		{"two alike", "Referencia|Artículo|Tamaño\nX1|Y1|60\nX2|Y2|80", "Artículo", "by a close decision, as no header says which column is; if it is \"Referencia\": --column part=Referencia"},
		{"named", "MPN|Order no.|Size\nX1|Y1|60\nX2|Y2|80", "MPN", ""},
		{"named, though its cells count", "MPN|Reference|Size mm\n1001|AV80-25|80\n1002|TR60H|60\n1003|X92|92", "MPN", ""},
		{"a model that counts on", "Modelo|Referencia|Tamaño mm\n1001|AV80-25|80\n1002|TR60H|60\n1003|X92|92", "Referencia", "--column part=Modelo"},
		{"a model", "Modelo|Código|Tamaño\nX1|Y1|60\nX2|Y2|80", "Modelo", ""},
	}
	for _, test := range tests {
		p, _ := planOf(t, tabular.Point, test.text)
		for _, c := range p.Columns() {
			if c.FieldName() != "part" {
				continue
			}
			notes := strings.Join(c.Notes, "; ")
			if c.Header != test.header || (test.want == "") != (notes == "") || !strings.Contains(notes, test.want) {
				t.Errorf("%s: part is %q with the notes %q, want %q with %q", test.name, c.Header, notes, test.header, test.want)
			}
		}
	}
}

// likePart tells part numbers from running numbers, whatever the sizes.
func TestLikePart(t *testing.T) {
	tests := []struct {
		cells string
		part  bool
	}{
		{"AV80-25 12|AV92-38 H|TR120S|TR60-25P", true},
		{"SF8025M|SF8025H|SF9238|SF12038", true},
		{"SF8025|SF9238|SF12038|SF6025", true},
		{"KX7311|KX2954|KX8127|KX5480", false},
		{"V-1001|V-1002|V-1003|V-1004", false},
		{"K1|K2", false},
		{"1001|1002|1003|1007", false},
		{"70011|81123|93021|10442", false},
	}
	for _, test := range tests {
		n := partNumbers{forms: map[string]int{}, letters: map[string]bool{}}
		for i, text := range strings.Split(test.cells, "|") {
			n.add(text)
			if holdsSize(text, []int{80, 92, 120, 60}[i]) {
				n.sized++
			}
		}
		if got := n.likeness(); (got > clearlyLiker) != test.part {
			t.Errorf("likeness(%s) = %.2f, want above %v: %v", test.cells, got, clearlyLiker, test.part)
		}
	}
}

func TestHoldsSize(t *testing.T) {
	tests := []struct {
		text string
		size int
		want bool
	}{
		{"AV80-25", 80, true}, {"SF8025", 80, true}, {"12038", 120, true}, {"AV80-25", 25, true},
		{"V-1001", 100, false}, {"AV180", 80, false}, {"80125", 80, false}, {"", 80, false},
	}
	for _, test := range tests {
		if got := holdsSize(test.text, test.size); got != test.want {
			t.Errorf("holdsSize(%q, %d) = %v, want %v", test.text, test.size, got, test.want)
		}
	}
}
