package tabular

// Trait is one property of a file and how it became known.
type Trait[T any] struct {
	Value  T
	Forced bool   // given in [Options]; otherwise found in the file
	How    string // what it was found by, for people
}

func forced[T any](v T) Trait[T] { return Trait[T]{Value: v, Forced: true, How: "as given"} }

func found[T any](v T, how string) Trait[T] { return Trait[T]{Value: v, How: how} }

// Dialect is how a file is written. A sheet of a workbook has no Encoding,
// Delimiter and LineEnd, a text no Sheet.
type Dialect struct {
	Sheet       string   // that is read
	OtherSheets []string // that are not, hidden ones included
	Named       bool     // Sheet is another than is read where none is named

	Encoding   Trait[string] // canonical name, such as utf-8 or windows-1252
	Delimiter  Trait[rune]   // NoDelimiter in a file of one column
	Decimal    Trait[Mark]   // of the file as a whole; see File.Decide for the columns
	HeaderLine Trait[int]    // physical line, or row of the sheet
	LineEnd    Trait[LineEnd]
	TitleLines int      // rows above the header that are no data
	Lenient    bool     // quote marks inside cells are taken as they stand
	Notes      []string // what else a person should know, in the order it was found
}

// LineEnd is what ends the rows of a file.
type LineEnd string

// The line ends told apart.
const (
	LF      LineEnd = "LF"
	CRLF    LineEnd = "CRLF"
	CR      LineEnd = "CR"
	Mixed   LineEnd = "mixed"
	Unended LineEnd = "none" // one row without a line end
)

// lineEnds counts the ends of rows by kind.
type lineEnds struct{ lf, crlf, cr int }

// count takes the bytes of one record with whatever ends it.
func (c *lineEnds) count(record []byte) {
	n := len(record)
	switch {
	case n >= 2 && record[n-2] == '\r' && record[n-1] == '\n':
		c.crlf++
	case n >= 1 && record[n-1] == '\n':
		c.lf++
	case n >= 1 && record[n-1] == '\r':
		c.cr++
	}
}

// kind names what was counted.
func (c *lineEnds) kind() LineEnd {
	switch {
	case c.lf+c.crlf+c.cr == 0:
		return Unended
	case c.crlf+c.cr == 0:
		return LF
	case c.lf+c.cr == 0:
		return CRLF
	case c.lf+c.crlf == 0:
		return CR
	}
	return Mixed
}
