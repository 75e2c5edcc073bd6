package partscsv

import (
	"cmp"
	"math"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// siblingOf gives the other of current and power, which lists state in one
// column under a word such as "consumption".
func siblingOf(id catalog.FieldID) (other catalog.FieldID, ok bool) {
	switch id {
	case catalog.FieldCurrent:
		return catalog.FieldPower, true
	case catalog.FieldPower:
		return catalog.FieldCurrent, true
	}
	return 0, false
}

// as gives the column as one of another field whose cells name their unit.
func (c *column) as(x *lexicon, id catalog.FieldID) *column {
	other := *c
	other.take(x, id)
	other.sibling, other.scale.units = nil, nil
	return &other
}

// bareDraw is a number that may be a current or a power.
type bareDraw struct {
	column *column // nil for none
	number float64 // in A or W
	text   string
}

// draw reads a cell of current or power that is not of the column's own unit: by
// the unit it names, or, where it names none and the header does not say, later
// by its row. It says whether it did.
func (r *Reader) draw(c *column, text, fault string) bool {
	if fault == noUnit && c.either {
		if r.bareNumbers(c) != "" || len(r.sorted.values) != 1 {
			return false
		}
		v := &r.sorted.values[0]
		r.row.bareDraw = bareDraw{c, v.unit.FromSI(v.high), text}
		return true
	}
	if r.take(c.sibling, text) != "" || r.sorted.values[0].unitText == "" || r.sorted.gather() != "" {
		return false
	}
	if value, ok := r.settle(c.sibling, text); ok {
		r.companions(c.sibling)
		r.row.put(c.sibling, c.sibling.field, value, quantity.Cell, text)
	}
	return true
}

// usualAirShare gives the share of its electric power that a fan usually puts
// into the air at most, by that air power Q·p/4 in W: 4 % at 0.1 W, more of
// larger fans by the fourth root (common practice, from memory: 2 % of the
// smallest to some 25 % of strong ones).
func usualAirShare(air float64) float64 { return 0.04 * math.Pow(air/0.1, 0.25) }

// How far from usual the share may be, and by how much nearer to it that of one
// reading must be than that of the other: factors.
const (
	unusualShare = 6
	clearlyFits  = 3
)

// fitting tells by the row what a number without a unit is: the one of current
// and power with which the share of the fan's power that goes into the air is
// the more usual by far. It gives 0 where neither is, or the row does not tell.
func (d *bareDraw) fitting(f *catalog.Fan) catalog.FieldID {
	air, okAir := catalog.AirPower(f)
	volts, okVolts := f.Voltage.Get()
	if !okAir || !okVolts || d.number <= 0 {
		return 0
	}
	off := func(watts float64) float64 { return math.Abs(math.Log(air / watts / usualAirShare(air))) }
	power, current := off(d.number), off(d.number*float64(volts))
	switch {
	case power <= math.Log(unusualShare) && current-power >= math.Log(clearlyFits):
		return catalog.FieldPower
	case current <= math.Log(unusualShare) && power-current >= math.Log(clearlyFits):
		return catalog.FieldCurrent
	}
	return 0
}

// settleDraw stores a number that may be a current or a power as what fits its
// row, else as what is usual in its column; it is unknown where neither tells.
func (r *Reader) settleDraw() {
	d := r.row.bareDraw
	if d.column == nil {
		return
	}
	c, fits := d.column, d.fitting(r.row.fan)
	id := cmp.Or(fits, c.usual)
	if id == 0 {
		r.row.warn(c, "no unit is named, and nothing tells a current from a power; taken as unknown",
			"%q names no unit, and nothing tells a current from a power; taken as unknown", d.text)
		return
	}
	f := &catalog.Fields[id]
	switch {
	case fits != 0 && c.usual != fits:
		r.row.warn(c, "no unit is named: read as a "+f.Title+", which alone fits the air the fan moves",
			"%q names no unit: read as %s, as a %s alone fits the air the fan moves", d.text, show(f, d.number), f.Title)
		r.row.remarks[len(r.row.remarks)-1].Example = show(f, d.number)
	default:
		r.row.remark(c, "%q names no unit: read as %s, as most cells of the column", d.text, show(f, d.number))
	}
	r.row.put(c, id, d.number, quantity.Cell, d.text)
}

// sampleDraw says what a number without a unit was read as in its row.
func (r *Reader) sampleDraw(c *column, row []string, fields *[]catalog.FieldID) (value string, fault bool) {
	fan, remarks, err := r.Read(row)
	if err != nil {
		return "", false
	}
	for _, id := range [...]catalog.FieldID{catalog.FieldCurrent, catalog.FieldPower} {
		if r.row.from[id].column == c.index+1 {
			value = r.addSample(value, id, fan, fields)
		}
	}
	for i := range remarks {
		if value == "" && remarks[i].Column == c.index && remarks[i].Warning != "" {
			return remarks[i].Warning, true
		}
	}
	return value, false
}
