package store

import (
	"context"
	"slices"
	"strings"

	"lowsone/catalog"
)

// Columns loads the columns of the given fields, all where none is given. A
// column of which no row has a value stays nil.
func (c *Catalogue) Columns(ctx context.Context, fields ...catalog.FieldID) (*catalog.Columns, error) {
	if len(fields) == 0 {
		for id := range catalog.NumFields {
			fields = append(fields, id)
		}
	}
	fields = slices.Clone(fields)
	slices.Sort(fields)
	fields = slices.Compact(fields)
	columns := &catalog.Columns{Rows: c.manifest.Rows}
	err := inParallel(len(fields), func(i int) error {
		number, ok := c.manifest.has(c.schema, fields[i])
		d := &catalog.Fields[fields[i]]
		if !ok || !d.Columned() {
			return nil
		}
		return c.blobs.read(func(get getter) error {
			l := columnLoader{ctx: ctx, get: get, catalogue: c, id: pieceID(number)}
			return l.load(d, columns) // each field writes what is its own
		})
	})
	if err != nil {
		return nil, err
	}
	return columns, nil
}

// columnLoader loads the column of one field.
type columnLoader struct {
	ctx       context.Context
	get       getter
	catalogue *Catalogue
	id        pieceID // on disk
}

func (l *columnLoader) load(d *catalog.Field, to *catalog.Columns) error {
	rows := l.catalogue.manifest.Rows
	switch {
	case d.Numeric():
		values := make([]float64, rows)
		to.Numbers[d.ID] = values
		return l.pieces(func(begin, end int, c *cursor) { c.numbers(measure{d}, values[begin:end]) })
	case d.Form == catalog.Choice:
		values := make([]uint8, rows)
		to.Codes[d.ID] = values
		return l.pieces(func(begin, end int, c *cursor) { c.choices(values[begin:end], len(d.Choices)) })
	case d.Form == catalog.Points:
		to.CurveEnd = make([]uint32, 0, rows)
		var scratch pairs
		return l.pieces(func(begin, end int, c *cursor) { c.curves(end-begin, &scratch, to) })
	case d.Form == catalog.Bands:
		var scratch pairs
		return l.pieces(func(begin, end int, c *cursor) { c.bands(begin, end-begin, &scratch, to) })
	}
	t := texts{end: make([]uint32, 0, rows)}
	err := l.pieces(func(begin, end int, c *cursor) {
		if c.texts(end-begin, &t); begin == 0 {
			t.data.Grow(t.data.Len() / end * (rows - end)) // the others are hardly longer
		}
	})
	to.Texts[d.ID] = catalog.Strings{Data: t.data.String(), End: t.end}
	return err
}

// pieces passes the pieces of the column with the rows they hold.
func (l *columnLoader) pieces(decode func(begin, end int, c *cursor)) error {
	chunks := &l.catalogue.chunks
	for group := range chunks.groups() {
		if err := l.ctx.Err(); err != nil {
			return err
		}
		pieces, err := l.catalogue.groupPieces(l.get, group, l.id)
		if err != nil {
			return err
		}
		first, _ := chunks.group(group)
		for i, piece := range pieces {
			n := first + i
			c := cursor{b: piece}
			decode(chunks.first(n), chunks.first(n+1), &c)
			if c.done() != nil {
				return l.catalogue.pieceDamage(l.id, n, n+1)
			}
		}
	}
	return nil
}

// texts collects the pieces of a text column.
type texts struct {
	data  strings.Builder
	end   []uint32
	views [][]byte // of one piece
}

func (t *texts) add(v []byte) {
	t.data.Write(v)
	t.end = append(t.end, uint32(t.data.Len()))
}
