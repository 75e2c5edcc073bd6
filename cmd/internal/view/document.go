package view

import (
	"fmt"
	"io"
)

// Format is one of the forms a result is given in.
type Format uint8

// The formats.
const (
	FormatTable Format = iota // for people
	FormatCSV                 // a list for spreadsheets
	FormatJSON                // one object for programs
)

// Formats lists the names of the formats, by Format.
var Formats = []string{"table", "csv", "json"}

// String gives the format's name.
func (f Format) String() string { return Formats[f] }

// Document is a result, ready to be shown.
type Document interface {
	// Text writes it for people.
	Text(w io.Writer, s Style) error
	// JSON gives the value that is written as one JSON object. Its first member
	// is the embedded Schema.
	JSON() any
}

// Spreadsheet is a Document that has a form as a list.
type Spreadsheet interface {
	Document
	CSV(w io.Writer) error
}

// Write gives a document in one format. A document without a list form has no
// CSV; commands refuse that before they begin.
func Write(w io.Writer, doc Document, f Format, s Style) error {
	switch f {
	case FormatJSON:
		return WriteJSON(w, doc.JSON())
	case FormatCSV:
		list, ok := doc.(Spreadsheet)
		if !ok {
			return fmt.Errorf("this result has no csv form")
		}
		if s.Terminal {
			w = cleaning{w}
		}
		return list.CSV(w)
	default:
		return doc.Text(w, s)
	}
}
