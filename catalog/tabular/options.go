package tabular

// Limits. They keep a damaged file from filling the memory; no parts list that
// a person can use comes near them.
const (
	// MaxRecord is the most bytes of text (as UTF-8) one record may have, in a
	// workbook also one of the texts that its sheets share.
	MaxRecord = 1 << 20
	// MaxColumns is the most cells the header may have: as many as the columns
	// of the common spreadsheets.
	MaxColumns = 16384
	// MaxTitles is how many rows are searched for the header, and the most
	// title rows that are kept.
	MaxTitles = 50
	// MaxSheet is the most bytes a sheet of a workbook, or its table of shared
	// texts, may unpack to, and the most bytes of text the cells of a sheet may
	// hold in all.
	MaxSheet = 1 << 30
	// MaxShared is the most memory the shared texts of a workbook may take.
	MaxShared = 128 << 20
)

// Options force what would otherwise be found. The zero value finds everything.
type Options struct {
	// Encoding is a character set by its WHATWG or IANA name.
	Encoding string
	// Delimiter is any character, or NoDelimiter for a file of one column.
	Delimiter rune
	// Decimal is Point or Comma.
	Decimal Mark
	// Sheet is the name of the sheet of a workbook to read. Empty: the first
	// that is not hidden.
	Sheet string
	// HeaderLine is the physical line, or the row of a sheet, that the header
	// begins on.
	HeaderLine int
	// HeaderScore says how much a row looks like a header: the highest score
	// wins, the first of equals, and no score above 0 means none does. It is
	// offered the first MaxTitles rows. Where it is nil or finds none, the first
	// row as wide as the rows below it is the header.
	HeaderScore func(cells []string) float64
}
