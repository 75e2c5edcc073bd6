package view

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"unicode/utf8"

	"lowsone/catalog"
)

// Schema is embedded first in every object that is written, and gives it
// "schema_version": 1. The version rises when a key changes its name or
// meaning, not when one is added.
type Schema struct {
	Version schemaVersion `json:"schema_version"`
}

type schemaVersion struct{}

// MarshalJSON gives the version of the shapes in this package.
func (schemaVersion) MarshalJSON() ([]byte, error) { return []byte("1"), nil }

// Number is a number in JSON: plain, with ten significant digits. NaN is
// unknown: give its member the option omitzero, and the key is absent.
type Number float64

// IsZero says whether the number is unknown, for omitzero. 0 is known.
func (n Number) IsZero() bool { return math.IsNaN(float64(n)) }

// MarshalJSON writes the number; what is not finite is an error, since JSON
// cannot hold it.
func (n Number) MarshalJSON() ([]byte, error) {
	if v := float64(n); math.IsNaN(v) || math.IsInf(v, 0) {
		return nil, fmt.Errorf("%v is no JSON number", v)
	}
	return []byte(catalog.Number(float64(n))), nil
}

// List is a list in JSON: [] where it is empty, never null.
type List[T any] []T

// MarshalJSON writes the list.
func (l List[T]) MarshalJSON() ([]byte, error) {
	if len(l) == 0 {
		return []byte("[]"), nil
	}
	var b bytes.Buffer
	err := encoder(&b).Encode([]T(l))
	return b.Bytes(), err
}

// WriteJSON writes v as one indented object and a line end. Characters that a
// terminal would obey stand as \u escapes.
func WriteJSON(w io.Writer, v any) error {
	var plain, indented bytes.Buffer
	if err := encoder(&plain).Encode(v); err != nil {
		return fmt.Errorf("write JSON: %w", err)
	}
	if err := json.Indent(&indented, plain.Bytes(), "", "  "); err != nil {
		return fmt.Errorf("write JSON: %w", err)
	}
	_, err := w.Write(escapeControls(indented.Bytes()))
	return err
}

func encoder(w io.Writer) *json.Encoder {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	return e
}

// escapeControls escapes what encoding/json lets through: DEL, the C1 controls
// and the marks that turn the direction of writing. They stand only inside
// strings.
func escapeControls(text []byte) []byte {
	if bytes.IndexFunc(text, hidden) < 0 {
		return text
	}
	out := make([]byte, 0, len(text)+64)
	for len(text) > 0 {
		r, n := utf8.DecodeRune(text)
		if hidden(r) {
			out = fmt.Appendf(out, `\u%04x`, r)
		} else {
			out = append(out, text[:n]...)
		}
		text = text[n:]
	}
	return out
}
