package tabular

import (
	"fmt"
	"slices"
	"strings"
)

// pickHeader chooses the header among the first rows of a file: the one with
// the highest score above 0, else by shape.
func pickHeader(rows []*Row, score func([]string) float64) (index int, how string) {
	best := 0.0
	if score != nil {
		for i, r := range rows {
			if s := score(r.Fields); s > best {
				best, index = s, i
			}
		}
	}
	if best > 0 {
		return index, "the row that looks most like a header"
	}
	return headerByShape(rows), "the first row as wide as the rows below it"
}

// headerByShape is the first row that reaches as far as the rows further down
// do, and fills as many cells as they typically fill. Title lines fall short of
// one or the other.
func headerByShape(rows []*Row) int {
	var lower []int // no titles are in the lower half
	for _, r := range rows[len(rows)/2:] {
		lower = append(lower, filled(r.Fields))
	}
	slices.Sort(lower)
	last := len(lower) - 1
	typical, far := lower[last/2], lower[last*3/4]
	for i, r := range rows {
		if len(r.Fields) >= far && filled(r.Fields) >= typical {
			return i
		}
	}
	return 0
}

// filled counts the cells up to the last that is not empty.
func filled(fields []string) int {
	n := len(fields)
	for n > 0 && isBlank(fields[n-1]) {
		n--
	}
	return n
}

// nameColumns makes header cells into names: blanks around them dropped and
// within them made single, empty ones "column N", repeated ones numbered, so
// that no two are equal.
func nameColumns(cells []string) []string {
	names := make([]string, len(cells))
	taken := make(map[string]bool, len(cells))
	for i, c := range cells {
		names[i] = oneLine(c)
		if names[i] == "" {
			names[i] = fmt.Sprintf("column %d", i+1)
		}
	}
	again := make([]bool, len(names))
	for i, n := range names {
		again[i] = taken[n]
		taken[n] = true
	}
	next := make(map[string]int)
	for i, n := range names {
		if again[i] {
			names[i] = numbered(n, next, taken)
		}
	}
	return names
}

// numbered finds a free name for a repeated one.
func numbered(name string, next map[string]int, taken map[string]bool) string {
	for {
		next[name]++
		candidate := fmt.Sprintf("%s (%d)", name, next[name]+1)
		if !taken[candidate] {
			taken[candidate] = true
			return candidate
		}
	}
}

// oneLine drops the blanks around a text and makes those within single spaces.
func oneLine(text string) string {
	return strings.Join(strings.FieldsFunc(text, func(r rune) bool {
		return strings.ContainsRune(blanks, r)
	}), " ")
}
