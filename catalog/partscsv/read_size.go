package partscsv

import (
	"fmt"
	"slices"
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// sides are the sides that a size cell gives, in metres; 0 for none.
type sides struct{ width, height, depth float64 }

// size reads a cell of a width column: one side, or a product of two or three.
func (r *Reader) size(c *column, text string) {
	if s, ok := frameCode(text, c); ok {
		r.row.remark(c, "frame code %s is read as %s by %s", text, show(c.def(), s.width), show(c.def(), s.depth))
		r.putSides(c, s, text)
		return
	}
	fault := r.take(c, text)
	if fault == "" {
		fault = r.rangesInSize()
	}
	if fault != "" {
		r.row.refuse(c, text, fault, c.hint(fault))
		return
	}
	for _, product := range metricFirst(products(r.sorted.values)) {
		s, note, fault := r.shape(c, product)
		if fault != "" {
			r.row.refuse(c, text, fault, "")
			return
		}
		if note != "" {
			r.row.remark(c, "size %q: %s", text, note)
		}
		r.putSides(c, s, text)
	}
	if r.cell.noted {
		r.row.remark(c, "%s has a footnote mark", c.def().Title)
	}
}

func (r *Reader) rangesInSize() (fault string) {
	for i := range r.sorted.values {
		if r.sorted.values[i].ranged() {
			return "a range where one number belongs"
		}
	}
	return ""
}

func (r *Reader) putSides(c *column, s sides, text string) {
	r.row.put(c, catalog.FieldWidth, s.width, quantity.Cell, text)
	if s.height != 0 {
		r.row.put(c, catalog.FieldHeight, s.height, quantity.Cell, text)
	} else {
		r.row.single = c.index
	}
	if s.depth != 0 {
		r.row.put(c, catalog.FieldDepth, s.depth, quantity.Cell, text)
	}
}

// products parts a cell's values at everything but multiplication signs.
func products(values []value) [][]value {
	if list := paired(values); list != nil {
		return list
	}
	var list [][]value
	start := 0
	for i := range values {
		if i > 0 && values[i].joint != tokTimes {
			list = append(list, values[start:i])
			start = i
		}
	}
	return append(list, values[start:])
}

// paired makes two products of one whose sides are each given in two units:
// 2.36" (60mm) x 2.36" (60mm). It gives nil for any other cell.
func paired(values []value) [][]value {
	if len(values) < 4 || len(values)%2 != 0 {
		return nil
	}
	list := make([][]value, 2)
	for i, v := range values {
		times := i > 0 && v.joint == tokTimes
		if times != (i > 0 && i%2 == 0) || v.unit.Symbol != values[i%2].unit.Symbol {
			return nil
		}
		list[i%2] = append(list[i%2], v)
	}
	if values[0].unit.Symbol == values[1].unit.Symbol {
		return nil
	}
	return list
}

// metricFirst puts products in inches behind others: frames are made in whole
// millimetres, and inches beside them are rounded from those (common practice).
func metricFirst(list [][]value) [][]value {
	slices.SortStableFunc(list, func(a, b []value) int {
		return compareBool(isInch(&a[0].unit), isInch(&b[0].unit))
	})
	return list
}

func isInch(u *quantity.Unit) bool { return u.Symbol == "inch" }

// flat is how much smaller than the width the second of two numbers is at most
// where it is a depth: usual frames are at most 0.78 of their width deep (36×28
// mm); rectangular openings of housings are nearer to square (common practice).
const flat = 0.8

// shape says which side is which.
//
// Three numbers are width, height and depth, but of two equal sides and a
// smaller one the odd one is the depth, wherever it stands. Two numbers are what
// the letters beside them or in the header say; else a square or round frame and
// its depth where the second is under 0.8 of the first, else width and height.
func (r *Reader) shape(c *column, product []value) (s sides, note, fault string) {
	v := func(i int) float64 { return product[i].low }
	letters := r.cell.labels
	if len(letters) != len(product) {
		letters = c.header.product
	}
	if len(letters) != len(product) {
		letters = ""
	}
	switch len(product) {
	case 1:
		if r.cell.round || r.cell.square {
			return sides{width: v(0), height: v(0)}, "", ""
		}
		return sides{width: v(0)}, "", ""
	case 2:
		return r.twoSides(v(0), v(1), letters)
	case 3:
		return threeSides(v(0), v(1), v(2), letters), "", ""
	}
	return s, "", fmt.Sprintf("%d sides", len(product))
}

func (r *Reader) twoSides(a, b float64, letters string) (s sides, note, fault string) {
	deep := letters != "" && strings.IndexByte(depthLetters, letters[1]) >= 0
	flatSides := letters != "" && !deep
	switch {
	case r.cell.square && a == b: // "square, 60 x 60"
		return sides{width: a, height: b}, "", ""
	case r.cell.round, r.cell.square, deep:
		return sides{a, a, b}, "", ""
	case flatSides:
		return sides{width: a, height: b}, "", ""
	case b < flat*a:
		return sides{a, a, b}, "taken as a square frame and its depth", ""
	}
	if a != b {
		note = "taken as width and height"
	}
	return sides{width: a, height: b}, note, ""
}

// depthLetters stand for depth, Tiefe and profondeur.
const depthLetters = "dtp"

func threeSides(a, b, c float64, letters string) sides {
	if letters != "" {
		if i := strings.IndexAny(letters, depthLetters); i >= 0 && !strings.ContainsAny(letters[i+1:], depthLetters) {
			all := []float64{a, b, c}
			rest := append(append([]float64{}, all[:i]...), all[i+1:]...)
			return sides{rest[0], rest[1], all[i]}
		}
	}
	switch {
	case a == c && b < a:
		return sides{a, c, b}
	case b == c && a < b:
		return sides{b, c, a}
	}
	return sides{a, b, c}
}

// frameCode reads the trade's frame codes, width and depth in mm without a sign
// between them: 6025 is 60 by 25, 12038 is 120 by 38 (common practice).
func frameCode(text string, c *column) (sides, bool) {
	text = strings.TrimSpace(text)
	if len(text) < 4 || len(text) > 5 || strings.Trim(text, "0123456789") != "" || c.inch() {
		return sides{}, false
	}
	number := func(digits string) float64 {
		v, _ := parsePlain(digits)
		return v * float64(quantity.Millimetre)
	}
	cut := len(text) - 2
	s := sides{width: number(text[:cut]), depth: number(text[cut:])}
	s.height = s.width
	ok := s.width >= 20e-3 && s.width <= 300e-3 && s.depth >= 5e-3 && s.depth <= 1.5*s.width && number(text) > 2
	return s, ok
}

// length reads a cell of a height, depth or hole pitch column: one number, or
// for a pitch also two equal ones.
func (r *Reader) length(c *column, text string) {
	fault := r.take(c, text)
	if fault == "" && c.field == catalog.FieldHolePitch {
		fault = squarePitch(&r.sorted)
	}
	if fault == "" {
		fault = productFault(&r.sorted)
	}
	if fault == "" {
		fault = r.sorted.gather()
	}
	if fault != "" {
		r.row.refuse(c, text, fault, c.hint(fault))
		return
	}
	slices.SortStableFunc(r.sorted.amounts, func(a, b amount) int { return compareBool(isInch(&a.unit), isInch(&b.unit)) })
	if value, ok := r.settle(c, text); ok {
		r.row.put(c, c.field, value, quantity.Cell, text)
	}
}

// squarePitch makes one value of "50 x 50".
func squarePitch(s *sorted) (fault string) {
	kept := s.values[:0]
	for _, v := range s.values {
		if v.joint != tokTimes || len(kept) == 0 {
			kept = append(kept, v)
			continue
		}
		if apart(kept[len(kept)-1].low, v.low) > 1e-9 {
			return "two hole pitches; the record holds one"
		}
	}
	s.values = kept
	return ""
}

func productFault(s *sorted) (fault string) {
	for i := range s.values {
		if i > 0 && s.values[i].joint == tokTimes {
			return "a product where one number belongs"
		}
	}
	return ""
}

// takeShape takes the words for a square or round frame out of a cell.
func (r *Reader) takeShape() {
	kept := r.cell.words[:0]
	for _, w := range r.cell.words {
		switch group, _, _ := r.plan.lexicon.shapes.find(r.plan.lexicon.vocabulary.tokens(w)); group {
		case 0:
			r.cell.square = true
		case 1:
			r.cell.round = true
		default:
			kept = append(kept, w)
		}
	}
	r.cell.words = kept
}

// takeLabels cuts the letters of sides out of a product: "60W x 60H x 25D",
// "B60 x H60 x T25", "60 (W) x 60 (H)".
func takeLabels(tokens []token) (kept []token, labels string) {
	kept = tokens[:0]
	for i := 0; i < len(tokens); i++ {
		t := tokens[i]
		wrapped := t.kind == tokOpen && i+2 < len(tokens) && isLabel(tokens[i+1]) && tokens[i+2].kind == tokClose
		switch {
		case wrapped:
			labels += strings.ToLower(tokens[i+1].text)
			i += 2
		case isLabel(t):
			labels += strings.ToLower(t.text)
			if i+1 < len(tokens) && (tokens[i+1].kind == tokDC || tokens[i+1].text == ":" || tokens[i+1].text == "=") {
				i++
			}
		default:
			kept = append(kept, t)
		}
	}
	return kept, labels
}

func isLabel(t token) bool {
	if len(t.text) != 1 || t.kind != tokUnit && t.kind != tokWord {
		return false
	}
	return strings.IndexByte("WHBLDTPwhbldtp", t.text[0]) >= 0
}
