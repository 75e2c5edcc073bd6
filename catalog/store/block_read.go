package store

import (
	"encoding/binary"
	"math/bits"
	"slices"
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// blockReader reads a block into fans, all or one of them.
type blockReader struct {
	cursor
	rows int
	only int // row to read; below 0: all
	fans []*catalog.Fan
}

// readBlock gives the fans of a block of so many rows. Where only is a row, the
// others are nil. Bytes that no block is written as are an error.
func (s schema) readBlock(block []byte, rows, only int) ([]*catalog.Fan, error) {
	if rows < 1 || rows > blockRows {
		return nil, errBytes
	}
	r := &blockReader{cursor: cursor{b: block}, rows: rows, only: only, fans: make([]*catalog.Fan, rows)}
	for i := range r.fans {
		if only < 0 || i == only {
			r.fans[i] = &catalog.Fan{}
		}
	}
	for _, d := range s {
		r.field(d)
	}
	line := 0
	for _, f := range r.fans {
		if line += int(r.int()); f != nil {
			f.Source.Line = line
		}
	}
	r.slots(true, func(f *catalog.Fan, header, text string) {
		f.Extra = append(f.Extra, catalog.Extra{Header: header, Text: text})
	})
	r.slots(false, func(f *catalog.Fan, _, text string) { f.Remarks = append(f.Remarks, text) })
	for _, f := range r.fans {
		if f != nil && strings.TrimSpace(f.Part) == "" {
			r.fail()
		}
	}
	return r.fans, r.done()
}

// slots reads slots of texts and passes the texts of the rows wanted.
func (r *blockReader) slots(headed bool, put func(f *catalog.Fan, header, text string)) {
	for range r.count(1) {
		header := ""
		if headed {
			header = r.text()
		}
		h := r.head()
		if h.known == 0 {
			r.fail() // such a slot is not written
		}
		texts := literals{}
		h.each(r, func() {
			texts.next(r)
		}, func(row int, _ quantity.Origin) {
			put(r.fans[row], header, texts.text())
		})
	}
}

// field reads the values of a field.
func (r *blockReader) field(d *catalog.Field) {
	h := r.head()
	texts := literals{}
	var v catalog.Value
	h.each(r, func() {
		if d.Form == catalog.Text {
			texts.next(r)
			return
		}
		v = r.value(d)
	}, func(row int, origin quantity.Origin) {
		if d.Form == catalog.Text {
			v.Text = texts.text()
		}
		if unstorable(d, &v, origin) != "" {
			r.fail()
			return
		}
		own := v
		own.Curve, own.Bands = slices.Clone(v.Curve), slices.Clone(v.Bands)
		d.Put(r.fans[row], own, origin)
	})
}

// value reads a value that is no text.
func (r *blockReader) value(d *catalog.Field) (v catalog.Value) {
	switch d.Form {
	case catalog.Choice:
		v.Number = float64(r.byte())
	case catalog.Points, catalog.Bands:
		return r.pairsValue(d)
	default:
		v.Number = r.number(measureOf(d))
	}
	return v
}

// fieldHead is the head of a field's values.
type fieldHead struct {
	known   uint32
	origin  quantity.Origin // of all values; Unknown: see origins
	origins []byte          // two bits each
	changes uint32          // by value: another than the one before
}

func (r *blockReader) head() (h fieldHead) {
	b := r.byte()
	switch b & 3 {
	case knownNone:
		if b != knownNone {
			r.fail()
		}
		return h
	case knownAll:
		h.known = uint32(1<<r.rows - 1)
	case knownSome:
		h.known = r.bits()
	default:
		r.fail()
	}
	if h.known == 0 || h.known > uint32(1<<r.rows-1) {
		r.fail()
		return fieldHead{}
	}
	count := bits.OnesCount32(h.known)
	if h.origin = quantity.Origin(b >> originShift & 3); h.origin == quantity.Unknown {
		h.origins = r.bytes((count + 3) / 4)
	}
	switch b >> changeShift {
	case changeNever:
		h.changes = 1
	case changeAlways:
		h.changes = 1<<32 - 1
	case changeSome:
		h.changes = r.bits()
	default:
		r.fail()
	}
	if h.changes&1 == 0 { // the first value is always given
		r.fail()
	}
	if r.bad {
		return fieldHead{}
	}
	return h
}

// bits reads a bit for each row.
func (r *blockReader) bits() uint32 {
	if b := r.bytes(4); b != nil {
		return binary.LittleEndian.Uint32(b)
	}
	return 0
}

// each goes through the known values: next reads one that is given, put takes
// the last one for a row that is wanted.
func (h fieldHead) each(r *blockReader, next func(), put func(row int, origin quantity.Origin)) {
	n := 0
	for k := h.known; k != 0 && !r.bad; k &= k - 1 {
		row := bits.TrailingZeros32(k)
		if h.changes>>n&1 == 1 {
			next()
		}
		origin := h.origin
		if h.origins != nil {
			origin = quantity.Origin(h.origins[n/4] >> (n % 4 * 2) & 3)
		}
		if origin == quantity.Unknown {
			r.fail()
		}
		if !r.bad && r.fans[row] != nil {
			put(row, origin)
		}
		n++
	}
}

// literals are the texts of a field in a block, in the order they came.
type literals struct {
	texts []literal
	at    int
}

type literal struct {
	raw  []byte
	text string // of raw, once it is wanted
}

// next reads the place of a text, or a text.
func (l *literals) next(r *blockReader) {
	place := r.uint()
	if place > uint64(len(l.texts)) {
		r.fail()
		return
	}
	l.at = int(place) - 1
	if place == 0 {
		l.texts = append(l.texts, literal{raw: r.bytes(r.count(1))})
		l.at = len(l.texts) - 1
	}
}

// text gives the text read last.
func (l *literals) text() string {
	t := &l.texts[l.at]
	if t.text == "" {
		t.text = string(t.raw)
	}
	return t.text
}
