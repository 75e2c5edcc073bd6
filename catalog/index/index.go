package index

import (
	"context"
	"errors"
	"fmt"
	"runtime"
	"sync"
)

// ErrDamaged says that an index cannot be read. The wrapping error says why.
var ErrDamaged = errors.New("word index is damaged")

// Index is an index open for reading. It is safe for several goroutines.
type Index struct {
	shards []*shard
	texts  int
	rows   Rows
}

// Hit is a row that was found.
type Hit struct {
	Row   int
	Match Match
}

// Open opens the index in dir, which must hold the given number of texts, for
// the rows that have them. Errors wrap ErrDamaged.
func Open(dir string, texts int, rows Rows) (*Index, error) {
	shards, err := openShards(dir)
	if err != nil {
		return nil, damaged(err)
	}
	x := &Index{shards: shards, texts: texts, rows: rows}
	documents := uint64(0)
	for _, s := range shards {
		documents += s.documents
	}
	if documents != uint64(texts) {
		_ = x.Close()
		return nil, damaged(fmt.Errorf("it holds %d texts, not %d", documents, texts))
	}
	return x, nil
}

func damaged(err error) error { return fmt.Errorf("%w: %w", ErrDamaged, err) }

// Close ends reading.
func (x *Index) Close() error {
	shards := x.shards
	x.shards = nil
	return closeShards(shards)
}

// Search finds the rows that hold every word of text, best matches first,
// equal ones by row number. A text without letters or digits finds nothing.
// Errors: *TextError; the context's; those of the rows; ErrDamaged.
func (x *Index) Search(ctx context.Context, text string) ([]Hit, error) {
	q, err := parse(text)
	if err != nil || len(q.words) == 0 {
		return nil, err
	}
	t := &texts{shards: x.shards, ctx: ctx, size: x.texts + 1, found: map[wordQuestion]rowSet{}}
	hits, err := x.run(t, func(l *lookup) found { return l.strict(q) })
	if err != nil || len(hits) > 0 {
		return hits, err
	}
	return x.run(t, func(l *lookup) found { return l.near(q) })
}

// stretch is what one goroutine searches: some groups one behind the other.
type stretch struct {
	chunks []chunkFound
	err    error
}

// chunkFound is what was found in a chunk: each row by its best match.
type chunkFound struct {
	first int // row
	found found
}

// run searches all groups, on all processors, and puts the hits in order.
func (x *Index) run(t *texts, search func(*lookup) found) ([]Hit, error) {
	groups := x.rows.Groups()
	stretches := make([]stretch, min(runtime.GOMAXPROCS(0), groups))
	var wg sync.WaitGroup
	for i := range stretches {
		s := &stretches[i]
		begin, end := i*groups/len(stretches), (i+1)*groups/len(stretches)
		wg.Go(func() {
			for n := begin; n < end && s.err == nil; n++ {
				s.err = x.rows.Group(n, func(c Chunk) error { return s.search(t, c, search) })
			}
		})
	}
	wg.Wait()
	var chunks []chunkFound
	for _, s := range stretches {
		if s.err != nil {
			return nil, s.err
		}
		chunks = append(chunks, s.chunks...)
	}
	return hitsOf(chunks), nil
}

// hitsOf lists what was found, better matches first.
func hitsOf(chunks []chunkFound) []Hit {
	n := 0
	for _, c := range chunks {
		for _, set := range c.found {
			n += set.len()
		}
	}
	if n == 0 {
		return nil
	}
	hits := make([]Hit, 0, n)
	for match := Exact; match >= NearWords; match-- {
		for _, c := range chunks {
			c.found[match].each(func(row int) { hits = append(hits, Hit{c.first + row, match}) })
		}
	}
	return hits
}

// search searches a chunk.
func (s *stretch) search(t *texts, c Chunk, search func(*lookup) found) error {
	if err := t.ctx.Err(); err != nil {
		return err
	}
	l := newLookup(t, c)
	f := search(l)
	if l.err == nil {
		s.chunks = append(s.chunks, chunkFound{c.First, f.best(l.keys.rows)})
		return nil
	}
	if err := t.ctx.Err(); err != nil {
		return err
	}
	return damaged(l.err)
}

// best keeps of each row the best match alone.
func (f found) best(rows int) found {
	seen := newRowSet(rows)
	for match := Exact; match >= NearWords; match-- {
		f[match].without(seen)
		seen.or(f[match])
	}
	return f
}
