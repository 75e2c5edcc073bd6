package store

import (
	"context"
	"errors"
	"fmt"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"lowsone/catalog"
)

// fillAt imports at a moment.
func fillAt(t tester, dir, source string, at time.Time, fans ...*catalog.Fan) {
	t.Helper()
	b, err := Begin(context.Background(), dir, Import{Source: source, Time: at})
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range fans {
		r, err := NewRow(f, 0)
		if err != nil {
			t.Fatal(err)
		}
		if err := b.Add(r); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := b.Commit(context.Background()); err != nil {
		t.Fatal(err)
	}
}

func twins(t tester, c *Catalogue) *Twins {
	t.Helper()
	found, err := c.Twins(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return found
}

func TestTwins(t *testing.T) {
	dir := t.TempDir()
	fan := func(maker, part string) *catalog.Fan { return &catalog.Fan{Maker: maker, Part: part} }
	fillAt(t, dir, "b", day, fan("Nordwind", "A 1"), fan("Tarsus", "A1"), fan("", "A2"))
	fillAt(t, dir, "c", day.Add(-time.Hour), fan("NORDWIND", "a1"), fan("Odalys", "A2"), fan("", "A3"))
	fillAt(t, dir, "a", day, fan("nord wind", "A1"), fan("", "a2"), fan("", "A4"))
	c := open(t, dir)
	defer c.Close()
	var none *NoSourceError
	if err := c.Prefer("nowhere"); !errors.As(err, &none) {
		t.Errorf("preferring a source that is not there: %v", err)
	}
	// Rows: a 0 to 2, b 3 to 5, c 6 to 8. Of a and b, imported at one moment, b is named last.
	for _, tt := range []struct {
		preferred string
		want      map[int][]int
	}{
		{"", map[int][]int{3: {0, 6}, 5: {1}}},
		{"a", map[int][]int{0: {3, 6}, 1: {5}}},
		{"c", map[int][]int{6: {0, 3}, 5: {1}}},
	} {
		if tt.preferred != "" {
			if err := c.Prefer(tt.preferred); err != nil {
				t.Fatal(err)
			}
		}
		found := twins(t, c)
		if found.Parts() != len(tt.want) {
			t.Errorf("preferring %q: %d parts, want %d", tt.preferred, found.Parts(), len(tt.want))
		}
		aside := map[int]bool{}
		rows := []int{8, 7, 6, 5, 4, 3, 2, 1, 0}
		for i, others := range found.Others(rows) {
			row := rows[i]
			if !cmp.Equal(others, tt.want[row]) {
				t.Errorf("preferring %q: for row %d are set aside %v, want %v", tt.preferred, row, others, tt.want[row])
			}
			for _, other := range others {
				aside[other] = true
				if got := found.Counts(other); got != row {
					t.Errorf("preferring %q: for row %d counts %d, want %d", tt.preferred, other, got, row)
				}
			}
			alike := append(others, row)
			if got := alike[c.Counting(alike)]; len(others) > 0 && got != row {
				t.Errorf("preferring %q: of rows %v counts %d, want %d", tt.preferred, alike, got, row)
			}
		}
		for row := range c.Rows() {
			if bit := found.Aside()[row/64]>>(row%64)&1 == 1; bit != aside[row] {
				t.Errorf("preferring %q: row %d is set aside: %v, want %v", tt.preferred, row, bit, aside[row])
			}
			if got := found.Counts(row); (got == row) == aside[row] {
				t.Errorf("preferring %q: for row %d counts %d", tt.preferred, row, got)
			}
		}
	}
}

// With one source there is nothing to set aside, whatever it lists.
func TestNoTwins(t *testing.T) {
	dir := t.TempDir()
	fill(t, dir, "a.csv", part("A1"), &catalog.Fan{Part: "A1", Maker: "Nordwind"})
	c := open(t, dir)
	defer c.Close()
	if found := twins(t, c); found.Parts() != 0 || found.Aside() != nil || found.Others([]int{0})[0] != nil {
		t.Errorf("twins of one source: %+v", found)
	}
}

// Of every key one row counts, as a plain comparison of all rows has it.
func TestTwinsAgainstAllPairs(t *testing.T) {
	draw := rapid.SliceOfNDistinct(rapid.Custom(func(r *rapid.T) *catalog.Fan {
		part := fmt.Sprint("A", rapid.IntRange(0, 3).Draw(r, "part"))
		return &catalog.Fan{Maker: rapid.SampledFrom([]string{"", "x", "X ", "y", "z", "u", "v", "w"}).Draw(r, "maker"), Part: part}
	}), 1, 20, (*catalog.Fan).Key)
	for seed := range 12 {
		dir := t.TempDir()
		var list []*catalog.Fan // in the order of rows
		var weight []int
		for n := range 3 {
			source, hours := draw.Example(3*seed+n), (seed>>n)%3
			fillAt(t, dir, fmt.Sprint(n), day.Add(time.Duration(hours)*time.Hour), source...)
			for range source {
				weight = append(weight, 3*hours+n)
			}
			list = append(list, source...)
		}
		c := open(t, dir)
		aside := twins(t, c).Aside()
		for i, f := range list {
			best := i
			for j, g := range list {
				if f.Key() == g.Key() && weight[j] > weight[best] {
					best = j
				}
			}
			if got := aside != nil && aside[i/64]>>(i%64)&1 == 1; got != (best != i) {
				t.Errorf("seed %d: row %d (%q) is set aside: %v, want it for row %d", seed, i, f.Name(), got, best)
			}
		}
		c.Close()
	}
}

func TestEach(t *testing.T) {
	dir := kept(t)
	c := open(t, dir)
	defer c.Close()
	want := all(t, c)
	for _, source := range []string{"", "a.csv", "b.csv", "c.csv"} {
		begin, end := 0, c.Rows()
		if source != "" {
			var err error
			if begin, end, err = c.Span(source); err != nil {
				t.Fatal(err)
			}
		}
		next := begin
		err := c.Each(context.Background(), source, func(row int, f *catalog.Fan) error {
			if row != next || f.Part != want[row].Part || source != "" && f.Source.Name != source {
				t.Errorf("%q: row %d is %v of %v, want row %d, %q", source, row, f.Part, f.Source, next, want[next].Part)
			}
			next++
			return nil
		})
		if err != nil || next != end {
			t.Errorf("%q: it ends at row %d with %v, want %d", source, next, err, end)
		}
	}
	var none *NoSourceError
	if err := c.Each(context.Background(), "d.csv", nil); !errors.As(err, &none) {
		t.Errorf("fans of a source that is not there: %v", err)
	}
	stop := errors.New("enough")
	if err := c.Each(context.Background(), "", func(int, *catalog.Fan) error { return stop }); err != stop {
		t.Errorf("Each stopped = %v, want %v", err, stop)
	}
	damageRow(t, dir, 150)
	wantDamage(t, "Each over damaged rows", c.Each(context.Background(), "", func(int, *catalog.Fan) error { return nil }))
}
