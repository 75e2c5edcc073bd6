package store

import (
	"encoding/binary"
	"math"

	"lowsone/catalog"
)

// A column is kept in chunks of chunkRows rows, each in the form that suits
// its values. Chunks name their form, so that more can be added.
const chunkRows = 8192

// The forms of a chunk.
const (
	formEach byte = iota // every value as it is
	formOne              // one value in all rows
	formFew              // up to 256 values, then a byte for each row
)

// encodeNumbers keeps the bits of every number; NaN is unknown.
func encodeNumbers(values []float64) []byte {
	few, codes := distinct(values, math.Float64bits)
	switch {
	case len(few) == 1:
		return appendFloat([]byte{formOne}, few[0])
	case few != nil:
		b := []byte{formFew, byte(len(few) - 1)}
		for _, v := range few {
			b = appendFloat(b, v)
		}
		return append(b, codes...)
	}
	b := make([]byte, 1, 1+8*len(values))
	for _, v := range values {
		b = appendFloat(b, v)
	}
	return b
}

// distinct lists the different values in the order they come, and for every
// value its place in the list; nil where there are more than 256 or none.
func distinct[T any, K comparable](values []T, keyOf func(T) K) (list []T, codes []byte) {
	places := make(map[K]byte, 16)
	codes = make([]byte, len(values))
	for i, v := range values {
		place, ok := places[keyOf(v)]
		if !ok {
			if len(list) == 256 {
				return nil, nil
			}
			place = byte(len(list))
			places[keyOf(v)] = place
			list = append(list, v)
		}
		codes[i] = place
	}
	return list, codes
}

// decodeNumbers fills to, one number for each row of the chunk.
func decodeNumbers(chunk []byte, to []float64) error {
	c := cursor{b: chunk}
	switch c.byte() {
	case formEach:
		raw := c.bytes(8 * len(to))
		if raw == nil {
			return errBytes
		}
		getFloats(to, raw)
	case formOne:
		v := c.float()
		for i := range to {
			to[i] = v
		}
	case formFew:
		var few [256]float64
		n := int(c.byte()) + 1
		for i := range n {
			few[i] = c.float()
		}
		codes := c.bytes(len(to))
		for i, code := range codes {
			if int(code) >= n {
				return errBytes
			}
			to[i] = few[code]
		}
	default:
		return errBytes
	}
	return c.done()
}

func encodeCodes(values []uint8) []byte {
	if few, _ := distinct(values, func(v uint8) uint8 { return v }); len(few) == 1 {
		return []byte{formOne, few[0]}
	}
	return append([]byte{formEach}, values...)
}

// decodeCodes fills to; a code above most is an error.
func decodeCodes(chunk []byte, to []uint8, most int) error {
	c := cursor{b: chunk}
	switch c.byte() {
	case formEach:
		copy(to, c.bytes(len(to)))
	case formOne:
		v := c.byte()
		for i := range to {
			to[i] = v
		}
	default:
		return errBytes
	}
	for _, v := range to {
		if int(v) > most {
			return errBytes
		}
	}
	return c.done()
}

func encodeTexts(s catalog.Strings) []byte {
	values := make([]string, len(s.End))
	for i := range values {
		values[i] = s.At(i)
	}
	few, codes := distinct(values, func(v string) string { return v })
	switch {
	case len(few) == 1:
		return appendText([]byte{formOne}, few[0])
	case few != nil:
		b := []byte{formFew, byte(len(few) - 1)}
		for _, v := range few {
			b = appendText(b, v)
		}
		return append(b, codes...)
	}
	b := []byte{formEach}
	for _, v := range values {
		b = binary.AppendUvarint(b, uint64(len(v)))
	}
	return append(b, s.Data...)
}

// decode adds a chunk of so many rows.
func (t *texts) decode(chunk []byte, rows int) error {
	c := cursor{b: chunk}
	switch c.byte() {
	case formEach:
		total := t.data.Len()
		for range rows {
			total += c.count(1)
			t.end = append(t.end, uint32(total))
		}
		t.data.Write(c.bytes(total - t.data.Len()))
	case formOne:
		v := c.bytes(c.count(1))
		for range rows {
			t.add(v)
		}
	case formFew:
		few := make([][]byte, int(c.byte())+1)
		for i := range few {
			few[i] = c.bytes(c.count(1))
		}
		for _, code := range c.bytes(rows) {
			if int(code) >= len(few) {
				return errBytes
			}
			t.add(few[code])
		}
	default:
		return errBytes
	}
	if t.data.Len() > math.MaxUint32 {
		return errBytes
	}
	return c.done()
}

func (t *texts) add(v []byte) {
	t.data.Write(v)
	t.end = append(t.end, uint32(t.data.Len()))
}
