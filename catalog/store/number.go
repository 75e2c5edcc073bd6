package store

import (
	"encoding/binary"
	"math"

	"lowsone/catalog"
)

// Numbers of a parts list are short decimals in the unit of their field. Kept
// as such they take two or three bytes, not eight, and come back bit for bit:
// a number is kept short only where reading it back gives the same bits.
//
//	decimal: ±digits, zigzag, × 4 + decimal places, then a 0 bit
//	other:   1, then the eight bytes
//	unknown: 3
const (
	codeOther   = 1
	codeUnknown = 3
)

// measure is how the numbers of a field are written: in the unit of its name.
type measure struct{ factor, offset float64 }

func measureOf(d *catalog.Field) measure {
	if d.Form != catalog.Quantity {
		return measure{factor: 1}
	}
	return measure{d.Unit.Factor, d.Unit.Offset}
}

// si gives a number of the unit in SI. The conversion keeps a processor from
// adding before it rounds, as some can: the bits must be the same on all.
func (m measure) si(v float64) float64 { return float64(v*m.factor) + m.offset }

// The measures of what a field holds several of.
var (
	flowMeasure      = measureOf(&catalog.Fields[catalog.FieldAirflow])
	pressureMeasure  = measureOf(&catalog.Fields[catalog.FieldStaticPressure])
	frequencyMeasure = measureOf(&catalog.Fields[catalog.FieldFrequency])
	levelMeasure     = measureOf(&catalog.Fields[catalog.FieldNoise])
)

// scales are the powers of ten for as many decimal places as are kept short.
var scales = [4]float64{1, 10, 100, 1000}

// mostDigits bounds the digits kept short: below, each has a float64 of its own.
const mostDigits = 1 << 48

// append adds a number; NaN is unknown.
func (m measure) append(b []byte, v float64) []byte {
	if math.IsNaN(v) {
		return append(b, codeUnknown)
	}
	inUnit := (v - m.offset) / m.factor
	for places, scale := range scales {
		digits := math.Round(inUnit * scale)
		if !(math.Abs(digits) < mostDigits) {
			break
		}
		d := int64(digits)
		if math.Float64bits(m.si(float64(d)/scale)) == math.Float64bits(v) {
			return binary.AppendUvarint(b, uint64(d<<1^d>>63)<<3|uint64(places)<<1)
		}
	}
	return appendFloat(append(b, codeOther), v)
}

// number reads what append wrote.
func (c *cursor) number(m measure) float64 {
	u := c.uint()
	switch {
	case u == codeUnknown:
		return math.NaN()
	case u == codeOther:
		return c.float()
	case u&1 == 1:
		c.fail()
		return 0
	}
	return m.decimal(u)
}

// decimal gives the number of a decimal's code.
func (m measure) decimal(u uint64) float64 {
	digits := int64(u>>4) ^ -int64(u>>3&1)
	return m.si(float64(digits) / scales[u>>1&3])
}

// each reads one number after the other. Decimals of up to three bytes, nearly all
// there are, it reads by itself.
func (c *cursor) each(m measure, to []float64) {
	b := c.b
	for i := range to {
		if len(b) >= 3 {
			switch u := uint64(b[0]); {
			case u&1 == 1: // no decimal
			case u < 0x80:
				to[i], b = m.decimal(u), b[1:]
				continue
			case b[1] < 0x80:
				to[i], b = m.decimal(u&0x7f|uint64(b[1])<<7), b[2:]
				continue
			case b[2] < 0x80:
				to[i], b = m.decimal(u&0x7f|uint64(b[1]&0x7f)<<7|uint64(b[2])<<14), b[3:]
				continue
			}
		}
		c.b = b
		to[i] = c.number(m)
		b = c.b
	}
	c.b = b
}
