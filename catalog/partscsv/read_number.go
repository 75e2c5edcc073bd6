package partscsv

import (
	"fmt"
	"math"
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// end says which end of a range a field takes.
type end uint8

const (
	endNone end = iota // a range is no value of the field
	endLow
	endHigh
)

// ends are the cautious ends: the low one of what a fan gives, the high one of
// what it costs. A speed range is that of a controlled fan; its flow, pressure
// and level hold for the top of it.
var ends = [catalog.NumFields]end{
	catalog.FieldDepth:          endHigh,
	catalog.FieldCurrent:        endHigh,
	catalog.FieldPower:          endHigh,
	catalog.FieldStartVoltage:   endHigh,
	catalog.FieldAirflow:        endLow,
	catalog.FieldStaticPressure: endLow,
	catalog.FieldSpeed:          endHigh,
	catalog.FieldNoise:          endHigh,
	catalog.FieldNoiseBands:     endHigh,
	catalog.FieldLife:           endLow,
	catalog.FieldTempMax:        endHigh,
	catalog.FieldLifeTemp:       endHigh,
	catalog.FieldPrice:          endHigh,
}

// number reads a cell of a numeric field that has no rules of its own.
func (r *Reader) number(c *column, text string) {
	fault := r.take(c, text)
	if fault == "" {
		fault = r.sorted.gather()
	}
	if fault != "" {
		if c.sibling != nil && r.draw(c, text, fault) {
			return
		}
		r.row.refuse(c, text, fault, c.hint(fault))
		return
	}
	value, ok := r.settle(c, text)
	if !ok {
		return
	}
	r.companions(c)
	r.row.put(c, c.field, value, quantity.Cell, text)
}

// take cuts a cell into the amounts of its column's dimension.
func (r *Reader) take(c *column, text string) (fault string) {
	if v, ok := plainNumber(text, c.mark); ok {
		r.cell = cell{statements: append(r.cell.statements[:0], statement{low: v, high: v, joint: tokOther}), words: r.cell.words[:0]}
		return c.scale.sortOut(&r.cell, &r.sorted)
	}
	if len(text) > longestValue {
		return r.noValue(fmt.Sprintf("too long for a value: %d bytes", len(text)))
	}
	clean := c.prepare(text)
	if fault := turnedFault(clean); fault != "" {
		return r.noValue(fault)
	}
	fault = r.takeClean(c, clean)
	if !strings.HasSuffix(fault, notUnderstood) || !strings.Contains(clean, "(") {
		return fault
	}
	rest, cut := r.withoutRemarks(c, clean)
	if len(cut) == 0 {
		return fault
	}
	if r.takeClean(c, rest) != "" {
		return r.noValue(fault)
	}
	r.aside = append(r.aside[:0], cut...)
	return ""
}

// takeClean cuts a normalised cell into the amounts of its column's dimension.
func (r *Reader) takeClean(c *column, clean string) (fault string) {
	r.tokens = r.plan.lexicon.lex(clean, c.mark, r.tokens)
	tokens := r.tokens
	var labels string
	if c.def().Unit.Dimension == quantity.DimLength {
		tokens, labels = takeLabels(tokens)
	}
	r.plan.lexicon.parse(tokens, &r.cell, c.inch())
	r.cell.labels = labels
	if c.def().Unit.Dimension == quantity.DimLength {
		r.takeShape()
	}
	if r.cell.fault != "" {
		return r.cell.fault
	}
	if fault := r.strangeWord(c); fault != "" {
		return fault
	}
	return c.scale.sortOut(&r.cell, &r.sorted)
}

// longestValue is more bytes than any cell has that states values of one field.
const longestValue = 1000

// noValue empties the cell taken apart, in which the last one may still stand.
func (r *Reader) noValue(fault string) string {
	r.cell = cell{statements: r.cell.statements[:0], words: r.cell.words[:0], fault: fault}
	return fault
}

// settle makes one value of a cell's amounts: the field's end of a range, the
// first of a pair, the first of two units.
func (r *Reader) settle(c *column, text string) (float64, bool) {
	d := c.def()
	value := math.NaN()
	for i := range r.sorted.amounts {
		a := &r.sorted.amounts[i]
		v, fault := r.reduce(c, a)
		if fault != "" {
			r.row.refuse(c, text, fault, "")
			return 0, false
		}
		if i == 0 {
			value = v
			continue
		}
		if !r.agree(c, d, value, v, text) {
			return 0, false
		}
	}
	r.remarkOn(c, d, value, text)
	return value, true
}

// agree compares two units of one cell.
func (r *Reader) agree(c *column, d *catalog.Field, first, second float64, text string) bool {
	share := apart(d.InUnit(first), d.InUnit(second))
	switch {
	case share <= twoStatements:
	case share <= contradiction:
		r.row.warn(c, "the two units of a cell differ by more than 3 %",
			"%s: %s and %s in one cell differ by %.0f %%; the first is kept", d.Title, show(d, first), show(d, second), 100*share)
	default:
		r.row.refuse(c, text, fmt.Sprintf("contradicts itself: %s and %s", show(d, first), show(d, second)), "check both numbers")
		return false
	}
	return true
}

// reduce makes one value of an amount and remarks on what it left out.
func (r *Reader) reduce(c *column, a *amount) (value float64, fault string) {
	d := c.def()
	switch {
	case a.paired() && c.field == catalog.FieldTempMax: // -10/+70 °C
		a.low, a.high = math.Min(a.low, a.second), math.Max(a.low, a.second)
	case a.paired() && !mains[c.field]:
		return 0, fmt.Sprintf("two values: %s and %s", show(d, a.low), show(d, a.second))
	case a.paired():
		r.row.pairs = append(r.row.pairs, pair{c, a.low, a.second})
		return a.low, ""
	case (c.field == catalog.FieldNoise || c.band > 0) && a.said.has(catalog.Least) && !a.ranged():
		return 0, "says only the least the level may be"
	case !a.ranged():
		return a.low, ""
	}
	low, high := showRange(d, a.low, a.high), ""
	switch ends[c.field] {
	case endLow:
		value, high = a.low, "low"
	case endHigh:
		value, high = a.high, "high"
	default:
		return 0, "a range where one number belongs"
	}
	r.row.remark(c, "%s %s: the %s end is taken", d.Title, low, high)
	return value, ""
}

// mains are the fields whose values differ between 50 and 60 Hz.
var mains = [catalog.NumFields]bool{
	catalog.FieldCurrent: true, catalog.FieldPower: true, catalog.FieldAirflow: true,
	catalog.FieldStaticPressure: true, catalog.FieldSpeed: true, catalog.FieldNoise: true,
}

// remarkOn says what else the cell told of its value.
func (r *Reader) remarkOn(c *column, d *catalog.Field, value float64, text string) {
	if !r.bounded(c, value, text) && r.sorted.amounts[0].said.has(catalog.About) {
		r.row.remark(c, "%s is about %s", d.Title, show(d, value))
	}
	if t := r.cell.tolerance; t != nil && c.field != catalog.FieldVoltage {
		r.row.remark(c, "%s %s %s", d.Title, show(d, value), t)
	}
	if r.cell.noted {
		r.row.remark(c, "%s has a footnote mark", d.Title)
	}
}

// companions takes what stands beside a value and belongs to another field.
func (r *Reader) companions(c *column) {
	for _, o := range r.sorted.others {
		r.companion(c, o)
	}
	if r.cell.supply != 0 {
		r.row.supplies = append(r.row.supplies, supplyClue{c, r.cell.supply})
	}
}

func (r *Reader) companion(c *column, o condition) {
	if hz, ok := o.in(quantity.DimFrequency); ok && (mains[c.field] || c.field == catalog.FieldVoltage) {
		r.row.frequencies = append(r.row.frequencies, hz)
		return
	}
	if m, ok := o.in(quantity.DimLength); ok && c.field == catalog.FieldNoise {
		r.row.put(c, catalog.FieldNoiseDistance, m, quantity.Cell, o.text())
		return
	}
	if t, ok := o.in(quantity.DimTemperature); ok && c.field == catalog.FieldLife {
		r.row.put(c, catalog.FieldLifeTemp, t, quantity.Cell, o.text())
		return
	}
	if c.sibling != nil {
		if v, ok := o.in(c.sibling.scale.dimension); ok {
			r.row.put(c, c.sibling.field, v, quantity.Cell, o.text())
			return
		}
	}
	r.row.remark(c, "%s holds at %s", c.def().Title, o.text())
}

// text writes a condition.
func (c condition) text() string {
	text := catalog.Number(c.value)
	if len(c.units) > 0 {
		text += " " + c.units[0].Symbol
	}
	return text
}

// strangeWord says which word of the cell is not understood. Words of supply
// are read wherever they stand; those of the field itself by its own rules.
func (r *Reader) strangeWord(c *column) (fault string) {
	if len(r.cell.words) == 0 {
		return ""
	}
	x := r.plan.lexicon
	all := x.vocabulary.tokens(strings.Join(r.cell.words, " "))
	if group, _, _ := x.choices[catalog.FieldSupply].find(all); group >= 0 {
		r.cell.supply = catalog.Supply(group + 1)
	}
	for _, w := range r.cell.words {
		own := x.vocabulary.tokens(w)
		if !x.choices[catalog.FieldSupply].holds(own, all) && !x.beside[c.field].holds(own, all) {
			return fmt.Sprintf("%q %s", w, notUnderstood)
		}
	}
	return ""
}

// notUnderstood ends the reason for a word or sign that no rule reads.
const notUnderstood = "is not understood"

// hasMonth says whether a spreadsheet's short name of a month stands in quotes
// in a text.
func hasMonth(text string) bool {
	for _, m := range [...]string{"jan", "feb", "mar", "mär", "mrz", "apr", "avr", "may", "mai", "jun", "juin", "jul", "aug", "août", "ago", "sep", "oct", "okt", "nov", "dec", "dez", "déc", "dic", "ene", "abr"} {
		if strings.Contains(strings.ToLower(text), `"`+m+`"`) {
			return true
		}
	}
	return false
}

const madeDate = "a spreadsheet may have made a date of the number"

// hint names the mend of a fault, where it can.
func (c *column) hint(fault string) string {
	switch {
	case strings.HasPrefix(fault, "no unit"):
		return fmt.Sprintf("put the unit in the header, such as %q", c.header.text+" ["+c.def().Unit.Symbol+"]")
	case strings.HasSuffix(fault, notUnderstood) && hasMonth(fault):
		return madeDate
	case fault == dateFault, fault == timeFault:
		return madeDate + ": give the cell the form of a number and type it again"
	case fault == errorFault:
		return "mend its formula there, or leave the cell empty where the value is unknown"
	case strings.Contains(fault, "read with a decimal"):
		return "force the decimal mark with --decimal . or --decimal ,"
	}
	return ""
}
