package store

import (
	"context"
	"time"

	"lowsone/catalog"
)

// Import says what is being imported. The rows of its source are replaced by
// the rows added; the rows of all other sources stay.
type Import struct {
	Source   string // name of the source; never empty
	Path     string // of the file, for people; may be empty
	Time     time.Time
	Progress func(Progress) // may be nil
}

// Progress says how far Commit is.
type Progress struct{ Done, Total int } // rows

// Counts compares the rows added with the rows the source had. Each row added
// is exactly one of New, Changed, Unchanged and Overtaken.
type Counts struct {
	New       int // no row had this key
	Changed   int // the row of this key had other values
	Unchanged int // the row of this key had the same values, wherever it stood
	Overtaken int // a later row added has the same key
	Removed   int // rows of the source whose key was not added again
}

// Ledger compares the rows of an import with those the catalogue holds of the
// same source. It writes nothing.
type Ledger struct{}

// NewLedger begins a comparison with the rows of source in live, which may be
// nil where there is no catalogue yet.
func NewLedger(ctx context.Context, live *Catalogue, source string) (*Ledger, error) {
	return nil, errUnbuilt
}

// Add notes a row.
func (l *Ledger) Add(f *catalog.Fan) {}

// Counts gives the comparison so far.
func (l *Ledger) Counts() Counts { return Counts{} }

// Builder builds the next generation. It is for one goroutine.
type Builder struct{}

// Result says what a Commit did.
type Result struct {
	Counts
	Generation int
	Rows       int    // of the whole catalogue
	Lost       []Loss // kept rows that could no longer be read and are left out
}

// Loss counts rows of a source that damage has taken.
type Loss struct {
	Source string
	Rows   int
}

// Begin takes the import lock of dir, makes the folder where it is not there,
// sweeps what killed imports left, and begins a new generation. Errors:
// *BusyError, *NewerError. The caller ends with Commit or Abort.
func Begin(ctx context.Context, dir string, im Import) (*Builder, error) { return nil, errUnbuilt }

// Add takes a row of the source; of rows with one key the last wins. The
// fan's Source.Name is set to the import's.
func (b *Builder) Add(f *catalog.Fan) error { return errUnbuilt }

// Counts gives the comparison with the replaced rows so far.
func (b *Builder) Counts() Counts { return Counts{} }

// Commit writes the new generation and makes it the live one. On an error the
// old one stays live and nothing is left behind.
func (b *Builder) Commit(ctx context.Context) (Result, error) { return Result{}, errUnbuilt }

// Abort drops what was built; the catalogue stays as it was. After Commit it
// does nothing.
func (b *Builder) Abort() error { return errUnbuilt }
