package store

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"sync"
	"time"

	"lowsone/catalog"
	"lowsone/catalog/index"
)

// Catalogue is one generation of a catalogue, open for reading. Several
// goroutines and several processes may read at once; an import that is
// committed meanwhile does not change what an open Catalogue answers.
type Catalogue struct {
	dir        string
	generation int
	folder     string
	manifest   *manifest
	schema     schema
	chunks     chunkTable
	blobs      *blobReader
	release    func() error
	rescue     *rescue // of records that cannot be read; nil for those who only read
	preferred  string  // source whose rows count wherever it has one; empty: none

	wordsOnce sync.Once
	words     *index.Index
	wordsErr  error
}

// Info says what a catalogue holds.
type Info struct {
	Dir        string
	Generation int
	Rows       int
	Sources    []SourceInfo           // by name
	Missing    [catalog.NumFields]int // rows in which the field is unknown
}

// SourceInfo says what came from one source.
type SourceInfo struct {
	Name     string
	Path     string // of the imported file; empty where it had none
	Sheet    string // of it, where it is a workbook
	Rows     int
	Imported time.Time // given by the import
	Options  string    // that its reading was told, as Import has them
}

// openTries is how often Open starts again because an import removed the
// generation that was just found live. Once is already rare.
const openTries = 10

// Open opens the live generation of the catalogue in dir. Errors: *NoneError
// (errors.Is ErrNone), *DamagedError, *NewerError, *OlderError, those of reading.
func Open(ctx context.Context, dir string) (*Catalogue, error) {
	for try := 1; ; try++ {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		n, err := live(dir)
		if err != nil {
			return nil, err
		}
		c, err := openGeneration(dir, n)
		if !errors.Is(err, errGone) {
			return c, err
		}
		if now, err := live(dir); err == nil && now == n && try > 1 || try == openTries {
			return nil, &DamagedError{filepath.Join(dir, generationName(n)), "it is missing"}
		}
	}
}

func openGeneration(dir string, n int) (*Catalogue, error) {
	c := &Catalogue{dir: dir, generation: n, folder: filepath.Join(dir, generationName(n))}
	release, err := hold(c.folder)
	if err != nil {
		return nil, err
	}
	c.release = release
	if err := c.open(); err != nil {
		_ = release()
		return nil, err
	}
	return c, nil
}

func (c *Catalogue) open() (err error) {
	path := filepath.Join(c.folder, manifestFile)
	if c.manifest, err = readManifest(path); err != nil {
		return err
	}
	c.chunks = chunksOf(c.manifest.Sources)
	if c.schema, err = schemaOf(c.manifest.Fields); err != nil {
		return &NewerError{path, err.Error()}
	}
	blobs := filepath.Join(c.folder, blobFile)
	if path, reason := c.manifest.misfit(c.folder, func(name string) bool { return name == blobFile }); path != "" {
		return &DamagedError{path, reason}
	}
	c.blobs, err = openBlobs(blobs, c.manifest.Branches)
	return err
}

// Close ends reading.
func (c *Catalogue) Close() error {
	// Whoever has not searched yet will not begin now.
	c.wordsOnce.Do(func() { c.wordsErr = errors.New("catalogue is closed") })
	var err error
	if c.words != nil {
		err = c.words.Close()
	}
	if c.rescue != nil {
		err = errors.Join(err, c.rescue.close())
	}
	return errors.Join(err, c.blobs.close(), c.release())
}

// Info says what the catalogue holds.
func (c *Catalogue) Info() Info { return c.manifest.info(c.dir, c.generation, c.schema) }

// Rows gives the number of rows.
func (c *Catalogue) Rows() int { return c.manifest.Rows }

// checkRow refuses a row that is not there.
func (c *Catalogue) checkRow(row int) error {
	if row < 0 || row >= c.manifest.Rows {
		return fmt.Errorf("read row %d of a catalogue of %d", row, c.manifest.Rows)
	}
	return nil
}
