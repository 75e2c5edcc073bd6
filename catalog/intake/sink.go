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

// add takes a fan to the sink, which it opens for the first one: an import that
// brings none does not touch the catalogue's folder.
func (r *run) add(ctx context.Context, fan *catalog.Fan) error {
	if r.sink == nil {
		if err := r.begin(ctx); err != nil {
			return err
		}
	}
	return r.sink.Add(fan)
}

// begin begins a new generation, or the comparison of a dry run.
func (r *run) begin(ctx context.Context) (err error) {
	if r.o.DryRun {
		r.sink, err = openLedger(ctx, r.o.Catalog, r.account.Source)
		return err
	}
	when := r.o.Time
	if when.IsZero() {
		when = time.Now()
	}
	r.builder, err = store.Begin(ctx, r.o.Catalog, store.Import{
		Source: r.account.Source, Path: r.in.path, Time: when, Progress: r.commitProgress,
	})
	if err == nil {
		r.sink = r.builder
	}
	return err
}

// end leaves the catalogue as it was, unless the builder was committed.
func (r *run) end() error {
	if r.builder == nil {
		return nil
	}
	return r.builder.Abort()
}

// counts compares the fans with those of the live generation.
func (r *run) counts() store.Counts {
	if r.sink == nil {
		return store.Counts{}
	}
	return r.sink.Counts()
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
