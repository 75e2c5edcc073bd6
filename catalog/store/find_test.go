package store

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
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

func TestTableOfManyParts(t *testing.T) {
	path := filepath.Join(t.TempDir(), blobFile)
	w, err := createBlobs(path)
	if err != nil {
		t.Fatal(err)
	}
	name := func(row int) string { return fmt.Sprintf("p%d", row/2) } // two rows each
	var entries []partEntry
	for row := range 3 * partsPerChunk {
		entries = append(entries, partEntry{partHash(name(row)), uint32(row)})
	}
	// One part fills more than a chunk.
	for i := range partsPerChunk + 10 {
		entries = append(entries, partEntry{partHash("same"), uint32(3*partsPerChunk + i)})
	}
	if err := writeParts(w, entries); err != nil {
		t.Fatal(err)
	}
	known, err := w.close()
	if err != nil {
		t.Fatal(err)
	}
	blobs, err := openBlobs(path, known)
	if err != nil {
		t.Fatal(err)
	}
	defer blobs.close()
	err = blobs.read(func(get getter) error {
		for row := 0; row < 3*partsPerChunk; row += 2 {
			if got, err := rowsWith(get, partHash(name(row))); err != nil || len(got) != 2 || got[0] != row || got[1] != row+1 {
				t.Fatalf("rows of %q: %v, %v, want %d and the next", name(row), got, err, row)
			}
		}
		if got, err := rowsWith(get, partHash("none")); err != nil || got != nil {
			t.Errorf("rows of no part: %v, %v", got, err)
		}
		got, err := rowsWith(get, partHash("same"))
		if err != nil || len(got) != partsPerChunk+10 || got[0] != 3*partsPerChunk || !slices.IsSorted(got) {
			t.Errorf("rows of a part of many makers: %d, %v", len(got), err)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
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
	if hits, err := c.Search(context.Background(), "Kontro Süd", 0); err != nil || len(hits) != 1 || !hits[0].Near() {
		t.Errorf("a text with a typing error gives %v, %v, want row 0 as near", hits, err)
	}
	if hits, err := c.Search(context.Background(), "Kontor", 0); err != nil || len(hits) != 1 || hits[0].Near() {
		t.Errorf("a text without gives %v, %v, want row 0, not as near", hits, err)
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
