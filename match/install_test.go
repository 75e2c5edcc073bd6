package match

import (
	"strings"
	"testing"

	"lowsone/catalog/quantity"
)

// What was measured after a change is not of the fan as found; a fan far softer
// than its label is as suspicious as one far louder.
func TestReadingsOfTheSeat(t *testing.T) {
	for _, r := range []struct {
		name  string
		level float64
		after bool
		known bool
		says  string
	}{
		{"as found", 43, false, true, "against label and laws"},
		{"after a change", 43, true, false, "after a change"},
		{"far louder", 55, false, true, "suspect the bearing"},
		{"far softer", 25, false, true, "check the label"},
	} {
		req := requestFor(fanOf(t, loud), NotInCatalogue, byFlow(25))
		req.Path.Reading = &Reading{Level: quantity.PressureLevel(r.level), Distance: quantity.Metre, After: r.after}
		got := rankOf(t, req, fanOf(t, loud)).Seat
		if got.Known != r.known || !strings.Contains(got.Note(), r.says) || !r.known && got.Offset != 0 {
			t.Errorf("%s: %+v says %q, want known %v and %q", r.name, got, got.Note(), r.known, r.says)
		}
	}
}
