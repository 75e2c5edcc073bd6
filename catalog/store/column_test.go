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

// sizes of the sets that values are drawn from: each form of a chunk comes up.
func manyOrFew(t *rapid.T) int { return rapid.SampledFrom([]int{1, 3, 1000}).Draw(t, "different") }

func TestNumberChunks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		different := manyOrFew(t)
		values := make([]float64, rapid.IntRange(1, 600).Draw(t, "rows"))
		for i := range values {
			values[i] = []float64{math.NaN(), 0.1, math.Copysign(0, -1)}[i%min(3, different)] + float64(i%different)
		}
		back := make([]float64, len(values))
		if err := decodeNumbers(encodeNumbers(values), back); err != nil {
			t.Fatal(err)
		}
		for i := range values {
			if math.Float64bits(values[i]) != math.Float64bits(back[i]) {
				t.Fatalf("number %d is %v, was %v", i, back[i], values[i])
			}
		}
	})
}

// A byte tells 256 values apart, not 257.
func TestChunksOfAsManyValuesAsAByteTellsApart(t *testing.T) {
	for different := 255; different <= 258; different++ {
		numbers := make([]float64, 600)
		s := catalog.Strings{}
		for i := range numbers {
			numbers[i] = float64(i % different)
			s.Data += catalog.Number(numbers[i])
			s.End = append(s.End, uint32(len(s.Data)))
		}
		back := make([]float64, len(numbers))
		if err := decodeNumbers(encodeNumbers(numbers), back); err != nil || !cmp.Equal(numbers, back) {
			t.Errorf("%d different numbers do not read back, %v", different, err)
		}
		var column texts
		err := column.decode(encodeTexts(s), len(s.End))
		if err != nil || column.data.String() != s.Data || !cmp.Equal(column.end, s.End) {
			t.Errorf("%d different texts do not read back, %v", different, err)
		}
	}
}

func TestCodeChunks(t *testing.T) {
	for _, values := range [][]uint8{{0}, {2, 2, 2}, {0, 1, 2, 1}} {
		back := make([]uint8, len(values))
		if err := decodeCodes(encodeCodes(values), back, 2); err != nil || !cmp.Equal(values, back) {
			t.Errorf("codes %v read back as %v, %v", values, back, err)
		}
	}
	if err := decodeCodes(encodeCodes([]uint8{1, 3}), make([]uint8, 2), 2); err == nil {
		t.Error("a code that no choice has is read")
	}
}

func TestTextChunks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		different := manyOrFew(t)
		var all []string
		var column texts
		for range 2 { // chunks follow each other
			var s catalog.Strings
			for i := range rapid.IntRange(1, 600).Draw(t, "rows") {
				text := strings.Repeat("ü", i%7) + string(rune('a'+i%different))
				s.Data += text
				s.End = append(s.End, uint32(len(s.Data)))
				all = append(all, text)
			}
			if err := column.decode(encodeTexts(s), len(s.End)); err != nil {
				t.Fatal(err)
			}
		}
		back := catalog.Strings{Data: column.data.String(), End: column.end}
		for i, want := range all {
			if got := back.At(i); got != want {
				t.Fatalf("text %d is %q, was %q", i, got, want)
			}
		}
	})
}

// Rows keep their bands over the borders of chunks, and those without cost
// nothing.
func TestBandChunks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := rapid.IntRange(1, 40).Draw(t, "rows")
		split := rapid.IntRange(0, rows).Draw(t, "split")
		fans := make([]*catalog.Fan, rows)
		for i := range fans {
			fans[i] = &catalog.Fan{Part: "A1"}
			for j := range max(0, rapid.IntRange(-4, 9).Draw(t, "bands")) {
				fans[i].NoiseBands = append(fans[i].NoiseBands, quantity.BandLevel{Frequency: quantity.Frequency(j), Level: quantity.Decibel(i)})
			}
		}
		var back catalog.Columns
		for _, part := range [][2]int{{0, split}, {split, rows}} {
			chunk := encodeBands(catalog.ColumnsOf(fans[part[0]:part[1]]...))
			if err := decodeBands(chunk, part[0], part[1], &back); err != nil {
				t.Fatal(err)
			}
			if err := decodeBands(chunk[:len(chunk)-1], part[0], part[1], &catalog.Columns{}); err == nil {
				t.Fatal("a shortened chunk is read")
			}
		}
		for i, f := range fans {
			if got := back.Bands(i); !cmp.Equal(got, f.NoiseBands, cmpopts.EquateEmpty()) {
				t.Fatalf("row %d has %v, had %v", i, got, f.NoiseBands)
			}
		}
	})
	if chunk := encodeBands(catalog.ColumnsOf(&catalog.Fan{Part: "A1"}, &catalog.Fan{Part: "A2"})); len(chunk) != 1 {
		t.Errorf("no bands take %d bytes, want 1", len(chunk))
	}
}

// FuzzChunk: no bytes make a chunk decoder panic or give more or fewer rows
// than asked for.
func FuzzChunk(f *testing.F) {
	c := catalog.ColumnsOf(inventedFans(300)...)
	f.Add(encodeNumbers(c.Numbers[catalog.FieldNoise]), 300)
	f.Add(encodeNumbers(c.Numbers[catalog.FieldVoltage]), 300)
	f.Add(encodeCodes(c.Codes[catalog.FieldKind]), 300)
	f.Add(encodeTexts(c.Texts[catalog.FieldPart]), 300)
	f.Add(encodeTexts(c.Texts[catalog.FieldMaker]), 300)
	f.Add(encodeCurves(c), 300)
	f.Add(encodeBands(c), 300)
	f.Fuzz(func(t *testing.T, chunk []byte, rows int) {
		if rows < 0 || rows > chunkRows {
			return
		}
		_ = decodeNumbers(chunk, make([]float64, rows))
		_ = decodeCodes(chunk, make([]uint8, rows), 4)
		var column texts
		if err := column.decode(chunk, rows); err == nil {
			s := catalog.Strings{Data: column.data.String(), End: column.end}
			for i := range rows {
				_ = s.At(i)
			}
			if len(s.End) != rows {
				t.Fatalf("%d texts of %d", len(s.End), rows)
			}
		}
		var bands catalog.Columns
		if err := decodeBands(chunk, 7, 7+rows, &bands); err == nil {
			for i := range 7 + rows {
				if got := bands.Bands(i); i < 7 && len(got) > 0 {
					t.Fatalf("row %d, before the chunk, has bands %v", i, got)
				}
			}
		}
		var columns catalog.Columns
		if err := decodeCurves(chunk, rows, &columns); err == nil {
			for i := range rows {
				_, _ = columns.Curve(i)
			}
			if len(columns.CurveEnd) != rows || len(columns.CurveFlow) != len(columns.CurvePressure) {
				t.Fatalf("%d curves of %d", len(columns.CurveEnd), rows)
			}
		}
	})
}
