package cli

import (
	"slices"
	"strings"

	"lowsone/catalog"
)

// fieldNamed finds a field of the record by its name, by its name without the
// unit, or by what it is called where people see it. One that is not among the
// valid ones has no order.
func fieldNamed(name string, valid []string) (*catalog.Field, error) {
	d, ok := catalog.FieldNamed(name)
	if !ok {
		d, ok = fieldCalled(name)
	}
	switch {
	case ok && slices.Contains(valid, d.Name):
		return d, nil
	case ok:
		return nil, usagef("name one number or word, such as noise_dba", "fans have no order by %q", name)
	}
	return nil, usagef(nearestFields(name, valid), "no field is called %q", name)
}

// fieldCalled finds the one field that people call so; none where several are.
func fieldCalled(name string) (*catalog.Field, bool) {
	said := asFieldName(name)
	for _, called := range []func(*catalog.Field) string{
		func(d *catalog.Field) string { return d.Name },
		withoutUnit,
		func(d *catalog.Field) string { return asFieldName(d.Title) },
	} {
		var found []*catalog.Field
		for i := range catalog.Fields {
			if d := &catalog.Fields[i]; called(d) == said {
				found = append(found, d)
			}
		}
		if len(found) == 1 {
			return found[0], true
		}
	}
	id, ok := tableTitles[said]
	if !ok {
		return nil, false
	}
	return &catalog.Fields[id], true
}

// tableTitles holds what columns of the tables are called that no field's own name
// gives. A size begins with its width, and where a height is not said it is the
// width.
var tableTitles = map[string]catalog.FieldID{
	"pressure": catalog.FieldStaticPressure,
	"flow":     catalog.FieldAirflow,
	"size":     catalog.FieldWidth,
	"frame":    catalog.FieldWidth,
	"tach":     catalog.FieldTachPerRev,
}

// asFieldName writes what somebody calls a field as names of fields are written.
func asFieldName(text string) string {
	return strings.ToLower(strings.NewReplacer(" ", "_", "-", "_").Replace(strings.TrimSpace(text)))
}

// withoutUnit gives the name of a quantity without the unit at its end.
func withoutUnit(d *catalog.Field) string {
	if i := strings.LastIndexByte(d.Name, '_'); d.Form == catalog.Quantity && i > 0 {
		return d.Name[:i]
	}
	return d.Name
}

// mostFieldsNamed is how many fields are named where one is wrong.
const mostFieldsNamed = 3

// nearestFields names the fields that come nearest to a wrong one: those that hold
// it, then those that are spelled nearly so.
func nearestFields(name string, valid []string) string {
	const all = "lowsone search --help lists them"
	said := asFieldName(name)
	var near []string
	if len(said) > 1 {
		for _, v := range valid {
			if strings.Contains(v, said) {
				near = append(near, v)
			}
		}
	}
	for _, v := range catalog.NearestWords(said, valid, mostFieldsNamed) {
		if !slices.Contains(near, v) {
			near = append(near, v)
		}
	}
	if len(near) == 0 {
		return all
	}
	return "did you mean " + strings.Join(near[:min(len(near), mostFieldsNamed)], " or ") + "? " + all
}

// fieldListWidth is how wide the list of fields is in help.
const fieldListWidth = 80

// fieldList lists the fields for help.
func fieldList() string {
	var b strings.Builder
	column := 0
	for i, name := range catalog.FieldNames() {
		switch {
		case i > 0 && column+2+len(name)+1 > fieldListWidth:
			b.WriteString(",\n")
			column = 0
		case i > 0:
			b.WriteString(", ")
			column += 2
		}
		b.WriteString(name)
		column += len(name)
	}
	return b.String()
}
