package store

import (
	"encoding/binary"
	"math"

	"lowsone/catalog"
)

// encodeCurves gives the chunk of the curve points of all rows of c: how many
// points each row has, then all flows, then all pressures.
func encodeCurves(c *catalog.Columns) []byte {
	if len(c.CurveFlow) == 0 {
		return []byte{formOne} // no row has points
	}
	b := []byte{formEach}
	begin := uint32(0)
	for _, end := range c.CurveEnd {
		b = binary.AppendUvarint(b, uint64(end-begin))
		begin = end
	}
	for _, values := range [][]float64{c.CurveFlow, c.CurvePressure} {
		for _, v := range values {
			b = appendFloat(b, v)
		}
	}
	return b
}

// decodeCurves adds the points of a chunk of so many rows to those of c.
func decodeCurves(chunk []byte, rows int, to *catalog.Columns) error {
	c := cursor{b: chunk}
	form := c.byte()
	total := 0
	for range rows {
		if form == formEach {
			total += c.count(1)
		}
		if len(to.CurveFlow)+total > math.MaxUint32 {
			return errBytes
		}
		to.CurveEnd = append(to.CurveEnd, uint32(len(to.CurveFlow)+total))
	}
	if form > formOne || total > len(c.b)/16 {
		return errBytes
	}
	to.CurveFlow = appendFloats(to.CurveFlow, c.bytes(8*total))
	to.CurvePressure = appendFloats(to.CurvePressure, c.bytes(8*total))
	return c.done()
}
