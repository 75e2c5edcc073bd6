package store

import (
	"encoding/binary"
	"math"
	"slices"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// Curves and bands are pairs of numbers, any number of them in a row. Their
// piece holds three columns: how many pairs each row has; the first numbers of
// all pairs, behind the number of their bytes; and the second ones. Where no row
// has pairs the first column stands alone.

// pairs are the pairs of all rows of a chunk.
type pairs struct {
	counts        []int // by row
	first, second []float64
	begins        []int // by row; where they are written
}

func (p *pairs) reset() {
	p.counts, p.begins = p.counts[:0], p.begins[:0]
	p.first, p.second = p.first[:0], p.second[:0]
}

func (p *pairs) add(first, second float64) {
	p.first, p.second = append(p.first, first), append(p.second, second)
}

// pairMeasures gives the measures of a field of points or bands.
func pairMeasures(d *catalog.Field) (first, second measure) {
	if d.Form == catalog.Bands {
		return frequencyMeasure, levelMeasure
	}
	return flowMeasure, pressureMeasure
}

// paired says whether the values are pairs.
func (v *values) paired() bool {
	return v.field != nil && (v.field.Form == catalog.Points || v.field.Form == catalog.Bands)
}

// take adds the pairs of a row.
func (p *pairs) take(d *catalog.Field, v *catalog.Value) {
	p.begins = append(p.begins, len(p.first))
	if d.Form == catalog.Bands {
		for _, l := range v.Bands {
			p.add(float64(l.Frequency), float64(l.Level))
		}
		p.counts = append(p.counts, len(v.Bands))
		return
	}
	for _, c := range v.Curve {
		p.add(float64(c.Flow), float64(c.Pressure))
	}
	p.counts = append(p.counts, len(v.Curve))
}

// counts reads how many pairs each row of a piece has, and gives their sum.
func (c *cursor) counts(to []int) (total int) {
	p := c.coded(len(to))
	values := make([]int, p.count)
	for i := range values {
		values[i] = int(min(c.uint(), maxPairs))
	}
	if !spread(p, values, to) {
		c.fail()
	}
	for _, n := range to {
		total += n
	}
	// However short, a pair of its own takes its code or its bytes in each half;
	// only where all are alike a few bytes can stand for many.
	if c.bad || total > maxPairs {
		c.fail()
		return 0
	}
	return total
}

// maxPairs bounds what a piece may claim to hold: more than a chunk of records
// of the greatest length does.
const maxPairs = 1 << 24

// firsts reads the first numbers of the pairs of a piece, behind its counts.
func (c *cursor) firsts(m measure, to []float64) {
	if len(to) == 0 {
		return
	}
	column := cursor{b: c.bytes(c.count(1)), memory: c.memory}
	if column.numbers(m, to); column.done() != nil {
		c.fail()
	}
}

// seconds reads the second numbers, where the first are not wanted.
func (c *cursor) seconds(m measure, to []float64) {
	if len(to) == 0 {
		return
	}
	c.bytes(c.count(1))
	c.numbers(m, to)
}

// pairs reads a piece of pairs of so many rows.
func (c *cursor) pairs(rows int, d *catalog.Field, to *pairs) {
	to.reset()
	to.counts = slices.Grow(to.counts, rows)[:rows]
	total := c.counts(to.counts)
	first, second := pairMeasures(d)
	to.first, to.second = slices.Grow(to.first, total)[:total], slices.Grow(to.second, total)[:total]
	c.firsts(first, to.first)
	if total > 0 {
		c.numbers(second, to.second)
	}
}

// bands reads a piece of the bands of so many rows from begin on and adds them
// to to.
func (c *cursor) bands(begin, rows int, scratch *pairs, to *catalog.Columns) {
	c.pairs(rows, &catalog.Fields[catalog.FieldNoiseBands], scratch)
	if c.bad || len(to.BandLevels)+len(scratch.first) > math.MaxUint32 {
		c.fail()
		return
	}
	for i, v := range scratch.first {
		to.BandLevels = append(to.BandLevels, quantity.BandLevel{Frequency: quantity.Frequency(v), Level: quantity.Decibel(scratch.second[i])})
	}
	end := len(to.BandLevels) - len(scratch.first)
	for i, n := range scratch.counts {
		if n == 0 {
			continue
		}
		end += n
		to.BandRows = append(to.BandRows, uint32(begin+i))
		to.BandEnd = append(to.BandEnd, uint32(end))
	}
}

// of gives the pairs of a row.
func (p *pairs) of(row int) (first, second []float64) {
	begin, end := p.begins[row], p.begins[row]+p.counts[row]
	return p.first[begin:end], p.second[begin:end]
}

// same says whether two rows have the same pairs, bit for bit.
func (p *pairs) same(a, b int) bool {
	sameBits := func(v, w float64) bool { return math.Float64bits(v) == math.Float64bits(w) }
	firstA, secondA := p.of(a)
	firstB, secondB := p.of(b)
	return slices.EqualFunc(firstA, firstB, sameBits) && slices.EqualFunc(secondA, secondB, sameBits)
}

// append adds the pairs of a row as a record has them.
func (p *pairs) append(b []byte, d *catalog.Field, row int) []byte {
	first, second := pairMeasures(d)
	firsts, seconds := p.of(row)
	b = binary.AppendUvarint(b, uint64(len(firsts)))
	for i, v := range firsts {
		b = second.append(first.append(b, v), seconds[i])
	}
	return b
}

// pairsValue reads what append wrote, one pair or more.
func (c *cursor) pairsValue(d *catalog.Field) (v catalog.Value) {
	n := c.count(2)
	if n == 0 {
		c.fail()
	}
	first, second := pairMeasures(d)
	for range n {
		a, b := c.number(first), c.number(second)
		if d.Form == catalog.Bands {
			v.Bands = append(v.Bands, quantity.BandLevel{Frequency: quantity.Frequency(a), Level: quantity.Decibel(b)})
		} else {
			v.Curve = append(v.Curve, catalog.CurvePoint{Flow: quantity.Flow(a), Pressure: quantity.Pressure(b)})
		}
	}
	return v
}
