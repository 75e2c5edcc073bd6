package index

import "errors"

// Rows are the rows of a catalogue as a search sees them: what the catalogue
// keeps of them for the index, in chunks of consecutive rows, and the chunks in
// groups.
type Rows interface {
	// Groups gives the number of groups.
	Groups() int
	// Group passes the chunks of a group, in their order. What a chunk holds need
	// not stay beyond the call. Several groups may be asked for at once.
	Group(n int, pass func(Chunk) error) error
}

// Chunk is what a search sees of some consecutive rows.
type Chunk struct {
	First int    // row
	Keys  []byte // as a [KeyWriter] gave them; they say how many rows there are
	Slots []Slot
}

// Slot says which text each row of a chunk has in one place, such as the maker
// or the description. A text is the number [Builder.Text] gave it, 0 for none.
type Slot struct {
	Texts []uint32 // the different ones
	// Codes are for each row the place of its text in Texts, of Width bytes, the
	// low one first. Width is 0 where there are none: then all rows have the one
	// text, or, with as many texts as rows, each its own.
	Codes []byte
	Width int
}

// errSlot says that a slot does not tell a text of every row.
var errSlot = errors.New("its texts have no valid form")

// add adds the rows whose text is among those wanted. Not ok where the slot does
// not tell a text of every row.
func (s *Slot) add(to rowSet, wanted rowSet, rows int) (ok bool) {
	each := s.Width == 0 && len(s.Texts) == rows
	if len(s.Codes) != s.Width*rows || s.Width == 0 && !each && len(s.Texts) != 1 {
		return false
	}
	hits := make([]bool, len(s.Texts))
	found := false
	for i, text := range s.Texts {
		hits[i] = wanted.has(int(text))
		found = found || hits[i]
	}
	switch {
	case !found:
		return true
	case s.Width == 1:
		return s.addNarrow(to, hits)
	case s.Width == 2:
		return s.addWide(to, hits)
	case each:
		for i, hit := range hits {
			if hit {
				to.add(i)
			}
		}
		return true
	}
	for i := range rows {
		to.add(i)
	}
	return true
}

func (s *Slot) addNarrow(to rowSet, hits []bool) bool {
	var all [256]bool
	copy(all[:], hits)
	most := byte(0)
	for i, code := range s.Codes {
		most = max(most, code)
		if all[code] {
			to.add(i)
		}
	}
	return int(most) < len(hits)
}

func (s *Slot) addWide(to rowSet, hits []bool) bool {
	for i := range len(s.Codes) / 2 {
		code := int(s.Codes[2*i]) | int(s.Codes[2*i+1])<<8
		if code >= len(hits) {
			return false
		}
		if hits[code] {
			to.add(i)
		}
	}
	return true
}
