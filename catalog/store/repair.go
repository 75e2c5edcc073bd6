package store

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"
)

// Repaired says what a repair did.
type Repaired struct {
	Report     *Report // what was found; where it is whole, nothing was done
	Pointed    bool    // CURRENT alone was written anew
	Generation int     // the new one, or the one CURRENT was written for; 0: none
	Rows       int     // of the catalogue afterwards
	Lost       []Loss  // rows of which no whole copy was left, by source
	Kept       int     // the damaged generation, where it stays until the next import as something of it was lost
	Before     bool    // nothing was left of the live generation: the one before stands in
}

// Repair checks the catalogue in dir and, where something is damaged, makes a new
// generation of the records of which a whole copy is left. The old one stays
// until the new one stands; where rows were lost it is kept beside. Errors: those
// of Check and of Begin.
func Repair(ctx context.Context, dir string, now time.Time, progress func(Progress)) (*Repaired, error) {
	if _, err := os.Stat(dir); errors.Is(err, fs.ErrNotExist) {
		return nil, &NoneError{dir}
	}
	lock, err := takeLock(dir, now)
	if err != nil {
		return nil, err
	}
	b := &Builder{dir: dir, im: Import{Time: now, Progress: progress}, lock: lock}
	r, err := b.repair(ctx)
	return r, errors.Join(err, b.Abort())
}

func (b *Builder) repair(ctx context.Context) (*Repaired, error) {
	report, err := Check(ctx, b.dir, nil)
	if err != nil || report.Whole() {
		return &Repaired{Report: report, Rows: report.Rows}, err
	}
	r := &Repaired{Report: report, Generation: report.Generation, Rows: report.Rows}
	if report.onlyPointer() {
		r.Pointed = true
		return r, b.point(report.Generation)
	}
	if err := b.openLive(ctx); err != nil {
		return r, err
	}
	if b.live == nil {
		return r, &NothingLeftError{b.dir}
	}
	if err := b.start(ctx); err != nil {
		return r, err
	}
	standing, err := b.Settle()
	var m *manifest
	if err == nil {
		m, err = b.write(ctx, standing.Counts)
	}
	if err == nil {
		err = b.swap()
	}
	if err != nil {
		return r, fmt.Errorf("write catalogue: %w", err)
	}
	r.Generation, r.Rows, r.Lost, r.Before = b.number, m.Rows, b.lost, b.before
	spoilt := report.spoilt()
	if r.Before || len(r.Lost) > 0 {
		spoilt = nil
	}
	err = b.end()
	_ = sweep(b.dir, b.number, spoilt...)
	if (r.Before || len(r.Lost) > 0) && finished(b.dir, report.Generation) {
		r.Kept = report.Generation
	}
	return r, err
}

// NothingLeftError says that a damaged catalogue cannot be repaired, as nothing
// can be read of it.
type NothingLeftError struct{ Dir string }

// Error names the folder.
func (e *NothingLeftError) Error() string {
	return fmt.Sprintf("nothing is left of the catalogue in %q", e.Dir)
}

// Hint names the mend.
func (e *NothingLeftError) Hint() string { return "import the parts files again: lowsone import FILE" }

// onlyPointer says whether nothing is wrong but CURRENT.
func (r *Report) onlyPointer() bool {
	for _, d := range r.Damage {
		if filepath.Base(d.Path) != currentFile {
			return false
		}
	}
	return true
}

// spoilt lists the generations in which something is damaged.
func (r *Report) spoilt() (list []int) {
	for _, d := range r.Damage {
		below, err := filepath.Rel(r.Dir, d.Path)
		first, _, _ := strings.Cut(filepath.ToSlash(below), "/")
		if n, ok := generationNumber(first); err == nil && ok {
			list = append(list, n)
		}
	}
	return list
}

// point makes a generation that is there the live one.
func (b *Builder) point(n int) error {
	if err := writeSynced(filepath.Join(b.dir, currentFile), encodePointer(n)); err != nil {
		return fmt.Errorf("write catalogue: %w", err)
	}
	return syncFolder(b.dir)
}
