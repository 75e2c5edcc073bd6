package catalog

import (
	"context"

	"lowsone/catalog/parallel"
)

// Fans are the fans of a catalogue, to be looked through: Columns where they are
// in memory, or a store that reads them as it goes.
type Fans interface {
	// Scan passes every fan once, in stretches of consecutive rows, with the
	// columns of the given fields at least. Stretches come in no order, from
	// several goroutines at once, and hold until pass returns. Row i of a stretch
	// is row c.First+i of the catalogue. After an error none is begun any more,
	// and it is given.
	Scan(ctx context.Context, fields []FieldID, pass func(c *Columns, begin, end int) error) error

	// At gives single rows with all columns, in the order given; they are numbered
	// anew from 0.
	At(ctx context.Context, rows []int) (*Columns, error)
}

// stretchRows is how many rows of Columns are passed at once.
const stretchRows = 8192

// Scan passes the rows of columns in memory: all columns, whatever is asked for.
func (c *Columns) Scan(ctx context.Context, _ []FieldID, pass func(c *Columns, begin, end int) error) error {
	return parallel.Do((c.Rows+stretchRows-1)/stretchRows, func(n int) error {
		if err := ctx.Err(); err != nil {
			return err
		}
		return pass(c, n*stretchRows, min((n+1)*stretchRows, c.Rows))
	})
}

// At gives single rows of columns in memory. The error is that of the context.
func (c *Columns) At(ctx context.Context, rows []int) (*Columns, error) {
	b := ColumnsBuilder{}
	for id := range Fields {
		d := &Fields[id]
		for n, i := range rows {
			if n%stretchRows == 0 && ctx.Err() != nil {
				return nil, ctx.Err()
			}
			b.take(d, c, i, n)
		}
	}
	b.c.Rows = len(rows)
	return b.Columns(), nil
}

// take adds a field of row i of other columns as row n.
func (b *ColumnsBuilder) take(d *Field, c *Columns, i, n int) {
	switch id := d.ID; {
	case d.Numeric():
		b.c.Numbers[id] = append(b.c.Numbers[id], c.Number(id, i))
	case d.Form == Choice:
		b.c.Codes[id] = append(b.c.Codes[id], c.Code(id, i))
	case d.Form == Text && d.Columned():
		b.appendText(id, c.Text(id, i))
	case d.Form == Points:
		flow, pressure := c.Curve(i)
		b.c.CurveFlow, b.c.CurvePressure = append(b.c.CurveFlow, flow...), append(b.c.CurvePressure, pressure...)
		b.c.CurveEnd = append(b.c.CurveEnd, uint32(len(b.c.CurveFlow)))
	case d.Form == Bands:
		b.appendBands(n, c.Bands(i))
	}
}
