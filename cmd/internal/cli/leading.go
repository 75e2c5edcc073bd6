package cli

import (
	"cmp"
	"slices"
	"strings"
	"unicode/utf8"

	"lowsone/catalog"
)

// comparePart orders rows that the words find equally well: by part, case
// folded.
func comparePart(columns *catalog.Columns, i, j int) int {
	return compareFolded(columns.Text(catalog.FieldPart, i), columns.Text(catalog.FieldPart, j))
}

// compareFolded compares texts in lower case. Up to where they differ nearly all
// of them are ASCII, and need no memory.
func compareFolded(a, b string) int {
	for i := range min(len(a), len(b)) {
		x, y := a[i], b[i]
		if x >= utf8.RuneSelf || y >= utf8.RuneSelf {
			return cmp.Compare(strings.ToLower(a), strings.ToLower(b))
		}
		if x, y = lowerASCII(x), lowerASCII(y); x != y {
			return cmp.Compare(x, y)
		}
	}
	return cmp.Compare(len(a), len(b))
}

func lowerASCII(c byte) byte {
	if c >= 'A' && c <= 'Z' {
		c += 'a' - 'A'
	}
	return c
}

// leading puts the first n rows at the beginning, in order; all where n is 0. A
// common word finds most of a catalogue, and a few rows of it are shown.
func leading(rows []int, n int, compare func(i, j int) int) {
	if n <= 0 || n >= len(rows) {
		slices.SortFunc(rows, compare)
		return
	}
	first := rows[:n]
	slices.SortFunc(first, compare)
	for k := n; k < len(rows); k++ {
		if compare(rows[k], first[n-1]) >= 0 {
			continue
		}
		at, _ := slices.BinarySearchFunc(first, rows[k], compare)
		last := first[n-1]
		copy(first[at+1:], first[at:n-1])
		first[at], rows[k] = rows[k], last
	}
}
