package partscsv

import (
	"strings"
	"testing"

	"lowsone/catalog/tabular"
)

// TestTurnedParts: a part number that a spreadsheet has spoilt is doubted and kept.
func TestTurnedParts(t *testing.T) {
	for _, r := range []struct{ part, doubt string }{
		{"1.23457E+12", "exponent"}, {"1,23457E+12", "exponent"}, {"4E+11", "exponent"}, {"2029-11-30", "a date"}, {"30.11.2029", "a date"},
		{"1E5", ""}, {"12-5-30", ""}, {"E+12", ""}, {"12.34E+5", ""}, {"1.2E+1", ""}, {"2029-11-30B", ""}, {"2029-13-30", ""}, {"24.5.25", ""}, {"LX-60", ""},
	} {
		p, rows := planOf(t, tabular.Point, "part|width_mm\n"+r.part+"|60")
		fan, remarks, err := p.Reader().Read(rows[0])
		if err != nil {
			t.Fatal(err)
		}
		got := ""
		for _, m := range remarks {
			got += m.Warning
		}
		if fan.Part != r.part || (r.doubt == "") != (got == "") || !strings.Contains(got, r.doubt) {
			t.Errorf("part %q is read as %q with %q, want it kept, with %q", r.part, fan.Part, got, r.doubt)
		}
	}
}
