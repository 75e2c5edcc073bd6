package cli

import (
	"cmp"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// The first rows are those that sorting all of them gives, and none is lost.
func TestLeading(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		keys := rapid.SliceOf(rapid.IntRange(0, 9)).Draw(t, "keys")
		rows := make([]int, len(keys))
		for i := range rows {
			rows[i] = i
		}
		compare := func(i, j int) int { return cmp.Or(cmp.Compare(keys[i], keys[j]), cmp.Compare(i, j)) }
		sorted := slices.Clone(rows)
		slices.SortFunc(sorted, compare)
		n := rapid.IntRange(0, len(rows)+1).Draw(t, "n")
		leading(rows, n, compare)
		shown := len(rows)
		if n > 0 {
			shown = min(n, len(rows))
		}
		if !slices.Equal(rows[:shown], sorted[:shown]) {
			t.Fatalf("the first %d of %v are %v, want %v", n, keys, rows[:shown], sorted[:shown])
		}
		if slices.Sort(rows); len(slices.Compact(rows)) != len(keys) {
			t.Fatalf("rows are lost or come twice: %v", rows)
		}
	})
}

func TestCompareFolded(t *testing.T) {
	text := rapid.StringOfN(rapid.RuneFrom([]rune("aAbBzZ09-[_üÜßKİ")), 0, 5, -1)
	rapid.Check(t, func(t *rapid.T) {
		a, b := text.Draw(t, "a"), text.Draw(t, "b")
		if got, want := compareFolded(a, b), cmp.Compare(strings.ToLower(a), strings.ToLower(b)); got != want {
			t.Fatalf("compareFolded(%q, %q) = %d, want %d", a, b, got, want)
		}
	})
}
