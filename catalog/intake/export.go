package intake

import (
	"context"
	"io"

	"lowsone/catalog"
	"lowsone/catalog/partscsv"
	"lowsone/catalog/store"
)

// Exported says what an export holds.
type Exported struct {
	Sources []string // whose fans they are
	Fans    int
	Aside   int // rows left out: another source, imported later, lists the part too
}

// Export writes the fans of a source, or of all where none is named, as the tool's
// own CSV with the columns that no field stands for. Of a part that several
// sources list the row that counts is written. Errors: *store.NoSourceError, those
// of reading and writing.
//
// Importing the export makes the same fans of one source: in their order, with all
// fields to ten digits, the origins of their values, and the other columns, of one
// source in their order. What was said at the import for all rows is a cell then.
// Where each fan stood in its first file, what was remarked when that
// was read, and which source it came from are not kept.
func Export(ctx context.Context, c *store.Catalogue, source string, w io.Writer) (Exported, error) {
	e := export{ctx: ctx, catalogue: c, source: source}
	if err := e.setAside(); err != nil {
		return e.done, err
	}
	var extras partscsv.Extras
	if err := e.each(func(f *catalog.Fan) error { extras.Add(f); return nil }); err != nil {
		return e.done, err
	}
	out, err := partscsv.NewExporter(w, extras.List())
	if err != nil {
		return e.done, err
	}
	err = e.each(func(f *catalog.Fan) error {
		e.count(f)
		return out.Write(f)
	})
	if err != nil {
		return e.done, err
	}
	return e.done, out.Flush()
}

// export is one export while it goes on.
type export struct {
	ctx       context.Context
	catalogue *store.Catalogue
	source    string
	left      catalog.Columns // tells which rows are set aside
	done      Exported
}

// setAside finds the rows that are left out.
func (e *export) setAside() error {
	if e.source != "" {
		return nil
	}
	twins, err := e.catalogue.Twins(e.ctx)
	if err == nil {
		e.left.Aside = twins.Aside()
	}
	return err
}

// each passes the fans that are written.
func (e *export) each(pass func(f *catalog.Fan) error) error {
	e.done.Aside = 0
	return e.catalogue.Each(e.ctx, e.source, func(row int, f *catalog.Fan) error {
		if e.left.IsAside(row) {
			e.done.Aside++
			return nil
		}
		return pass(f)
	})
}

func (e *export) count(f *catalog.Fan) {
	e.done.Fans++
	if n := len(e.done.Sources); n == 0 || e.done.Sources[n-1] != f.Source.Name {
		e.done.Sources = append(e.done.Sources, f.Source.Name)
	}
}
