package store

import (
	"context"

	"lowsone/catalog"
	"lowsone/catalog/parallel"
)

// Fan reads the record of one row.
func (c *Catalogue) Fan(row int) (*catalog.Fan, error) {
	fans, err := c.Fans(context.Background(), []int{row})
	if err != nil {
		return nil, err
	}
	return fans[0], nil
}

// Fans reads the records of rows, in the order given.
func (c *Catalogue) Fans(ctx context.Context, rows []int) ([]*catalog.Fan, error) {
	fans := make([]*catalog.Fan, len(rows))
	err := parallel.Do(len(rows), func(i int) (err error) {
		if err = ctx.Err(); err == nil {
			fans[i], err = c.fan(rows[i])
		}
		return err
	})
	if err != nil {
		return nil, err
	}
	return fans, nil
}

// fan reads the record of a row.
func (c *Catalogue) fan(row int) (*catalog.Fan, error) {
	if err := c.checkRow(row); err != nil {
		return nil, err
	}
	chunk, place := c.chunks.at(row)
	fans, err := c.readBlock(chunk, place/blockRows, place%blockRows)
	if err != nil {
		return nil, err
	}
	return fans[place%blockRows], nil
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

// blocks passes the fans of a chunk, block by block. For damaged ones that
// cannot be rescued it passes how many rows they are, and what is wrong.
func (c *Catalogue) blocks(ctx context.Context, chunk int, pass func(fans []*catalog.Fan, rows int, damage error) error) error {
	rows := c.chunks.rows(chunk)
	for n := range blocksOf(rows) {
		if err := ctx.Err(); err != nil {
			return err
		}
		fans, err := c.readBlock(chunk, n, -1)
		if err != nil && c.rescue != nil {
			if fans = c.rescue.block(ctx, chunk, n); fans != nil {
				err = nil
			}
		}
		if err := pass(fans, min(blockRows, rows-n*blockRows), err); err != nil {
			return err
		}
	}
	return nil
}
