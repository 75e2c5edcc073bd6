package partscsv

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"lowsone/catalog/quantity"
)

// unitTree finds the longest unit a normalised text begins with.
type unitTree struct {
	next  map[rune]*unitTree
	units []quantity.Unit // that are spelled so
}

func newUnitTree() *unitTree {
	root := &unitTree{}
	for _, u := range quantity.Units() {
		for _, s := range u.Spellings() {
			if n := len(s); n > 1 && strings.ContainsRune("~-=", rune(s[n-1])) {
				continue // a sign of supply or of a range: read on its own
			}
			root.put(s, u)
		}
	}
	return root
}

func (t *unitTree) put(spelling string, u quantity.Unit) {
	for _, r := range spelling {
		if t.next == nil {
			t.next = map[rune]*unitTree{}
		}
		if t.next[r] == nil {
			t.next[r] = &unitTree{}
		}
		t = t.next[r]
	}
	if !slices.ContainsFunc(t.units, func(v quantity.Unit) bool { return v.Symbol == u.Symbol && v.Dimension == u.Dimension }) {
		t.units = append(t.units, u)
	}
}

// longest gives the units that the beginning of text spells, and how many
// bytes it takes; a letter may not follow. Blanks within a unit do not count.
func (t *unitTree) longest(text string) (units []quantity.Unit, size int) {
	for i, r := range text {
		f, ok := foldUnitRune(r)
		if !ok {
			if i == 0 {
				return nil, 0
			}
			continue
		}
		t = t.next[f]
		if t == nil {
			break
		}
		end := i + utf8.RuneLen(r)
		if t.units != nil && !letterFollows(text[end:], f) {
			units, size = t.units, end
		}
	}
	return units, size
}

// letterFollows says whether the word goes on behind a unit that ends in r.
func letterFollows(rest string, r rune) bool {
	next, size := utf8.DecodeRuneInString(rest)
	return size > 0 && unicode.IsLetter(next) && (unicode.IsLetter(r) || unicode.IsDigit(r))
}

// foldUnitRune is quantity.Fold for one rune of a normalised text.
func foldUnitRune(r rune) (rune, bool) {
	switch r {
	case ' ', '^', '_', '·':
		return 0, false
	}
	return unicode.ToLower(r), true
}

// ofDimension picks the unit of a dimension.
func ofDimension(units []quantity.Unit, d quantity.Dimension) (quantity.Unit, bool) {
	for _, u := range units {
		if u.Dimension == d {
			return u, true
		}
	}
	return quantity.Unit{}, false
}
