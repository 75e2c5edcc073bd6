package store

import (
	"context"
	"errors"
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"

	"lowsone/catalog"
	"lowsone/catalog/index"
)

func TestLookup(t *testing.T) {
	dir := t.TempDir()
	fans := []*catalog.Fan{
		{Part: "AB-6025/12", Maker: "Nordwind"},
		{Part: "AB-6025/12", Maker: "Hal/Vor"},
		{Part: "6025/12", Maker: "Odalys"},
		{Part: "x 1", Maker: "Brümmer Süd"},
	}
	fill(t, dir, "a.csv", fans...)
	fill(t, dir, "b.csv", &catalog.Fan{Part: "ab-6025 / 12", Maker: "NORDWIND"})
	c := open(t, dir)
	defer c.Close()
	for _, tt := range []struct {
		name string
		want []int
	}{
		{"AB-6025/12", []int{0, 1, 4}},
		{" ab-6025/ 12", []int{0, 1, 4}},
		{"nordwind/AB-6025/12", []int{0, 4}},
		{"Nordwind AB-6025/12", []int{0, 4}},
		{"hal/vor/ab-6025/12", []int{1}},
		{"Odalys/6025/12", []int{2}},
		{"6025/12", []int{2}},
		{"X1", []int{3}},
		{"Brümmer Süd x 1", []int{3}},
		{"AB-6025", nil},
		{"/6025/12", nil},
		{"", nil},
		{"/", nil},
	} {
		if got, err := c.Lookup(tt.name); err != nil || !cmp.Equal(got, tt.want) {
			t.Errorf("Lookup(%q) = %v, %v, want %v", tt.name, got, err, tt.want)
		}
	}
}

func TestFindAmongManyRows(t *testing.T) {
	dir := t.TempDir()
	var fans []*catalog.Fan
	for i := range 3 * partsPerChunk {
		f := part(fmt.Sprintf("P%d", i/2)) // two makers each
		f.Maker = fmt.Sprint("M", i%2)
		fans = append(fans, f)
	}
	// One part fills more than a chunk of the table.
	for i := range partsPerChunk + 10 {
		fans = append(fans, &catalog.Fan{Part: "same", Maker: fmt.Sprint(i)})
	}
	fill(t, dir, "a.csv", fans...)
	c := open(t, dir)
	defer c.Close()
	for _, i := range []int{0, 1, 777, partsPerChunk, len(fans)/2 - 1} {
		name := fmt.Sprintf("P%d", i)
		want := []int{2 * i, 2*i + 1}
		if 2*i >= 3*partsPerChunk {
			want = nil
		}
		if got, err := c.Find("", name); err != nil || !cmp.Equal(got, want) {
			t.Errorf("Find(%q) = %v, %v, want %v", name, got, err, want)
		}
	}
	if got, err := c.Find("", "same"); err != nil || len(got) != partsPerChunk+10 || got[0] != 3*partsPerChunk {
		t.Errorf("Find of a part of many makers gives %d rows, %v", len(got), err)
	}
}

func TestSearchWords(t *testing.T) {
	dir := t.TempDir()
	f := inventedFans(1)[0]
	f.PWM = known(true)
	fill(t, dir, "a.csv", f, part("other"))
	c := open(t, dir)
	defer c.Close()
	size := catalog.Fields[catalog.FieldWidth].Format(f)
	volts := catalog.Fields[catalog.FieldVoltage].Format(f)
	depth := catalog.Fields[catalog.FieldDepth].Format(f)
	for _, text := range []string{
		f.Part, f.Maker, f.OrderCode, "axial", size + "x" + size + "x" + depth, size + "mm", size + " mm",
		volts + "V", volts + " VDC", "dc", "pwm", "3-pin", "Kontor Süd", "tach output", "karton", f.Bearing,
	} {
		hits, err := c.Search(context.Background(), text, 0)
		if err != nil || len(hits) != 1 || hits[0].Row != 0 {
			t.Errorf("Search(%q) = %v, %v, want row 0", text, hits, err)
		}
	}
	var te *index.TextError
	if _, err := c.Search(context.Background(), string(make([]byte, 5000)), 0); !errors.As(err, &te) {
		t.Errorf("Search of a long text = %v, want a TextError", err)
	}
}

func TestSearchLimit(t *testing.T) {
	dir := t.TempDir()
	fill(t, dir, "a.csv", inventedFans(300)...)
	c := open(t, dir)
	defer c.Close()
	every, err := c.Search(context.Background(), "axial", 0)
	if err != nil || len(every) != 300 {
		t.Fatalf("%d hits, %v, want all 300", len(every), err)
	}
	few, err := c.Search(context.Background(), "axial", 7)
	if err != nil || !cmp.Equal(few, every[:7]) {
		t.Errorf("the first 7 are %v, %v, want %v", few, err, every[:7])
	}
}
