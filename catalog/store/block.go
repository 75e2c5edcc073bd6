package store

import (
	"encoding/binary"
	"math/bits"

	"lowsone/catalog/quantity"
)

// A block is the records of up to blockRows rows, field by field, so that what
// repeats from row to row is told once: parts of one series stand together in
// every list, and have most of their values in common. Numbers stand bit for
// bit, a text that came before in the block by its place.
//
//	fields: of each what fieldValues writes
//	lines:  the source lines, each as its distance from the one before
//	extras: number of slots, for each the header and its texts
//	remarks: number of slots, for each its texts
//
// A general encoding such as CBOR would need the same walk through the field
// table, name the fields in every record and be several times as long.

// blockWriter writes the blocks of a chunk from the values an encoder collected.
type blockWriter struct {
	b        []byte
	from, to int      // rows
	places   []uint32 // by code: which of the block's texts of the field it is, from 1; 0: not there yet
}

// The head of a field's values in a block: who has one, of which origin, and
// which of those are given.
const (
	knownNone = 0
	knownAll  = 1
	knownSome = 2 // four bytes follow: a bit for each row

	originShift  = 2 // the origin of all values; 0: of each, two bits in as many bytes as needed
	changeShift  = 4
	changeNever  = 0 // the first value is that of all
	changeAlways = 1
	changeSome   = 2 // four bytes follow: a bit for each value that is another than the one before
)

// blocks writes the records of all rows.
func (e *encoder) blocks() [][]byte {
	var list [][]byte
	for from := 0; from < len(e.fans); from += blockRows {
		list = append(list, e.writeBlock(from, min(from+blockRows, len(e.fans))))
	}
	return list
}

func (e *encoder) writeBlock(from, to int) []byte {
	w := &e.block
	w.b, w.from, w.to = w.b[:0], from, to
	for i := range e.values {
		w.values(&e.values[i])
	}
	line := 0
	for _, f := range e.fans[from:to] {
		w.b = binary.AppendVarint(w.b, int64(f.Source.Line-line))
		line = f.Source.Line
	}
	w.slots(e.extras, e.headers)
	w.slots(e.remarks, nil)
	return append([]byte(nil), w.b...)
}

// slots writes the slots that have a text in the block.
func (w *blockWriter) slots(slots []values, headers []string) {
	used := 0
	for i := range slots {
		if w.known(&slots[i]) != 0 {
			used++
		}
	}
	w.b = binary.AppendUvarint(w.b, uint64(used))
	for i := range slots {
		if w.known(&slots[i]) == 0 {
			continue
		}
		if headers != nil {
			w.b = appendText(w.b, headers[i])
		}
		w.values(&slots[i])
	}
}

// known gives a bit for each row of the block that has a value.
func (w *blockWriter) known(v *values) (known uint32) {
	for i, o := range v.origins[w.from:w.to] {
		if o != quantity.Unknown {
			known |= 1 << i
		}
	}
	return known
}

// values writes the values of one field.
func (w *blockWriter) values(v *values) {
	known := w.known(v)
	if known == 0 {
		w.b = append(w.b, knownNone)
		return
	}
	head := len(w.b)
	w.b = append(w.b, knownAll)
	if n := w.to - w.from; known != uint32(1<<n-1) {
		w.b[head] = knownSome
		w.b = binary.LittleEndian.AppendUint32(w.b, known)
	}
	w.b[head] |= w.origins(v, known) << originShift
	changes := w.changes(v, known)
	switch count := bits.OnesCount32(known); {
	case changes == 1:
		w.b[head] |= changeNever << changeShift
	case changes == uint32(1<<count-1):
		w.b[head] |= changeAlways << changeShift
	default:
		w.b[head] |= changeSome << changeShift
		w.b = binary.LittleEndian.AppendUint32(w.b, changes)
	}
	w.changed(v, known, changes)
}

// origins writes the origins of the values known, or gives the one of all.
func (w *blockWriter) origins(v *values, known uint32) (one byte) {
	mixed := false
	for k := known; k != 0; k &= k - 1 {
		o := byte(v.origins[w.from+bits.TrailingZeros32(k)])
		mixed = mixed || one != 0 && o != one
		one = o
	}
	if !mixed {
		return one
	}
	n := 0
	for k := known; k != 0; k &= k - 1 {
		if n%4 == 0 {
			w.b = append(w.b, 0)
		}
		w.b[len(w.b)-1] |= byte(v.origins[w.from+bits.TrailingZeros32(k)]) << (n % 4 * 2)
		n++
	}
	return 0
}

// changes gives a bit for each known value that is another than the one before;
// the first always is.
func (w *blockWriter) changes(v *values, known uint32) (changes uint32) {
	n, before := 0, -1
	for k := known; k != 0; k &= k - 1 {
		row := w.from + bits.TrailingZeros32(k)
		if before < 0 || !v.same(before, row) {
			changes |= 1 << n
		}
		before = row
		n++
	}
	return changes
}

// same says whether two rows have one value.
func (v *values) same(a, b int) bool {
	if v.paired() {
		return v.pairs.same(a, b)
	}
	return v.codes[a] == v.codes[b]
}

// changed writes the values that are marked.
func (w *blockWriter) changed(v *values, known, changes uint32) {
	w.forget(v)
	given := uint32(0) // texts of this field so far
	for n, k := 0, known; k != 0; n, k = n+1, k&(k-1) {
		if changes>>n&1 == 0 {
			continue
		}
		row := w.from + bits.TrailingZeros32(k)
		switch {
		case v.paired():
			w.b = v.pairs.append(w.b, v.field, row)
			continue
		case v.texts == nil:
			w.b = append(w.b, v.entries.at(v.codes[row])...)
			continue
		}
		place := &w.places[v.codes[row]]
		w.b = binary.AppendUvarint(w.b, uint64(*place))
		if *place == 0 {
			given++
			*place = given
			w.b = append(w.b, v.entries.at(v.codes[row])...)
		}
	}
}

// forget begins the texts of a field.
func (w *blockWriter) forget(v *values) {
	if n := len(v.texts); len(w.places) < n {
		w.places = make([]uint32, n)
	} else {
		clear(w.places[:n])
	}
}
