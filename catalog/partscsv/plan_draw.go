package partscsv

import (
	"fmt"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// usualDraw finds what most cells of a column of current or power name, for
// those of its cells, bare of them sampled, that name no unit.
func (b *builder) usualDraw(c *column, bare int) {
	if other, _ := siblingOf(c.field); b.columnOf(other) != nil {
		c.either, c.usual = false, c.field // the other has a column of its own
		c.scale.units, c.scale.assumed = []quantity.Unit{c.def().Unit}, true
		if bare > 0 {
			c.notes = append(c.notes, fmt.Sprintf("no unit is named: %s is assumed, as %q is the %s",
				c.def().Unit.Symbol, b.columnOf(other).header.text, catalog.Fields[other].Title))
		}
		return
	}
	e := b.evidenceFor(c, c.field)
	other, _ := siblingOf(c.field)
	switch {
	case 2*e.named > e.known:
		c.usual = c.field
	case 2*e.sibling > e.known:
		c.usual = other
	}
	if bare > 0 && c.usual != 0 {
		c.notes = append(c.notes, fmt.Sprintf("cells without a unit are read as what fits the air the fan moves, else in %s, as most are", catalog.Fields[c.usual].Unit.Symbol))
	}
}

// settleEither lets the sampled rows vote on what the cells of a column are that
// names no unit anywhere, as rows that do not tell are then of the same unit, and
// gives every column of current or power its sibling.
func (b *builder) settleEither(p *Plan) {
	for _, c := range b.columns {
		if !c.taken || c.check {
			continue
		}
		if other, ok := siblingOf(c.field); ok && c.band == 0 {
			c.sibling = c.as(b.lexicon, other)
		}
	}
	for _, c := range b.columns {
		if !c.taken || !c.either || c.usual != 0 {
			continue
		}
		votes := b.votes(p, c)
		bare := votes[0] + votes[catalog.FieldCurrent] + votes[catalog.FieldPower]
		e := b.evidenceFor(c, c.field)
		switch {
		case bare == 0:
		case e.named+e.sibling > 0:
			c.notes = append(c.notes, "cells without a unit are read as what fits the air the fan moves, a current or a power, else they are unknown")
		default:
			b.elect(c, votes)
		}
	}
}

// elect makes what fits most rows usual, if nearly all agree.
func (b *builder) elect(c *column, votes [catalog.NumFields]int) {
	for _, id := range [...]catalog.FieldID{catalog.FieldCurrent, catalog.FieldPower} {
		other, _ := siblingOf(id)
		if votes[id] > 0 && votes[id] >= 4*votes[other] {
			c.usual = id
			c.notes = append(c.notes, fmt.Sprintf("no unit is named: %s is assumed, as it alone fits the air the fans move in %d of %d sampled rows that tell",
				catalog.Fields[id].Unit.Symbol, votes[id], votes[id]+votes[other]))
			return
		}
	}
	c.notes = append(c.notes, fmt.Sprintf("no unit is named, and the rows do not tell a current from a power: put the unit in the header, or --column current_a=%s or power_w=%s", ShellQuoted(c.header.text), ShellQuoted(c.header.text)))
}

// votes counts what the numbers without a unit of the sampled rows are.
func (b *builder) votes(p *Plan, c *column) (votes [catalog.NumFields]int) {
	r := p.Reader()
	for _, row := range b.in.Sample {
		if len(row) != len(b.columns) {
			continue
		}
		fan, _, err := r.Read(row)
		if err == nil && r.row.bareDraw.column == c {
			votes[r.row.bareDraw.fitting(fan)]++
		}
	}
	return votes
}
