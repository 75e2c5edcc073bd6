package cli

import (
	"slices"
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// choice is a flag whose value is one of a list of names; the target gets the
// index of the name.
type choice[T ~uint8] struct {
	target *T
	names  []string
}

func newChoice[T ~uint8](target *T, names []string) *choice[T] { return &choice[T]{target, names} }

// Set takes one of the names.
func (c *choice[T]) Set(text string) error {
	i := slices.Index(c.names, strings.ToLower(text))
	if i < 0 {
		return usagef(nearest(strings.ToLower(text), c.names), "not one of %s", strings.Join(c.names, ", "))
	}
	*c.target = T(i)
	return nil
}

// String gives the name that is set.
func (c *choice[T]) String() string {
	if c.target == nil || int(*c.target) >= len(c.names) {
		return ""
	}
	return c.names[*c.target]
}

// Type is what help calls the value.
func (c *choice[T]) Type() string { return "name" }

// measure is a flag whose value is a quantity: a number with a unit, or a bare
// number in the unit of its bounds.
type measure[T ~float64] struct {
	target *quantity.Known[T]
	bounds bounds
	text   string
}

func newMeasure[T ~float64](target *quantity.Known[T], b bounds) *measure[T] {
	return &measure[T]{target: target, bounds: b}
}

// Set reads the quantity.
func (m *measure[T]) Set(text string) error {
	v, err := m.bounds.parse(text)
	if err != nil {
		return err
	}
	*m.target, m.text = quantity.Stated(T(v)), text
	return nil
}

// String gives the quantity as it was written.
func (m *measure[T]) String() string { return m.text }

// Type is what help calls the value.
func (m *measure[T]) Type() string { return m.bounds.unit.Symbol }

// fieldValue is a flag whose value is one of a field of the record: bounds and
// choices are those of the field.
type fieldValue struct {
	field *catalog.Field
	put   func(catalog.Value)
	text  string
}

func newFieldValue(id catalog.FieldID, put func(catalog.Value)) *fieldValue {
	return &fieldValue{field: &catalog.Fields[id], put: put}
}

// Set reads the value.
func (f *fieldValue) Set(text string) error {
	v, err := parseField(f.field, text)
	if err != nil {
		return err
	}
	f.put(v)
	f.text = text
	return nil
}

// parseField reads a value of a field from a flag. Hints that are about cells of
// a file are left out: those on numbers that can be read and are out of bounds.
func parseField(field *catalog.Field, text string) (catalog.Value, error) {
	v, err := field.Parse(text)
	if err == nil || !field.Numeric() {
		return v, err
	}
	if _, unread := quantity.Parse(text, field.Unit); unread != nil {
		return v, err
	}
	return v, usagef("", "%w", err)
}

// String gives the value as it was written.
func (f *fieldValue) String() string { return f.text }

// Type is what help calls the value.
func (f *fieldValue) Type() string {
	if f.field.Unit.Symbol == "" {
		return "value"
	}
	return f.field.Unit.Symbol
}

// readInto is a flag whose value is read by parse into target.
func readInto[T any](target *T, parse func(string) (T, error)) *parsed {
	return newParsed("value", func(text string) error {
		v, err := parse(text)
		if err == nil {
			*target = v
		}
		return err
	})
}
