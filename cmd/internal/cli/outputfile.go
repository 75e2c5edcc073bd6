package cli

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// outputFile is a file that a command is to write whole.
type outputFile struct {
	path   string
	what   string                 // it is, such as "order list"
	one    string                 // with its article
	stdout string                 // what writes to standard output instead
	ours   func(r io.Reader) bool // says whether it is one already
}

// check refuses, before any work, a file that may not be replaced: anything there
// that is not of this kind, so that no parts list is ever lost.
func (o *outputFile) check() error {
	info, err := os.Lstat(o.path) // a link would be replaced, not what it leads to
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return checkFolder(filepath.Dir(o.path))
	case err != nil:
		return fmt.Errorf("write %s: %w", o.what, err)
	case info.IsDir():
		return failf("name a file in it", "%q is a folder", o.path)
	case info.Mode().Type() == fs.ModeSymlink:
		return failf("name the file it leads to; "+o.stdout+" writes to standard output", "%q is a link", o.path)
	case !info.Mode().IsRegular():
		return failf(o.stdout+" writes to standard output", "%q is no file", o.path)
	case info.Size() == 0:
		return nil
	}
	file, err := os.Open(o.path)
	if err != nil {
		return fmt.Errorf("write %s: %w", o.what, err)
	}
	defer file.Close()
	if !o.ours(file) {
		return failf("name another file; only "+o.one+" is replaced", "%q is there already and is no %s", o.path, o.what)
	}
	return nil
}

// checkFolder refuses a folder that is not there.
func checkFolder(dir string) error {
	if _, err := os.Stat(dir); errors.Is(err, fs.ErrNotExist) {
		return failf("make it first", "there is no folder %q", dir)
	}
	return nil
}
