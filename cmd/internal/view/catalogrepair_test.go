package view

import (
	"strings"
	"testing"

	"lowsone/catalog/store"
)

// TestRepairSaysWhatIsKept: a check after a repair that lost something still names
// the damaged generation, so the repair says that it stays.
func TestRepairSaysWhatIsKept(t *testing.T) {
	r := &store.Repaired{Report: &store.Report{Dir: "d", Damage: []store.Damage{{Path: "d/gen-000003/fans.db", Reason: "r", Means: "m"}}}, Generation: 4, Rows: 7,
		Lost: []store.Loss{{Source: "a.csv", Rows: 2}}, Kept: 3}
	if got := textOf(t, &CatalogRepair{r}, 100); !strings.Contains(got, "generation 3, the damaged one, is kept") {
		t.Errorf("a repair that keeps what it lost of says\n%s", got)
	}
	r.Kept = 0
	if got := textOf(t, &CatalogRepair{r}, 100); strings.Contains(got, "kept") {
		t.Errorf("a repair that keeps nothing says\n%s", got)
	}
}
