package store

import (
	"encoding/binary"
	"math"

	"lowsone/catalog"
	"lowsone/catalog/index"
	"lowsone/catalog/quantity"
)

// encoder makes chunks of fans, column by column. It is for one goroutine and
// keeps its memory from chunk to chunk.
type encoder struct {
	schema    schema
	distincts *distincts
	values    []values // by field
	extras    []values // by slot
	headers   []string // of the extras' slots
	remarks   []values // the n-th remarks of the rows
	frames    values
	supplies  values
	keys      index.KeyWriter
	block     blockWriter
	fans      []*catalog.Fan
}

func newEncoder(s schema) *encoder {
	return &encoder{schema: s, distincts: newDistincts(), values: make([]values, len(s))}
}

// values are the values of one field in all rows of a chunk.
type values struct {
	field   *catalog.Field    // nil where it is texts that are no field
	origins []quantity.Origin // by row
	codes   []uint16          // by row: which of the entries it has
	entries entries
	texts   []string // of the entries, where they are texts
	pairs   pairs    // instead of codes and entries, where they are pairs
}

func (v *values) reset(field *catalog.Field) {
	v.field = field
	v.origins, v.codes, v.texts = v.origins[:0], v.codes[:0], v.texts[:0]
	v.entries.reset()
	v.pairs.reset()
}

// unknowns counts the rows without a value.
func (v *values) unknowns() (n int) {
	for _, o := range v.origins {
		if o == quantity.Unknown {
			n++
		}
	}
	return n
}

// encode makes a chunk of fans, of which there is at least one. Each must be one
// that storable passes.
func (e *encoder) encode(fans []*catalog.Fan) *chunk {
	e.fans = fans
	c := &chunk{rows: len(fans), pieces: map[pieceID][]byte{}, parts: make([]byte, 0, 8*len(fans))}
	var missing []byte
	for i, d := range e.schema {
		v := &e.values[i]
		e.field(d, v)
		missing = binary.AppendUvarint(missing, uint64(v.unknowns()))
		c.pieces[pieceID(i)] = e.piece(v)
	}
	c.pieces[pieceMissing] = missing
	e.words(c)
	e.takeExtras()
	e.takeRemarks()
	c.pieces[pieceExtras] = e.extrasPiece()
	c.blocks = e.blocks()
	for _, f := range fans {
		c.parts = binary.LittleEndian.AppendUint64(c.parts, partHash(catalog.FoldKey(f.Part)))
	}
	e.fans = nil
	return c
}

// field collects the values of a field.
func (e *encoder) field(d *catalog.Field, v *values) {
	v.reset(d)
	e.distincts.reset(len(e.fans))
	switch {
	case v.paired():
		for _, f := range e.fans {
			value, origin := d.Get(f)
			v.origins = append(v.origins, origin)
			v.pairs.take(d, &value)
		}
	case d.Form == catalog.Text:
		for _, f := range e.fans {
			value, origin := d.Get(f)
			v.origins = append(v.origins, origin)
			v.codes = append(v.codes, e.distincts.text(value.Text))
		}
	default:
		e.numbered(d, v)
	}
	e.entries(v)
}

// numbered collects numbers and choices.
func (e *encoder) numbered(d *catalog.Field, v *values) {
	unknown := uint64(0) // no choice
	if d.Numeric() {
		unknown = math.Float64bits(math.NaN())
	}
	for _, f := range e.fans {
		value, origin := d.Get(f)
		v.origins = append(v.origins, origin)
		bits := math.Float64bits(value.Number)
		if origin == quantity.Unknown {
			bits = unknown
		}
		code, _ := e.distincts.number(bits) // a chunk has fewer rows than codes
		v.codes = append(v.codes, code)
	}
}

// entries writes the entries of the values collected.
func (e *encoder) entries(v *values) {
	switch {
	case v.paired():
	case v.field == nil || v.field.Form == catalog.Text:
		v.texts = append(v.texts, e.distincts.texts...)
		for _, text := range v.texts {
			v.entries.data = appendText(v.entries.data, text)
			v.entries.end()
		}
	case v.field.Form == catalog.Choice:
		for _, bits := range e.distincts.bits {
			v.entries.data = append(v.entries.data, byte(math.Float64frombits(bits)))
			v.entries.end()
		}
	default:
		e.numbers(measureOf(v.field), &v.entries)
	}
}

// numbers writes the numbers told apart.
func (e *encoder) numbers(m measure, to *entries) {
	for _, bits := range e.distincts.bits {
		to.data = m.append(to.data, math.Float64frombits(bits))
		to.end()
	}
}

// piece gives the column of the values collected.
func (e *encoder) piece(v *values) []byte {
	if v.paired() {
		return e.pairsPiece(v)
	}
	return appendCoded(nil, v.codes, &v.entries)
}

func (e *encoder) pairsPiece(v *values) []byte {
	e.distincts.reset(len(v.pairs.counts))
	v.codes = v.codes[:0]
	for _, n := range v.pairs.counts {
		code, _ := e.distincts.number(uint64(n))
		v.codes = append(v.codes, code)
	}
	for _, n := range e.distincts.bits {
		v.entries.data = binary.AppendUvarint(v.entries.data, n)
		v.entries.end()
	}
	b := appendCoded(nil, v.codes, &v.entries)
	if len(v.pairs.first) == 0 {
		return b
	}
	first, second := pairMeasures(v.field)
	firsts := e.appendNumbers(nil, first, v.pairs.first)
	b = append(binary.AppendUvarint(b, uint64(len(firsts))), firsts...)
	return e.appendNumbers(b, second, v.pairs.second)
}

// appendNumbers adds a piece of any number of numbers.
func (e *encoder) appendNumbers(b []byte, m measure, list []float64) []byte {
	e.distincts.reset(min(len(list), mostCodes))
	var codes []uint16
	for _, v := range list {
		code, ok := e.distincts.number(math.Float64bits(v))
		if !ok {
			return appendEach(b, m, list)
		}
		codes = append(codes, code)
	}
	var all entries
	e.numbers(m, &all)
	return appendCoded(b, codes, &all)
}

func appendEach(b []byte, m measure, list []float64) []byte {
	b = append(b, formEach)
	for _, v := range list {
		b = m.append(b, v)
	}
	return b
}

// words makes the pieces that only the word index needs.
func (e *encoder) words(c *chunk) {
	e.worded(&e.frames, frameWords, catalog.FieldKind, catalog.FieldWidth, catalog.FieldHeight, catalog.FieldDepth)
	e.worded(&e.supplies, supplyWords, catalog.FieldSupply, catalog.FieldVoltage, catalog.FieldPWM)
	c.pieces[pieceFrame] = appendCoded(nil, e.frames.codes, &e.frames.entries)
	c.pieces[pieceSupply] = appendCoded(nil, e.supplies.codes, &e.supplies.entries)
	for _, f := range e.fans {
		if f.OrderCode == "" {
			e.keys.Add(f.Part)
		} else {
			e.keys.Add(f.Part, f.OrderCode)
		}
	}
	c.pieces[pieceKeys] = e.keys.Take()
}

// worded collects words of fans, which are made once for all that are alike in
// the fields they are made of, four at the most.
func (e *encoder) worded(v *values, words func(*catalog.Fan) string, fields ...catalog.FieldID) {
	v.reset(nil)
	alike := make([]uint64, len(e.fans))
	for _, id := range fields {
		if n := e.schema.number(id); n >= 0 {
			for row, code := range e.values[n].codes {
				alike[row] = alike[row]<<16 | uint64(code)
			}
		}
	}
	e.distincts.reset(len(e.fans))
	for row, f := range e.fans {
		before := len(e.distincts.bits)
		code, _ := e.distincts.number(alike[row])
		v.codes = append(v.codes, code)
		if len(e.distincts.bits) > before {
			v.entries.data = appendText(v.entries.data, words(f))
			v.entries.end()
		}
	}
}
