package tabular

// Limits. They keep a damaged file from filling the memory; no parts list that
// a person can use comes near them.
const (
	// MaxRecord is the most bytes of text (as UTF-8) one record may have.
	MaxRecord = 1 << 20
	// MaxColumns is the most cells the header may have: as many as the columns
	// of the common spreadsheets.
	MaxColumns = 16384
	// MaxTitles is how many rows are searched for the header, and the most
	// title rows that are kept.
	MaxTitles = 50
)

// Options force what would otherwise be found. The zero value finds everything.
type Options struct {
	// Encoding is a character set by its WHATWG or IANA name.
	Encoding string
	// Delimiter is any character, or NoDelimiter for a file of one column.
	Delimiter rune
	// Decimal is Point or Comma.
	Decimal Mark
	// HeaderLine is the physical line the header begins on.
	HeaderLine int
	// HeaderScore says how much a row looks like a header: the highest score
	// wins, the first of equals, and no score above 0 means none does. It is
	// offered the first MaxTitles rows. Where it is nil or finds none, the first
	// row as wide as the rows below it is the header.
	HeaderScore func(cells []string) float64
}
