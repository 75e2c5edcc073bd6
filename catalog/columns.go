package catalog

import (
	"math"
	"slices"

	"lowsone/catalog/quantity"
)

// Columns holds many fans, one slice per field, for filtering and ranking
// without reading records. Row i of every column is the same fan. Unknown is
// NaN in Numbers (and only there), 0 in Codes, the empty text in Texts.
//
// A column may be nil: nobody asked for it, or no fan has it.
type Columns struct {
	Rows    int
	First   int                  // row of the catalogue that row 0 is
	Numbers [NumFields][]float64 // SI; numeric fields
	Codes   [NumFields][]uint8   // choice fields: index into Choices plus one
	Texts   [NumFields]Strings   // text fields other than the description

	// The curve points of row i stand at CurveEnd[i-1] to CurveEnd[i] (from 0
	// for the first row), in m³/s and Pa.
	CurveEnd      []uint32
	CurveFlow     []float64
	CurvePressure []float64

	// Few fans have bands. BandRows lists the rows that have, rising; those of
	// the n-th stand in BandLevels at BandEnd[n-1] to BandEnd[n] (from 0 for the
	// first).
	BandRows   []uint32
	BandEnd    []uint32
	BandLevels []quantity.BandLevel

	// Aside has a bit for each row of the catalogue that stands for no fan of its
	// own, since another row of the same part counts: no filter lets it through.
	// Nil: none.
	Aside []uint64
}

// IsAside says whether row i stands for no fan of its own.
func (c *Columns) IsAside(i int) bool {
	i += c.First
	return i/64 < len(c.Aside) && c.Aside[i/64]>>(i%64)&1 == 1
}

// Strings holds many texts in one piece of memory.
type Strings struct {
	Data string
	End  []uint32 // text i ends here in Data and begins where the one before ends
}

// At gives text i; empty where the column is not there.
func (s Strings) At(i int) string {
	if i >= len(s.End) {
		return ""
	}
	begin := uint32(0)
	if i > 0 {
		begin = s.End[i-1]
	}
	return s.Data[begin:s.End[i]]
}

// Columned says whether the field has a column: all but the description.
func (d *Field) Columned() bool { return d.ID != FieldDescription }

// Number gives the SI value of a numeric field of row i, NaN where unknown.
func (c *Columns) Number(id FieldID, i int) float64 {
	if col := c.Numbers[id]; i < len(col) {
		return col[i]
	}
	return math.NaN()
}

// Code gives the choice of row i, 0 where unknown.
func (c *Columns) Code(id FieldID, i int) uint8 {
	if col := c.Codes[id]; i < len(col) {
		return col[i]
	}
	return 0
}

// Text gives the text of row i, empty where unknown.
func (c *Columns) Text(id FieldID, i int) string { return c.Texts[id].At(i) }

// Curve gives the curve points of row i, m³/s and Pa, as views; empty where
// none were given.
func (c *Columns) Curve(i int) (flow, pressure []float64) {
	if i >= len(c.CurveEnd) {
		return nil, nil
	}
	begin := uint32(0)
	if i > 0 {
		begin = c.CurveEnd[i-1]
	}
	end := c.CurveEnd[i]
	return c.CurveFlow[begin:end], c.CurvePressure[begin:end]
}

// Bands gives the band levels of row i, unweighted, as a view; empty where none
// were given.
func (c *Columns) Bands(i int) []quantity.BandLevel {
	n, ok := slices.BinarySearch(c.BandRows, uint32(i))
	if !ok {
		return nil
	}
	begin := uint32(0)
	if n > 0 {
		begin = c.BandEnd[n-1]
	}
	return c.BandLevels[begin:c.BandEnd[n]]
}

// ColumnsOf builds the columns of a few fans; many are built with a Builder.
func ColumnsOf(fans ...*Fan) *Columns {
	var b ColumnsBuilder
	for _, f := range fans {
		b.Append(f)
	}
	return b.Columns()
}

// ColumnsBuilder collects fans into Columns.
type ColumnsBuilder struct {
	c    Columns
	text [NumFields][]byte
}

// Append adds a fan as the next row.
func (b *ColumnsBuilder) Append(f *Fan) {
	for id := range Fields {
		d := &Fields[id]
		if !d.Columned() {
			continue
		}
		v, origin := d.Get(f)
		switch {
		case d.Numeric():
			if origin == quantity.Unknown {
				v.Number = math.NaN()
			}
			b.c.Numbers[id] = append(b.c.Numbers[id], v.Number)
		case d.Form == Choice:
			b.c.Codes[id] = append(b.c.Codes[id], uint8(v.Number))
		case d.Form == Text:
			b.appendText(d.ID, v.Text)
		case d.Form == Points:
			b.appendCurve(v.Curve)
		case d.Form == Bands:
			b.appendBands(b.c.Rows, v.Bands)
		}
	}
	b.c.Rows++
}

func (b *ColumnsBuilder) appendCurve(curve []CurvePoint) {
	for _, p := range curve {
		b.c.CurveFlow = append(b.c.CurveFlow, float64(p.Flow))
		b.c.CurvePressure = append(b.c.CurvePressure, float64(p.Pressure))
	}
	b.c.CurveEnd = append(b.c.CurveEnd, uint32(len(b.c.CurveFlow)))
}

func (b *ColumnsBuilder) appendText(id FieldID, text string) {
	b.text[id] = append(b.text[id], text...)
	b.c.Texts[id].End = append(b.c.Texts[id].End, uint32(len(b.text[id])))
}

func (b *ColumnsBuilder) appendBands(row int, bands []quantity.BandLevel) {
	if len(bands) == 0 {
		return
	}
	b.c.BandRows = append(b.c.BandRows, uint32(row))
	b.c.BandLevels = append(b.c.BandLevels, bands...)
	b.c.BandEnd = append(b.c.BandEnd, uint32(len(b.c.BandLevels)))
}

// Columns gives what was collected. The builder must not be used afterwards.
func (b *ColumnsBuilder) Columns() *Columns {
	for id := range b.text {
		b.c.Texts[id].Data = string(b.text[id])
	}
	return &b.c
}
