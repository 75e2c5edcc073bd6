package store

import (
	"context"
	"errors"
	"fmt"
	"time"
)

// NoSourceError says that a catalogue has no source of a name.
type NoSourceError struct {
	Name    string
	Sources []string // those it has
}

// Error names the source.
func (e *NoSourceError) Error() string { return fmt.Sprintf("no source %q in the catalogue", e.Name) }

// Forget removes the rows of a source, in a new generation; those of other
// sources stay. Errors: *NoSourceError, those of Open and of Begin.
func Forget(ctx context.Context, dir, source string, now time.Time, progress func(Progress)) (Result, error) {
	c, err := Open(ctx, dir)
	if err != nil {
		return Result{}, err
	}
	_, _, err = c.Span(source)
	if err = errors.Join(err, c.Close()); err != nil {
		return Result{}, err
	}
	b, err := Begin(ctx, dir, Import{Source: source, Time: now, Progress: progress})
	if err != nil {
		return Result{}, err
	}
	return b.Commit(ctx)
}
