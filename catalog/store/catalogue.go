package store

import (
	"context"
	"errors"
	"time"

	"lowsone/catalog"
)

var errUnbuilt = errors.New("store: not built yet")

// Catalogue is the live generation of a catalogue, open for reading. Several
// goroutines and several processes may read at once; an import that is
// committed meanwhile does not change what an open Catalogue answers.
type Catalogue struct{}

// Info says what a catalogue holds.
type Info struct {
	Dir        string
	Generation int
	Rows       int
	Sources    []SourceInfo            // by name
	Missing    [catalog.NumFields]int // rows in which the field is unknown
}

// SourceInfo says what came from one source.
type SourceInfo struct {
	Name     string
	Path     string // of the imported file; empty where it had none
	Rows     int
	Imported time.Time
}

// Hit is a row found by words. Higher scores are better; equal scores stand in
// row order.
type Hit struct {
	Row   int
	Score float64
}

// Open opens the live generation of the catalogue in dir. Errors: ErrNone,
// *DamagedError, *NewerError.
func Open(ctx context.Context, dir string) (*Catalogue, error) { return nil, errUnbuilt }

// Close ends reading.
func (c *Catalogue) Close() error { return errUnbuilt }

// Info says what the catalogue holds.
func (c *Catalogue) Info() Info { return Info{} }

// Columns loads the columns of the given fields, all where none is given.
func (c *Catalogue) Columns(ctx context.Context, fields ...catalog.FieldID) (*catalog.Columns, error) {
	return nil, errUnbuilt
}

// Fan reads the record of one row.
func (c *Catalogue) Fan(row int) (*catalog.Fan, error) { return nil, errUnbuilt }

// Fans reads the records of rows, in the order given.
func (c *Catalogue) Fans(ctx context.Context, rows []int) ([]*catalog.Fan, error) {
	return nil, errUnbuilt
}

// Find lists the rows of a part, blanks and case folded, rising. An empty
// maker stands for any.
func (c *Catalogue) Find(maker, part string) ([]int, error) { return nil, errUnbuilt }

// Lookup lists the rows that name stands for: PART, else MAKER/PART. Parts and
// makers may themselves hold slashes.
func (c *Catalogue) Lookup(name string) ([]int, error) { return nil, errUnbuilt }

// Search finds rows by words, best first; a limit of 0 or less gives all hits.
func (c *Catalogue) Search(ctx context.Context, text string, limit int) ([]Hit, error) {
	return nil, errUnbuilt
}
