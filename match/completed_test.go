package match

import (
	"slices"
	"strings"
	"testing"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// A fitted fan whose kind is not stated is of the kind that its seat takes; where
// that is not said either, it is assumed, and said.
func TestKindOfTheFittedFan(t *testing.T) {
	bare := fanOf(t, strings.ReplaceAll(loud, "kind=axial", ""))
	if bare.Kind.Known() {
		t.Fatalf("%q states a kind", loud)
	}
	for _, r := range []struct {
		name    string
		seat    quantity.Known[catalog.Kind]
		any     bool
		assumed bool
	}{
		{"said of the seat", quantity.Stated(catalog.Axial), false, false},
		{"not said", quantity.Known[catalog.Kind]{}, false, true},
		{"the seat takes any", quantity.Stated(catalog.Axial), true, true},
	} {
		req := requestFor(bare, NotInCatalogue, byFlow(25))
		req.Path.Seat.Kind, req.Path.Seat.AnyKind = r.seat, r.any
		got := rankOf(t, req, fanOf(t, loud))
		estimated := slices.Contains(got.System.Estimated, catalog.FieldKind)
		told := slices.ContainsFunc(got.Notes, func(note string) bool { return strings.HasPrefix(note, "the kind of the fitted fan is not stated") })
		if estimated != r.assumed || told != r.assumed {
			t.Errorf("%s: estimated %v, told %v, want both %v", r.name, estimated, told, r.assumed)
		}
	}
}
