package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"time"

	"github.com/gofrs/flock"
)

// importLock is held by the one import that runs. It goes with its process;
// what the file says is only for people.
type importLock struct{ lock *flock.Flock }

// takeLock takes the import lock of dir or says who holds it: a *BusyError.
func takeLock(dir string, now time.Time) (*importLock, error) {
	path := filepath.Join(dir, lockFile)
	lock := flock.New(path, flock.SetPermissions(0o644))
	ok, err := lock.TryLock()
	if err != nil {
		return nil, lockError(dir, err)
	}
	if !ok {
		return nil, busy(dir, path)
	}
	text := fmt.Sprintf("%d %s\n", os.Getpid(), now.UTC().Format(time.RFC3339))
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		_ = lock.Unlock()
		return nil, lockError(dir, err)
	}
	return &importLock{lock}, nil
}

// lockError tells a catalogue that may not be written to from other trouble.
func lockError(dir string, err error) error {
	if errors.Is(err, fs.ErrPermission) || errors.Is(err, syscall.EROFS) {
		return &UnwritableError{dir, err}
	}
	return fmt.Errorf("lock catalogue: %w", err)
}

func busy(dir, path string) error {
	e := &BusyError{Dir: dir}
	b, err := os.ReadFile(path)
	if err != nil {
		return e
	}
	var pid int
	var since string
	if n, _ := fmt.Sscanf(string(b), "%d %s", &pid, &since); n == 2 {
		if at, err := time.Parse(time.RFC3339, since); err == nil {
			e.PID, e.Since = pid, at
		}
	}
	return e
}

// release lets the next import run. The file stays: removing it would let two
// imports hold two files of one name.
func (l *importLock) release() error { return l.lock.Unlock() }
