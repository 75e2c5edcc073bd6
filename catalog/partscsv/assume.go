package partscsv

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// assume gives a unit to every column whose header names none and whose cells
// hold bare numbers: the one that other columns prove, else the trade's usual
// one if every sampled cell is possible in it. What is assumed is said in the
// column's notes.
func (b *builder) assume() {
	for _, c := range b.columns {
		if c.taken && c.field == catalog.FieldPrice {
			b.noteCurrency(c)
		}
		if c.taken && c.field == catalog.FieldNoise && !c.check {
			b.noteWeighting(c)
		}
		if !c.taken || c.def().Form != catalog.Quantity || len(c.scale.units) > 0 {
			continue
		}
		numbers := b.bareNumbersOf(c)
		if c.either {
			b.usualDraw(c, len(numbers))
			continue
		}
		if len(numbers) == 0 {
			c.scale.units, c.scale.assumed = b.cellUnits(c), true
			continue
		}
		if u, ok := b.cellUnit(c, c.def()); ok {
			c.scale.units, c.scale.assumed = []quantity.Unit{u}, true
			c.notes = append(c.notes, fmt.Sprintf("cells without a unit are taken to be in %s, as most are", u.Symbol))
			continue
		}
		u, why, ok := b.unitFor(c, numbers)
		if !ok {
			c.notes = append(c.notes, fmt.Sprintf("neither header nor cells name a unit, and no one unit of %s fits them all", c.def().Unit.Dimension))
			continue
		}
		c.scale.units, c.scale.assumed = []quantity.Unit{u}, true
		c.notes = append(c.notes, fmt.Sprintf("no unit is named: %s is assumed, %s", u.Symbol, why))
	}
}

// noteCurrency says what a sign that several currencies share is taken for.
func (b *builder) noteCurrency(c *column) {
	texts := []string{c.header.text}
	for _, row := range b.in.Sample {
		if c.index < len(row) {
			texts = append(texts, row[c.index])
		}
	}
	for _, sign := range [...]struct{ sign, code string }{{"$", "US dollars (USD)"}, {"¥", "Japanese yen (JPY)"}} {
		if slices.ContainsFunc(texts, func(t string) bool {
			i := strings.Index(t, sign.sign)
			return i == 0 || i > 0 && !unicode.IsLetter(rune(t[i-1]))
		}) {
			c.notes = append(c.notes, fmt.Sprintf("%s is taken for %s", sign.sign, sign.code))
		}
	}
}

// cellUnits gives the unit most sampled cells name, for the few that may not.
func (b *builder) cellUnits(c *column) []quantity.Unit {
	if u, ok := b.cellUnit(c, c.def()); ok {
		return []quantity.Unit{u}
	}
	return nil
}

// bareNumbersOf lists the numbers without unit of a column's sampled cells.
func (b *builder) bareNumbersOf(c *column) []float64 {
	var list []float64
	for _, row := range b.in.Sample {
		if v, ok := b.bareNumber(c, row); ok {
			list = append(list, v)
		}
	}
	return list
}

// bareNumber gives the first number of a row's cell, if it names no unit.
func (b *builder) bareNumber(c *column, row []string) (float64, bool) {
	if c.index >= len(row) || b.lexicon.isUnknown(normalise(row[c.index])) {
		return 0, false
	}
	r := &b.reader
	if r.take(c, row[c.index]) != noUnit || r.bareNumbers(c) != "" {
		return 0, false
	}
	v := &r.sorted.values[0]
	return v.unit.FromSI(v.high), v.unitText == ""
}

// unitFor chooses the unit for bare numbers, and says why: the most usual one in
// which all are possible, else the one in which most are.
func (b *builder) unitFor(c *column, numbers []float64) (u quantity.Unit, why string, ok bool) {
	u, possible, all := mostFit(c.def(), b.usualUnits(c), numbers)
	why = "the usual unit, in which every sampled cell is possible"
	switch {
	case possible == 0:
		return u, "", false
	case c.field == catalog.FieldAirflow:
		u, why = b.flowUnit(c, u)
	case possible < all:
		why = fmt.Sprintf("the usual unit, in which %d of %d sampled cells are possible", possible, all)
	}
	return u, why, true
}

// mostFit gives the first unit in which as many numbers are possible as in any:
// more than half of them, unless there is no other unit to take.
func mostFit(d *catalog.Field, units []quantity.Unit, numbers []float64) (best quantity.Unit, most, all int) {
	for _, u := range units {
		n, known := fits(d, u, numbers)
		all = known
		if n > most && (2*n > known || len(units) == 1) {
			best, most = u, n
		}
	}
	return best, most, all
}

// fits counts the numbers that are possible in u, and all of them; none is where
// no possible one is typical. Zero is a word for unknown that a row is rejected
// for; it says nothing of the unit.
func fits(d *catalog.Field, u quantity.Unit, numbers []float64) (possible, all int) {
	typical := typicalRange[d.ID]
	some := typical == [2]float64{}
	for _, n := range numbers {
		if n == 0 {
			continue
		}
		all++
		si := u.ToSI(n)
		if reason, _ := d.Bound(si); reason != "" {
			continue
		}
		possible++
		some = some || d.InUnit(si) >= typical[0] && d.InUnit(si) <= typical[1]
	}
	if !some {
		return 0, all
	}
	return possible, all
}

// typicalRange is where the values of at least one fan in a list lie, in the
// field's unit (common practice): a list of nothing but 4 m wide fans was meant
// in another unit.
var typicalRange = [catalog.NumFields][2]float64{
	catalog.FieldWidth:          {15, 500},
	catalog.FieldHeight:         {15, 500},
	catalog.FieldDepth:          {5, 200},
	catalog.FieldHolePitch:      {12, 400},
	catalog.FieldStaticPressure: {8, 2000},
	catalog.FieldCurrent:        {0.01, 6},
	catalog.FieldLife:           {5000, 500000},
}

// usualUnits lists the units of a column's field by how usual they are: first
// those of the system the rest of the file is in.
func (b *builder) usualUnits(c *column) []quantity.Unit {
	d := c.def()
	metric, imperial := []string{d.Unit.Symbol}, []string{d.Unit.Symbol}
	switch d.Unit.Dimension {
	case quantity.DimLength:
		metric, imperial = []string{"mm", "cm"}, []string{"inch", "mm"}
	case quantity.DimFlow:
		imperial = []string{"CFM"}
	case quantity.DimPressure:
		metric, imperial = []string{"Pa", "mmH₂O"}, []string{"inH₂O", "Pa"}
	case quantity.DimCurrent:
		metric, imperial = []string{"A", "mA"}, []string{"A", "mA"}
	case quantity.DimTemperature:
		imperial = []string{"°C"}
	}
	if b.imperial() > 0 {
		return unitsNamed(d.Unit.Dimension, imperial)
	}
	return unitsNamed(d.Unit.Dimension, metric)
}

func unitsNamed(d quantity.Dimension, symbols []string) []quantity.Unit {
	var list []quantity.Unit
	for _, s := range symbols {
		if u, ok := quantity.UnitOf(d, s); ok {
			list = append(list, u)
		}
	}
	return list
}

// imperial counts the columns whose named unit is imperial, less those whose
// named unit is metric. Columns that state a value a second time do not count.
func (b *builder) imperial() int {
	n := 0
	for _, c := range b.columns {
		if !c.taken || c.check || c.scale.assumed || c.def().Form != catalog.Quantity {
			continue
		}
		u, ok := b.unitOf(c, c.def())
		switch {
		case !ok:
		case slices.Contains([]string{"inch", "ft", "CFM", "inH₂O", "°F", "psi"}, u.Symbol):
			n++
		case slices.Contains([]string{"mm", "cm", "m", "m³/h", "m³/min", "l/s", "Pa", "°C"}, u.Symbol):
			n--
		}
	}
	return n
}

// unitByRatio gives the one unit in which the bare numbers of c equal the
// values of the first column of its field, within 5 % at the median.
func (b *builder) unitByRatio(c, first *column) (quantity.Unit, bool) {
	trial := *c
	trial.take(b.lexicon, first.field)
	var ratios []float64
	for _, row := range b.in.Sample {
		bare, ok := b.bareNumber(&trial, row)
		if !ok || bare == 0 || first.index >= len(row) || b.reader.take(first, row[first.index]) != "" {
			continue
		}
		ratios = append(ratios, b.reader.sorted.values[0].high/bare)
	}
	if len(ratios) < 2 {
		return quantity.Unit{}, false
	}
	slices.Sort(ratios)
	median := ratios[len(ratios)/2]
	for _, u := range quantity.Units() {
		if u.Dimension == first.def().Unit.Dimension && u.Offset == 0 && math.Abs(u.Factor-median) <= 0.05*u.Factor {
			return u, true
		}
	}
	return quantity.Unit{}, false
}
