package partscsv

import (
	"fmt"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// checks takes a second column of a field that is in another unit: it is
// compared with the first and fills in for it.
func (b *builder) checks() {
	guesses := b.guesses(func(c *column, id catalog.FieldID) bool {
		return !c.taken && catalog.Fields[id].Form == catalog.Quantity && b.columnOf(id) != nil
	})
	for _, g := range guesses {
		first := b.columnOf(g.field)
		if g.score < enough || g.column.taken {
			continue
		}
		u, proven, ok := b.otherUnit(first, g.column)
		if !ok {
			continue
		}
		b.accept(g)
		g.column.check = true
		g.column.why += fmt.Sprintf("; a second statement beside %q", first.header.text)
		if proven {
			g.column.scale.units, g.column.scale.assumed = []quantity.Unit{u}, true
			g.column.notes = append(g.column.notes, fmt.Sprintf("no unit is named: %s makes the values those of %q", u.Symbol, first.header.text))
		}
	}
}

// otherUnit gives the unit of a column beside the first of its field, if it is
// another one: the one it names, or, where it names none, the one in which its
// values are those of the first.
func (b *builder) otherUnit(first, c *column) (u quantity.Unit, proven, ok bool) {
	d := first.def()
	other, known := b.unitOf(first, d)
	if !known {
		return u, false, false
	}
	u, named := b.unitOf(c, d)
	if !named {
		u, proven = b.unitByRatio(c, first)
	}
	return u, proven, (named || proven) && u.Symbol != other.Symbol
}

// unitOf gives the unit of a column by its header or most of its cells.
func (b *builder) unitOf(c *column, d *catalog.Field) (quantity.Unit, bool) {
	if c.taken && len(c.scale.units) > 0 {
		return c.scale.units[0], true
	}
	if u, ok := c.header.unit(d.Unit.Dimension); ok {
		return u, true
	}
	return b.cellUnit(c, d)
}

// cellUnit gives the unit the cells of a column name first, if most name one.
func (b *builder) cellUnit(c *column, d *catalog.Field) (quantity.Unit, bool) {
	trial := *c
	trial.take(b.lexicon, d.ID)
	counts := map[string]int{}
	var best quantity.Unit
	known := 0
	for _, row := range b.in.Sample {
		if c.index >= len(row) || b.lexicon.isUnknown(normalise(row[c.index])) {
			continue
		}
		known++
		if b.reader.take(&trial, row[c.index]) != "" {
			continue
		}
		v := &b.reader.sorted.values[0]
		if v.unitText == "" {
			continue
		}
		counts[v.unit.Symbol]++
		if n := counts[v.unit.Symbol]; n > counts[best.Symbol] || best.Symbol == "" {
			best = v.unit
		}
	}
	return best, counts[best.Symbol]*2 > known
}
