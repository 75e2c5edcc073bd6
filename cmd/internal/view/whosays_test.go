package view

import (
	"testing"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// TestRoundingIsNoDispute: what sources say is one value where they rounded or
// converted it, and two where a fan would differ.
func TestRoundingIsNoDispute(t *testing.T) {
	for _, r := range []struct {
		field catalog.FieldID
		a, b  float64 // in the unit of the field
		same  bool
	}{
		{catalog.FieldWidth, 80, 80.01, true}, {catalog.FieldWidth, 80, 80.5, true}, {catalog.FieldWidth, 80, 80.6, false},
		{catalog.FieldDepth, 25, 25.4, true}, {catalog.FieldDepth, 5, 5.6, false},
		{catalog.FieldAirflow, 49.44121415, 49.7, true}, {catalog.FieldAirflow, 49, 49.7, false},
		{catalog.FieldSpeed, 2200, 2222, true}, {catalog.FieldSpeed, 2200, 2350, false},
		{catalog.FieldNoise, 30, 30.3, true}, {catalog.FieldNoise, 30, 31, false},
		{catalog.FieldNoiseDistance, 1, 1.005, true}, {catalog.FieldNoiseDistance, 1, 1.5, false},
		{catalog.FieldLeads, 3, 3, true}, {catalog.FieldStock, 1000, 1001, false}, {catalog.FieldPrice, 4.75, 4.76, false},
	} {
		d := &catalog.Fields[r.field]
		a, b := &catalog.Fan{}, &catalog.Fan{}
		d.Put(a, catalog.Value{Number: d.SI(r.a)}, quantity.Cell)
		d.Put(b, catalog.Value{Number: d.SI(r.b)}, quantity.Cell)
		for _, pair := range [][2]*catalog.Fan{{a, b}, {b, a}} {
			show := Show{Fan: pair[0], Others: []*catalog.Fan{pair[1]}}
			if got := len(show.differences()) == 0; got != r.same {
				t.Errorf("%s: %v and %v are one value: %v, want %v", d.Name, r.a, r.b, got, r.same)
			}
		}
		show := Show{Fan: a, Others: []*catalog.Fan{{}}}
		if len(show.differences()) != 1 {
			t.Errorf("%s: %v against nothing stated is no difference", d.Name, r.a)
		}
	}
}

// TestSaidDigits: four digits at most, none of those before the point lost.
func TestSaidDigits(t *testing.T) {
	for v, want := range map[float64]string{49.44121415: "49.44 m³/h", 7: "7 m³/h", 12345.6: "12346 m³/h"} {
		d := &catalog.Fields[catalog.FieldAirflow]
		f := &catalog.Fan{}
		d.Put(f, catalog.Value{Number: d.SI(v)}, quantity.Cell)
		if got := saidText(f, d); got != want {
			t.Errorf("saidText(%v) = %s, want %s", v, got, want)
		}
	}
}
