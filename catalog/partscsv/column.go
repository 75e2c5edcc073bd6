package partscsv

import "lowsone/catalog"

// How says by what a column was recognised.
type How string

// The ways, the strongest first.
const (
	ByForce How = "forced" // --column said so
	ByName  How = "name"   // the tool's own column name
	ByWord  How = "word"   // trade words in the header
	ByUnit  How = "unit"   // the unit in the header or in the cells
	ByCells How = "cells"  // what the cells hold
	ByRest  How = "rest"   // what other columns leave for it
	Unread  How = "unread" // no field stands for it: kept with the record as it is
)

// Column is what one column of a file was taken for.
type Column struct {
	Header string // as it stands in the file
	Number int    // from 1
	// Fields are what the column is read into, the first being the one it was
	// recognised as ("60x60x25" also gives height and depth); none where the
	// column is kept as it is.
	Fields []catalog.FieldID
	Unit   string // symbol; empty where the cells name it or the field has none
	How    How
	Why    string // in a few words, for people
	// Check marks the second column for a field, in another unit: it is
	// compared with the first, and fills in where that one is empty.
	Check bool
	// Assumed is what of the unit neither header nor cells name; empty for nothing.
	Assumed string
	Decimal string   // "." or ","; empty for texts
	Samples []Sample // up to three different cells
	Notes   []string // assumptions a person should know of
}

// Sample is a cell of a column and what was read from it.
type Sample struct {
	Cell  string
	Value string // with unit; what was wrong with the cell where it could not be read
	Fault bool   // it could not be read
}

// Taken says whether a field stands for the column.
func (c *Column) Taken() bool { return len(c.Fields) > 0 }

// FieldName gives the name of the field the column was recognised as; empty
// where it is kept as it is.
func (c *Column) FieldName() string {
	if !c.Taken() {
		return ""
	}
	return catalog.Fields[c.Fields[0]].Name
}

// Assignment says which column a field is read from (--column FIELD=HEADER).
type Assignment struct {
	Field  catalog.FieldID
	Header string // empty: no column is this field
}

// Warning is something the reading of cells had to say, with how often.
type Warning struct {
	Header string // of the column; empty where it concerns the row
	Reason string
	Count  int // rows
	Line   int // physical line of the first
	// Example holds the numbers of the first row, where they are not plain from
	// one cell.
	Example string
}
