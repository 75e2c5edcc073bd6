package intake

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"lowsone/catalog"
	"lowsone/catalog/partscsv"
)

func given(t *testing.T, id catalog.FieldID, text string) partscsv.Given {
	t.Helper()
	g, err := partscsv.ParseGiven(id, text)
	if err != nil {
		t.Fatal(err)
	}
	return g
}

// Values given at the import are counted; others at the next one are a change.
func TestGivenValuesAreCounted(t *testing.T) {
	p := newPlace(t, listHeader+goodRows+"A3;Nordwehe;80x80x25;24;50,5;31\n")
	a := p.ok(nil)
	if want := []catalog.FieldID{catalog.FieldKind, catalog.FieldSupplier}; !cmp.Equal(a.Unstated, want) {
		t.Errorf("unstated %v, want %v: a voltage of two says DC", a.Unstated, want)
	}
	say := func(kind string) func(*Options) {
		return func(o *Options) {
			o.Values = []partscsv.Given{given(t, catalog.FieldKind, kind), given(t, catalog.FieldSupply, "dc")}
		}
	}
	a = p.ok(say("axial"))
	want := []Taken{{catalog.FieldKind, "axial", 3}, {catalog.FieldSupply, "dc", 1}}
	if diff := cmp.Diff(want, a.Values); diff != "" || a.Imported != 3 {
		t.Errorf("%d imported, values (-want +got):\n%s", a.Imported, diff)
	}
	if want := []catalog.FieldID{catalog.FieldSupplier}; !cmp.Equal(a.Unstated, want) {
		t.Errorf("unstated %v, want %v", a.Unstated, want)
	}
	if a = p.ok(say("axial")); a.Unchanged != 3 || a.Changed {
		t.Errorf("given the same again: %d unchanged, changed %v, want 3, false", a.Unchanged, a.Changed)
	}
	if a = p.ok(say("radial")); a.Imported != 3 || !a.Changed {
		t.Errorf("given another kind: %d imported, changed %v, want 3, true", a.Imported, a.Changed)
	}
}
