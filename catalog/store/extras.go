package store

import (
	"encoding/binary"
	"slices"

	"lowsone/catalog/quantity"
)

// The columns that were not recognised, and the remarks of the reading, are
// lists of texts that differ from row to row. They are kept like columns, in
// slots: a slot takes the texts of one header. Within a row the slots rise, so
// that its texts come back in their order; a header that stands there twice,
// or before another that it stood behind, has several slots.

// takeExtras sorts the extras of the rows into slots.
func (e *encoder) takeExtras() {
	e.headers = e.headers[:0]
	for _, f := range e.fans {
		slot := -1
		for i := range f.Extra {
			slot = e.slot(f.Extra[i].Header, slot+1)
		}
	}
	e.extras = resized(e.extras, len(e.headers))
	for slot := range e.extras {
		e.extras[slot].reset(nil)
	}
	e.fill(e.extras, func(row int, put func(slot int, text string)) {
		slot := -1
		for _, x := range e.fans[row].Extra {
			slot = e.slot(x.Header, slot+1)
			put(slot, x.Text)
		}
	})
}

// slot gives the first slot of a header from a slot on.
func (e *encoder) slot(header string, from int) int {
	if i := slices.Index(e.headers[from:], header); i >= 0 {
		return from + i
	}
	e.headers = append(e.headers, header)
	return len(e.headers) - 1
}

// takeRemarks sorts the remarks of the rows into slots, by their order.
func (e *encoder) takeRemarks() {
	most := 0
	for _, f := range e.fans {
		most = max(most, len(f.Remarks))
	}
	e.remarks = resized(e.remarks, most)
	for slot := range e.remarks {
		e.remarks[slot].reset(nil)
	}
	e.fill(e.remarks, func(row int, put func(slot int, text string)) {
		for slot, text := range e.fans[row].Remarks {
			put(slot, text)
		}
	})
}

func resized(list []values, n int) []values {
	for len(list) < n {
		list = append(list, values{})
	}
	return list[:n]
}

// slotText is a text of a slot, in a row.
type slotText struct {
	row  int
	text string
}

// fill collects the texts of slots: each passes those of a row.
func (e *encoder) fill(slots []values, each func(row int, put func(slot int, text string))) {
	texts := make([][]slotText, len(slots))
	for row := range e.fans {
		each(row, func(slot int, text string) { texts[slot] = append(texts[slot], slotText{row, text}) })
	}
	for slot, list := range texts {
		v := &slots[slot]
		e.distincts.reset(len(e.fans))
		for row := range e.fans {
			text, origin := "", quantity.Unknown
			if len(list) > 0 && list[0].row == row {
				text, origin, list = list[0].text, quantity.Cell, list[1:]
			}
			v.codes = append(v.codes, e.distincts.text(text))
			v.origins = append(v.origins, origin)
		}
		e.entries(v)
	}
}

// extrasPiece gives the extras as columns of texts, without their headers: they
// are there for their words.
func (e *encoder) extrasPiece() []byte {
	b := binary.AppendUvarint(nil, uint64(len(e.extras)))
	for i := range e.extras {
		column := appendCoded(nil, e.extras[i].codes, &e.extras[i].entries)
		b = append(binary.AppendUvarint(b, uint64(len(column))), column...)
	}
	return b
}
