package intake

import (
	"context"
	"errors"
	"strings"
	"time"

	"lowsone/catalog/store"
)

// sink is where fans go: into a new generation, or, in a dry run, only into
// the comparison with the live one.
type sink interface {
	Add(store.Row) error
	Settle() (store.Standing, error)
}

// add takes a fan to the sink, which it opens for the first one: an import that
// brings none does not touch the catalogue's folder.
func (r *run) add(ctx context.Context, row store.Row) error {
	if r.sink == nil {
		if err := r.begin(ctx); err != nil {
			return err
		}
	}
	return r.sink.Add(row)
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
		Source: r.account.Source, Path: r.in.path, Sheet: r.account.Sheet, Options: strings.Join(r.o.overrides(), "\n"),
		Time: when, Progress: r.writingProgress,
	})
	if err == nil {
		r.sink = r.builder
		sweep(r.o.Catalog)
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

// settle compares the fans with those of the live generation.
func (r *run) settle() (store.Standing, error) {
	if r.sink == nil {
		return store.Standing{}, nil
	}
	return r.sink.Settle()
}

// comparison is a sink that writes nothing.
type comparison struct{ *store.Ledger }

// Settle says what stands.
func (c comparison) Settle() (store.Standing, error) { return c.Ledger.Settle(), nil }

// openLedger compares with the live generation, if there is one that can be
// read.
func openLedger(ctx context.Context, dir, source string) (sink, error) {
	live, err := store.Open(ctx, dir)
	var damaged *store.DamagedError
	var older *store.OlderError
	if errors.Is(err, store.ErrNone) || errors.As(err, &damaged) || errors.As(err, &older) {
		live, err = nil, nil
	}
	if err != nil {
		return nil, err
	}
	l, err := store.NewLedger(ctx, live, source)
	if live != nil {
		err = errors.Join(err, live.Close())
	}
	return comparison{l}, err
}
