package partscsv

import (
	"slices"
	"strings"

	"lowsone/catalog/quantity"
)

// header is the header of one column, taken apart.
type header struct {
	text       string       // as it stands in the file
	tokens     []string     // words, see vocabulary.tokens
	units      []headerUnit // units of its values, in order
	conditions []condition  // "at 1 m", "50 Hz": what the values hold for
	product    string       // letters of a product: "wxhxd"; empty for none
	currency   string       // ISO code or sign
	letter     bool         // it is one letter, for a unit or for a quantity
}

// headerUnit is a unit as a header spells it.
type headerUnit struct {
	units    []quantity.Unit // that are spelled so
	spelling string          // folded
}

// condition is a quantity that a header or a cell names beside its values.
type condition struct {
	value float64
	units []quantity.Unit
}

// in gives the condition in SI, if it is of dimension d.
func (c condition) in(d quantity.Dimension) (float64, bool) {
	u, ok := ofDimension(c.units, d)
	return u.ToSI(c.value), ok
}

// unit gives the header's unit of dimension d.
func (h *header) unit(d quantity.Dimension) (quantity.Unit, bool) {
	for _, u := range h.units {
		if found, ok := ofDimension(u.units, d); ok {
			return found, true
		}
	}
	return quantity.Unit{}, false
}

// unitsOf gives all units of dimension d, in the order they stand.
func (h *header) unitsOf(d quantity.Dimension) []quantity.Unit {
	var list []quantity.Unit
	for _, u := range h.units {
		if found, ok := ofDimension(u.units, d); ok {
			list = append(list, found)
		}
	}
	return list
}

// has says whether the header holds a word.
func (h *header) has(token string) bool { return slices.Contains(h.tokens, token) }

// longestHeader is more bytes than a header has that says what its column is.
const longestHeader = 1000

// parseHeader takes a header apart: units and conditions are cut out of the
// words wherever they stand. second is the cell below where the file has a
// second line of headers, such as one of units.
func (x *lexicon) parseHeader(text, second string) header {
	h := header{text: text}
	if unnamed(text) || len(text) > longestHeader {
		text = ""
	}
	if len(second) > longestHeader {
		second = ""
	}
	text = withoutCount(text)
	if second != "" {
		text += " [" + second + "]"
	}
	s := headerScan{x: x, h: &h, text: strings.ReplaceAll(normalise(text), "_", " ")}
	s.numero()
	s.text = otherWeighting.ReplaceAllString(s.text, "dB$1")
	s.run()
	h.tokens = x.vocabulary.tokens(x.vocabulary.initials(s.rest.String()))
	if letter := strings.TrimSpace(normalise(h.text)); len(h.tokens) == 0 && len(letter) == 1 {
		h.tokens = []string{strings.ToLower(letter)} // V and W are letters for a quantity too
		h.letter = true
	}
	return h
}

// unnamed says whether a header is only the number of its column, as columns
// without header are called.
func unnamed(text string) bool {
	number, ok := strings.CutPrefix(text, "column ")
	return ok && number != "" && strings.Trim(number, "0123456789") == ""
}

// withoutCount takes the number off by which a repeated header is told from the
// first: "Airflow (2)".
func withoutCount(text string) string {
	open := strings.LastIndex(text, " (")
	if open < 0 || !strings.HasSuffix(text, ")") || strings.Trim(text[open+2:len(text)-1], "0123456789") != "" {
		return text
	}
	return text[:open]
}
