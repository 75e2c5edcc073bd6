package partscsv

import (
	"fmt"
	"slices"
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// addEvidence adds what unit and cells say to a guess by words, and says
// whether it stands.
func (b *builder) addEvidence(g *guess, s catalog.Strength) bool {
	d := &catalog.Fields[g.field]
	switch d.Form {
	case catalog.Quantity:
		return b.addQuantity(g, s)
	case catalog.Text:
		return b.addText(g, s)
	case catalog.Money:
		return b.addMoney(g, s)
	case catalog.Points:
		return true
	case catalog.Bands:
		e := b.evidenceFor(g.column, g.field)
		return e.known == 0 || 2*e.read >= e.known
	}
	if len(g.column.header.units) > 0 {
		g.score -= lessUnit
	}
	return b.addCells(g, s)
}

func (b *builder) addQuantity(g *guess, s catalog.Strength) bool {
	d := &catalog.Fields[g.field]
	h := &g.column.header
	e := b.evidenceFor(g.column, g.field)
	u, inHeader := h.unit(d.Unit.Dimension)
	inCells := e.known > 0 && e.share(e.named) >= 0.5
	switch {
	case inHeader:
		g.score += forUnit
		g.why += fmt.Sprintf(" and the unit %s", u.Symbol)
	case len(h.units) > 0 && !h.letter || e.known > 0 && e.share(e.foreign) > 0.5, s != catalog.Hint && e.share(e.sibling) > 0.5:
		return false
	case inCells:
		g.score += forUnit
		g.why += " and the units in the cells"
	case s == catalog.Sign && g.field == catalog.FieldVoltage && b.usualVolts(g.column):
		g.score += forCompany
		g.why += " and cells that are usual voltages"
	case s == catalog.Sign && !b.sizeLetters(g):
		return false
	case s == catalog.Sign:
		g.score += forCompany
		g.why += " beside those of other sides"
	}
	if g.field == catalog.FieldVoltageMin && s == catalog.Hint && e.share(e.ranged) < 0.5 {
		return false // single voltages are nominal ones
	}
	if g.field == catalog.FieldVoltage && s == catalog.Hint && e.share(e.ranged) >= 0.5 {
		return false
	}
	return b.addCells(g, s)
}

// sizeLetters says whether the letter for a side stands in company: B, H and T
// beside each other name sides, one of them alone does not.
func (b *builder) sizeLetters(g *guess) bool {
	if catalog.Fields[g.field].Unit.Dimension != quantity.DimLength {
		return false
	}
	return len(b.letters) >= 2
}

// widthByLetter says whether a lone W is a width, not watts: it is where an H
// stands beside it and no other letter for the width does.
func (b *builder) widthByLetter(h *header) bool {
	return h.letter && h.tokens[0] == "w" && strings.Contains(b.letters, "h") && !strings.ContainsAny(b.letters, "bl")
}

// usualVolts says whether every sampled cell of a column is a usual voltage and
// nothing else, so that the letter U is enough of a header.
func (b *builder) usualVolts(c *column) bool {
	trial := *c
	trial.take(b.lexicon, catalog.FieldVoltage)
	numbers := b.bareNumbersOf(&trial)
	for _, v := range numbers {
		if !slices.Contains(usualVoltages[catalog.DC], v) && !slices.Contains(usualVoltages[catalog.AC], v) {
			return false
		}
	}
	return len(numbers) > 0
}

// addCells weighs how many cells read as values of the field. A word that names
// the field stands against a few cells that do not; hints and signs need them.
func (b *builder) addCells(g *guess, s catalog.Strength) bool {
	d := &catalog.Fields[g.field]
	e := b.evidenceFor(g.column, g.field)
	share := e.share(e.read)
	if s == catalog.Hint { // "consumption" may be current or power from row to row
		share = e.share(e.read + e.sibling)
	}
	switch {
	case e.known == 0 && s == catalog.Proof:
		return true
	case e.known == 0:
		_, inHeader := g.column.header.unit(d.Unit.Dimension)
		return inHeader && d.Form == catalog.Quantity
	case s == catalog.Proof && d.Form == catalog.Choice && share < 0.5:
		return false
	case s == catalog.Proof && d.Essential:
		g.score -= int(20 * (1 - share))
		return true
	case s == catalog.Proof && d.Form != catalog.Choice && share < 0.3 && e.known >= 3:
		return false
	case s == catalog.Proof:
		return true
	case share < 0.6:
		return false
	}
	if s == catalog.Hint { // a few cells that cannot be read must not hide the column
		g.score += max(int(forCells*share), enough-forHint)
	} else {
		g.score += int(forCells * share)
	}
	g.why += ", settled by the cells"
	g.how = ByCells
	if _, inHeader := g.column.header.unit(d.Unit.Dimension); inHeader && d.Form == catalog.Quantity {
		g.how = ByUnit
	}
	return true
}

// addText weighs cells of a text: parts and order codes differ from row to row,
// a bearing is no number, a description is long.
func (b *builder) addText(g *guess, s catalog.Strength) bool {
	if len(g.column.header.units) > 0 {
		g.score -= lessUnit
	}
	e := b.evidenceFor(g.column, g.field)
	if e.known == 0 {
		return s == catalog.Proof
	}
	unique := e.share(e.distinct)
	switch g.field {
	case catalog.FieldPart, catalog.FieldOrderCode:
		if s == catalog.Proof {
			g.score += int(forCells * unique)
			return true
		}
		least := 0.3
		if b.shared(b.lexicon.words[g.field][g.word].tokens) {
			least = 0.7
		}
		if unique < least || e.known*2 < len(b.in.Sample) {
			return false
		}
		g.score += int(forCells * unique)
	case catalog.FieldBearing:
		stock := b.evidenceFor(g.column, catalog.FieldInStock) // "Lager" is a bearing or a store
		return e.share(e.digits) < 0.9 && stock.share(stock.read) < 0.9
	case catalog.FieldConnector: // so many "Anschlüsse" are leads
		return !b.namesLeads(g) || !b.fewEach(g.column)
	case catalog.FieldDescription:
		g.score += forCells
	default:
		return true
	}
	if s != catalog.Proof {
		g.why += ", settled by the cells"
		g.how = ByCells
	}
	return true
}

// namesLeads says whether the word that names the connector is one for the leads
// as well.
func (b *builder) namesLeads(g *guess) bool {
	return b.named(catalog.FieldLeads, b.lexicon.words[g.field][g.word].tokens)
}

// fewEach says whether every cell of a column is a number of leads that is usual
// and nothing else: 2 for the supply, and up to three for tach, alarm and PWM.
func (b *builder) fewEach(c *column) bool {
	few := true
	b.eachSample(c, func(text string, _ []string) bool {
		few = len(text) == 1 && text[0] >= '2' && text[0] <= '5' || b.lexicon.isUnknown(normalise(text))
		return few
	})
	return few
}

// shared says whether a word for a part is as well one for a kind or a
// description, as "type" is: then it is a part only if its cells differ.
func (b *builder) shared(p phrase) bool {
	return b.named(catalog.FieldKind, p) || b.named(catalog.FieldDescription, p)
}

// named says whether a phrase is a word for the field.
func (b *builder) named(id catalog.FieldID, p phrase) bool {
	return slices.ContainsFunc(b.lexicon.words[id], func(w tableWord) bool { return slices.Equal(w.tokens, p) })
}

func (b *builder) addMoney(g *guess, s catalog.Strength) bool {
	if len(g.column.header.units) > 0 {
		return false
	}
	e := b.evidenceFor(g.column, g.field)
	currency := g.column.header.currency != "" || e.share(e.named) >= 0.5
	switch {
	case currency:
		g.score += forUnit
	case s == catalog.Hint:
		return false // "net" may be a weight
	}
	return b.addCells(g, s)
}
