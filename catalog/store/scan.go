package store

import (
	"context"
	"slices"

	"lowsone/catalog"
	"lowsone/catalog/parallel"
)

// View gives the fans of a catalogue to whoever looks through them, rows that
// are set aside marked. It is a catalog.Fans.
type View struct {
	c     *Catalogue
	aside []uint64
}

// View gives the fans of the catalogue. Of parts that several sources list the
// rows that do not count are set aside.
func (c *Catalogue) View(twins *Twins) *View { return &View{c, twins.Aside()} }

// Scan passes every fan, a chunk at a time, from as many goroutines as there are
// processors. What a chunk holds is written over when pass returns.
func (v *View) Scan(ctx context.Context, fields []catalog.FieldID, pass func(c *catalog.Columns, begin, end int) error) error {
	return parallel.Workers(v.c.chunks.groups(), func(next func() (int, bool)) error {
		r := v.reader(ctx, fields)
		return v.c.blobs.read(func(get getter) error {
			for group, ok := next(); ok; group, ok = next() {
				if err := r.group(get, group, pass); err != nil {
					return err
				}
			}
			return nil
		})
	})
}

// scanReader reads the columns of one chunk after the other into the same memory.
type scanReader struct {
	ctx     context.Context
	c       *Catalogue
	columns catalog.Columns
	fields  []scannedField
	memory  memory
	bands   pairs
	counts  []int
}

// scannedField is a column with the memory it is read into, and its pieces in the
// group of chunks that is read.
type scannedField struct {
	storedColumn
	numbers []float64
	choices []uint8
	pieces  [][]byte
}

func (v *View) reader(ctx context.Context, fields []catalog.FieldID) *scanReader {
	r := &scanReader{ctx: ctx, c: v.c, columns: catalog.Columns{Aside: v.aside}}
	for _, f := range v.c.columned(fields) {
		r.fields = append(r.fields, scannedField{storedColumn: f})
	}
	return r
}

// storedColumn is a field with the number of its column on disk.
type storedColumn struct {
	*catalog.Field
	id pieceID
}

// columned lists the fields asked for of which any row has a value, each once.
func (c *Catalogue) columned(asked []catalog.FieldID) (list []storedColumn) {
	for id := range catalog.NumFields {
		d := &catalog.Fields[id]
		if number, ok := c.manifest.has(c.schema, id); ok && d.Columned() && slices.Contains(asked, id) {
			list = append(list, storedColumn{d, pieceID(number)})
		}
	}
	return list
}

// group passes the chunks of a group.
func (r *scanReader) group(get getter, group int, pass func(c *catalog.Columns, begin, end int) error) (err error) {
	for i := range r.fields {
		f := &r.fields[i]
		if f.pieces, err = r.c.groupPieces(get, group, f.id); err != nil {
			return err
		}
	}
	chunks := &r.c.chunks
	first, end := chunks.group(group)
	for n := first; n < end; n++ {
		if err := r.ctx.Err(); err != nil {
			return err
		}
		r.columns.First, r.columns.Rows = chunks.first(n), chunks.rows(n)
		for i := range r.fields {
			f := &r.fields[i]
			if c := (cursor{b: f.pieces[n-first], memory: &r.memory}); !r.read(f, &c) {
				return r.c.pieceDamage(f.id, n, n+1)
			}
		}
		if err := pass(&r.columns, 0, r.columns.Rows); err != nil {
			return err
		}
	}
	return nil
}

// read reads the piece of a field. Not ok where it has no valid form.
func (r *scanReader) read(f *scannedField, c *cursor) bool {
	to, rows := &r.columns, r.columns.Rows
	switch {
	case f.Numeric():
		f.numbers = sized(f.numbers, rows)
		c.numbers(measureOf(f.Field), f.numbers)
		to.Numbers[f.ID] = f.numbers
	case f.Form == catalog.Choice:
		f.choices = sized(f.choices, rows)
		c.choices(f.choices, len(f.Choices))
		to.Codes[f.ID] = f.choices
	case f.Form == catalog.Points:
		r.curves(c)
	case f.Form == catalog.Bands:
		to.BandRows, to.BandEnd, to.BandLevels = to.BandRows[:0], to.BandEnd[:0], to.BandLevels[:0]
		c.bands(0, rows, &r.bands, to)
	default:
		t := texts{end: to.Texts[f.ID].End[:0]}
		c.texts(rows, &t)
		to.Texts[f.ID] = catalog.Strings{Data: t.data.String(), End: t.end}
	}
	return c.done() == nil
}

// curves reads a piece of curves.
func (r *scanReader) curves(c *cursor) {
	to := &r.columns
	r.counts, to.CurveEnd = sized(r.counts, to.Rows), sized(to.CurveEnd, to.Rows)
	total := c.counts(r.counts)
	end := 0
	for i := range to.CurveEnd {
		end += r.counts[i]
		to.CurveEnd[i] = uint32(end)
	}
	to.CurveFlow, to.CurvePressure = sized(to.CurveFlow, total), sized(to.CurvePressure, total)
	c.firsts(flowMeasure, to.CurveFlow)
	if total > 0 {
		c.numbers(pressureMeasure, to.CurvePressure)
	}
}

// sized gives a slice of so many elements, the memory of s where that is enough.
// What they are is not said.
func sized[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n)
	}
	return s[:n]
}

// gatheredRows is how many rows At reads by their records; more are gathered from
// whole columns.
const gatheredRows = 1024

// At gives single rows with all columns.
func (v *View) At(ctx context.Context, rows []int) (*catalog.Columns, error) {
	if len(rows) > gatheredRows {
		all, err := v.c.Columns(ctx)
		if err != nil {
			return nil, err
		}
		return all.At(ctx, rows)
	}
	fans, err := v.c.Fans(ctx, rows)
	if err != nil {
		return nil, err
	}
	return catalog.ColumnsOf(fans...), nil
}
