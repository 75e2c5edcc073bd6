package cli

import (
	"context"
	"slices"

	"lowsone/catalog"
	"lowsone/catalog/store"
)

// among is what a search chooses from: rows of columns.
type among struct {
	columns    *catalog.Columns
	candidates []int
	elsewhere  int   // more that the words find, in other sources than the one asked for
	rows       []int // of the catalogue, where the columns hold single ones; else nil
}

// inCatalogue gives rows of the columns as the catalogue numbers them.
func (a *among) inCatalogue(rows []int) []int {
	if a.rows == nil {
		return rows
	}
	out := make([]int, len(rows))
	for i, row := range rows {
		out[i] = a.rows[row]
	}
	return out
}

// fewHits is how many fans that the words find are read by themselves; for more
// the columns of the catalogue are.
const fewHits = 500

// among lists the fans that the words choose, or all, and notes how well they were
// found. Words of any source find a fan.
func (o *searchOptions) among(ctx context.Context, c *store.Catalogue, twins *store.Twins) (*among, error) {
	var hits []store.Hit
	if o.text != "" {
		var err error
		if hits, err = c.Search(ctx, o.text, 0); err != nil {
			return nil, err
		}
		if len(hits) <= o.few {
			return o.amongFew(ctx, c, twins, hits)
		}
	}
	columns, err := c.Columns(ctx, o.fields()...)
	if err != nil {
		return nil, err
	}
	columns.Aside = twins.Aside()
	all := &among{columns: columns}
	if o.text != "" {
		o.scores, all.candidates = make([]float32, columns.Rows), make([]int, len(hits))
		for i, h := range hits {
			all.candidates[i] = h.Row
			at := twins.Counts(h.Row)
			o.scores[at] = max(o.scores[at], float32(h.Score))
		}
		found := counted(twins, all.candidates)
		all.candidates = slices.DeleteFunc(found, func(row int) bool { return !o.inSource(row) })
		all.elsewhere = len(found) - len(all.candidates)
		return all, nil
	}
	all.candidates = make([]int, 0, columns.Rows)
	for i := range columns.Rows {
		if o.inSource(i) {
			all.candidates = append(all.candidates, i)
		}
	}
	return all, nil
}

// inSource says whether a row of the catalogue is of the source that is asked for.
func (o *searchOptions) inSource(row int) bool { return o.to == 0 || row >= o.from && row < o.to }

// amongFew reads the fans of a few hits by themselves.
func (o *searchOptions) amongFew(ctx context.Context, c *store.Catalogue, twins *store.Twins, hits []store.Hit) (*among, error) {
	few := &among{rows: []int{}}
	places := map[int]int{}
	for _, h := range hits {
		row := twins.Counts(h.Row)
		at, known := places[row]
		if !known {
			at = len(few.rows)
			places[row], few.rows, o.scores = at, append(few.rows, row), append(o.scores, 0)
			if o.inSource(row) {
				few.candidates = append(few.candidates, at)
			} else {
				few.elsewhere++
			}
		}
		o.scores[at] = max(o.scores[at], float32(h.Score))
	}
	var err error
	few.columns, err = c.View(twins).At(ctx, few.rows)
	return few, err
}
