package recording

import (
	"slices"

	"lowsone/catalog/tabular"
)

// choose takes the levels of the kind that serves best, and says what was left
// out.
func (t *tableReader) choose() (*group, error) {
	if len(t.groups) == 0 {
		return nil, t.fail(ErrLayout, tabular.Position{Line: t.file.HeaderRow().Line}, "", "no band has a level")
	}
	slices.SortStableFunc(t.groups, func(a, b *group) int { return a.label.rank() - b.label.rank() })
	best := t.groups[0]
	for _, g := range t.groups[1:] {
		t.note("several kinds of levels: the %v were taken, the %v left out", best.label, g.label)
	}
	switch best.label.stat {
	case statMax, statPeak:
		t.note("the levels are of the kind %q, which lies above what the ear is used to", statNames[best.label.stat])
	case statMin, statShare:
		t.note("the levels are of the kind %q, not the equivalent level", statNames[best.label.stat])
	}
	t.table.Rows = best.most()
	if t.table.Rows > 1 {
		t.note("%d rows of levels: averaged as energies", t.table.Rows)
	}
	if t.absent > 0 {
		t.note("%d cells hold no level: left out", t.absent)
	}
	return best, nil
}

// most is the largest number of cells that one band was averaged from.
func (g *group) most() int {
	most := 0
	for _, b := range g.bands {
		most = max(most, b.cells)
	}
	return most
}
