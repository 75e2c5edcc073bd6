package store

import (
	"encoding/binary"
	"errors"
	"math"
)

// errBytes says that stored bytes do not have the form they should.
var errBytes = errors.New("its content has no valid form")

// cursor reads stored bytes in order. Past an error everything reads as zero
// or empty, and ok tells.
type cursor struct {
	b      []byte
	bad    bool
	memory *memory // to read into; nil: new memory
}

// memory is used again for what is read piece by piece.
type memory struct{ numbers []float64 }

// floats gives memory for n numbers, which holds until it is asked for the next.
func (m *memory) floats(n int) []float64 {
	if m == nil {
		return make([]float64, n)
	}
	m.numbers = sized(m.numbers, n)
	return m.numbers
}

// done gives errBytes unless all bytes were read and were valid.
func (c *cursor) done() error {
	if c.bad || len(c.b) > 0 {
		return errBytes
	}
	return nil
}

func (c *cursor) fail() { c.bad, c.b = true, nil }

func (c *cursor) uint() uint64 {
	v, n := binary.Uvarint(c.b)
	if n <= 0 {
		c.fail()
		return 0
	}
	c.b = c.b[n:]
	return v
}

func (c *cursor) int() int64 {
	v, n := binary.Varint(c.b)
	if n <= 0 {
		c.fail()
		return 0
	}
	c.b = c.b[n:]
	return v
}

// count reads how many items follow, each of at least size bytes.
func (c *cursor) count(size int) int {
	n := c.uint()
	if n > uint64(len(c.b)/size) {
		c.fail()
		return 0
	}
	return int(n)
}

// bytes reads n bytes, as a view.
func (c *cursor) bytes(n int) []byte {
	if n > len(c.b) {
		c.fail()
		return nil
	}
	v := c.b[:n]
	c.b = c.b[n:]
	return v
}

func (c *cursor) byte() byte {
	if v := c.bytes(1); v != nil {
		return v[0]
	}
	return 0
}

func (c *cursor) float() float64 {
	if v := c.bytes(8); v != nil {
		return math.Float64frombits(binary.LittleEndian.Uint64(v))
	}
	return 0
}

func (c *cursor) text() string { return string(c.bytes(c.count(1))) }

func appendFloat(b []byte, v float64) []byte {
	return binary.LittleEndian.AppendUint64(b, math.Float64bits(v))
}

func appendText(b []byte, s string) []byte {
	return append(binary.AppendUvarint(b, uint64(len(s))), s...)
}
