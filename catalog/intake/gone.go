package intake

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"lowsone/catalog/store"
)

// GoneError says that the catalogue's folder went away while it was written to.
type GoneError struct{ Dir string }

// Error names the folder.
func (e *GoneError) Error() string {
	return fmt.Sprintf("the folder of the catalogue, %q, is gone: it was moved or removed meanwhile", e.Dir)
}

// Hint names the mend.
func (e *GoneError) Hint() string {
	return "bring it back and import again; importing without it begins a new catalogue"
}

// orGone gives a *GoneError where that is why writing to a catalogue failed: all
// else that is said then only follows from it. The folder may be there again, made
// by the next file that was written; then a file that was written before is not.
func orGone(dir string, err error) error {
	if err == nil {
		return nil
	}
	if _, stat := os.Stat(dir); errors.Is(stat, fs.ErrNotExist) || missesOwn(dir, err) {
		return &GoneError{dir}
	}
	return err
}

// missesOwn says whether a file in the folder dir was not found, and that is no
// damage of the catalogue that was read.
func missesOwn(dir string, err error) bool {
	var damaged *store.DamagedError
	if errors.As(err, &damaged) {
		return false
	}
	within := func(path string) bool { return strings.HasPrefix(path, filepath.Clean(dir)+string(filepath.Separator)) }
	var path *fs.PathError
	var link *os.LinkError
	return errors.As(err, &path) && errors.Is(path, fs.ErrNotExist) && within(path.Path) ||
		errors.As(err, &link) && errors.Is(link, fs.ErrNotExist) && within(link.Old)
}
