package store

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/gofrs/flock"
)

// Readers hold their generation with a shared lock, so that no import removes
// it while they read, whatever they still have to open. A lock goes with its
// process.

// errGone says that a generation was removed, or is about to be.
var errGone = errors.New("generation is gone")

// hold takes the shared lock of the generation in folder. Where locks cannot
// be had, as on some network drives, reading goes on without one.
func hold(folder string) (release func() error, err error) {
	lock := flock.New(filepath.Join(folder, manifestFile), flock.SetFlag(os.O_RDONLY))
	ok, err := lock.TryRLock()
	switch {
	case errors.Is(err, fs.ErrNotExist), err == nil && !ok:
		return nil, errGone
	case err != nil:
		return func() error { return nil }, nil
	}
	return lock.Unlock, nil
}

// sweep removes every generation but the live one, the newest before it
// that serves and is not spoilt, and those that are being read. Where the live one
// is not known (0), it removes those alone that were never finished: one of the
// others may be all that is left of a damaged catalogue. What cannot be removed
// stays for the next sweep.
func sweep(dir string, live int, spoilt ...int) error {
	all, err := generations(dir)
	if err != nil {
		return err
	}
	old, err := newestServing(dir, live)
	for err == nil && old != 0 && slices.Contains(spoilt, old) {
		old, err = newestServing(dir, old)
	}
	if err != nil {
		return err
	}
	for _, n := range all {
		if live == 0 && finished(dir, n) {
			continue
		}
		if n != live && n != old {
			remove(filepath.Join(dir, generationName(n)))
		}
	}
	return sweepTemporary(dir)
}

// remove removes a generation unless it is being read. The manifest goes
// first: half a generation must not look whole.
func remove(folder string) {
	lock := flock.New(filepath.Join(folder, manifestFile), flock.SetFlag(os.O_RDONLY))
	if ok, err := lock.TryLock(); err == nil && !ok {
		return
	}
	defer lock.Unlock()
	_ = os.Remove(filepath.Join(folder, manifestFile))
	_ = os.RemoveAll(folder)
}

// sweepTemporary removes pointer files that were never renamed.
func sweepTemporary(dir string) error {
	entries, err := os.ReadDir(dir)
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), currentFile+temporaryMark) {
			_ = os.Remove(filepath.Join(dir, e.Name()))
		}
	}
	return err
}
