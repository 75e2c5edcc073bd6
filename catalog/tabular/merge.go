package tabular

import (
	"cmp"
	"slices"
	"strings"
)

// maxMerges is the most cells of several rows a sheet may have: one for each of a
// quarter of its rows.
const maxMerges = maxRows / 4

// merge is a cell that goes over several rows: its first column from 0, its first
// and last row.
type merge struct{ column, top, bottom int }

// parseMerge reads the place of a merged cell, such as B2:C9. What goes over one
// row only, or is no place, is left out.
func parseMerge(ref string) (merge, bool) {
	first, last, _ := strings.Cut(ref, ":")
	column, top, ok := parseRef(first)
	_, bottom, also := parseRef(last)
	return merge{column - 1, top, bottom}, ok && also && bottom > top
}

// spread hands what stands in a merged cell to all of its rows, below the header.
// In the header itself a merged cell names one column, or several, and what is
// below it is not its repetition.
type spread struct {
	merges []merge // by their first row
	held   []held  // by column
}

// held is what a merged cell holds, down to its last row.
type held struct {
	text   string
	typed  bool
	bottom int
}

// newSpread takes the merged cells below a header.
func newSpread(merges []merge, header int) *spread {
	merges = slices.DeleteFunc(slices.Clone(merges), func(m merge) bool { return m.top <= header })
	slices.SortFunc(merges, func(a, b merge) int { return cmp.Or(a.top-b.top, a.column-b.column, a.bottom-b.bottom) })
	return &spread{merges: merges}
}

// fill completes a row that is not blank.
func (p *spread) fill(s *sheetRows) {
	for column, h := range p.held {
		if h.bottom < s.row {
			continue
		}
		if column >= len(s.fields) || isBlank(s.fields[column]) {
			s.set(column, h.text, h.typed)
		}
	}
	for len(p.merges) > 0 && p.merges[0].top <= s.row {
		m := p.merges[0]
		p.merges = p.merges[1:]
		if m.top < s.row || m.column >= len(s.fields) || isBlank(s.fields[m.column]) {
			continue // it begins in a row without cells: there is nothing in it
		}
		for len(p.held) <= m.column {
			p.held = append(p.held, held{})
		}
		p.held[m.column] = held{s.fields[m.column], s.isTyped[m.column], m.bottom}
	}
}
