package store

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// Every number comes back bit for bit, whatever its field; what a parts list
// holds is short.
func TestNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := &catalog.Fields[rapid.SampledFrom([]catalog.FieldID{
			catalog.FieldAirflow, catalog.FieldTempMax, catalog.FieldWidth, catalog.FieldStock, catalog.FieldPrice, catalog.FieldLife, catalog.FieldSpeed,
		}).Draw(t, "field")]
		m := measureOf(d)
		digits := float64(rapid.IntRange(-1e6, 1e6).Draw(t, "digits"))
		short := d.SI(digits / rapid.SampledFrom([]float64{1, 10, 100, 1000}).Draw(t, "scale"))
		for _, v := range []float64{
			short, math.Nextafter(short, 1e9), rapid.Float64().Draw(t, "any"), math.Float64frombits(rapid.Uint64().Draw(t, "bits")),
			0, math.Copysign(0, -1), math.MaxFloat64, math.Inf(1), mostDigits, mostDigits - 1,
		} {
			b := m.append(nil, v)
			c := cursor{b: b}
			back := c.number(m)
			if math.IsNaN(v) {
				v = math.NaN() // unknown is one value
			}
			if c.done() != nil || math.Float64bits(back) != math.Float64bits(v) {
				t.Fatalf("%v as %s reads back as %v", v, d.Name, back)
			}
			if math.Float64bits(v) == math.Float64bits(short) && len(b) > 5 {
				t.Fatalf("%v %s takes %d bytes", d.InUnit(v), d.Name, len(b))
			}
		}
	})
	for id, v := range map[catalog.FieldID]float64{catalog.FieldAirflow: 48.5, catalog.FieldNoise: 27, catalog.FieldSpeed: 3400, catalog.FieldPrice: 12.95} {
		d := &catalog.Fields[id]
		if b := measureOf(d).append(nil, d.SI(v)); len(b) > 3 {
			t.Errorf("%s %v takes %d bytes, want at most 3", d.Name, v, len(b))
		}
	}
}

// sizes of the sets that values are drawn from: each form of a piece comes up.
func manyOrFew(t *rapid.T) int {
	return rapid.SampledFrom([]int{1, 3, 256, 257, 1000}).Draw(t, "different")
}

// columnOf gives the piece of a field of fans.
func columnOf(e *encoder, id catalog.FieldID, fans []*catalog.Fan) []byte {
	return e.encode(fans).pieces[pieceID(id)]
}

func TestNumberPieces(t *testing.T) {
	e := newEncoder(currentSchema())
	forms := map[byte]bool{}
	rapid.Check(t, func(t *rapid.T) {
		different := manyOrFew(t)
		long := rapid.Bool().Draw(t, "long")
		fans := make([]*catalog.Fan, rapid.IntRange(1, chunkRows).Draw(t, "rows"))
		want := make([]float64, len(fans))
		for i := range fans {
			fans[i] = &catalog.Fan{Part: "A1"}
			want[i] = float64(i * 7 % different)
			if long {
				want[i] += 1.0 / 3
			}
			if different > 1 && i%different == 1 {
				want[i] = math.NaN()
				continue
			}
			fans[i].Price = quantity.Stated(want[i])
		}
		piece := columnOf(e, catalog.FieldPrice, fans)
		forms[piece[0]] = true
		back := make([]float64, len(fans))
		c := cursor{b: piece}
		c.numbers(measureOf(&catalog.Fields[catalog.FieldPrice]), back)
		if c.done() != nil || !cmp.Equal(want, back, cmpopts.EquateNaNs()) {
			t.Fatalf("%v reads back as %v", want, back)
		}
	})
	if len(forms) != 4 {
		t.Errorf("only the forms %v came up", forms)
	}
}

func TestChoicePieces(t *testing.T) {
	e := newEncoder(currentSchema())
	for _, want := range [][]uint8{{0}, {2, 2, 2}, {0, 1, 2, 1}} {
		var fans []*catalog.Fan
		for _, code := range want {
			f := part("A1")
			if code > 0 {
				f.Supply = quantity.Stated(catalog.Supply(code))
			}
			fans = append(fans, f)
		}
		piece := columnOf(e, catalog.FieldSupply, fans)
		back := make([]uint8, len(want))
		c := cursor{b: piece}
		if c.choices(back, 2); c.done() != nil || !cmp.Equal(want, back) {
			t.Errorf("choices %v read back as %v", want, back)
		}
		c = cursor{b: piece}
		if c.choices(back, 1); want[0] == 2 && c.done() == nil {
			t.Error("a code that no choice has is read")
		}
	}
}

func TestTextPieces(t *testing.T) {
	e := newEncoder(currentSchema())
	forms := map[byte]bool{}
	rapid.Check(t, func(t *rapid.T) {
		different, length := manyOrFew(t), rapid.SampledFrom([]int{1, 30}).Draw(t, "length")
		var want []string
		var column texts
		for range 2 { // pieces follow each other
			fans := make([]*catalog.Fan, rapid.IntRange(1, chunkRows).Draw(t, "rows"))
			for i := range fans {
				text := strings.Repeat("ü", i%different%7) + strings.Repeat(string(rune('a'+i%different)), length)
				if i%different == 2 {
					text = ""
				}
				fans[i] = &catalog.Fan{Part: "A1", Supplier: text}
				want = append(want, text)
			}
			piece := columnOf(e, catalog.FieldSupplier, fans)
			forms[piece[0]] = true
			c := cursor{b: piece}
			if c.texts(len(fans), &column); c.done() != nil {
				t.Fatal("a piece does not read back")
			}
		}
		back := catalog.Strings{Data: column.data.String(), End: column.end}
		for i, want := range want {
			if got := back.At(i); got != want {
				t.Fatalf("text %d is %q, was %q", i, got, want)
			}
		}
	})
	if len(forms) != 4 {
		t.Errorf("only the forms %v came up", forms)
	}
}

// Rows keep their curves and bands over the borders of chunks, and those without
// cost nothing.
func TestPairPieces(t *testing.T) {
	e := newEncoder(currentSchema())
	rapid.Check(t, func(t *rapid.T) {
		var back catalog.Columns
		var all []*catalog.Fan
		var scratch pairs
		for range 2 {
			fans := make([]*catalog.Fan, rapid.IntRange(1, 40).Draw(t, "rows"))
			for i := range fans {
				f := &catalog.Fan{Part: "A1"}
				for j := range max(0, rapid.IntRange(-4, 9).Draw(t, "bands")) {
					f.NoiseBands = append(f.NoiseBands, quantity.BandLevel{Frequency: quantity.Frequency(j), Level: quantity.Decibel(i)})
				}
				for j := range max(0, rapid.IntRange(-1, 9).Draw(t, "points")) {
					f.Curve = append(f.Curve, catalog.CurvePoint{Flow: quantity.Flow(j) / 7, Pressure: quantity.Pressure(i)})
				}
				fans[i] = f
			}
			chunk := e.encode(fans)
			curves := cursor{b: chunk.pieces[pieceID(catalog.FieldCurve)]}
			curves.addCurves(len(fans), &back)
			piece := chunk.pieces[pieceID(catalog.FieldNoiseBands)]
			bands := cursor{b: piece}
			bands.bands(len(all), len(fans), &scratch, &back)
			if curves.done() != nil || bands.done() != nil {
				t.Fatal("a piece does not read back")
			}
			short := cursor{b: piece[:len(piece)-1]}
			if short.bands(0, len(fans), &scratch, &catalog.Columns{}); short.done() == nil {
				t.Fatal("a shortened piece is read")
			}
			all = append(all, fans...)
		}
		want := catalog.ColumnsOf(all...)
		for i := range all {
			flow, pressure := back.Curve(i)
			wantFlow, wantPressure := want.Curve(i)
			if !cmp.Equal(back.Bands(i), want.Bands(i)) || !cmp.Equal(flow, wantFlow) || !cmp.Equal(pressure, wantPressure) {
				t.Fatalf("row %d has %v, %v and %v, want those of %+v", i, back.Bands(i), flow, pressure, all[i])
			}
		}
	})
	if piece := columnOf(e, catalog.FieldNoiseBands, []*catalog.Fan{part("A1"), part("A2")}); len(piece) > 2 {
		t.Errorf("no bands take %d bytes, want at most 2", len(piece))
	}
}

// addCurves reads a piece of curves and adds them to columns.
func (c *cursor) addCurves(rows int, to *catalog.Columns) {
	var p pairs
	c.pairs(rows, &catalog.Fields[catalog.FieldCurve], &p)
	if c.bad {
		return
	}
	end := uint32(len(to.CurveFlow))
	for _, n := range p.counts {
		end += uint32(n)
		to.CurveEnd = append(to.CurveEnd, end)
	}
	to.CurveFlow, to.CurvePressure = append(to.CurveFlow, p.first...), append(to.CurvePressure, p.second...)
}

// More numbers than codes tell apart.
func TestVeryManyNumbers(t *testing.T) {
	f := part("A1")
	for i := range 40_000 {
		f.Curve = append(f.Curve, catalog.CurvePoint{Flow: quantity.Flow(i) / 3, Pressure: 1})
	}
	g := *f
	g.Curve = nil
	for _, p := range f.Curve {
		g.Curve = append(g.Curve, catalog.CurvePoint{Flow: p.Flow + 0.01, Pressure: 1})
	}
	c := cursor{b: columnOf(newEncoder(currentSchema()), catalog.FieldCurve, []*catalog.Fan{f, &g})}
	var back catalog.Columns
	c.addCurves(2, &back)
	want := catalog.ColumnsOf(f, &g)
	if c.done() != nil || !cmp.Equal(back.CurveFlow, want.CurveFlow) || !cmp.Equal(back.CurvePressure, want.CurvePressure) {
		t.Error("80 000 different numbers do not read back")
	}
}

// FuzzPiece: no bytes make a reader of pieces panic or give more or fewer rows
// than asked for.
func FuzzPiece(f *testing.F) {
	chunk := newEncoder(currentSchema()).encode(inventedFans(300))
	for _, id := range []catalog.FieldID{
		catalog.FieldNoise, catalog.FieldVoltage, catalog.FieldKind, catalog.FieldPart, catalog.FieldMaker, catalog.FieldCurve, catalog.FieldNoiseBands,
	} {
		f.Add(chunk.pieces[pieceID(id)], 300)
	}
	f.Fuzz(func(t *testing.T, piece []byte, rows int) {
		if rows < 1 || rows > chunkRows {
			return
		}
		numbers := cursor{b: piece}
		numbers.numbers(flowMeasure, make([]float64, rows))
		choices := cursor{b: piece}
		choices.choices(make([]uint8, rows), 4)
		var column texts
		read := cursor{b: piece}
		if read.texts(rows, &column); read.done() == nil {
			s := catalog.Strings{Data: column.data.String(), End: column.end}
			for i := range rows {
				_ = s.At(i)
			}
			if len(s.End) != rows {
				t.Fatalf("%d texts of %d", len(s.End), rows)
			}
		}
		var columns catalog.Columns
		bands := cursor{b: piece}
		if bands.bands(7, rows, &pairs{}, &columns); bands.done() == nil {
			for i := range 7 + rows {
				if got := columns.Bands(i); i < 7 && len(got) > 0 {
					t.Fatalf("row %d, before the piece, has bands %v", i, got)
				}
			}
		}
		curves := cursor{b: piece}
		if curves.addCurves(rows, &columns); curves.done() == nil {
			for i := range rows {
				_, _ = columns.Curve(i)
			}
			if len(columns.CurveEnd) != rows || len(columns.CurveFlow) != len(columns.CurvePressure) {
				t.Fatalf("%d curves of %d", len(columns.CurveEnd), rows)
			}
		}
	})
}
