package store

import (
	"bytes"
	"errors"
	"math"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

func TestRecordRoundTrip(t *testing.T) {
	s := currentSchema()
	rapid.Check(t, func(t *rapid.T) {
		f := anyFan().Draw(t, "fan")
		record, err := s.encode(f)
		if err != nil {
			t.Fatal(err)
		}
		back, err := s.decode(record)
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(f, back) {
			t.Fatalf("decode(encode(%+v)) = %+v", f, back)
		}
	})
}

// A catalogue written before a field was added to the table, or with the
// fields in another order, still reads.
func TestRecordOfAnOlderSchema(t *testing.T) {
	f := inventedFans(1)[0]
	older := schema{}
	for _, id := range []catalog.FieldID{catalog.FieldNoise, catalog.FieldMaker, catalog.FieldPart} {
		older = append(older, &catalog.Fields[id])
	}
	record, err := older.encode(f)
	if err != nil {
		t.Fatal(err)
	}
	read, err := schemaOf(older.stored())
	if err != nil {
		t.Fatal(err)
	}
	back, err := read.decode(record)
	if err != nil {
		t.Fatal(err)
	}
	want := &catalog.Fan{Part: f.Part, Maker: f.Maker, Noise: f.Noise, Extra: f.Extra, Source: f.Source}
	if !reflect.DeepEqual(back, want) {
		t.Errorf("older record reads as %+v, want %+v", back, want)
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

func TestUnstorable(t *testing.T) {
	known := func(put func(*catalog.Fan)) *catalog.Fan {
		f := &catalog.Fan{Part: "A1"}
		put(f)
		return f
	}
	for name, f := range map[string]*catalog.Fan{
		"no part":   {Maker: "Nordwind"},
		"NaN":       known(func(f *catalog.Fan) { f.Noise = quantity.Stated(quantity.Decibel(math.NaN())) }),
		"infinite":  known(func(f *catalog.Fan) { f.Price = quantity.Stated(math.Inf(1)) }),
		"no kind":   known(func(f *catalog.Fan) { f.Kind = quantity.Stated(catalog.Kind(9)) }),
		"no supply": known(func(f *catalog.Fan) { f.Supply = quantity.Stated(catalog.Supply(0)) }),
		"origin":    known(func(f *catalog.Fan) { f.Leads = quantity.From(3.0, quantity.Default+1) }),
		"point":     known(func(f *catalog.Fan) { f.Curve = []catalog.CurvePoint{{Pressure: quantity.Pressure(math.NaN())}} }),
		"too long":  known(func(f *catalog.Fan) { f.Description = strings.Repeat("x", maxRecord) }),
	} {
		var re *RowError
		if _, err := currentSchema().encode(f); !errors.As(err, &re) {
			t.Errorf("%s: encode gives %v, want a RowError", name, err)
		}
	}
}

func TestFingerprint(t *testing.T) {
	s := currentSchema()
	of := func(change func(f *catalog.Fan)) fingerprint {
		f := inventedFans(1)[0]
		change(f)
		record, err := s.encode(f)
		if err != nil {
			t.Fatal(err)
		}
		return fingerprintOf(record)
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
		"text":   func(f *catalog.Fan) { f.Description += " " },
	} {
		if of(change) == plain {
			t.Errorf("another %s has the same fingerprint", name)
		}
	}
}

// FuzzRecord: no bytes make the decoder panic, and what it accepts is exactly
// what the encoder writes.
func FuzzRecord(f *testing.F) {
	s := currentSchema()
	for _, fan := range inventedFans(3) {
		record, err := s.encode(fan)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(record)
	}
	f.Add([]byte{})
	f.Fuzz(func(t *testing.T, record []byte) {
		fan, err := s.decode(record)
		if err != nil {
			return
		}
		again, err := s.encode(fan)
		if err != nil {
			t.Fatalf("decoded, but not to be encoded: %v", err)
		}
		back, err := s.decode(again)
		if err != nil || !reflect.DeepEqual(fan, back) {
			t.Fatalf("%+v reads back as %+v, %v", fan, back, err)
		}
	})
}

func FuzzBlock(f *testing.F) {
	w := newBlockWriter()
	for range 3 {
		w.add([]byte("a record"))
	}
	block, err := w.take()
	if err != nil {
		f.Fatal(err)
	}
	f.Add(block, 3)
	f.Fuzz(func(t *testing.T, block []byte, rows int) {
		if rows < 0 {
			return
		}
		if records, err := unfold(block, rows); err == nil && len(records) != rows {
			t.Fatalf("%d records of %d", len(records), rows)
		}
	})
}

func TestBlocks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := newBlockWriter()
		for range 2 { // the writer is used again
			records := rapid.SliceOfN(rapid.SliceOf(rapid.Byte()), 1, 20).Draw(t, "records")
			for _, r := range records {
				w.add(r)
			}
			block, err := w.take()
			if err != nil {
				t.Fatal(err)
			}
			back, err := unfold(block, len(records))
			if err != nil {
				t.Fatal(err)
			}
			for i := range records {
				if !bytes.Equal(records[i], back[i]) {
					t.Fatalf("record %d is %x, was %x", i, back[i], records[i])
				}
			}
		}
	})
}
