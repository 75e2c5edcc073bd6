package intake

import (
	"context"
	"errors"
	"time"

	"lowsone/catalog"
	"lowsone/catalog/store"
)

// sink is where fans go: into a new generation, or, in a dry run, only into
// the comparison with the live one.
type sink interface {
	Add(*catalog.Fan) error
	Counts() store.Counts
}

// openSink begins a new generation, or the comparison of a dry run. The caller
// ends with the returned function, which leaves the catalogue as it was unless
// the builder was committed.
func openSink(ctx context.Context, o *Options, source, path string, progress func(store.Progress)) (s sink, b *store.Builder, end func() error, err error) {
	if o.DryRun {
		s, err = openLedger(ctx, o.Catalog, source)
		return s, nil, func() error { return nil }, err
	}
	when := o.Time
	if when.IsZero() {
		when = time.Now()
	}
	b, err = store.Begin(ctx, o.Catalog, store.Import{Source: source, Path: path, Time: when, Progress: progress})
	if err != nil {
		return nil, nil, nil, err
	}
	return b, b, b.Abort, nil
}

// openLedger compares with the live generation, if there is one that can be
// read.
func openLedger(ctx context.Context, dir, source string) (sink, error) {
	live, err := store.Open(ctx, dir)
	var damaged *store.DamagedError
	if errors.Is(err, store.ErrNone) || errors.As(err, &damaged) {
		return store.NewLedger(ctx, nil, source)
	}
	if err != nil {
		return nil, err
	}
	l, err := store.NewLedger(ctx, live, source)
	return l, errors.Join(err, live.Close())
}
