package store

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"lowsone/catalog"
)

// Import says what is being imported. The rows of its source are replaced by
// the rows added; the rows of all other sources stay.
type Import struct {
	Source   string         // name of the source; never empty
	Path     string         // of the file, for people; may be empty
	Sheet    string         // of it, where it is a workbook
	Options  string         // that its reading was told, for people; one a line; may be empty
	Time     time.Time      // of the import
	Progress func(Progress) // called by Commit now and then; may be nil
}

// Progress says how far Commit is.
type Progress struct{ Done, Total int } // rows

// Result says what a Commit did.
type Result struct {
	Counts
	Generation int
	Rows       int           // of the whole catalogue
	Lost       []Loss        // rows of other sources that could no longer be read and are left out
	Damage     *DamagedError // what was wrong with the old catalogue; nil where nothing was
	Before     bool          // nothing was left of it: the one before the last import stood in
}

// Loss counts rows of a source that damage has taken.
type Loss struct {
	Source string
	Rows   int
}

// Builder builds the next generation. It is for one goroutine; chunks of rows
// are made on several more.
type Builder struct {
	dir      string
	im       Import
	lock     *importLock
	live     *Catalogue // nil where there is none, or none that opens
	number   int
	folder   string
	ledger   *Ledger
	packer   *packer
	spool    *spool
	lost     []Loss
	damage   *DamagedError
	before   bool // live is the generation before
	settled  bool
	standing Standing // once settled
	done     bool
}

// Begin takes the import lock of dir, makes the folder where it is not there,
// sweeps what killed imports left, and begins a new generation. A damaged
// catalogue is no obstacle: importing is the way back from it. Errors:
// *BusyError, *NewerError, those of the file system. The caller ends with
// Commit or Abort.
func Begin(ctx context.Context, dir string, im Import) (*Builder, error) {
	if im.Source == "" {
		return nil, errors.New("import without a source name")
	}
	im.Source = sourceName(im.Source)
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, fmt.Errorf("make catalogue folder: %w", err)
	}
	lock, err := takeLock(dir, im.Time)
	if err != nil {
		return nil, err
	}
	b := &Builder{dir: dir, im: im, lock: lock}
	if err := b.begin(ctx); err != nil {
		return nil, errors.Join(err, b.Abort())
	}
	return b, nil
}

func (b *Builder) begin(ctx context.Context) error {
	if err := b.openLive(ctx); err != nil {
		return err
	}
	current, err := live(b.dir)
	if err != nil {
		current = 0 // none, or CURRENT is damaged
	}
	if err := sweep(b.dir, current); err != nil {
		return fmt.Errorf("sweep catalogue folder: %w", err)
	}
	return b.start(ctx)
}

// start makes the folder of the new generation, and what takes in its rows.
func (b *Builder) start(ctx context.Context) (err error) {
	if b.ledger, err = NewLedger(ctx, b.live, b.im.Source); err != nil {
		return err
	}
	all, err := generations(b.dir)
	if err != nil {
		return err
	}
	b.number = 1
	if len(all) > 0 {
		b.number += all[len(all)-1]
	}
	folder := filepath.Join(b.dir, generationName(b.number))
	if err := os.Mkdir(folder, 0o755); err != nil {
		return fmt.Errorf("begin generation: %w", err)
	}
	b.folder = folder
	if b.spool, err = createSpool(filepath.Join(folder, spoolFile)); err != nil {
		return err
	}
	b.packer = startPacker(b.ledger, b.spool)
	return nil
}

// Add takes a row of the source; of rows with one key the last wins. An error is
// of writing rows added before.
func (b *Builder) Add(r Row) error { return b.packer.add(r) }

// Settle ends adding and says what stands.
func (b *Builder) Settle() (Standing, error) {
	if !b.settled {
		b.settled = true
		b.packer.close()
		b.standing = b.ledger.Settle()
		b.ledger.forget() // the rows are written without it, and it is large
	}
	return b.standing, b.packer.err
}

// Commit writes the new generation and makes it the live one. On an error the
// old one stays live and nothing is left behind.
func (b *Builder) Commit(ctx context.Context) (Result, error) {
	if b.done {
		return Result{}, errors.New("import is already over")
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
		return Result{}, errors.Join(fmt.Errorf("write catalogue: %w", err), b.Abort())
	}
	// From here on the new generation answers. What cannot be tidied up now is
	// tidied up by the next import.
	spoilt := b.spoilt()
	_ = b.end()
	_ = sweep(b.dir, b.number, spoilt)
	return Result{standing.Counts, b.number, m.Rows, b.lost, b.damage, b.before}, nil
}

// swap makes the new generation the live one. Its name must be durable before
// CURRENT leads to it.
func (b *Builder) swap() error {
	if err := syncFolder(b.dir); err != nil {
		return err
	}
	if err := writeSynced(filepath.Join(b.dir, currentFile), encodePointer(b.number)); err != nil {
		return err
	}
	b.folder = "" // no longer ours to remove
	// Without this a power cut may bring back the old generation, which is still there.
	_ = syncFolder(b.dir)
	return nil
}

// write writes the sources in the order of their names, so that a catalogue
// does not depend on the order in which they were imported.
func (b *Builder) write(ctx context.Context, c Counts) (*manifest, error) {
	total := c.New + c.Changed + c.Unchanged
	var kept []storedSource
	if b.live != nil {
		kept = b.live.manifest.Sources
		begin, end := b.live.manifest.span(b.im.Source)
		total += b.live.manifest.Rows - (end - begin)
	}
	g, err := newGeneration(b.folder)
	if err != nil {
		return nil, err
	}
	g.parts = make([]partEntry, 0, total)
	w := &chunkWriter{ctx: ctx, generation: g, progress: b.im.Progress, total: total}
	if err := b.writeSources(w, kept); err != nil {
		g.abort()
		return nil, err
	}
	spool := b.spool
	b.spool = nil
	if err = spool.remove(); err == nil {
		err = g.finish()
	}
	if err != nil {
		g.abort()
		return nil, err
	}
	w.report()
	return &g.manifest, nil
}

func (b *Builder) writeSources(w *chunkWriter, kept []storedSource) error {
	written := false
	own := func() error {
		written = true
		return b.writeOwn(w)
	}
	for _, s := range kept {
		if !written && s.Name >= b.im.Source {
			if err := own(); err != nil {
				return err
			}
		}
		if s.Name == b.im.Source {
			continue
		}
		if err := b.keep(w, s); err != nil {
			return err
		}
	}
	if !written {
		return own()
	}
	return nil
}

func (b *Builder) writeOwn(w *chunkWriter) error {
	fields := len(b.ledger.schema)
	err := b.spool.each(fields, func(c *chunk, s *spooled) error {
		if s.dead == nil {
			return w.add(c)
		}
		return b.writeStanding(w, c, s)
	})
	w.generation.endSource(storedSource{Name: b.im.Source, Path: b.im.Path, Sheet: b.im.Sheet, Imported: b.im.Time, Options: b.im.Options})
	return err
}

// writeStanding writes the rows of a chunk that were not overtaken.
func (b *Builder) writeStanding(w *chunkWriter, c *chunk, s *spooled) error {
	var standing []*catalog.Fan
	for n, block := range c.blocks {
		fans, err := b.ledger.schema.readBlock(block, min(blockRows, c.rows-n*blockRows), -1)
		if err != nil {
			return err
		}
		for i, f := range fans {
			if !s.dropped(n*blockRows + i) {
				standing = append(standing, f)
			}
		}
	}
	return w.addFans(standing)
}

// Abort drops what was built; the catalogue stays as it was. After Commit it
// does nothing.
func (b *Builder) Abort() error {
	if b.done {
		return nil
	}
	return b.end()
}

// end lets go of everything, and removes the folder of a generation that did
// not become live.
func (b *Builder) end() error {
	b.done = true
	var errs []error
	if b.packer != nil && !b.settled {
		b.settled = true
		b.packer.abort()
	}
	if b.spool != nil {
		errs = append(errs, b.spool.remove())
	}
	if b.folder != "" {
		errs = append(errs, os.RemoveAll(b.folder))
	}
	if b.live != nil {
		errs = append(errs, b.live.Close())
	}
	return errors.Join(append(errs, b.lock.release())...)
}
