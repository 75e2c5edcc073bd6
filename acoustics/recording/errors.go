package recording

import (
	"errors"
	"fmt"

	"lowsone/catalog/tabular"
)

// What is refused of a sound file. Each arrives wrapped in an [*Error].
var (
	ErrNotWAV     = errors.New("not a WAV file")
	ErrContainer  = errors.New("a relative of WAV that is not read")
	ErrHeader     = errors.New("header damaged or contradictory")
	ErrCodec      = errors.New("compressed sound")
	ErrSample     = errors.New("kind of sample not read")
	ErrChannels   = errors.New("number of channels not read")
	ErrRate       = errors.New("sampling rate not read")
	ErrNoFormat   = errors.New("no format chunk before the samples")
	ErrNoData     = errors.New("no samples")
	ErrNotANumber = errors.New("a sample is no number")
	ErrTooShort   = errors.New("recording too short")
	ErrSilent     = errors.New("recording silent")
	ErrSpan       = errors.New("span outside the recording")
	ErrRead       = errors.New("file cannot be read")
)

// What is refused of a calibration or of a table of band levels.
var (
	ErrLevel  = errors.New("level not possible")
	ErrLayout = errors.New("no table of band levels")
	ErrCell   = errors.New("cell not understood")
	ErrBands  = errors.New("bands not usable")
)

// Error says what is wrong with a sound file or a table, where, and how to mend
// it.
type Error struct {
	File   string
	At     tabular.Position // of a table; zero: the file as a whole
	Reason string
	Hint   string // how to mend it, if it can be named; to be shown on its own line
	Err    error  // one of the Err values above
	Cause  error  // what went wrong below, or nil
}

// Error returns file:line:column: reason, without the parts that are not known.
func (e *Error) Error() string {
	switch {
	case e.At.Line == 0:
		return fmt.Sprintf("%s: %s", e.File, e.Reason)
	case e.At.Column == 0:
		return fmt.Sprintf("%s:%d: %s", e.File, e.At.Line, e.Reason)
	}
	return fmt.Sprintf("%s:%d:%d: %s", e.File, e.At.Line, e.At.Column, e.Reason)
}

// Unwrap returns the kind of error and its cause, for errors.Is.
func (e *Error) Unwrap() []error {
	if e.Cause == nil {
		return []error{e.Err}
	}
	return []error{e.Err, e.Cause}
}
