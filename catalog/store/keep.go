package store

import (
	"context"
	"errors"
	"math"
	"path/filepath"
	"slices"

	"lowsone/catalog"
)

// Importing is the way back from damage. So an import keeps what can still be
// read of the other sources, and counts what cannot.

// openLive opens the catalogue that the import replaces. Where CURRENT is
// damaged, that is the newest finished generation. Where the live generation
// does not open, its rows are lost, and there is none.
func (b *Builder) openLive(ctx context.Context) error {
	live, err := Open(ctx, b.dir)
	var damage *DamagedError
	if errors.As(err, &damage) && damage.Path == filepath.Join(b.dir, currentFile) {
		b.damage = damage
		live, err = b.openNewest()
	}
	switch {
	case errors.Is(err, ErrNone):
		return nil
	case errors.As(err, &damage):
		b.damage, b.lost = damage, b.lostWith(damage)
		return nil
	case err != nil:
		return err
	}
	b.live = live
	return nil
}

func (b *Builder) openNewest() (*Catalogue, error) {
	n, err := newestWhole(b.dir, math.MaxInt)
	if err != nil {
		return nil, err
	}
	if n == 0 {
		return nil, &NoneError{b.dir}
	}
	return openGeneration(b.dir, n)
}

// lostWith names the other sources of a live generation that does not open, if
// its manifest still does.
func (b *Builder) lostWith(damage *DamagedError) (lost []Loss) {
	m, err := readManifest(filepath.Join(filepath.Dir(damage.Path), manifestFile))
	if err != nil {
		return nil
	}
	for _, s := range m.Sources {
		if s.Name != b.im.Source {
			lost = append(lost, Loss{s.Name, s.Rows})
		}
	}
	return lost
}

// keep copies the rows of another source.
func (b *Builder) keep(w *rowWriter, s storedSource) error {
	begin, end := b.live.manifest.span(s.Name)
	same := slices.Equal(b.live.schema, b.ledger.schema)
	lost := 0
	err := b.live.records(w.ctx, begin, end, func(row int, record []byte, damage error) error {
		var f *catalog.Fan
		if damage == nil {
			f, damage = b.live.decode(row, record)
		}
		if damage != nil {
			lost++
			return b.survive(damage)
		}
		if !same {
			var err error
			if record, err = b.ledger.schema.encode(f); err != nil {
				return err
			}
		}
		return w.add(record, f)
	})
	if lost > 0 {
		b.lost = append(b.lost, Loss{s.Name, lost})
	}
	w.generation.source(s)
	return err
}

// survive notes damage, and gives what is none.
func (b *Builder) survive(err error) error {
	var damage *DamagedError
	if errors.As(err, &damage) && b.damage == nil {
		b.damage = damage
	}
	return unlessDamage(err)
}

// unlessDamage gives err unless it tells of damage, which an import survives.
func unlessDamage(err error) error {
	var damage *DamagedError
	if errors.As(err, &damage) {
		return nil
	}
	return err
}

// rowWriter adds rows to a generation and tells how far it is.
type rowWriter struct {
	ctx        context.Context
	generation *generation
	progress   func(Progress)
	total      int
}

// reportRows is how often progress is told.
const reportRows = 1024

func (w *rowWriter) add(record []byte, f *catalog.Fan) error {
	if w.generation.manifest.Rows%reportRows == 0 {
		if err := w.ctx.Err(); err != nil {
			return err
		}
		w.report()
	}
	return w.generation.add(record, f)
}

func (w *rowWriter) report() {
	if w.progress != nil {
		w.progress(Progress{w.generation.manifest.Rows, w.total})
	}
}
