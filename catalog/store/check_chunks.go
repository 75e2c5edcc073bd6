package store

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"
	"sync"

	"lowsone/catalog"
	"lowsone/catalog/index"
	"lowsone/catalog/parallel"
)

// content checks the blob file of a generation that opens, and its words.
func (c *checker) content(ctx context.Context) error {
	t := &contentCheck{checker: c, ctx: ctx, texts: make([]uint64, c.open.manifest.Texts+1), seen: make([]bool, c.open.manifest.Texts+1), missing: make([]int, len(c.open.schema))}
	if err := parallel.Do(c.open.chunks.groups(), t.group); err != nil {
		return err
	}
	t.conclude()
	t.parts()
	return t.words()
}

// contentCheck is the check of one generation. Its groups of chunks are checked
// on all processors.
type contentCheck struct {
	*checker
	ctx context.Context

	mu      sync.Mutex
	done    int // rows
	damage  []rowDamage
	missing []int    // by field
	texts   []uint64 // by number: what its words should be, see index.TextSum
	seen    []bool   // by number: some row has the text
	entries uint64   // sum over what should stand in the table of parts
	halves  bool     // some columns are damaged: counts and parts do not add up
}

// rowDamage is something wrong with some rows.
type rowDamage struct {
	first, rows int
	source      string // whose records they are; empty: columns
	what        string // column, or empty for records
	means       string // of what
	reason      string
	saved       bool // a whole copy of the records is left
}

func (t *contentCheck) note(d rowDamage) {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.damage = append(t.damage, d)
	t.halves = t.halves || d.what != ""
}

// group checks the chunks of a group.
func (t *contentCheck) group(n int) error {
	begin, end := t.open.chunks.group(n)
	pieces, err := t.pieces(n)
	if err != nil {
		return err
	}
	for i := range end - begin {
		of := map[pieceID][]byte{}
		for id, list := range pieces {
			of[id] = list[i]
		}
		if err := t.chunk(begin+i, of); err != nil {
			return err
		}
	}
	return nil
}

// pieces reads the pieces of a group. Those that cannot be read are noted and
// left out.
func (t *contentCheck) pieces(group int) (map[pieceID][][]byte, error) {
	pieces := map[pieceID][][]byte{}
	for _, id := range append(pieceIDs(len(t.open.schema)), pieceTexts) {
		err := t.open.blobs.read(func(get getter) error {
			list, err := t.open.groupPieces(get, group, id)
			for _, piece := range list {
				pieces[id] = append(pieces[id], bytes.Clone(piece))
			}
			return err
		})
		var damage *DamagedError
		if errors.As(err, &damage) {
			begin, end := t.open.chunks.group(group)
			first := t.open.chunks.first(begin)
			t.note(rowDamage{first: first, rows: t.open.chunks.first(end) - first, what: t.open.pieceName(id), means: t.open.pieceMeans(id), reason: lastOf(damage.Reason)})
		} else if err != nil {
			return nil, err
		}
	}
	return pieces, nil
}

// lastOf gives a reason without the place it begins with.
func lastOf(reason string) string {
	if i := bytes.LastIndex([]byte(reason), []byte(": ")); i >= 0 {
		return reason[i+2:]
	}
	return reason
}

// pieceName says to people what a piece is.
func (c *Catalogue) pieceName(id pieceID) string {
	switch {
	case int(id) < len(c.schema):
		return "column " + c.schema[id].Name
	case id == pieceMissing:
		return "counts of what is missing"
	}
	return "columns of words"
}

// pieceMeans says what damage of a piece means.
func (c *Catalogue) pieceMeans(id pieceID) string {
	switch {
	case int(id) < len(c.schema):
		return meansColumn
	case id == pieceMissing:
		return meansCounts
	}
	return meansWords
}

// chunk checks one chunk: its records, that its columns are what the records
// give, and notes what words and parts should come of it.
func (t *contentCheck) chunk(n int, pieces map[pieceID][]byte) error {
	rows := t.open.chunks.rows(n)
	fans, err := t.records(n)
	if err != nil {
		return err
	}
	if len(fans) == rows {
		t.columns(n, fans, pieces)
	}
	if err := t.expect(&chunk{rows: rows, pieces: pieces}, t.open.chunks.first(n)); err != nil {
		t.note(rowDamage{first: t.open.chunks.first(n), rows: rows, what: t.open.pieceName(pieceTexts), means: meansWords, reason: err.Error()})
	}
	t.mu.Lock()
	defer t.mu.Unlock()
	t.done += rows
	t.tell(t.done)
	return nil
}

// records reads the records of a chunk, rescued ones too.
func (t *contentCheck) records(n int) (fans []*catalog.Fan, err error) {
	rows := t.open.chunks.rows(n)
	for i := range blocksOf(rows) {
		if err := t.ctx.Err(); err != nil {
			return nil, err
		}
		block, err := t.open.readBlock(n, i, -1)
		var damage *DamagedError
		if errors.As(err, &damage) {
			block = t.open.rescue.block(t.ctx, n, i)
			first := t.open.chunks.first(n) + i*blockRows
			t.note(rowDamage{first: first, rows: min(blockRows, rows-i*blockRows), source: t.open.sourceOf(first), reason: lastOf(damage.Reason), saved: block != nil})
		} else if err != nil {
			return nil, err
		}
		fans = append(fans, block...)
	}
	return fans, nil
}

// columns holds the columns of a chunk against its records. An encoder gives the
// same bytes for the same fans.
func (t *contentCheck) columns(n int, fans []*catalog.Fan, pieces map[pieceID][]byte) {
	want := newEncoder(t.open.schema).encode(fans)
	for _, id := range pieceIDs(len(t.open.schema)) {
		have, ok := pieces[id]
		if ok && !bytes.Equal(have, want.pieces[id]) {
			t.note(rowDamage{first: t.open.chunks.first(n), rows: len(fans), what: t.open.pieceName(id), means: t.open.pieceMeans(id), reason: "it does not agree with the records"})
		}
	}
}

// expect notes which words and parts the rows of a chunk should be found by.
func (t *contentCheck) expect(c *chunk, first int) error {
	t.mu.Lock()
	defer t.mu.Unlock()
	missing := cursor{b: c.pieces[pieceMissing]}
	for i := range t.missing {
		t.missing[i] += int(missing.uint())
	}
	if c.pieces[pieceMissing] != nil && missing.done() != nil {
		return errBytes
	}
	if err := t.expectParts(c, first); err != nil {
		return err
	}
	return t.expectTexts(c)
}

// expectTexts notes under which number each text of a chunk should stand, with
// its words.
func (t *contentCheck) expectTexts(c *chunk) error {
	numbers, ok := c.pieces[pieceTexts]
	for _, id := range append(t.open.schema.slots(), pieceExtras) {
		_, there := c.pieces[id]
		ok = ok && there
	}
	if !ok {
		return nil // has been noted
	}
	left := cursor{b: numbers}
	err := c.eachSlot(t.open.schema.slots(), func(slot cursor) error {
		p := slot.coded(c.rows)
		for range p.count {
			text := slot.bytes(slot.count(1))
			n := left.uint()
			if n >= uint64(len(t.texts)) || (n == 0) != (len(text) == 0) {
				return errTexts
			}
			sum := index.TextSum(string(text))
			if t.seen[n] && t.texts[n] != sum {
				return errTexts
			}
			t.texts[n], t.seen[n] = sum, true
		}
		return slot.done()
	})
	return cmp.Or(err, left.done())
}

// errTexts says that a text is not the one its number stands for.
var errTexts = errors.New("its texts are not those of the word index")

// conclude names what was found in the blob file, row by row where it can be.
func (t *contentCheck) conclude() {
	slices.SortFunc(t.damage, func(a, b rowDamage) int {
		return cmp.Or(cmp.Compare(a.what, b.what), cmp.Compare(a.first, b.first))
	})
	path := t.open.blobs.path
	for i := 0; i < len(t.damage); {
		d := t.damage[i]
		for i++; i < len(t.damage) && d.goesOn(t.damage[i]); i++ {
			d.rows += t.damage[i].rows
		}
		if d.what != "" {
			t.found(path, fmt.Sprintf("%s, rows %d to %d: %s", d.what, d.first, d.first+d.rows-1, d.reason), d.means+meansRepair)
			continue
		}
		t.lose(d.source, d.rows, !d.saved)
		means := fansOf(d.rows, d.source) + " cannot be read; repair brings them back from a copy"
		if !d.saved {
			means = fansOf(d.rows, d.source) + " are lost, but for another import of that source"
		}
		t.found(path, fmt.Sprintf("rows %d to %d: %s", d.first, d.first+d.rows-1, d.reason), means)
	}
	if !t.halves && !slices.Equal(t.missing, t.open.manifest.Missing) {
		t.found(path, "the manifest counts other values missing than the columns", "lowsone catalog tells wrong numbers"+meansRepair)
	}
}

// goesOn says whether e is more of d.
func (d rowDamage) goesOn(e rowDamage) bool {
	return e.first == d.first+d.rows && e.source == d.source && e.what == d.what && e.reason == d.reason && e.saved == d.saved
}
