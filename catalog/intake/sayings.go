package intake

import (
	"lowsone/catalog"
	"lowsone/catalog/partscsv"
	"lowsone/catalog/quantity"
)

// whole are the fields that often hold for a whole list, so that no row states
// them.
var whole = [...]catalog.FieldID{catalog.FieldKind, catalog.FieldSupply, catalog.FieldSupplier}

// sayings count who says what holds for a whole list: by the place of the given
// value the rows that took it, by the place of the field in whole the rows in
// which it is known.
type sayings struct {
	took  []int
	known [len(whole)]int
}

// add takes in a fan, and which given values its row took.
func (s *sayings) add(f *catalog.Fan, took []int) {
	for _, i := range took {
		for len(s.took) <= i {
			s.took = append(s.took, 0)
		}
		s.took[i]++
	}
	for i, id := range whole {
		if _, origin := catalog.Fields[id].Get(f); origin != quantity.Unknown {
			s.known[i]++
		}
	}
}

// merge adds what was counted elsewhere.
func (s *sayings) merge(other *sayings) {
	for i, n := range other.took {
		for len(s.took) <= i {
			s.took = append(s.took, 0)
		}
		s.took[i] += n
	}
	for i, n := range other.known {
		s.known[i] += n
	}
}

// values says how many rows took each of the given values.
func (s *sayings) values(given []partscsv.Given) (list []Taken) {
	for i := range given {
		t := Taken{Field: given[i].Field, Text: given[i].Text}
		if i < len(s.took) {
			t.Rows = s.took[i]
		}
		list = append(list, t)
	}
	return list
}

// unstated lists the fields of whole that no row states and nobody gave.
func (s *sayings) unstated() (list []catalog.FieldID) {
	for i, id := range whole {
		if s.known[i] == 0 {
			list = append(list, id)
		}
	}
	return list
}
