package intake

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
)

// A folder that went away is told as such, also where the next file written has
// made it anew; another failure stays what it is.
func TestOrGone(t *testing.T) {
	dir := t.TempDir()
	missing := func(path string) error { return &fs.PathError{Op: "remove", Path: path, Err: fs.ErrNotExist} }
	own := filepath.Join(dir, "gen-000002", "words")
	for _, r := range []struct {
		name string
		dir  string
		err  error
		gone bool
	}{
		{"no failure", dir, nil, false},
		{"no folder", filepath.Join(dir, "none"), errors.New("disk full"), true},
		{"a file of its own", dir, fmt.Errorf("write catalogue: %w", missing(own)), true},
		{"joined", dir, errors.Join(errors.New("write word index: x"), missing(own)), true},
		{"a link of its own", dir, &os.LinkError{Op: "rename", Old: own, New: own + "2", Err: fs.ErrNotExist}, true},
		{"a file elsewhere", dir, missing("list.csv"), false},
		{"another failure", dir, errors.New("disk full"), false},
	} {
		var gone *GoneError
		if got := errors.As(orGone(r.dir, r.err), &gone); got != r.gone {
			t.Errorf("%s: gone %v, want %v", r.name, got, r.gone)
		}
	}
}
