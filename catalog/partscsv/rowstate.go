package partscsv

import (
	"fmt"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// Remark is what the reading of one cell had to say. Text goes with the fan
// and carries the values; Warning, where not empty, is the same without them,
// so that equal ones can be counted.
type Remark struct {
	Column  int // from 0; -1 where it concerns the row
	Field   catalog.FieldID
	Text    string
	Warning string
	Example string // of a warning: the row's own numbers, where they are not plain from its cell
}

// rowState is one row while it is read.
type rowState struct {
	fan     *catalog.Fan
	from    [catalog.NumFields]origin
	remarks []Remark
	err     *RowError

	pairs       []pair    // values for two mains frequencies
	frequencies []float64 // Hz, as the row names them
	frequency   int       // column that named them; -1 for none
	supplies    []supplyClue
	bareDraw    bareDraw
	single      int // column of a width that stands for both sides; -1 for none
}

// origin says which column gave a field, counted from 1; 0 for none; below 0 a
// value given for all rows, counted from -1 down.
type origin struct {
	column int
	spill  bool // it came from a column of another field
}

// pair is a value for two mains frequencies.
type pair struct {
	column        *column
	first, second float64 // SI
}

// supplyClue is a sign of supply in a cell of another field.
type supplyClue struct {
	column *column
	supply catalog.Supply
}

func (s *rowState) reset(fan *catalog.Fan) {
	*s = rowState{
		fan: fan, remarks: s.remarks[:0], pairs: s.pairs[:0], frequencies: s.frequencies[:0],
		supplies: s.supplies[:0], frequency: -1, single: -1,
	}
}

// mostRemarked is how many characters a remark has that goes with the fan.
const mostRemarked = 4 * mostTold

// remark notes something that is no reason for a warning.
func (s *rowState) remark(c *column, format string, args ...any) {
	s.remarks = append(s.remarks, Remark{Column: c.index, Field: c.field, Text: clippedTo(fmt.Sprintf(format, args...), mostRemarked)})
}

// warn notes something a person should look at; detail carries the values.
func (s *rowState) warn(c *column, warning, format string, args ...any) {
	s.remarks = append(s.remarks, Remark{Column: c.index, Field: c.field, Text: clippedTo(fmt.Sprintf(format, args...), mostRemarked), Warning: clipped(warning)})
}

// refuse rejects the row where the column's field is essential; else the value
// stays unknown with a warning.
func (s *rowState) refuse(c *column, text, reason, hint string) {
	if !c.def().Essential || c.check {
		reason = clipped(reason)
		s.warn(c, reason, "%s %q: %s; taken as unknown", c.def().Title, clipped(text), reason)
		return
	}
	s.reject(c, text, reason, hint)
}

func (s *rowState) reject(c *column, text, reason, hint string) {
	if s.err == nil {
		s.err = &RowError{Column: c.index, Header: c.header.text, Cell: text, Reason: clipped(reason), Hint: clipped(hint)}
	}
}

// put stores an SI value that column c states for a field, after its bounds.
// What a column of the field itself stated is kept: the new value is compared
// with it.
func (s *rowState) put(c *column, id catalog.FieldID, value float64, o quantity.Origin, text string) {
	d := &catalog.Fields[id]
	if reason, hint := d.Bound(value); reason != "" {
		s.refuse(c, text, reason, hint)
		return
	}
	old, known := d.Get(s.fan)
	if known == quantity.Unknown || (known == quantity.Estimate || known == quantity.Default) && o == quantity.Cell {
		d.Put(s.fan, catalog.Value{Number: value}, o)
		s.from[id] = origin{c.index + 1, c.field != id}
		return
	}
	if o == quantity.Cell {
		s.compare(c, d, old.Number, value, text)
	}
}

// compare holds a second statement of a value against the first, which is kept.
func (s *rowState) compare(c *column, d *catalog.Field, kept, value float64, text string) {
	share := apart(d.InUnit(kept), d.InUnit(value))
	switch {
	case share <= twoStatements:
	case share <= contradiction:
		s.warn(c, fmt.Sprintf("two statements of %s differ by more than 3 %%", d.Title),
			"%s: %s and %s differ by %.0f %%; the first is kept", d.Title, show(d, kept), show(d, value), 100*share)
	default:
		reason := fmt.Sprintf("contradicts itself: %s and %s", show(d, kept), show(d, value))
		if d.Essential {
			s.reject(c, text, reason, "check both numbers and the units of the columns")
			return
		}
		s.warn(c, fmt.Sprintf("two statements of %s contradict each other", d.Title), "%s %s; taken as unknown", d.Title, reason)
		d.Put(s.fan, catalog.Value{}, quantity.Unknown)
	}
}

// putText stores a text for a field that has none yet.
func (s *rowState) putText(c *column, id catalog.FieldID, text string) {
	d := &catalog.Fields[id]
	if _, known := d.Get(s.fan); known == quantity.Unknown && text != "" {
		d.Put(s.fan, catalog.Value{Text: text}, quantity.Cell)
		s.from[id] = origin{c.index + 1, c.field != id}
	}
}
