package view

import (
	"testing"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// TestSizesFromInches: in a table a size near whole millimetres is whole, any other
// keeps its tenth.
func TestSizesFromInches(t *testing.T) {
	for _, r := range []struct {
		width, depth float64 // mm
		table, full  string
	}{
		{119.888, 24.892, "120×120×25", "119.9×119.9×24.9"},
		{80.01, 25.4, "80×80×25.4", "80×80×25.4"},
		{92.25, 38.2, "92.2×92.2×38", "92.2×92.2×38.2"},
		{60, 15, "60×60×15", "60×60×15"},
	} {
		side := quantity.Stated(quantity.Length(r.width / 1000))
		f := &catalog.Fan{Width: side, Height: side, Depth: quantity.Stated(quantity.Length(r.depth / 1000))}
		if got := shortSizeCell(f); got != r.table {
			t.Errorf("shortSizeCell(%v mm, %v mm) = %s, want %s", r.width, r.depth, got, r.table)
		}
		if got := sizeCell(f); got != r.full {
			t.Errorf("sizeCell(%v mm, %v mm) = %s, want %s", r.width, r.depth, got, r.full)
		}
	}
	if got := shortSizeCell(&catalog.Fan{Width: quantity.Stated(quantity.Length(0.0601))}); got != "60×?×?" {
		t.Errorf("a size half known is shown as %s", got)
	}
}
