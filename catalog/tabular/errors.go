package tabular

import (
	"errors"
	"fmt"
)

// What [Open] and [File.Rows] refuse. Each arrives wrapped in an [*Error].
var (
	ErrNotText       = errors.New("neither text nor a workbook")
	ErrEncoding      = errors.New("unknown character set")
	ErrDelimiter     = errors.New("unusable delimiter")
	ErrEmpty         = errors.New("empty file")
	ErrNoRows        = errors.New("no rows below the header")
	ErrHeaderLine    = errors.New("no header on the given line")
	ErrUnclosedQuote = errors.New("quote not closed")
	ErrTooLong       = errors.New("record too long")
	ErrTooWide       = errors.New("too many columns")
	ErrChanged       = errors.New("file changed while it was read")
	ErrSheet         = errors.New("no such sheet")
	ErrLocked        = errors.New("locked with a password")
	ErrDamaged       = errors.New("damaged workbook")
	ErrTooLarge      = errors.New("workbook too large")
)

// Position is a place in a file. In a text, Line is the physical line and Column
// the character on it; on a sheet they are the numbers of the row and of the
// column. Both count from 1; 0 stands for not known.
type Position struct {
	Line, Column int
}

// Error says what is wrong with a file, where, and how to mend it.
type Error struct {
	File   string
	Sheet  string   // of a workbook; empty for a text, or the workbook as a whole
	At     Position // zero: the file or sheet as a whole
	Reason string
	Hint   string // how to mend it, if it can be named; to be shown on its own line
	Err    error  // one of the Err values above, or the error of a read
}

// Error returns file:line:column: reason, or file:sheet!cell: reason, without the
// parts that are not known.
func (e *Error) Error() string {
	place := placeText(e.Sheet, e.At)
	if place == "" {
		return fmt.Sprintf("%s: %s", e.File, e.Reason)
	}
	return fmt.Sprintf("%s:%s: %s", e.File, place, e.Reason)
}

// Unwrap returns the kind of error, for errors.Is.
func (e *Error) Unwrap() error { return e.Err }
