package store

import (
	"context"
	"errors"
	"slices"
	"sync"
	"testing"

	"lowsone/catalog"
)

// scanned gives the fans that a scan passes, as columns by their first rows. What
// it passes is copied: it is written over.
func scanned(t *testing.T, fans catalog.Fans, fields ...catalog.FieldID) map[int]*catalog.Columns {
	t.Helper()
	var mu sync.Mutex
	parts := map[int]*catalog.Columns{}
	err := fans.Scan(context.Background(), fields, func(c *catalog.Columns, begin, end int) error {
		rows := make([]int, 0, end-begin)
		for i := begin; i < end; i++ {
			rows = append(rows, i)
		}
		part, err := c.At(context.Background(), rows)
		mu.Lock()
		defer mu.Unlock()
		parts[c.First+begin] = part
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return parts
}

func allFields() (list []catalog.FieldID) {
	for id := range catalog.NumFields {
		list = append(list, id)
	}
	return list
}

// Fans of several kinds, so that values come and go from chunk to chunk.
func TestScanPassesEveryFanOnce(t *testing.T) {
	dir := t.TempDir()
	fans := inventedFans(groupChunks*chunkRows + chunkRows + 77)
	for i, f := range anyFans(7) {
		f.Part += " any"
		fans[i*len(fans)/20] = f
	}
	fill(t, dir, "a.csv", fans...)
	c := open(t, dir)
	defer c.Close()
	fans = all(t, c)
	for name, from := range map[string]catalog.Fans{"store": c.View(&Twins{}), "columns": catalog.ColumnsOf(fans...)} {
		row := 0
		parts := scanned(t, from, allFields()...)
		for len(parts) > 0 {
			part := parts[row]
			if part == nil {
				t.Fatalf("%s: nothing begins at row %d of %d", name, row, len(fans))
			}
			sameColumns(t, part, catalog.ColumnsOf(fans[row:row+part.Rows]...))
			delete(parts, row)
			row += part.Rows
		}
		if row != len(fans) {
			t.Errorf("%s: %d rows were passed, want %d", name, row, len(fans))
		}
	}
}

func TestViewGivesSingleRows(t *testing.T) {
	dir := t.TempDir()
	fans := inventedFans(2*chunkRows + 5)
	fill(t, dir, "a.csv", fans...)
	c := open(t, dir)
	defer c.Close()
	few := []int{2 * chunkRows, 0, 7, 7}
	many := make([]int, gatheredRows+1)
	for i := range many {
		many[i] = (3 * i) % len(fans)
	}
	for _, rows := range [][]int{few, many, nil} {
		columns, err := c.View(&Twins{}).At(context.Background(), rows)
		if err != nil {
			t.Fatal(err)
		}
		want := make([]*catalog.Fan, len(rows))
		for n, row := range rows {
			want[n] = fans[row]
		}
		sameColumns(t, columns, catalog.ColumnsOf(want...))
	}
}

func TestScanMarksWhatIsSetAside(t *testing.T) {
	dir := t.TempDir()
	fill(t, dir, "a.csv", inventedFans(chunkRows+70)...)
	fill(t, dir, "b.csv", inventedFans(30)...)
	c := open(t, dir)
	defer c.Close()
	columns, err := c.Columns(context.Background(), catalog.FieldPart, catalog.FieldMaker)
	if err != nil {
		t.Fatal(err)
	}
	twins, err := c.Twins(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	columns.Aside = twins.Aside()
	var mu sync.Mutex
	var got, want []int
	err = c.View(twins).Scan(context.Background(), []catalog.FieldID{catalog.FieldPart}, func(c *catalog.Columns, begin, end int) error {
		mu.Lock()
		defer mu.Unlock()
		for i := begin; i < end; i++ {
			if c.IsAside(i) {
				got = append(got, c.First+i)
			}
		}
		return nil
	})
	for i := range columns.Rows {
		if columns.IsAside(i) {
			want = append(want, i)
		}
	}
	slices.Sort(got)
	if err != nil || len(want) != 30 || !slices.Equal(got, want) {
		t.Errorf("%d rows are set aside, want %d: %v", len(got), len(want), err)
	}
}

func TestScanEndsWithAnError(t *testing.T) {
	dir := t.TempDir()
	fill(t, dir, "a.csv", inventedFans(40)...)
	c := open(t, dir)
	defer c.Close()
	stop := errors.New("stop")
	fields := []catalog.FieldID{catalog.FieldNoise}
	if err := c.View(&Twins{}).Scan(context.Background(), fields, func(*catalog.Columns, int, int) error { return stop }); !errors.Is(err, stop) {
		t.Errorf("Scan gives %v, want what pass gave", err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if err := c.View(&Twins{}).Scan(ctx, fields, func(*catalog.Columns, int, int) error { return nil }); !errors.Is(err, context.Canceled) {
		t.Errorf("Scan gives %v, want %v", err, context.Canceled)
	}
}
