package partscsv

import (
	"slices"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// evidence is what the sampled cells of a column say for one field.
type evidence struct {
	known    int // cells that are neither empty nor a word for unknown
	read     int // that can be values of the field
	named    int // that name a unit of the field
	foreign  int // that name only units of something else
	sibling  int // of current and power: that name only units of the other
	ranged   int // that are ranges
	distinct int // different cells
	digits   int // that hold a digit
	products int // that are products
}

// share gives n as a share of the known cells.
func (e *evidence) share(n int) float64 {
	if e.known == 0 {
		return 0
	}
	return float64(n) / float64(e.known)
}

// evidenceFor reads the sampled cells of a column as values of field id.
func (b *builder) evidenceFor(c *column, id catalog.FieldID) *evidence {
	key := evidenceKey{c.index, id}
	if e, ok := b.seen[key]; ok {
		return e
	}
	trial := *c
	trial.take(b.lexicon, id)
	e := &evidence{}
	distinct := map[string]bool{}
	for _, row := range b.in.Sample {
		if c.index >= len(row) {
			continue
		}
		text := normalise(row[c.index])
		if b.lexicon.isUnknown(text) {
			continue
		}
		e.known++
		distinct[text] = true
		if hasDigit(text) {
			e.digits++
		}
		b.observe(&trial, text, e)
	}
	e.distinct = len(distinct)
	b.seen[key] = e
	return e
}

type evidenceKey struct {
	column int
	field  catalog.FieldID
}

// longestList is more bytes than any cell has that states a curve or bands.
const longestList = 100_000

// observe adds one cell.
func (b *builder) observe(c *column, text string, e *evidence) {
	d := c.def()
	switch {
	case d.Form == catalog.Text:
		e.read++
		return
	case len(text) > longestList, len(text) > longestValue && d.Form != catalog.Points && d.Form != catalog.Bands:
		return
	}
	switch d.Form {
	case catalog.Points:
		if _, err := catalog.ParseCurve(text); err == nil {
			e.read++
		}
	case catalog.Bands:
		if _, fault := b.reader.pairedNumbers(c, text); fault == "" {
			e.read++
		}
	case catalog.Choice:
		if b.isChoice(c, text) {
			e.read++
		}
	default:
		if b.isWordValue(c, text) {
			e.read++
			return
		}
		b.observeNumber(c, text, e)
	}
}

// isChoice says whether a cell names a choice of the field.
func (b *builder) isChoice(c *column, text string) bool {
	tokens := b.lexicon.choiceTokens(text)
	if b.lexicon.choices[c.field].has(tokens) {
		return true
	}
	switch c.field {
	case catalog.FieldKind:
		return b.lexicon.blowers.has(tokens)
	case catalog.FieldSupply:
		return supplyOf(text) != 0 && len(text) <= 6
	case catalog.FieldPWM:
		return contains(tokens, "pwm")
	}
	return false
}

// isWordValue says whether words stand for a number of the field.
func (b *builder) isWordValue(c *column, text string) bool {
	tokens := b.lexicon.choiceTokens(text)
	switch c.field {
	case catalog.FieldTachPerRev:
		return b.lexicon.tachs.has(tokens) || b.lexicon.alarms.has(tokens) || contains(tokens, "pwm") ||
			!hasDigit(text) && b.lexicon.choices[catalog.FieldPWM].has(tokens)
	case catalog.FieldStock:
		return !hasDigit(text) && b.lexicon.choices[catalog.FieldInStock].has(tokens)
	}
	return false
}

// observeNumber adds a cell of a numeric field.
func (b *builder) observeNumber(c *column, text string, e *evidence) {
	probe := text
	if c.field == catalog.FieldPrice {
		code, rest := currencyIn(text)
		if code != "" {
			e.named++
		}
		probe = rest
	}
	if _, ok := frameCode(text, c); ok && c.field == catalog.FieldWidth {
		e.read++
		return
	}
	r := &b.reader
	fault := r.take(c, probe)
	if fault == noUnit {
		fault = r.bareNumbers(c)
	}
	if fault != "" {
		if len(r.cell.statements) > 0 && foreignUnits(&r.cell, c.scale.dimension) {
			e.foreign++
			if b.isSibling(c, probe) {
				e.foreign--
				e.sibling++
			}
		}
		return
	}
	for i := range r.sorted.values {
		v := &r.sorted.values[i]
		if v.unitText != "" {
			e.named++
			break
		}
	}
	if r.sorted.values[0].ranged() {
		e.ranged++
	}
	if slices.ContainsFunc(r.sorted.values, func(v value) bool { return v.joint == tokTimes }) {
		e.products++
	}
	if b.plausible(c, r.sorted.values) {
		e.read++
	}
}

// isSibling says whether a cell just taken apart for a current is a power, or the
// reverse, by its unit.
func (b *builder) isSibling(c *column, text string) bool {
	other, ok := siblingOf(c.field)
	if !ok || !isOf(b.reader.cell.statements[0].units, catalog.Fields[other].Unit.Dimension) {
		return false
	}
	return b.reader.take(c.as(b.lexicon, other), text) == ""
}

// bareNumbers sorts a cell out whose unit is still to be found.
func (r *Reader) bareNumbers(c *column) (fault string) {
	s := scale{dimension: c.scale.dimension, units: []quantity.Unit{quantity.PreferredUnit(c.scale.dimension)}, assumed: true}
	return s.sortOut(&r.cell, &r.sorted)
}

// plausible says whether values may be of the field: within its bounds, in
// whichever of its units where none is named.
func (b *builder) plausible(c *column, values []value) bool {
	d := c.def()
	for i := range values {
		v := &values[i]
		if v.unitText != "" || len(c.scale.units) > 0 || d.Form != catalog.Quantity {
			if reason, _ := d.Bound(v.high); reason != "" {
				return false
			}
			continue
		}
		if !b.lexicon.plausibleUnit(d, v.unit.FromSI(v.high)) {
			return false
		}
	}
	return true
}

// plausibleUnit says whether a bare number is within the bounds of a field in
// any unit.
func (x *lexicon) plausibleUnit(d *catalog.Field, number float64) bool {
	for _, u := range x.unitsOf[d.Unit.Dimension] {
		if reason, _ := d.Bound(u.ToSI(number)); reason == "" {
			return true
		}
	}
	return false
}

// unitShare gives the share of a column's known cells that name a unit of
// dimension d, whatever else they hold.
func (b *builder) unitShare(c *column, d quantity.Dimension) float64 {
	counts, ok := b.units[c.index]
	if !ok {
		counts = b.countUnits(c)
		b.units[c.index] = counts
	}
	if counts[quantity.DimNone] == 0 {
		return 0
	}
	return float64(counts[d]) / float64(counts[quantity.DimNone])
}

// countUnits counts the sampled cells of a column by the dimensions of their
// units; those that are known count as DimNone.
func (b *builder) countUnits(c *column) map[quantity.Dimension]int {
	counts := map[quantity.Dimension]int{}
	for _, row := range b.in.Sample {
		if c.index >= len(row) {
			continue
		}
		text := normalise(row[c.index])
		if b.lexicon.isUnknown(text) {
			continue
		}
		counts[quantity.DimNone]++
		if !hasDigit(text) || len(text) > longestValue {
			continue
		}
		seen := map[quantity.Dimension]bool{}
		b.reader.tokens = b.lexicon.lex(text, c.mark, b.reader.tokens)
		for i, t := range b.reader.tokens {
			if initial(b.reader.tokens, i) {
				continue
			}
			for _, u := range t.units {
				seen[u.Dimension] = true
			}
		}
		for d := range seen {
			counts[d]++
		}
	}
	return counts
}

// initial says whether a token is one letter right before a number and behind
// none: in "A1" it begins a name and is no unit.
func initial(tokens []token, i int) bool {
	return len(tokens[i].text) == 1 && i+1 < len(tokens) && tokens[i+1].kind == tokNumber && (i == 0 || tokens[i-1].kind != tokNumber)
}

// foreignUnits says whether every unit of a cell is of another dimension.
func foreignUnits(c *cell, d quantity.Dimension) bool {
	found := false
	for i := range c.statements {
		st := &c.statements[i]
		if st.units == nil {
			continue
		}
		if isOf(st.units, d) {
			return false
		}
		found = true
	}
	return found
}

func hasDigit(text string) bool {
	for i := 0; i < len(text); i++ {
		if isDigit(text[i]) {
			return true
		}
	}
	return false
}
