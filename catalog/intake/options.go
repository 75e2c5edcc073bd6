package intake

import (
	"io"
	"time"

	"lowsone/catalog/partscsv"
	"lowsone/catalog/tabular"
)

// Options says what to import, and where to.
type Options struct {
	// File is the CSV or workbook to read; "-" reads Stdin instead.
	File  string
	Stdin io.Reader
	// Source is the name the rows are kept under: an import replaces the rows
	// of its source and leaves all others. Empty: the file's name without its
	// folder, "stdin" for "-"; of a sheet other than the first that is not hidden
	// with the sheet's name, as list.xlsx#24 V.
	Source string
	// Catalog is the folder of the catalogue; it need not exist yet.
	Catalog string
	// Rejects is the file for rows that could not be read. Empty: a file named
	// for the source in the catalogue's folder. It is written only if there are
	// any.
	Rejects string
	// Columns overrule what columns are taken for.
	Columns []partscsv.Assignment
	// Values are those of rows that do not state them, one for each field.
	Values []partscsv.Given
	// Format forces delimiter, character set, decimal mark, header line or sheet. Its
	// HeaderScore is set by Run.
	Format tabular.Options
	// DryRun reads and counts everything and writes nothing.
	DryRun bool
	// Time is kept as the time of the import; zero: now.
	Time time.Time
	// Progress, where set, is told now and then how many of all rows are done.
	Progress func(done, all int)
}
