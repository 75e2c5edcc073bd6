package store

import (
	"errors"
	"fmt"
	"time"
)

// ErrNone says that a folder holds no catalogue yet. The error returned is a
// *NoneError, for which errors.Is(err, ErrNone) holds.
var ErrNone = errors.New("no catalogue yet")

// NoneError names the folder that holds no catalogue.
type NoneError struct{ Dir string }

// Error names the folder.
func (e *NoneError) Error() string { return fmt.Sprintf("no catalogue yet in %q", e.Dir) }

// Is makes errors.Is(err, ErrNone) hold.
func (e *NoneError) Is(target error) bool { return target == ErrNone }

// Hint names the mend.
func (e *NoneError) Hint() string { return "make one with: lowsone import FILE" }

// DamagedError says what of a catalogue can no longer be read.
type DamagedError struct {
	Path   string // the file
	Reason string
}

// Error names the file and what is wrong with it.
func (e *DamagedError) Error() string {
	return fmt.Sprintf("catalogue file %q is damaged: %s", e.Path, e.Reason)
}

// Hint names the way back.
func (e *DamagedError) Hint() string {
	return "lowsone catalog repair saves what is whole, lowsone import FILE brings back the rest; lowsone catalog check says what is lost"
}

// NewerError says that a catalogue has a format this program does not know.
type NewerError struct {
	Path   string
	Reason string
}

// Error names the file and the format.
func (e *NewerError) Error() string {
	return fmt.Sprintf("catalogue file %q was made by a newer lowsone: %s", e.Path, e.Reason)
}

// Hint names the mend.
func (e *NewerError) Hint() string { return "use the newer lowsone, or another --catalog DIR" }

// OlderError says that a catalogue has a format this program no longer reads.
type OlderError struct {
	Path   string
	Reason string
}

// Error names the file and the format.
func (e *OlderError) Error() string {
	return fmt.Sprintf("catalogue file %q was made by an older lowsone: %s", e.Path, e.Reason)
}

// Hint names the mend.
func (e *OlderError) Hint() string {
	return "import the parts files again: lowsone import FILE"
}

// BusyError says that another import holds the catalogue.
type BusyError struct {
	Dir   string
	PID   int       // of the running import; 0 where it did not say
	Since time.Time // zero where it did not say
}

// Error names the folder and, where known, who imports since when.
func (e *BusyError) Error() string {
	if e.PID == 0 {
		return fmt.Sprintf("another import into %q is running", e.Dir)
	}
	return fmt.Sprintf("another import into %q is running (process %d, since %s)", e.Dir, e.PID, e.Since.Local().Format(time.DateTime))
}

// Hint names the mend.
func (e *BusyError) Hint() string { return "wait until it is done, then import again" }

// UnwritableError says that a catalogue may be read but not be changed.
type UnwritableError struct {
	Dir string
	Err error
}

// Error names the folder and why.
func (e *UnwritableError) Error() string {
	return fmt.Sprintf("the catalogue in %q may not be changed: %v", e.Dir, e.Err)
}

// Unwrap gives the error of the system.
func (e *UnwritableError) Unwrap() error { return e.Err }

// Hint names the mend.
func (e *UnwritableError) Hint() string {
	return "get the right to write to the folder and its files, or use another with --catalog DIR"
}
