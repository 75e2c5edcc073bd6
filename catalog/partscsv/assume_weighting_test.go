package partscsv

import (
	"slices"
	"strings"
	"testing"

	"lowsone/catalog"
	"lowsone/catalog/tabular"
)

// dB alone is taken as dB(A), and said.
func TestAssumedWeighting(t *testing.T) {
	const note = "dB without a weighting is taken as dB(A)"
	for _, test := range []struct {
		header, cells string
		want          bool
	}{
		{"Schall dB", "25|28", true},
		{"Noise [dB]", "25|28", true},
		{"Noise", "25 dB|28 dB", true},
		{"Noise", "25 dB|28 dB(A)", false},
		{"Noise", "25 dB|28 dB|30 dB(A)", true},
		{"Noise dB(A)", "25|28", false},
		{"Noise dBA", "25|28", false},
		{"Noise [dB]", "25 dB(A)|28 dB(A)", false},
		{"LpA dB", "25|28", false},
		{"Noise dB, A-weighted", "25|28", false},
		{"Noise", "4.5 B|4.8 B", false},
		{"Noise", "25|28", false}, // no unit at all is another note
		{"noise_dba", "25|28", false},
	} {
		p, _ := planOf(t, tabular.Point, "Part number|Frame|"+test.header+"\n"+rowsOf(test.cells))
		c := p.Columns()[2]
		if c.FieldName() != catalog.Fields[catalog.FieldNoise].Name {
			t.Errorf("%q is read as %q", test.header, c.FieldName())
		}
		if got := c.Assumed == "A"; got != test.want || got != slices.Contains(c.Notes, note) {
			t.Errorf("%q with %s: assumed %q, notes %q, want assumed: %v", test.header, test.cells, c.Assumed, c.Notes, test.want)
		}
	}
}

func rowsOf(cells string) string {
	text := ""
	for i, c := range strings.Split(cells, "|") {
		if i > 0 {
			text += "\n"
		}
		text += string(rune('A'+i)) + "1|60|" + c
	}
	return text
}
