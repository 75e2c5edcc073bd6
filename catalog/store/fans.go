package store

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"lowsone/catalog"
)

// Fan reads the record of one row.
func (c *Catalogue) Fan(row int) (*catalog.Fan, error) {
	fans, err := c.Fans(context.Background(), []int{row})
	if err != nil {
		return nil, err
	}
	return fans[0], nil
}

// Fans reads the records of rows, in the order given. Each block of records is
// read once, whatever that order is.
func (c *Catalogue) Fans(ctx context.Context, rows []int) ([]*catalog.Fan, error) {
	order := make([]int, len(rows))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(i, j int) int { return cmp.Compare(rows[i], rows[j]) })
	fans := make([]*catalog.Fan, len(rows))
	b := blockReader{catalogue: c}
	for _, i := range order {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		f, err := b.fan(rows[i])
		if err != nil {
			return nil, err
		}
		fans[i] = f
	}
	return fans, nil
}

func (c *Catalogue) decode(row int, record []byte) (*catalog.Fan, error) {
	f, err := c.schema.decode(record)
	if err != nil {
		return nil, &DamagedError{c.blobs.path, fmt.Sprintf("row %d: %v", row, err)}
	}
	f.Source.Name = c.sourceOf(row)
	return f, nil
}

func (c *Catalogue) sourceOf(row int) string {
	end := 0
	for _, s := range c.manifest.Sources {
		if end += s.Rows; row < end {
			return s.Name
		}
	}
	return ""
}

// blockReader reads records and keeps the block it read last.
type blockReader struct {
	catalogue *Catalogue
	block     int
	records   [][]byte // of the block; nil before the first
}

func (b *blockReader) fan(row int) (*catalog.Fan, error) {
	record, err := b.record(row)
	if err != nil {
		return nil, err
	}
	return b.catalogue.decode(row, record)
}

// record gives the record of a row.
func (b *blockReader) record(row int) ([]byte, error) {
	if err := b.catalogue.checkRow(row); err != nil {
		return nil, err
	}
	if n := row / blockRows; b.records == nil || n != b.block {
		records, err := b.catalogue.blockRecords(n)
		if err != nil {
			b.records = nil
			return nil, err
		}
		b.block, b.records = n, records
	}
	return b.records[row%blockRows], nil
}

func (c *Catalogue) blockRecords(block int) (records [][]byte, err error) {
	first := block * blockRows
	rows := min(blockRows, c.manifest.Rows-first)
	err = c.blobs.read(func(get getter) error {
		content, err := get(rowsPlace(block))
		if err != nil {
			return err
		}
		if records, err = unfold(content, rows); err != nil {
			return &DamagedError{c.blobs.path, fmt.Sprintf("rows %d to %d: %v", first, first+rows-1, err)}
		}
		return nil
	})
	return records, err
}

// records passes the records of rows begin to before end. Damaged ones are
// passed as nil, with what is wrong.
func (c *Catalogue) records(ctx context.Context, begin, end int, pass func(row int, record []byte, damage error) error) error {
	b := blockReader{catalogue: c}
	for row := begin; row < end; row++ {
		if err := ctx.Err(); err != nil {
			return err
		}
		record, err := b.record(row)
		if err := pass(row, record, err); err != nil {
			return err
		}
	}
	return nil
}
