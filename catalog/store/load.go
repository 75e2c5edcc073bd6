package store

import (
	"context"
	"errors"
	"fmt"
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
	columns := &catalog.Columns{Rows: c.manifest.Rows}
	err := c.blobs.read(func(get getter) error {
		for _, id := range fields {
			number, ok := c.manifest.has(c.schema, id)
			if !ok || !catalog.Fields[id].Columned() {
				continue
			}
			l := columnLoader{ctx: ctx, get: get, catalogue: c, number: number}
			if err := l.load(&catalog.Fields[id], columns); err != nil {
				return err
			}
		}
		return nil
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
	number    int // of the field on disk
}

func (l *columnLoader) load(d *catalog.Field, to *catalog.Columns) error {
	rows := l.catalogue.manifest.Rows
	switch {
	case d.Numeric():
		values := make([]float64, rows)
		to.Numbers[d.ID] = values
		return l.chunks(func(begin, end int, chunk []byte) error { return decodeNumbers(chunk, values[begin:end]) })
	case d.Form == catalog.Choice:
		values := make([]uint8, rows)
		to.Codes[d.ID] = values
		return l.chunks(func(begin, end int, chunk []byte) error {
			return decodeCodes(chunk, values[begin:end], len(d.Choices))
		})
	case d.Form == catalog.Points:
		to.CurveEnd, to.CurveFlow, to.CurvePressure = make([]uint32, 0, rows), nil, nil
		return l.chunks(func(begin, end int, chunk []byte) error { return decodeCurves(chunk, end-begin, to) })
	case d.Form == catalog.Bands:
		return l.chunks(func(begin, end int, chunk []byte) error { return decodeBands(chunk, begin, end, to) })
	}
	t := texts{end: make([]uint32, 0, rows)}
	err := l.chunks(func(begin, end int, chunk []byte) error { return t.decode(chunk, end-begin) })
	to.Texts[d.ID] = catalog.Strings{Data: t.data.String(), End: t.end}
	return err
}

// chunks passes the chunks of the column with the rows they hold.
func (l *columnLoader) chunks(decode func(begin, end int, chunk []byte) error) error {
	rows := l.catalogue.manifest.Rows
	for begin := 0; begin < rows; begin += chunkRows {
		if err := l.ctx.Err(); err != nil {
			return err
		}
		chunk, err := l.get(columnPlace(begin/chunkRows, l.number))
		if err != nil {
			return err
		}
		end := min(begin+chunkRows, rows)
		err = decode(begin, end, chunk)
		if errors.Is(err, errBytes) {
			name := l.catalogue.schema[l.number].Name
			return &DamagedError{l.catalogue.blobs.path, fmt.Sprintf("column %s, rows %d to %d: %v", name, begin, end-1, err)}
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// texts collects the chunks of a text column.
type texts struct {
	data strings.Builder
	end  []uint32
}
