package store

import (
	"encoding/binary"
	"math"
	"slices"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// appendBands adds the number of bands and the bands.
func appendBands(b []byte, bands []quantity.BandLevel) []byte {
	b = binary.AppendUvarint(b, uint64(len(bands)))
	for _, l := range bands {
		b = appendFloat(appendFloat(b, float64(l.Frequency)), float64(l.Level))
	}
	return b
}

// bands reads what appendBands wrote, one band or more, and adds it to to.
func (c *cursor) bands(to []quantity.BandLevel) []quantity.BandLevel {
	n := c.count(16)
	if n == 0 {
		c.fail()
	}
	to = slices.Grow(to, n)
	for range n {
		to = append(to, quantity.BandLevel{Frequency: quantity.Frequency(c.float()), Level: quantity.Decibel(c.float())})
	}
	return to
}

// encodeBands gives the chunk of the bands of all rows of c: how many rows have
// any, then for each how many rows it stands behind the last one, and its bands.
func encodeBands(c *catalog.Columns) []byte {
	b := binary.AppendUvarint(nil, uint64(len(c.BandRows)))
	next := uint32(0)
	for _, row := range c.BandRows {
		b = binary.AppendUvarint(b, uint64(row-next))
		b = appendBands(b, c.Bands(int(row)))
		next = row + 1
	}
	return b
}

// decodeBands adds the bands of a chunk of the rows begin to before end to those
// of to.
func decodeBands(chunk []byte, begin, end int, to *catalog.Columns) error {
	c := cursor{b: chunk}
	next := uint64(begin)
	for range c.count(2) {
		row := next + c.uint()
		if row < next || row >= uint64(end) {
			return errBytes
		}
		to.BandLevels = c.bands(to.BandLevels)
		if c.bad || len(to.BandLevels) > math.MaxUint32 {
			return errBytes
		}
		to.BandRows = append(to.BandRows, uint32(row))
		to.BandEnd = append(to.BandEnd, uint32(len(to.BandLevels)))
		next = row + 1
	}
	return c.done()
}
