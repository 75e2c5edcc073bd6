package store

import (
	"context"
	"strings"
	"sync"

	"lowsone/catalog"
	"lowsone/catalog/parallel"
)

// Counts compares the rows added with the rows the source had. Each row added
// is exactly one of New, Changed, Unchanged and Overtaken.
type Counts struct {
	New       int // no row had this key
	Changed   int // the row of this key had other values
	Unchanged int // the row of this key had the same values, wherever it stood
	Overtaken int // a later row added has the same key
	Removed   int // rows of the source whose key was not added again
}

// Standing is what a comparison comes to.
type Standing struct {
	Counts
	// Notes counts the notes of the rows that stand: of all but those overtaken.
	Notes [256]int
	// Before is the source as the catalogue has it; without a name where it has not.
	Before SourceInfo
}

// Ledger compares the rows of an import with those the catalogue holds of the
// same source. It writes nothing. A row is unchanged where its values, their
// origins and its unrecognised columns are; its line and the remarks of its
// reading do not count.
type Ledger struct {
	schema  schema
	live    map[keyHash]fingerprint
	added   map[keyHash]entered
	rows    uint32
	stands  Standing
	scratch []byte
}

// entered is what the ledger knows of the last row added with a key. There is
// one for every row, so it is kept small.
type entered struct {
	row  uint32 // counted as rows are added
	as   enteredAs
	note uint8
}

type enteredAs uint8

const (
	asNew enteredAs = iota
	asChanged
	asUnchanged
)

// ledgerRow is what the ledger takes of a row.
type ledgerRow struct {
	key  keyHash
	as   enteredAs
	note uint8
}

func (c *Counts) of(as enteredAs) *int {
	return [...]*int{&c.New, &c.Changed, &c.Unchanged}[as]
}

// NewLedger begins a comparison with the rows of source in live, which may be
// nil where there is no catalogue yet. Rows that can no longer be read count
// as not there.
func NewLedger(ctx context.Context, live *Catalogue, source string) (*Ledger, error) {
	l := &Ledger{schema: currentSchema(), added: map[keyHash]entered{}}
	if live == nil {
		return l, nil
	}
	source = sourceName(source)
	if s := live.manifest.source(source); s != nil {
		l.stands.Before = s.info()
	}
	first, last := live.manifest.span(source)
	l.live = make(map[keyHash]fingerprint, last-first)
	begin, end := live.manifest.chunkSpan(source)
	return l, l.readLive(ctx, live, begin, end)
}

// readLive enters the rows of chunks, on all processors.
func (l *Ledger) readLive(ctx context.Context, live *Catalogue, begin, end int) error {
	var mu sync.Mutex
	return parallel.Do(end-begin, func(n int) error {
		var scratch []byte
		return live.blocks(ctx, begin+n, func(fans []*catalog.Fan, _ int, damage error) error {
			prints := make([]fingerprint, len(fans))
			keys := make([]keyHash, len(fans))
			for i, f := range fans {
				keys[i] = keyHashOf(f)
				prints[i], scratch = l.schema.fingerprintOf(f, scratch)
			}
			mu.Lock()
			defer mu.Unlock()
			for i, key := range keys {
				l.live[key] = prints[i]
			}
			return unlessDamage(damage)
		})
	})
}

// sourceName gives the name under which a source is kept: what JSON can hold.
func sourceName(name string) string { return strings.ToValidUTF8(name, "\uFFFD") }

// Add notes a row.
func (l *Ledger) Add(r Row) error {
	row := ledgerRow{key: r.key, note: r.note}
	l.scratch = l.compare(r.fan, &row, l.scratch)
	l.enter(&row)
	return nil
}

// prepare compares rows. It may be called by several goroutines at once.
func (l *Ledger) prepare(fans []*catalog.Fan, rows []ledgerRow) {
	var scratch []byte
	for i, f := range fans {
		scratch = l.compare(f, &rows[i], scratch)
	}
}

// compare holds a row against the one of its key in the live catalogue.
func (l *Ledger) compare(f *catalog.Fan, row *ledgerRow, scratch []byte) []byte {
	was, ok := l.live[row.key]
	if !ok {
		return scratch
	}
	row.as = asChanged
	is, scratch := l.schema.fingerprintOf(f, scratch)
	if is == was {
		row.as = asUnchanged
	}
	return scratch
}

// enter notes a row and gives the number, among those added, of the row it
// overtakes.
func (l *Ledger) enter(r *ledgerRow) (overtaken int, overtakes bool) {
	before, again := l.added[r.key]
	if again {
		*l.stands.of(before.as)--
		l.stands.Notes[before.note]--
		l.stands.Overtaken++
	}
	*l.stands.of(r.as)++
	l.stands.Notes[r.note]++
	l.added[r.key] = entered{l.rows, r.as, r.note}
	l.rows++
	return int(before.row), again
}

// forget drops the rows noted. Nothing can be compared any more.
func (l *Ledger) forget() { l.live, l.added = nil, nil }

// Settle gives the comparison of the rows added.
func (l *Ledger) Settle() Standing {
	s := l.stands
	s.Removed = len(l.live) - s.Changed - s.Unchanged
	return s
}
