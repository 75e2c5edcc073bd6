package intake

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
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
// else that is said then only follows from it.
func orGone(dir string, err error) error {
	if err == nil {
		return nil
	}
	if _, stat := os.Stat(dir); errors.Is(stat, fs.ErrNotExist) {
		return &GoneError{dir}
	}
	return err
}
