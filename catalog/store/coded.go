package store

import (
	"encoding/binary"
	"math"
	"slices"
)

// A column is kept in pieces, one for each chunk of rows. A piece holds an
// entry for each row: a number, a text, a choice or a count of points, in the
// form that takes the fewest bytes. Pieces name their form, so that more can be
// added.
const (
	formOne  byte = iota // one entry for all rows
	formFew              // up to 256 entries, behind a byte for each row
	formMany             // up to 65 536 entries, behind two bytes for each row
	formEach             // an entry for each row
)

// entries are the different entries of a column, one behind the other.
type entries struct {
	data []byte
	ends []uint32
}

func (e *entries) reset() { e.data, e.ends = e.data[:0], e.ends[:0] }

// end ends the entry that was added to data.
func (e *entries) end() { e.ends = append(e.ends, uint32(len(e.data))) }

func (e *entries) len() int { return len(e.ends) }

func (e *entries) at(code uint16) []byte {
	begin := uint32(0)
	if code > 0 {
		begin = e.ends[code-1]
	}
	return e.data[begin:e.ends[code]]
}

// appendCoded adds the piece of rows with these codes of entries.
func appendCoded(b []byte, codes []uint16, e *entries) []byte {
	n := e.len()
	switch {
	case n == 1:
		return append(append(b, formOne), e.data...)
	case n == 0:
		return append(b, formEach) // no rows
	case n <= 256:
		b = append(b, formFew, byte(n-1))
		for _, code := range codes {
			b = append(b, byte(code))
		}
		return append(b, e.data...)
	}
	if each := eachBytes(codes, e); each <= 2*len(codes)+len(e.data) {
		b = append(b, formEach)
		for _, code := range codes {
			b = append(b, e.at(code)...)
		}
		return b
	}
	b = binary.AppendUvarint(append(b, formMany), uint64(n))
	for _, code := range codes {
		b = binary.LittleEndian.AppendUint16(b, code)
	}
	return append(b, e.data...)
}

func eachBytes(codes []uint16, e *entries) (total int) {
	for _, code := range codes {
		total += len(e.at(code))
	}
	return total
}

// coded is the beginning of a piece. Entries follow, as many as count says.
type coded struct {
	count int
	codes []byte
	width int // of a code: 0 where the entries are those of the rows, or one for all
}

// coded reads the beginning of a piece of so many rows.
func (c *cursor) coded(rows int) (p coded) {
	switch form := c.byte(); form {
	case formOne:
		p.count = 1
	case formFew:
		p.width, p.count = 1, int(c.byte())+1
	case formMany:
		p.width, p.count = 2, c.count(1)
	case formEach:
		p.count = rows
	default:
		c.fail()
	}
	if p.codes = c.bytes(p.width * rows); p.codes == nil && p.width*rows > 0 {
		c.fail()
		return coded{}
	}
	if p.count > len(c.b) { // an entry takes a byte or more
		c.fail()
		return coded{}
	}
	return p
}

// spread fills to, a value for each row, from the values of the entries. Not ok
// where a code has no entry.
func spread[T any](p coded, values []T, to []T) bool {
	switch {
	case p.width == 1 && p.count == 256:
		table := (*[256]T)(values)
		for i, code := range p.codes {
			to[i] = table[code]
		}
	case p.width == 1:
		for i, code := range p.codes {
			if int(code) >= len(values) {
				return false
			}
			to[i] = values[code]
		}
	case p.width == 2:
		for i := range to {
			code := int(binary.LittleEndian.Uint16(p.codes[2*i:]))
			if code >= len(values) {
				return false
			}
			to[i] = values[code]
		}
	case p.count == 1 && len(values) == 1:
		for i := range to {
			to[i] = values[0]
		}
	default:
		copy(to, values)
	}
	return true
}

// numbers reads a piece of numbers, one for each row.
func (c *cursor) numbers(m measure, to []float64) {
	p := c.coded(len(to))
	if p.width == 0 && p.count == len(to) {
		c.each(m, to)
		return
	}
	values := c.memory.floats(p.count)
	c.each(m, values)
	if !spread(p, values, to) {
		c.fail()
	}
}

// choices reads a piece of choices, one for each row; one above most is an
// error.
func (c *cursor) choices(to []uint8, most int) {
	p := c.coded(len(to))
	values := c.bytes(p.count)
	if len(values) < p.count || !spread(p, values, to) {
		c.fail()
	}
	for _, v := range values {
		if int(v) > most {
			c.fail()
		}
	}
}

// texts reads a piece of texts, one for each row, and adds them to to.
func (c *cursor) texts(rows int, to *texts) {
	p := c.coded(rows)
	if p.width == 0 && p.count == rows {
		for range rows {
			to.add(c.bytes(c.count(1)))
		}
		return
	}
	values := c.list(p.count)
	to.views = slices.Grow(to.views[:0], rows)[:rows]
	if !spread(p, values, to.views) {
		c.fail()
		return
	}
	for _, v := range to.views {
		to.add(v)
	}
	if to.data.Len() > math.MaxUint32 {
		c.fail()
	}
}

// list reads so many texts, as views.
func (c *cursor) list(n int) [][]byte {
	values := make([][]byte, n)
	for i := range values {
		values[i] = c.bytes(c.count(1))
	}
	return values
}
