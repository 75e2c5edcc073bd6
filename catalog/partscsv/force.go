package partscsv

import (
	"fmt"
	"slices"
	"strings"

	"github.com/agnivade/levenshtein"

	"lowsone/catalog"
)

// String writes the assignment as an option names it: FIELD=HEADER.
func (a Assignment) String() string { return catalog.Fields[a.Field].Name + "=" + a.Header }

// Option writes the assignment as a shell is given it.
func (a Assignment) Option() string {
	return "--column " + catalog.Fields[a.Field].Name + "=" + ShellQuoted(a.Header)
}

// force follows the assignments.
func (b *builder) force() error {
	var bands []bandColumn
	for _, a := range b.in.Assign {
		if a.Header == "" {
			b.off[a.Field] = true
			continue
		}
		c, err := b.columnNamed(a)
		if err != nil {
			return err
		}
		if h, ok := b.bandHeaderOf(c); ok && a.Field == catalog.FieldNoiseBands {
			bands = append(bands, bandColumn{c, h})
			continue
		}
		switch {
		case c.taken && c.field != a.Field:
			return &ColumnError{a.String(), fmt.Sprintf("column %q is already %s", c.header.text, c.def().Name), "a column is read as one field"}
		case b.columnOf(a.Field) != nil && b.columnOf(a.Field) != c:
			return &ColumnError{a.String(), fmt.Sprintf("%s is already read from %q", catalog.Fields[a.Field].Name, b.columnOf(a.Field).header.text), "a field is read from one column"}
		}
		c.take(b.lexicon, a.Field)
		c.how, c.why, c.proof = ByForce, "as --column says", true
		b.off[a.Field] = false
		if a.Field == catalog.FieldNoiseBands {
			c.noteWeight("the levels")
		}
	}
	return b.forceBands(bands)
}

// columnNamed finds the column of an assignment by its header: exactly, else
// with case and blanks folded, if only one is so.
func (b *builder) columnNamed(a Assignment) (*column, error) {
	var found []*column
	for _, c := range b.columns {
		if c.header.text == a.Header {
			return c, nil
		}
		if catalog.FoldKey(c.header.text) == catalog.FoldKey(a.Header) {
			found = append(found, c)
		}
	}
	switch len(found) {
	case 1:
		return found[0], nil
	case 0:
		return nil, &ColumnError{a.String(), fmt.Sprintf("no column has the header %q", a.Header), b.headerHint(a.Header)}
	}
	return nil, &ColumnError{a.String(), fmt.Sprintf("%d columns have the header %q", len(found), a.Header), "give the header exactly as it stands in the file"}
}

// headerHint names the nearest header, and lists all.
func (b *builder) headerHint(header string) string {
	var texts []string
	best, distance := "", 1+len(header)/2
	for _, c := range b.columns {
		texts = append(texts, c.header.text)
		if n := levenshtein.ComputeDistance(foldPhrase(header), foldPhrase(c.header.text)); n < distance {
			best, distance = c.header.text, n
		}
	}
	hint := "the headers are " + quoted(texts)
	if best != "" {
		hint = fmt.Sprintf("did you mean %q? ", best) + hint
	}
	return hint
}

// oneOf are the fields of which a parts table must have one beside the part.
var oneOf = []catalog.FieldID{catalog.FieldWidth, catalog.FieldVoltage, catalog.FieldAirflow, catalog.FieldStaticPressure}

// isPartsTable refuses a file without part, or without any of frame, voltage,
// airflow and pressure.
func (p *Plan) isPartsTable(b *builder) error {
	var missing []catalog.FieldID
	reason := ""
	if p.columnOf(catalog.FieldPart) == nil {
		missing = append(missing, catalog.FieldPart)
		reason = "no column is the part number"
	}
	if !p.hasOneOf() {
		missing = append(missing, oneOf...)
		if reason != "" {
			reason += ", and "
		}
		reason += "no column is a frame, a voltage, an airflow or a pressure"
	}
	if reason == "" {
		return nil
	}
	e := &NotPartsError{File: p.file, Reason: reason}
	for _, c := range p.columns {
		e.Headers = append(e.Headers, c.header.text)
	}
	for _, id := range missing {
		e.Missing = append(e.Missing, catalog.Fields[id].Name)
	}
	b.suggest(e, missing)
	return e
}

func (p *Plan) hasOneOf() bool {
	for _, id := range append([]catalog.FieldID{catalog.FieldHeight, catalog.FieldVoltageMin, catalog.FieldVoltageMax, catalog.FieldCurve}, oneOf...) {
		if p.columnOf(id) != nil {
			return true
		}
	}
	return false
}

// suggest adds the --column options to write: one for the part, where it is
// missing, and one for the likeliest of the others, each with a column of its
// own.
func (b *builder) suggest(e *NotPartsError, missing []catalog.FieldID) {
	var free, spoken []*column // what was taken for a word of text may be another thing
	for _, c := range b.columns {
		switch {
		case !c.taken:
			free = append(free, c)
		case c.field != catalog.FieldPart && !slices.Contains(oneOf, c.field):
			spoken = append(spoken, c)
		}
	}
	free = append(free, spoken...)
	wanted := [][]catalog.FieldID{missing}
	if missing[0] == catalog.FieldPart {
		wanted = [][]catalog.FieldID{missing[:1], missing[1:]}
	}
	var lines []string
	for _, fields := range wanted {
		if len(fields) == 0 {
			continue
		}
		if len(free) == 0 {
			return
		}
		id, at := likeliest(free, fields)
		lines = append(lines, fmt.Sprintf("--column %s=%s", catalog.Fields[id].Name, ShellQuoted(clipped(free[at].header.text))))
		free = slices.Delete(free, at, at+1)
		e.Instead = nil
		for _, other := range fields {
			if other != id {
				e.Instead = append(e.Instead, catalog.Fields[other].Name)
			}
		}
	}
	e.Lines = lines
}

// likeliest gives the field and the column whose header is nearest to one of the
// field's words; without any near, the first of both.
func likeliest(free []*column, fields []catalog.FieldID) (id catalog.FieldID, at int) {
	id, distance := fields[0], 1<<30
	for _, field := range fields {
		for i, c := range free {
			for _, w := range catalog.HeaderWords(field) {
				n := levenshtein.ComputeDistance(foldPhrase(normalise(c.header.text)), foldPhrase(normalise(w.Text)))
				if n < distance && n <= len(w.Text)/3 {
					id, at, distance = field, i, n
				}
			}
		}
	}
	return id, at
}

// ShellQuoted puts a text in quotes where a shell would take it apart.
func ShellQuoted(text string) string {
	if strings.IndexFunc(text, func(r rune) bool {
		return !strings.ContainsRune("._-/", r) && (r < '0' || r > '9') && (r < 'A' || r > 'Z') && (r < 'a' || r > 'z')
	}) < 0 {
		return text
	}
	return `"` + strings.ReplaceAll(text, `"`, `\"`) + `"`
}

// columnOf gives the column a field is read from; nil for none.
func (p *Plan) columnOf(id catalog.FieldID) *column {
	for _, c := range p.columns {
		if c.taken && c.field == id && !c.check {
			return c
		}
	}
	return nil
}
