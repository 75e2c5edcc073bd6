package store

import (
	"errors"
	"io/fs"
	"strings"
	"syscall"
	"testing"
)

// A catalogue that may not be written to is said to be one, with the way on; a full
// disk is something else.
func TestUnwritable(t *testing.T) {
	for _, r := range []struct {
		err  error
		want bool
	}{
		{&fs.PathError{Op: "open", Path: "c/LOCK", Err: syscall.EACCES}, true},
		{&fs.PathError{Op: "open", Path: "c/LOCK", Err: syscall.EROFS}, true},
		{&fs.PathError{Op: "write", Path: "c/LOCK", Err: syscall.ENOSPC}, false},
	} {
		err := lockError("c", r.err)
		var unwritable *UnwritableError
		if got := errors.As(err, &unwritable); got != r.want || !errors.Is(err, r.err) || !strings.Contains(err.Error(), "LOCK") {
			t.Errorf("lockError(%v) = %v", r.err, err)
		}
		if unwritable != nil && unwritable.Hint() == "" {
			t.Error("it names no mend")
		}
	}
}
