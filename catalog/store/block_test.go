package store

import (
	"errors"
	"math"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// readAll reads all fans of a chunk's blocks.
func (s schema) readAll(t tester, c *chunk) (fans []*catalog.Fan) {
	t.Helper()
	for n, block := range c.blocks {
		some, err := s.readBlock(block, min(blockRows, c.rows-n*blockRows), -1)
		if err != nil {
			t.Fatal(err)
		}
		fans = append(fans, some...)
	}
	return fans
}

func TestBlocksRoundTrip(t *testing.T) {
	s := currentSchema()
	e := newEncoder(s) // used again and again
	rapid.Check(t, func(t *rapid.T) {
		// A few fans that come again, and are changed here and there.
		some := rapid.SliceOfN(anyFan(), 1, 5).Draw(t, "fans")
		fans := make([]*catalog.Fan, rapid.IntRange(1, 3*blockRows).Draw(t, "rows"))
		for i := range fans {
			f := *some[rapid.IntRange(0, len(some)-1).Draw(t, "which")]
			if rapid.IntRange(0, 9).Draw(t, "change") == 0 {
				d := &catalog.Fields[rapid.IntRange(0, len(catalog.Fields)-1).Draw(t, "field")]
				d.Put(&f, anyValue(t, d), anyOrigin(t, d))
			}
			fans[i] = &f
		}
		c := e.encode(fans)
		if back := s.readAll(t, c); !reflect.DeepEqual(back, fans) {
			t.Fatalf("%+v reads back as %+v", fans, back)
		}
		row := rapid.IntRange(0, len(fans)-1).Draw(t, "only")
		n := row / blockRows
		one, err := s.readBlock(c.blocks[n], min(blockRows, len(fans)-n*blockRows), row%blockRows)
		if err != nil || !reflect.DeepEqual(one[row%blockRows], fans[row]) {
			t.Fatalf("row %d alone reads back as %+v, %v", row, one[row%blockRows], err)
		}
	})
}

// Texts beside fields, in any order, come back in it.
func TestExtrasInAnyOrder(t *testing.T) {
	e := newEncoder(currentSchema())
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.SampledFrom([]string{"", "a", "b", "c"})
		fans := make([]*catalog.Fan, rapid.IntRange(1, 40).Draw(t, "rows"))
		for i := range fans {
			fans[i] = &catalog.Fan{Part: "A1"}
			for range rapid.IntRange(0, 4).Draw(t, "extras") {
				fans[i].Extra = append(fans[i].Extra, catalog.Extra{Header: word.Draw(t, "header"), Text: word.Draw(t, "text")})
			}
			for range rapid.IntRange(0, 3).Draw(t, "remarks") {
				fans[i].Remarks = append(fans[i].Remarks, word.Draw(t, "remark"))
			}
		}
		if back := currentSchema().readAll(t, e.encode(fans)); !reflect.DeepEqual(back, fans) {
			t.Fatalf("%+v reads back as %+v", fans, back)
		}
	})
}

// A catalogue written before a field was added to the table, or with the
// fields in another order, still reads.
func TestBlockOfAnOlderSchema(t *testing.T) {
	f := inventedFans(1)[0]
	older := schema{}
	for _, id := range []catalog.FieldID{catalog.FieldNoise, catalog.FieldMaker, catalog.FieldPart} {
		older = append(older, &catalog.Fields[id])
	}
	c := newEncoder(older).encode([]*catalog.Fan{f})
	read, err := schemaOf(older.stored())
	if err != nil {
		t.Fatal(err)
	}
	want := &catalog.Fan{Part: f.Part, Maker: f.Maker, Noise: f.Noise, Extra: f.Extra, Source: f.Source}
	if back := read.readAll(t, c); !reflect.DeepEqual(back, []*catalog.Fan{want}) {
		t.Errorf("older record reads as %+v, want %+v", back[0], want)
	}
}

func TestSchemaOfANewerProgram(t *testing.T) {
	for name, fields := range map[string][]storedField{
		"field":  {{Name: "part"}, {Name: "torque_nm"}},
		"choice": {{Name: "supply", Choices: []string{"dc", "ac", "steam"}}},
		"order":  {{Name: "supply", Choices: []string{"ac", "dc"}}},
	} {
		if _, err := schemaOf(fields); err == nil {
			t.Errorf("unknown %s: schemaOf(%v) gives no error", name, fields)
		}
	}
}

func TestRowsThatCannotBeKept(t *testing.T) {
	with := func(put func(*catalog.Fan)) *catalog.Fan {
		f := &catalog.Fan{Part: "A1"}
		put(f)
		return f
	}
	for name, f := range map[string]*catalog.Fan{
		"no part":   {Maker: "Nordwind"},
		"NaN":       with(func(f *catalog.Fan) { f.Noise = quantity.Stated(quantity.Decibel(math.NaN())) }),
		"infinite":  with(func(f *catalog.Fan) { f.Price = quantity.Stated(math.Inf(1)) }),
		"no kind":   with(func(f *catalog.Fan) { f.Kind = quantity.Stated(catalog.Kind(9)) }),
		"no supply": with(func(f *catalog.Fan) { f.Supply = quantity.Stated(catalog.Supply(0)) }),
		"origin":    with(func(f *catalog.Fan) { f.Leads = quantity.From(3.0, quantity.Default+1) }),
		"point":     with(func(f *catalog.Fan) { f.Curve = []catalog.CurvePoint{{Pressure: quantity.Pressure(math.NaN())}} }),
		"band":      with(func(f *catalog.Fan) { f.NoiseBands = []quantity.BandLevel{{Level: quantity.Decibel(math.Inf(-1))}} }),
		"frequency": with(func(f *catalog.Fan) {
			f.NoiseBands = []quantity.BandLevel{{Frequency: quantity.Frequency(math.Inf(1))}}
		}),
		"too long":   with(func(f *catalog.Fan) { f.Description = strings.Repeat("x", maxRecord) }),
		"much extra": with(func(f *catalog.Fan) { f.Extra = make([]catalog.Extra, maxRecord/8) }),
		"remarks":    with(func(f *catalog.Fan) { f.Remarks = []string{strings.Repeat("x", maxRecord)} }),
	} {
		var re *RowError
		if _, err := NewRow(f, 0); !errors.As(err, &re) {
			t.Errorf("%s: NewRow gives %v, want a RowError", name, err)
		}
	}
	if _, err := NewRow(inventedFans(1)[0], 0); err != nil {
		t.Errorf("a fan like any other: %v", err)
	}
}

func TestFingerprint(t *testing.T) {
	of := func(change func(f *catalog.Fan)) fingerprint {
		f := inventedFans(1)[0]
		change(f)
		print, _ := currentSchema().fingerprintOf(f, nil)
		return print
	}
	plain := of(func(*catalog.Fan) {})
	for name, change := range map[string]func(f *catalog.Fan){
		"line":    func(f *catalog.Fan) { f.Source.Line = 99 },
		"remarks": func(f *catalog.Fan) { f.Remarks = []string{"read otherwise"} },
		"source":  func(f *catalog.Fan) { f.Source.Name = "b.csv" },
	} {
		if of(change) != plain {
			t.Errorf("another %s is another fingerprint", name)
		}
	}
	for name, change := range map[string]func(f *catalog.Fan){
		"value":  func(f *catalog.Fan) { f.Noise = quantity.Stated(quantity.Decibel(1)) },
		"origin": func(f *catalog.Fan) { f.Noise = quantity.From(f.Noise.Or(0), quantity.Estimate) },
		"extra":  func(f *catalog.Fan) { f.Extra[0].Text += "!" },
		"point":  func(f *catalog.Fan) { f.Curve[1].Flow *= 1 + 1e-15 },
		"points": func(f *catalog.Fan) { f.Curve = f.Curve[1:] },
		"text":   func(f *catalog.Fan) { f.Description += " " },
		"field":  func(f *catalog.Fan) { f.Voltage, f.VoltageMin = f.VoltageMin, f.Voltage },
	} {
		if of(change) == plain {
			t.Errorf("another %s has the same fingerprint", name)
		}
	}
}

// FuzzBlock: no bytes make the reader panic, and what it accepts is what the
// encoder writes of the same fans.
func FuzzBlock(f *testing.F) {
	s := currentSchema()
	for _, rows := range []int{1, 3, blockRows} {
		fans := inventedFans(rows)
		fans[0].Remarks = []string{"read as it stands", ""}
		f.Add(newEncoder(s).encode(fans).blocks[0], rows)
	}
	f.Add([]byte{}, 1)
	f.Fuzz(func(t *testing.T, block []byte, rows int) {
		fans, err := s.readBlock(block, rows, -1)
		if err != nil {
			return
		}
		back := s.readAll(t, newEncoder(s).encode(fans))
		if !reflect.DeepEqual(fans, back) {
			t.Fatalf("%+v reads back as %+v", fans, back)
		}
	})
}
