package intake

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"time"

	"lowsone/catalog/store"
)

// ForgetOptions says how to forget a source.
type ForgetOptions struct {
	Time     time.Time // when
	DryRun   bool      // say what would be dropped, write nothing
	Progress func(store.Progress)
}

// Forgotten says what was forgotten.
type Forgotten struct {
	Source string
	Fans   int // of the source, dropped
	Left   int // fans of the catalogue afterwards
	DryRun bool
	Lost   []store.Loss // rows of other sources that could no longer be read and are left out
}

// Forget drops the fans of a source from the catalogue in the folder dir, and the
// list of its rejected rows. Errors are those of store.Forget.
func Forget(ctx context.Context, dir, source string, o ForgetOptions) (Forgotten, error) {
	f := Forgotten{Source: source, DryRun: o.DryRun}
	c, err := store.Open(ctx, dir)
	if err != nil {
		return f, err
	}
	begin, end, err := c.Span(source)
	f.Fans, f.Left = end-begin, c.Rows()-(end-begin)
	if err = errors.Join(err, c.Close()); err != nil || o.DryRun {
		return f, err
	}
	result, err := store.Forget(ctx, dir, source, o.Time, o.Progress)
	if err != nil {
		return f, orGone(dir, err)
	}
	f.Fans, f.Left, f.Lost = result.Removed, result.Rows, result.Lost
	if err := os.Remove(rejectsPath(dir, source)); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return f, fmt.Errorf("removing the rejected rows of the last import: %w", err)
	}
	return f, nil
}
