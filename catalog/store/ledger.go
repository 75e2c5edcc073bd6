package store

import (
	"context"
	"strings"

	"lowsone/catalog"
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

// Ledger compares the rows of an import with those the catalogue holds of the
// same source. It writes nothing. A row is unchanged where its values, their
// origins and its unrecognised columns are; its line and the remarks of its
// reading do not count.
type Ledger struct {
	schema schema
	live   map[keyHash]fingerprint
	added  map[keyHash]standing
	rows   uint32
	counts Counts
}

// standing is what the ledger knows of the last row added with a key. There is
// one for every row, so it is kept small.
type standing struct {
	row uint32 // counted as rows are added
	as  standingKind
}

type standingKind uint8

const (
	asNew standingKind = iota
	asChanged
	asUnchanged
)

func (c *Counts) of(kind standingKind) *int {
	return [...]*int{&c.New, &c.Changed, &c.Unchanged}[kind]
}

// NewLedger begins a comparison with the rows of source in live, which may be
// nil where there is no catalogue yet. Rows that can no longer be read count
// as not there.
func NewLedger(ctx context.Context, live *Catalogue, source string) (*Ledger, error) {
	l := &Ledger{schema: currentSchema(), added: map[keyHash]standing{}}
	if live == nil {
		return l, nil
	}
	begin, end := live.manifest.span(sourceName(source))
	l.live = make(map[keyHash]fingerprint, end-begin)
	return l, live.records(ctx, begin, end, func(row int, record []byte, damage error) error {
		if damage != nil {
			return unlessDamage(damage)
		}
		f, err := live.decode(row, record)
		if err != nil {
			return unlessDamage(err)
		}
		l.live[keyHashOf(f)] = fingerprintOf(record)
		return nil
	})
}

// sourceName gives the name under which a source is kept: what JSON can hold.
func sourceName(name string) string { return strings.ToValidUTF8(name, "\uFFFD") }

// Add notes a row. Errors: *RowError where no catalogue can hold it; it then
// counts as not added.
func (l *Ledger) Add(f *catalog.Fan) error {
	record, err := l.schema.encode(f)
	if err == nil {
		l.add(keyHashOf(f), record)
	}
	return err
}

// add notes a record and gives the number, among those added, of the row it
// overtakes.
func (l *Ledger) add(key keyHash, record []byte) (overtaken int, overtakes bool) {
	before, again := l.added[key]
	if again {
		*l.counts.of(before.as)--
		l.counts.Overtaken++
	}
	s := standing{row: l.rows}
	if was, ok := l.live[key]; ok {
		s.as = asChanged
		if was == fingerprintOf(record) {
			s.as = asUnchanged
		}
	}
	*l.counts.of(s.as)++
	l.added[key] = s
	l.rows++
	return int(before.row), again
}

// Counts gives the comparison so far.
func (l *Ledger) Counts() Counts {
	c := l.counts
	c.Removed = len(l.live) - c.Changed - c.Unchanged
	return c
}
