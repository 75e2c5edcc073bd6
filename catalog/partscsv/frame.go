package partscsv

import (
	"fmt"
	"math"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// frameFallback settles what a width or height is beside a column that states
// the size as a whole: "60 x 60 mm" beside a "width" of 25 mm. Some lists call the
// thickness of the frame its width, others its height (common practice); it must
// not become a 25 mm frame. Where such a column contradicts the side of every
// size, it is the depth if nothing else gives one, and is not read otherwise.
// Where it does not, the two columns check each other.
func (b *builder) frameFallback() {
	first := b.columnOf(catalog.FieldWidth)
	if first == nil || first.how == ByForce || first.how == ByName {
		return
	}
	size := b.sizeColumn(first)
	if size == nil {
		return
	}
	side := first
	if size == first {
		side = b.widthColumn(size)
	}
	if side != nil {
		b.settleSide(size, side)
	}
	height := b.columnOf(catalog.FieldHeight)
	if height != nil && b.columnOf(catalog.FieldWidth) == size {
		b.settleSide(size, height)
	}
}

// sizeColumn gives the column that states the size of the frame as a whole: of
// those that do not name one side the one with products, else the surest.
func (b *builder) sizeColumn(first *column) *column {
	var list []*column
	if !b.oneSide(first) {
		list = append(list, first)
	}
	list = append(list, b.widthLike(false)...)
	for _, c := range list {
		if e := b.evidenceFor(c, catalog.FieldWidth); e.share(e.products) >= 0.5 {
			return c
		}
	}
	if len(list) == 0 {
		return nil
	}
	return list[0]
}

// widthColumn gives the unread column that by its header is the width alone,
// else one that says the size again ("Frame" beside "Dimensions"), where every
// row agrees.
func (b *builder) widthColumn(size *column) *column {
	for _, c := range b.widthLike(true) {
		return c
	}
	for _, c := range b.widthLike(false) {
		if v := b.compareSide(size, c); c != size && v.rows > 0 && v.agree == v.rows {
			return c
		}
	}
	return nil
}

// widthLike lists the unread columns that may as well be the width, the surest
// first.
func (b *builder) widthLike(oneSide bool) []*column {
	var list []*column
	for _, g := range b.guesses(func(c *column, id catalog.FieldID) bool { return id == catalog.FieldWidth && !c.taken }) {
		if g.score >= enough && b.oneSide(g.column) == oneSide {
			list = append(list, g.column)
		}
	}
	return list
}

// oneSide says whether a header names one side of the frame, not its size.
func (b *builder) oneSide(c *column) bool {
	return c.header.product == "" && (c.header.letter || b.lexicon.oneSide.has(c.header.tokens))
}

// settleSide decides what the column side is beside the column size.
func (b *builder) settleSide(size, side *column) {
	v := b.compareSide(size, side)
	if v.rows == 0 || v.agree > 0 && !v.product {
		return
	}
	if side.taken && (side.how == ByForce || side.how == ByName) {
		return
	}
	word := fmt.Sprintf("%q", size.header.text)
	if !size.taken {
		b.accept(guess{column: size, field: catalog.FieldWidth, how: ByCells, why: "it states the size as a whole"})
	}
	switch {
	case v.agree > 0 && side.taken && side.field == catalog.FieldHeight:
	case v.agree > 0:
		side.take(b.lexicon, catalog.FieldWidth)
		side.how, side.why, side.check = ByWord, "a second statement beside "+word, true
	case v.thin && !v.deep && b.columnOf(catalog.FieldDepth) == nil && !b.off[catalog.FieldDepth]:
		side.take(b.lexicon, catalog.FieldDepth)
		side.how, side.why = ByRest, "it contradicts the sides that "+word+" gives, and nothing else is the depth"
		side.notes = append(side.notes, "taken as the depth, since it contradicts the sides that "+word+" gives and nothing else is the depth; if it is not: --column depth_mm=")
	default:
		side.taken = false
		side.notes = append(side.notes, "not read, since it contradicts the sides that "+word+" gives")
	}
}

// sideVerdict is how the cells of two columns go together.
type sideVerdict struct {
	rows    int  // that have both
	agree   int  // whose side is one of the size
	thin    bool // in all others it is less than both sides
	product bool // sizes are products
	deep    bool // sizes give a depth
}

func (b *builder) compareSide(size, side *column) sideVerdict {
	v := sideVerdict{thin: true}
	whole, one := b.lengthTrial(size), b.lengthTrial(side)
	for _, row := range b.in.Sample {
		if size.index >= len(row) || side.index >= len(row) {
			continue
		}
		f, g := b.sizeOf(&whole, row[size.index]), b.sizeOf(&one, row[side.index])
		width, ok := f.Width.Get()
		have, also := g.Width.Get()
		v.product = v.product || f.Height.Known()
		v.deep = v.deep || f.Depth.Known()
		if !ok || !also {
			continue
		}
		height := f.Height.Or(width)
		v.rows++
		if near(have, width) || near(have, height) {
			v.agree++
			continue
		}
		v.thin = v.thin && float64(have) < math.Min(float64(width), float64(height))
	}
	return v
}

func near(a, b quantity.Length) bool { return apart(float64(a), float64(b)) <= twoStatements }

// lengthTrial is a column read as sizes, in the unit it will most likely have.
func (b *builder) lengthTrial(c *column) column {
	trial := *c
	trial.take(b.lexicon, catalog.FieldWidth)
	if len(trial.scale.units) > 0 {
		return trial
	}
	unit, ok := b.cellUnit(&trial, trial.def())
	if !ok {
		unit, _, ok = b.unitFor(&trial, b.bareNumbersOf(&trial))
	}
	if ok {
		trial.scale.units, trial.scale.assumed = []quantity.Unit{unit}, true
	}
	return trial
}

// sizeOf reads one cell; what cannot be read is unknown.
func (b *builder) sizeOf(c *column, text string) *catalog.Fan {
	fan := &catalog.Fan{}
	if b.lexicon.isUnknown(normalise(text)) {
		return fan
	}
	b.reader.row.reset(fan)
	b.reader.size(c, text)
	if b.reader.row.err != nil {
		return &catalog.Fan{}
	}
	return fan
}
