package partscsv

import (
	"fmt"
	"strings"
)

// RowError says why a row cannot be read, and by which cell.
type RowError struct {
	File   string
	Line   int // physical line; 0 while not known
	Char   int // where the cell begins on its line, in characters; 0 while not known
	Column int // number of the column from 0; -1 where no single cell is to blame
	Header string
	Cell   string
	Reason string
	Hint   string // how to mend it, where that can be named
}

// Error prints file:line:column: "header": reason, as far as they are known.
func (e *RowError) Error() string {
	var b strings.Builder
	if e.Line > 0 {
		fmt.Fprintf(&b, "%s:%d:", e.File, e.Line)
		if e.Char > 0 {
			fmt.Fprintf(&b, "%d:", e.Char)
		}
		b.WriteByte(' ')
	}
	if e.Header != "" {
		fmt.Fprintf(&b, "%q: ", e.Header)
	}
	b.WriteString(e.Reason)
	return b.String()
}

// NotPartsError says why a file is no parts table, and what its columns are.
type NotPartsError struct {
	File    string
	Missing []string // names of the fields of which one at least is missing
	Reason  string
	Headers []string
	Lines   []string // --column FIELD=HEADER to write; empty where columns are too few
	Instead []string // fields that may take the place of the last in Lines
}

// Error names the reason and the headers.
func (e *NotPartsError) Error() string {
	return fmt.Sprintf("%s: not a parts table: %s; its columns are %s", e.File, e.Reason, quoted(e.Headers))
}

// Hint shows the options to write.
func (e *NotPartsError) Hint() string {
	if len(e.Lines) == 0 {
		return "a parts table has a column of part numbers, and one of frame, voltage, airflow or pressure"
	}
	hint := "say which column is which, such as " + strings.Join(e.Lines, " ")
	if n := len(e.Instead); n > 0 {
		field, _, _ := strings.Cut(strings.TrimPrefix(e.Lines[len(e.Lines)-1], "--column "), "=")
		hint += fmt.Sprintf("; in the place of %s may stand %s or %s", field, strings.Join(e.Instead[:n-1], ", "), e.Instead[n-1])
	}
	return hint
}

// ColumnError says why a --column FIELD=HEADER cannot be followed.
type ColumnError struct {
	Text   string // as given
	Reason string
	Hint   string
}

// Error names the option and the reason.
func (e *ColumnError) Error() string { return fmt.Sprintf("--column %q: %s", e.Text, e.Reason) }

// mostTold is how many characters of a text from a file a message holds.
const mostTold = 200

// clipped cuts a text that is too long for a message.
func clipped(text string) string { return clippedTo(text, mostTold) }

func clippedTo(text string, most int) string {
	if len(text) <= most {
		return text
	}
	n := 0
	for i := range text {
		if n++; n > most {
			return text[:i] + "…"
		}
	}
	return text
}

// quoted lists texts in quotes, the first 40 of them.
func quoted(texts []string) string {
	const most = 40
	var parts []string
	for i, t := range texts {
		if i == most {
			parts = append(parts, fmt.Sprintf("and %d more", len(texts)-most))
			break
		}
		parts = append(parts, fmt.Sprintf("%q", clipped(t)))
	}
	return strings.Join(parts, ", ")
}
