package tabular

import (
	"errors"
	"fmt"
)

// What [Open] and [File.Rows] refuse. Each arrives wrapped in an [*Error].
var (
	ErrNotText       = errors.New("not text")
	ErrEncoding      = errors.New("unknown character set")
	ErrDelimiter     = errors.New("unusable delimiter")
	ErrEmpty         = errors.New("empty file")
	ErrNoRows        = errors.New("no rows below the header")
	ErrHeaderLine    = errors.New("no header on the given line")
	ErrUnclosedQuote = errors.New("quote not closed")
	ErrTooLong       = errors.New("record too long")
	ErrTooWide       = errors.New("too many columns")
	ErrChanged       = errors.New("file changed while it was read")
)

// Position is a place in a file. Line is the physical line, Column the
// character on it, both counted from 1; 0 stands for not known.
type Position struct {
	Line, Column int
}

// Error says what is wrong with a file, where, and how to mend it.
type Error struct {
	File   string
	At     Position // zero: the file as a whole
	Reason string
	Hint   string // how to mend it, if it can be named; to be shown on its own line
	Err    error  // one of the Err values above, or the error of a read
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

// Unwrap returns the kind of error, for errors.Is.
func (e *Error) Unwrap() error { return e.Err }
