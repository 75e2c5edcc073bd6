package index

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"sync"
)

// ErrDamaged says that an index cannot be read. The wrapping error says why.
var ErrDamaged = errors.New("word index is damaged")

// Index is an index open for reading. It is safe for several goroutines.
type Index struct{ shards []*shard }

// Hit is a row that was found.
type Hit struct {
	Row   int
	Match Match
}

// Open opens the index in dir, which must hold the given number of rows.
// Errors wrap ErrDamaged.
func Open(dir string, rows int) (*Index, error) {
	folders, err := os.ReadDir(dir)
	if err != nil {
		return nil, damaged(err)
	}
	x := &Index{}
	documents := uint64(0)
	for _, folder := range folders {
		s, err := openShard(filepath.Join(dir, folder.Name()))
		if err != nil {
			_ = x.Close()
			return nil, damaged(fmt.Errorf("shard %s: %w", folder.Name(), err))
		}
		x.shards = append(x.shards, s)
		documents += s.documents
	}
	if documents != uint64(rows) {
		_ = x.Close()
		return nil, damaged(fmt.Errorf("it holds %d rows, not %d", documents, rows))
	}
	return x, nil
}

func damaged(err error) error { return fmt.Errorf("%w: %w", ErrDamaged, err) }

// Close ends reading.
func (x *Index) Close() error {
	var errs []error
	for _, s := range x.shards {
		errs = append(errs, s.close())
	}
	x.shards = nil
	return errors.Join(errs...)
}

// Search finds the rows that hold every word of text, best matches first,
// equal ones by row number. A text without letters or digits finds nothing.
// Errors: *TextError; the context's; ErrDamaged.
func (x *Index) Search(ctx context.Context, text string) ([]Hit, error) {
	q, err := parse(text)
	if err != nil || len(q.words) == 0 {
		return nil, err
	}
	hits, err := x.run(ctx, func(l *lookup) found { return l.strict(q) })
	if err != nil || len(hits) > 0 {
		return hits, err
	}
	return x.run(ctx, func(l *lookup) found { return l.near(q) })
}

// run searches all shards at once and puts their hits in order.
func (x *Index) run(ctx context.Context, search func(*lookup) found) ([]Hit, error) {
	hits := make([][]Hit, len(x.shards))
	errs := make([]error, len(x.shards))
	var wg sync.WaitGroup
	for i, s := range x.shards {
		wg.Go(func() {
			l := &lookup{shard: s, ctx: ctx}
			hits[i] = l.hits(search(l))
			errs[i] = l.err
		})
	}
	wg.Wait()
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	if err := errors.Join(errs...); err != nil {
		return nil, damaged(err)
	}
	all := slices.Concat(hits...)
	slices.SortFunc(all, func(a, b Hit) int {
		return cmp.Or(cmp.Compare(b.Match, a.Match), cmp.Compare(a.Row, b.Row))
	})
	return all, nil
}

// hits gives each row found once, by its best match.
func (l *lookup) hits(f found) []Hit {
	var hits []Hit
	seen := l.set()
	for match := Exact; match >= NearWords && l.err == nil; match-- {
		set := f[match]
		if set == nil {
			continue
		}
		set.without(seen)
		seen.or(set)
		l.err = set.each(func(doc uint64) error {
			row, err := l.row(doc)
			hits = append(hits, Hit{row, match})
			return err
		})
	}
	return hits
}
