package store

import (
	"context"

	"lowsone/catalog"
)

// Each passes the fans of a source with their rows, in their order; those of all
// sources where none is named. Errors: *NoSourceError, the context's, those of
// pass, *DamagedError.
func (c *Catalogue) Each(ctx context.Context, source string, pass func(row int, f *catalog.Fan) error) error {
	begin, end := 0, c.chunks.len()
	if source != "" {
		if _, _, err := c.Span(source); err != nil {
			return err
		}
		begin, end = c.manifest.chunkSpan(sourceName(source))
	}
	for chunk := begin; chunk < end; chunk++ {
		row := c.chunks.first(chunk)
		err := c.blocks(ctx, chunk, func(fans []*catalog.Fan, _ int, damage error) error {
			if damage != nil {
				return damage
			}
			for _, f := range fans {
				if err := pass(row, f); err != nil {
					return err
				}
				row++
			}
			return nil
		})
		if err != nil {
			return err
		}
	}
	return nil
}

// Span gives the rows of a source: begin to before end. Errors: *NoSourceError.
func (c *Catalogue) Span(source string) (begin, end int, err error) {
	if c.manifest.source(sourceName(source)) == nil {
		return 0, 0, c.noSource(source)
	}
	begin, end = c.manifest.span(sourceName(source))
	return begin, end, nil
}

// Source gives the name of the source of a row.
func (c *Catalogue) Source(row int) string { return c.sourceOf(row) }

func (c *Catalogue) noSource(name string) error {
	e := &NoSourceError{Name: name}
	for _, s := range c.manifest.Sources {
		e.Sources = append(e.Sources, s.Name)
	}
	return e
}
