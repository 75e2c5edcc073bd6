package store

import (
	"context"
	"math"
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/parallel"
)

// Columns loads the columns of the given fields, all where none is given. A
// column of which no row has a value stays nil.
func (c *Catalogue) Columns(ctx context.Context, fields ...catalog.FieldID) (*catalog.Columns, error) {
	if len(fields) == 0 {
		for id := range catalog.NumFields {
			fields = append(fields, id)
		}
	}
	columns := &catalog.Columns{Rows: c.manifest.Rows}
	var jobs []func(get getter) error
	for _, d := range c.columned(fields) {
		l := &columnLoader{ctx: ctx, catalogue: c, id: d.id}
		if d.Form == catalog.Points {
			halves, err := l.curves(columns)
			if err != nil {
				return nil, err
			}
			jobs = append(halves, jobs...) // the longest first
			continue
		}
		jobs = append(jobs, func(get getter) error { return l.load(get, d.Field, columns) }) // each field writes what is its own
	}
	err := parallel.Do(len(jobs), func(i int) error { return c.blobs.read(jobs[i]) })
	if err != nil {
		return nil, err
	}
	return columns, nil
}

// columnLoader loads the column of one field.
type columnLoader struct {
	ctx       context.Context
	catalogue *Catalogue
	id        pieceID // on disk
}

// curves loads how many points the rows have, and gives the jobs that load their
// flows and their pressures.
func (l *columnLoader) curves(to *catalog.Columns) (jobs []func(getter) error, err error) {
	to.CurveEnd = make([]uint32, 0, l.catalogue.manifest.Rows)
	firsts := []int{0} // points before each chunk
	var counts [chunkRows]int
	err = l.catalogue.blobs.read(func(get getter) error {
		return l.pieces(get, false, func(begin, end int, c *cursor) {
			total := firsts[len(firsts)-1]
			firsts = append(firsts, total+c.counts(counts[:end-begin]))
			if firsts[len(firsts)-1] > math.MaxUint32 {
				c.fail()
				return
			}
			for _, n := range counts[:end-begin] {
				total += n
				to.CurveEnd = append(to.CurveEnd, uint32(total))
			}
		})
	})
	if err != nil {
		return nil, err
	}
	total := firsts[len(firsts)-1]
	to.CurveFlow, to.CurvePressure = make([]float64, total), make([]float64, total)
	half := func(whole bool, read func(c *cursor, points []float64), values []float64) func(getter) error {
		return func(get getter) error {
			chunk := 0
			var counts [chunkRows]int
			return l.pieces(get, whole, func(begin, end int, c *cursor) {
				c.counts(counts[:end-begin])
				read(c, values[firsts[chunk]:firsts[chunk+1]])
				chunk++
			})
		}
	}
	return []func(getter) error{
		half(false, func(c *cursor, flows []float64) { c.firsts(flowMeasure, flows) }, to.CurveFlow),
		half(true, func(c *cursor, pressures []float64) { c.seconds(pressureMeasure, pressures) }, to.CurvePressure),
	}, nil
}

func (l *columnLoader) load(get getter, d *catalog.Field, to *catalog.Columns) error {
	rows := l.catalogue.manifest.Rows
	switch {
	case d.Numeric():
		values := make([]float64, rows)
		to.Numbers[d.ID] = values
		return l.pieces(get, true, func(begin, end int, c *cursor) { c.numbers(measureOf(d), values[begin:end]) })
	case d.Form == catalog.Choice:
		values := make([]uint8, rows)
		to.Codes[d.ID] = values
		return l.pieces(get, true, func(begin, end int, c *cursor) { c.choices(values[begin:end], len(d.Choices)) })
	case d.Form == catalog.Bands:
		var scratch pairs
		return l.pieces(get, true, func(begin, end int, c *cursor) { c.bands(begin, end-begin, &scratch, to) })
	}
	t := texts{end: make([]uint32, 0, rows)}
	err := l.pieces(get, true, func(begin, end int, c *cursor) {
		if c.texts(end-begin, &t); begin == 0 {
			t.data.Grow(t.data.Len() / end * (rows - end)) // the others are hardly longer
		}
	})
	to.Texts[d.ID] = catalog.Strings{Data: t.data.String(), End: t.end}
	return err
}

// pieces passes the pieces of the column with the rows they hold. Where decode
// reads them to their end, what is left is damage.
func (l *columnLoader) pieces(get getter, whole bool, decode func(begin, end int, c *cursor)) error {
	chunks := &l.catalogue.chunks
	for group := range chunks.groups() {
		if err := l.ctx.Err(); err != nil {
			return err
		}
		pieces, err := l.catalogue.groupPieces(get, group, l.id)
		if err != nil {
			return err
		}
		first, _ := chunks.group(group)
		for i, piece := range pieces {
			n := first + i
			c := cursor{b: piece}
			decode(chunks.first(n), chunks.first(n+1), &c)
			if c.bad || whole && len(c.b) > 0 {
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
