package store

import (
	"cmp"
	"context"
	"slices"
	"sync"

	"lowsone/catalog"
)

// Twins are the rows of parts that several sources list: maker and part the same,
// blanks and case folded. Of each such part one row counts, that of the source
// imported last; the others are set aside for it.
type Twins struct {
	rows  int    // of the catalogue
	parts int    // that several sources list
	pairs []twin // in no order

	once   sync.Once
	counts map[int]int // by row that is set aside
}

// twin is a row that is set aside for another.
type twin struct{ counts, aside int }

// Twins finds them. The table of parts leads to them: with one source there is
// nothing to do.
func (c *Catalogue) Twins(ctx context.Context) (*Twins, error) {
	t := &Twins{rows: c.Rows()}
	if len(c.manifest.Sources) < 2 {
		return t, nil
	}
	columns, err := c.Columns(ctx, catalog.FieldPart, catalog.FieldMaker)
	if err != nil {
		return nil, err
	}
	f := twinFinder{columns: columns, sources: c.weights()}
	err = c.blobs.read(func(get getter) error { return eachPart(ctx, get, f.add) })
	f.settle()
	t.parts, t.pairs = f.parts, f.found
	return t, err
}

// eachPart passes the entries of the table of parts.
func eachPart(ctx context.Context, get getter, pass func(e partEntry)) error {
	fences, err := get(fencesPlace)
	if err != nil {
		return err
	}
	for i := range len(fences) / 8 {
		b, err := get(partsPlace(i))
		if err = cmp.Or(err, ctx.Err()); err != nil {
			return err
		}
		for j := range len(b) / partBytes {
			pass(entryAt(b, j))
		}
	}
	return nil
}

// Parts gives the number of parts that several sources list.
func (t *Twins) Parts() int { return t.parts }

// Rows gives the number of rows that are set aside.
func (t *Twins) Rows() int { return len(t.pairs) }

// Aside gives a bit for each row that is set aside; nil where none is.
func (t *Twins) Aside() []uint64 {
	if len(t.pairs) == 0 {
		return nil
	}
	aside := make([]uint64, (t.rows+63)/64)
	for _, p := range t.pairs {
		aside[p.aside/64] |= 1 << (p.aside % 64)
	}
	return aside
}

// Others lists, for each of some rows, the rows that are set aside for it, rising.
func (t *Twins) Others(rows []int) [][]int {
	others := make([][]int, len(rows))
	if len(t.pairs) == 0 {
		return others
	}
	places := make(map[int]int, len(rows))
	for i, row := range rows {
		places[row] = i
	}
	for _, p := range t.pairs {
		if i, ok := places[p.counts]; ok {
			others[i] = append(others[i], p.aside)
		}
	}
	for _, list := range others {
		slices.Sort(list)
	}
	return others
}

// Counts gives the row that counts for a row: itself, unless it is set aside.
func (t *Twins) Counts(row int) int {
	if len(t.pairs) == 0 {
		return row
	}
	t.once.Do(func() {
		t.counts = make(map[int]int, len(t.pairs))
		for _, p := range t.pairs {
			t.counts[p.aside] = p.counts
		}
	})
	if counts, aside := t.counts[row]; aside {
		return counts
	}
	return row
}

// Prefer has the rows of a source count wherever it has one, whenever it was
// imported. It is to be called before anything is asked. Errors: *NoSourceError.
func (c *Catalogue) Prefer(source string) error {
	if _, _, err := c.Span(source); err != nil {
		return err
	}
	c.preferred = sourceName(source)
	return nil
}

// Preferred gives the source whose rows count wherever it has one; empty for none.
func (c *Catalogue) Preferred() string { return c.preferred }

// Counting gives, of rows of one part, the place of the one that counts.
func (c *Catalogue) Counting(rows []int) (place int) {
	f := twinFinder{sources: c.weights()}
	for i, row := range rows {
		if f.sources[f.source(row)].weight > f.sources[f.source(rows[place])].weight {
			place = i
		}
	}
	return place
}

// weights gives the sources in the order of their rows, each with its weight: the
// preferred one most, then the one imported last; of two imported at one moment
// the one named last.
func (c *Catalogue) weights() []weighted {
	list := make([]weighted, 0, len(c.manifest.Sources))
	end := 0
	for i, s := range c.manifest.Sources {
		end += s.Rows
		list = append(list, weighted{end: end, weight: i})
	}
	order := slices.Clone(list)
	slices.SortStableFunc(order, func(a, b weighted) int {
		return c.manifest.Sources[a.weight].Imported.Compare(c.manifest.Sources[b.weight].Imported)
	})
	for weight, w := range order {
		list[w.weight].weight = weight
	}
	for i, s := range c.manifest.Sources {
		if c.preferred != "" && s.Name == c.preferred {
			list[i].weight = len(list)
		}
	}
	return list
}

// weighted is a source with how much it counts.
type weighted struct {
	end    int // of its rows
	weight int
}
