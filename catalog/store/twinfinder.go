package store

import (
	"sort"

	"lowsone/catalog"
)

// twinFinder goes through the table of parts, in which the rows of one part stand
// together.
type twinFinder struct {
	columns *catalog.Columns
	sources []weighted
	hash    uint64
	rows    []int // of that hash so far, rising
	parts   int
	found   []twin
}

// add takes the next entry of the table.
func (f *twinFinder) add(e partEntry) {
	if e.hash != f.hash {
		f.settle()
		f.hash = e.hash
	}
	f.rows = append(f.rows, int(e.row))
}

// fewRows is how many rows are compared with each other; more are told apart by
// their keys.
const fewRows = 8

// settle looks for twins among the rows of one hash.
func (f *twinFinder) settle() {
	rows := f.rows
	f.rows = f.rows[:0]
	switch {
	case len(rows) < 2 || f.source(rows[0]) == f.source(rows[len(rows)-1]): // a source lists a part once
	case len(rows) > fewRows:
		f.settleMany(rows)
	default:
		f.settleFew(rows)
	}
}

func (f *twinFinder) settleFew(rows []int) {
	var taken [fewRows]bool
	for i, row := range rows {
		if taken[i] {
			continue
		}
		alike := []int{row}
		for j := i + 1; j < len(rows); j++ {
			if !taken[j] && f.alike(row, rows[j]) {
				taken[j] = true
				alike = append(alike, rows[j])
			}
		}
		f.choose(alike)
	}
}

func (f *twinFinder) settleMany(rows []int) {
	alike := map[string][]int{}
	var keys []string
	for _, row := range rows {
		key := catalog.Key(f.columns.Text(catalog.FieldMaker, row), f.columns.Text(catalog.FieldPart, row))
		if alike[key] == nil {
			keys = append(keys, key)
		}
		alike[key] = append(alike[key], row)
	}
	for _, key := range keys {
		f.choose(alike[key])
	}
}

// alike says whether two rows are one part of one maker.
func (f *twinFinder) alike(i, j int) bool {
	for _, id := range [...]catalog.FieldID{catalog.FieldPart, catalog.FieldMaker} {
		a, b := f.columns.Text(id, i), f.columns.Text(id, j)
		if a != b && catalog.FoldKey(a) != catalog.FoldKey(b) {
			return false
		}
	}
	return true
}

// choose sets rows of one part aside for the one whose source weighs most.
func (f *twinFinder) choose(rows []int) {
	best := rows[0]
	for _, row := range rows[1:] {
		if f.sources[f.source(row)].weight > f.sources[f.source(best)].weight {
			best = row
		}
	}
	if len(rows) > 1 {
		f.parts++
	}
	for _, row := range rows {
		if row != best {
			f.found = append(f.found, twin{best, row})
		}
	}
}

// source gives the number of the source of a row.
func (f *twinFinder) source(row int) int {
	return sort.Search(len(f.sources), func(i int) bool { return row < f.sources[i].end })
}
