package store

import (
	"fmt"
	"slices"

	"lowsone/catalog"
)

// schema says which field each field number on disk stands for. It is written
// into every generation, so that a field added to the table later, anywhere,
// leaves older catalogues readable.
type schema []*catalog.Field

// storedField is a field as a generation describes it.
type storedField struct {
	Name    string   `json:"name"`
	Choices []string `json:"choices,omitempty"`
}

// currentSchema numbers the fields as the field table does.
func currentSchema() schema {
	s := make(schema, catalog.NumFields)
	for i := range catalog.Fields {
		s[i] = &catalog.Fields[i]
	}
	return s
}

func (s schema) stored() []storedField {
	list := make([]storedField, len(s))
	for i, d := range s {
		list[i] = storedField{d.Name, d.Choices}
	}
	return list
}

// schemaOf finds the fields a generation was written with. A field or a choice
// this program does not know comes from a newer one.
func schemaOf(list []storedField) (schema, error) {
	s := make(schema, len(list))
	for i, stored := range list {
		d, ok := catalog.FieldNamed(stored.Name)
		if !ok {
			return nil, fmt.Errorf("it has the field %q", stored.Name)
		}
		if n := len(stored.Choices); n > len(d.Choices) || !slices.Equal(stored.Choices, d.Choices[:n]) {
			return nil, fmt.Errorf("its field %q has the choices %q", stored.Name, stored.Choices)
		}
		s[i] = d
	}
	return s, nil
}

// number gives the number of a field, -1 where the schema does not have it.
func (s schema) number(id catalog.FieldID) int {
	return slices.IndexFunc(s, func(d *catalog.Field) bool { return d.ID == id })
}
