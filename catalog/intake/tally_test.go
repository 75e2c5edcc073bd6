package intake

import (
	"fmt"
	"testing"

	"lowsone/catalog/partscsv"
)

// TestManyKindsOfWarnings: of a column that has another warning in every row, those
// first in the file are told, and the others are counted.
func TestManyKindsOfWarnings(t *testing.T) {
	const rows, parcel = 3 * mostKinds, 100
	columns := []partscsv.Column{{Header: "a"}, {Header: "b"}}
	all := newTally(columns)
	for line := 0; line < rows; line += parcel {
		some := newTally(columns)
		for i := range parcel {
			some.remarks([]partscsv.Remark{{Column: 0, Warning: fmt.Sprintf("word %d", line+i)}, {Column: 1, Warning: "no number"}}, line+i)
		}
		all.merge(some)
	}
	list := all.sorted()
	if most := mostKinds + len(columns); len(list) > most {
		t.Errorf("%d kinds, want %d at the most", len(list), most)
	}
	count, further := 0, 0
	for _, w := range list {
		count += w.Count
		switch {
		case w.Reason == furtherKinds:
			further += w.Count
		case w.Header == "a" && w.Line >= mostKinds:
			t.Errorf("line %d has a kind of its own", w.Line)
		}
	}
	if count != 2*rows || further != rows-mostKinds+1 {
		t.Errorf("%d warnings, %d of them of further kinds, want %d and %d", count, further, 2*rows, rows-mostKinds+1)
	}
}
