package store

import (
	"context"
	"reflect"
	"testing"

	"github.com/google/go-cmp/cmp"
)

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
		if err := add(l, f); err != nil {
			t.Fatal(err)
		}
	}
	want := Counts{New: 20, Changed: 1, Unchanged: 9, Overtaken: 1, Removed: 20}
	if got := l.Settle().Counts; got != want {
		t.Errorf("ledger: %+v, want %+v", got, want)
	}
	if r := fill(t, dir, "a.csv", added...); r.Counts != want {
		t.Errorf("builder: %+v, want %+v", r.Counts, want)
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
