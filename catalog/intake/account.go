package intake

import (
	"lowsone/catalog"
	"lowsone/catalog/partscsv"
	"lowsone/catalog/store"
	"lowsone/catalog/tabular"
)

// Account is what became of an import. Rows = Imported + Rejected + Repeated.
type Account struct {
	File   string // as given
	Path   string // of the file, absolute; empty for what has none, such as a pipe
	Source string // name the rows are kept under
	Sheet  string // that was read, of a workbook
	DryRun bool

	Rows      int // data rows of the file
	Imported  int // fans that are new or changed
	Rejected  int // rows that could not be read
	Repeated  int // Unchanged + Overtaken
	Unchanged int // fans that were there already, as they are
	Overtaken int // rows whose fan a later row of the file states again
	Gone      int // fans of this source's last import that the file holds no longer
	Fans      int // fans of this source in the catalogue afterwards

	// Before is the source as it was after its last import; without a name where
	// this is the first.
	Before store.SourceInfo
	// Forgotten are the options that the last import of the source was given and
	// this one was not, as a shell is given them.
	Forgotten []string

	// Unrankable counts fans of the file that no ranking can take, as what they
	// lack is not estimated; Lacks counts what fans of the file do not say, in the
	// order of the fields.
	Unrankable int
	Lacks      []Lack

	// Values are the given ones, with the rows that took them; Unstated are kind,
	// supply and supplier as far as no row states them and nobody gave them.
	Values   []Taken
	Unstated []catalog.FieldID

	Format   tabular.Dialect
	Columns  []partscsv.Column
	Warnings []partscsv.Warning

	Rejects     []Reject // the first MaxRejects
	RejectsFile string   // where all of them stand; empty where there are none, or in a dry run

	// Changed says whether the catalogue was changed. It is not where a dry run
	// was asked for, or where the file brings nothing new.
	Changed bool
	// Renewed says that it was changed although no fan is new: of parts that other
	// sources list too, this one counts now as the one imported last.
	Renewed bool
}

// MaxRejects is how many rejected rows an account holds.
const MaxRejects = 20

// Lack is how many fans do not say a value that ranking asks for.
type Lack struct {
	Field catalog.FieldID
	Fans  int
}

// Taken is a value that was given for the rows that do not state the field.
type Taken struct {
	Field catalog.FieldID
	Text  string // as given
	Rows  int    // that took it
}

// Reject is a row that could not be read.
type Reject struct {
	At     tabular.Position // where the cell begins; the row where no single cell is to blame
	Header string           // of the cell's column; empty where no single cell is to blame
	Cell   string
	Reason string
	Hint   string // how to mend it, where that can be named
}
