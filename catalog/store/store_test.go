package store

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

var day = time.Date(2031, 5, 4, 3, 2, 1, 0, time.UTC)

// tester is what testing.T, testing.B and rapid.T have in common.
type tester interface {
	Helper()
	Fatal(...any)
	Fatalf(string, ...any)
	Errorf(string, ...any)
}

func fill(t tester, dir, source string, fans ...*catalog.Fan) Result {
	t.Helper()
	b, err := Begin(context.Background(), dir, Import{Source: source, Path: "/data/" + source, Time: day})
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range fans {
		if err := add(b, f); err != nil {
			t.Fatal(err)
		}
	}
	r, err := b.Commit(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// add adds a fan.
func add(to interface{ Add(Row) error }, f *catalog.Fan) error {
	row, err := NewRow(f, 0)
	if err != nil {
		return err
	}
	return to.Add(row)
}

func open(t tester, dir string) *Catalogue {
	t.Helper()
	c, err := Open(context.Background(), dir)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// all reads every record.
func all(t tester, c *Catalogue) []*catalog.Fan {
	t.Helper()
	rows := make([]int, c.Rows())
	for i := range rows {
		rows[i] = i
	}
	fans, err := c.Fans(context.Background(), rows)
	if err != nil {
		t.Fatal(err)
	}
	return fans
}

// names lists the parts in row order.
func names(t tester, dir string) []string {
	t.Helper()
	c := open(t, dir)
	defer c.Close()
	var parts []string
	for _, f := range all(t, c) {
		parts = append(parts, f.Part)
	}
	return parts
}

func part(name string) *catalog.Fan { return &catalog.Fan{Part: name} }

func TestFansComeBack(t *testing.T) {
	draw := rapid.SliceOfNDistinct(anyFan(), 0, 12, (*catalog.Fan).Key)
	for seed := range 12 {
		dir := t.TempDir()
		fans := draw.Example(seed)
		fill(t, dir, "a.csv", fans...)
		c := open(t, dir)
		defer c.Close()
		for _, f := range fans {
			f.Source.Name = "a.csv"
		}
		if back := all(t, c); len(back) != len(fans) || len(fans) > 0 && !reflect.DeepEqual(back, fans) {
			t.Fatalf("read back %+v, want %+v", back, fans)
		}
		columns, err := c.Columns(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		sameColumns(t, columns, catalog.ColumnsOf(fans...))
		for i, f := range fans {
			rows, err := c.Find(f.Maker, f.Part)
			if err != nil || !slices.Contains(rows, i) {
				t.Fatalf("Find(%q, %q) = %v, %v, want row %d", f.Maker, f.Part, rows, err, i)
			}
		}
	}
}

// sameColumns compares by what the columns answer: one that holds nothing may
// be there or not.
func sameColumns(t tester, got, want *catalog.Columns) {
	t.Helper()
	if got.Rows != want.Rows {
		t.Fatalf("%d rows, want %d", got.Rows, want.Rows)
	}
	for id := range catalog.NumFields {
		for i := range want.Rows {
			type cell struct {
				number         uint64
				code           uint8
				text           string
				flow, pressure []float64
				bands          []quantity.BandLevel
			}
			of := func(c *catalog.Columns) (v cell) {
				v = cell{number: bitsOf(c.Number(id, i)), code: c.Code(id, i), text: c.Text(id, i)}
				if id == catalog.FieldCurve {
					v.flow, v.pressure = c.Curve(i)
				}
				if id == catalog.FieldNoiseBands {
					v.bands = c.Bands(i)
				}
				return v
			}
			if g, w := of(got), of(want); fmt.Sprint(g) != fmt.Sprint(w) {
				t.Fatalf("column %s, row %d: %v, want %v", catalog.Fields[id].Name, i, g, w)
			}
		}
	}
}

func TestColumnsOfManyRows(t *testing.T) {
	dir := t.TempDir()
	fans := inventedFans(groupChunks*chunkRows + chunkRows + 77)
	fill(t, dir, "a.csv", fans...)
	c := open(t, dir)
	defer c.Close()
	columns, err := c.Columns(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	sameColumns(t, columns, catalog.ColumnsOf(fans...))
	for _, row := range []int{0, blockRows - 1, blockRows, chunkRows, len(fans) - 1} {
		f, err := c.Fan(row)
		if err != nil || f.Part != fans[row].Part {
			t.Errorf("Fan(%d) = %v, %v, want part %q", row, f, err, fans[row].Part)
		}
		hits, err := c.Search(context.Background(), fans[row].Part, 0)
		if err != nil || len(hits) == 0 || hits[0].Row != row {
			t.Errorf("Search(%q) = %v, %v, want row %d first", fans[row].Part, hits, err, row)
		}
	}
	for _, row := range []int{-1, len(fans)} {
		if _, err := c.Fan(row); err == nil {
			t.Errorf("Fan(%d) of %d gives no error", row, len(fans))
		}
	}
}

func TestColumnsAsked(t *testing.T) {
	dir := t.TempDir()
	fill(t, dir, "a.csv", inventedFans(10)...)
	c := open(t, dir)
	defer c.Close()
	columns, err := c.Columns(context.Background(), catalog.FieldNoise, catalog.FieldKind, catalog.FieldLife, catalog.FieldDescription, catalog.FieldNoise)
	if err != nil {
		t.Fatal(err)
	}
	if len(columns.Numbers[catalog.FieldNoise]) != 10 || len(columns.Codes[catalog.FieldKind]) != 10 {
		t.Error("an asked column is not there")
	}
	if columns.Numbers[catalog.FieldSpeed] != nil || columns.Texts[catalog.FieldPart].End != nil || columns.CurveEnd != nil {
		t.Error("a column nobody asked for is there")
	}
	if columns.Numbers[catalog.FieldLife] != nil {
		t.Error("a column without values is there")
	}
}

func TestInfo(t *testing.T) {
	dir := t.TempDir()
	fill(t, dir, "b.csv", inventedFans(10)...)
	fill(t, dir, "a.csv", part("P1"), part("P2"))
	c := open(t, dir)
	defer c.Close()
	info := c.Info()
	if info.Dir != dir || info.Generation != 2 || info.Rows != 12 {
		t.Errorf("Info() = %+v", info)
	}
	want := []SourceInfo{{Name: "a.csv", Path: "/data/a.csv", Rows: 2, Imported: day}, {Name: "b.csv", Path: "/data/b.csv", Rows: 10, Imported: day}}
	if d := cmp.Diff(want, info.Sources); d != "" {
		t.Errorf("sources (-want +got):\n%s", d)
	}
	for id, want := range map[catalog.FieldID]int{catalog.FieldPart: 0, catalog.FieldNoise: 2, catalog.FieldLife: 12, catalog.FieldCurve: 10, catalog.FieldDescription: 2} {
		if got := info.Missing[id]; got != want {
			t.Errorf("%s is missing %d times, want %d", catalog.Fields[id].Name, got, want)
		}
	}
}

func TestSameInputSameFiles(t *testing.T) {
	fans := inventedFans(1000)
	var sums [2]string
	for i := range sums {
		dir := t.TempDir()
		fill(t, dir, "a.csv", fans...)
		b, err := os.ReadFile(filepath.Join(dir, generationName(1), blobFile))
		if err != nil {
			t.Fatal(err)
		}
		sums[i] = string(b)
	}
	if sums[0] != sums[1] {
		t.Error("two imports of the same rows give different files")
	}
}
