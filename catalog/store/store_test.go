package store

import (
	"context"
	"errors"
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
	"lowsone/catalog/index"
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
		if err := b.Add(f); err != nil {
			t.Fatal(err)
		}
	}
	r, err := b.Commit(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return r
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
			}
			of := func(c *catalog.Columns) (v cell) {
				v = cell{number: bits(c.Number(id, i)), code: c.Code(id, i), text: c.Text(id, i)}
				if id == catalog.FieldCurve {
					v.flow, v.pressure = c.Curve(i)
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
	fans := inventedFans(chunkRows + 77)
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
	want := []SourceInfo{{"a.csv", "/data/a.csv", 2, day}, {"b.csv", "/data/b.csv", 10, day}}
	if d := cmp.Diff(want, info.Sources); d != "" {
		t.Errorf("sources (-want +got):\n%s", d)
	}
	for id, want := range map[catalog.FieldID]int{catalog.FieldPart: 0, catalog.FieldNoise: 2, catalog.FieldLife: 12, catalog.FieldCurve: 10, catalog.FieldDescription: 2} {
		if got := info.Missing[id]; got != want {
			t.Errorf("%s is missing %d times, want %d", catalog.Fields[id].Name, got, want)
		}
	}
}

func TestSources(t *testing.T) {
	dir := t.TempDir()
	fill(t, dir, "b.csv", part("B1"), part("B2"))
	fill(t, dir, "c.csv", part("C1"))
	fill(t, dir, "a.csv", part("A1"))
	if got, want := names(t, dir), []string{"A1", "B1", "B2", "C1"}; !cmp.Equal(got, want) {
		t.Errorf("three sources give %v, want %v", got, want)
	}
	fill(t, dir, "b.csv", part("B3"))
	if got, want := names(t, dir), []string{"A1", "B3", "C1"}; !cmp.Equal(got, want) {
		t.Errorf("replacing one gives %v, want %v", got, want)
	}
	fill(t, dir, "b.csv")
	if got, want := names(t, dir), []string{"A1", "C1"}; !cmp.Equal(got, want) {
		t.Errorf("emptying one gives %v, want %v", got, want)
	}
	c := open(t, dir)
	defer c.Close()
	if n := len(c.Info().Sources); n != 2 {
		t.Errorf("%d sources, want 2", n)
	}
	if f, err := c.Fan(1); err != nil || f.Source.Name != "c.csv" {
		t.Errorf("row 1 comes from %v, %v", f, err)
	}
}

func TestKeptRowsStayAsTheyAre(t *testing.T) {
	dir := t.TempDir()
	fill(t, dir, "b.csv", inventedFans(500)...)
	before := open(t, dir)
	want := all(t, before)
	before.Close()
	fill(t, dir, "a.csv", part("A1"))
	fill(t, dir, "c.csv", part("C1"))
	after := open(t, dir)
	defer after.Close()
	if got := all(t, after)[1:501]; !reflect.DeepEqual(got, want) {
		t.Error("rows of another source changed")
	}
	if hits, err := after.Search(context.Background(), want[7].Part, 1); err != nil || len(hits) != 1 || hits[0].Row != 8 {
		t.Errorf("a kept row is found as %v, %v, want row 8", hits, err)
	}
}

func TestCounts(t *testing.T) {
	dir := t.TempDir()
	loud, quiet := part("A1"), part("a 1") // one key
	quiet.Description = "quiet"
	first := fill(t, dir, "a.csv", loud, part("A2"), quiet, part("A3"), part("A4"))
	if want := (Counts{New: 4, Overtaken: 1}); first.Counts != want {
		t.Errorf("first import: %+v, want %+v", first.Counts, want)
	}
	if got, want := names(t, dir), []string{"A2", "a 1", "A3", "A4"}; !cmp.Equal(got, want) {
		t.Errorf("of rows with one key the last wins: %v, want %v", got, want)
	}
	moved := part("A2")
	moved.Source.Line = 70
	changed := part("A3")
	changed.Maker = "" // the key stays
	changed.Description = "new"
	again := fill(t, dir, "a.csv", moved, loud, changed, quiet, part("A5"), part("A5"))
	if want := (Counts{New: 1, Changed: 1, Unchanged: 2, Overtaken: 2, Removed: 1}); again.Counts != want {
		t.Errorf("second import: %+v, want %+v", again.Counts, want)
	}
	other := fill(t, dir, "b.csv", part("A2"))
	if want := (Counts{New: 1}); other.Counts != want {
		t.Errorf("another source: %+v, want %+v", other.Counts, want)
	}
}

// A dry run counts as an import does.
func TestLedgerCountsAsTheBuilder(t *testing.T) {
	dir := t.TempDir()
	fans := inventedFans(50)
	fill(t, dir, "a.csv", fans[:30]...)
	c := open(t, dir)
	l, err := NewLedger(context.Background(), c, "a.csv")
	if err != nil {
		t.Fatal(err)
	}
	c.Close()
	fans[25].Description = "changed"
	added := append(fans[20:], fans[22])
	for _, f := range added {
		if err := l.Add(f); err != nil {
			t.Fatal(err)
		}
	}
	want := Counts{New: 20, Changed: 1, Unchanged: 9, Overtaken: 1, Removed: 20}
	if got := l.Counts(); got != want {
		t.Errorf("ledger: %+v, want %+v", got, want)
	}
	if r := fill(t, dir, "a.csv", added...); r.Counts != want {
		t.Errorf("builder: %+v, want %+v", r.Counts, want)
	}
}

func TestAddRefusesWhatCannotBeKept(t *testing.T) {
	dir := t.TempDir()
	b, err := Begin(context.Background(), dir, Import{Source: "a.csv"})
	if err != nil {
		t.Fatal(err)
	}
	var re *RowError
	if err := b.Add(&catalog.Fan{}); !errors.As(err, &re) {
		t.Errorf("Add of a fan without a part = %v, want a RowError", err)
	}
	if err := b.Add(part("A1")); err != nil {
		t.Fatal(err)
	}
	r, err := b.Commit(context.Background())
	if err != nil || r.Rows != 1 || r.Counts != (Counts{New: 1}) {
		t.Errorf("Commit() = %+v, %v, want the one row", r, err)
	}
}

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

func TestSourceNamesThatAreNoText(t *testing.T) {
	dir := t.TempDir()
	fill(t, dir, "a\xff.csv", part("A1"))
	if r := fill(t, dir, "a\xff.csv", part("A1")); r.Unchanged != 1 || r.Rows != 1 {
		t.Errorf("importing the same source again gives %+v", r)
	}
	if _, err := Begin(context.Background(), dir, Import{}); err == nil {
		t.Error("an import without a source begins")
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
