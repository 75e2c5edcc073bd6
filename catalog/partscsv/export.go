package partscsv

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// An export is the tool's own CSV with all columns, and behind them those that no
// field stands for, each under its header behind extraPrefix: so none of them is
// ever taken for a field when the file is read.
const extraPrefix = "extra:"

// leastExported is how many fields the first program that wrote exports had.
const leastExported = 39

// ExportError says why a fan cannot be exported.
type ExportError struct{ Part, Reason string }

// Error names the part.
func (e *ExportError) Error() string {
	return fmt.Sprintf("%q cannot be exported: %s", e.Part, e.Reason)
}

// Exporter writes an export.
type Exporter struct {
	csv   *csv.Writer
	at    map[string]int // column of each extra
	cells []string
}

// NewExporter begins an export whose fans have extras of these headers, see
// [Extras].
func NewExporter(w io.Writer, extras []string) (*Exporter, error) {
	e := &Exporter{csv: csv.NewWriter(w), at: map[string]int{}}
	e.cells = catalog.FieldNames()
	for _, header := range extras {
		e.at[header] = len(e.cells)
		e.cells = append(e.cells, extraPrefix+header)
	}
	return e, e.csv.Write(e.cells)
}

// Write writes a fan. Errors: *ExportError, those of writing.
func (e *Exporter) Write(f *catalog.Fan) error {
	clear(e.cells)
	own := ownCells(f)
	copy(e.cells, own[:])
	for id := range catalog.Fields {
		if d := &catalog.Fields[id]; d.Numeric() && own[id] != "" {
			v, _ := d.Get(f)
			e.cells[id] = exactText(d, v.Number, own[id])
		}
	}
	for _, x := range f.Extra {
		at, ok := e.at[x.Header]
		if !ok || e.cells[at] != "" {
			return &ExportError{f.Part, fmt.Sprintf("it has the column %q twice, or unforeseen", x.Header)}
		}
		e.cells[at] = catalog.Guarded(x.Text)
	}
	return e.csv.Write(e.cells)
}

// exactText writes an SI value with as many digits as it takes to read the very
// same number again; to the ten digits of text where no decimal number gives it.
func exactText(d *catalog.Field, v float64, text string) string {
	short, err := strconv.ParseFloat(text, 64)
	if err != nil || d.SI(short) == v { // a word, or exact already
		return text
	}
	near := d.InUnit(v)
	for _, u := range [...]float64{near, math.Nextafter(near, math.Inf(1)), math.Nextafter(near, math.Inf(-1))} {
		if d.SI(u) == v {
			return strconv.FormatFloat(u, 'f', -1, 64)
		}
	}
	return text
}

// Flush ends the export.
func (e *Exporter) Flush() error {
	e.csv.Flush()
	return e.csv.Error()
}

// stated says whether a list states a value, or who imported it did for all rows.
func stated(o quantity.Origin) bool { return o == quantity.Cell || o == quantity.Default }

// ownCells gives the cells of a fan in the tool's own CSV. Only what is stated is
// written, and of an estimate what the reading will estimate it from again.
func ownCells(f *catalog.Fan) (cells [catalog.NumFields]string) {
	for id := range catalog.Fields {
		d := &catalog.Fields[id]
		_, origin := d.Get(f)
		switch {
		case stated(origin) && d.Form == catalog.Text:
			cells[id] = catalog.Guarded(d.Format(f))
		case stated(origin):
			cells[id] = d.Format(f)
		case origin == quantity.Estimate && d.ID == catalog.FieldTachPerRev:
			cells[id] = "yes" // there is a tach: so many pulses are usual
		}
	}
	return cells
}

// IsExport says whether a file that begins so is an export: its first line names
// all columns of the tool's own CSV, in their order.
func IsExport(head []byte) bool {
	line, _, _ := bytes.Cut(bytes.TrimPrefix(head, []byte("\ufeff")), []byte("\n"))
	last, own := -1, 0
	for name := range strings.SplitSeq(strings.TrimSuffix(string(line), "\r"), ",") {
		d, ok := catalog.FieldNamed(name)
		if !ok || int(d.ID) <= last {
			break
		}
		last = int(d.ID)
		own++
	}
	return own >= leastExported
}

// IsExportHead is how much of a file IsExport has to see.
const IsExportHead = 2048

// exported says whether the columns are those of an export: all carry the tool's
// own names, or are extras. Then nothing has to be guessed.
func (b *builder) exported() bool {
	extras := 0
	for _, c := range b.columns {
		if strings.HasPrefix(c.header.text, extraPrefix) {
			extras++
		} else if !c.taken || c.how != ByName && c.how != ByForce {
			return false
		}
	}
	return extras > 0
}

// keptAs gives the header under which the cells of a column are kept that no
// field stands for.
func (p *Plan) keptAs(c *column) string {
	if p.exported {
		return strings.TrimPrefix(c.header.text, extraPrefix)
	}
	return c.header.text
}
