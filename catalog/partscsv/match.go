package partscsv

import (
	"fmt"
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// Scores. What a header or its cells say adds up; a column is taken for a field
// from enough on.
const (
	forProof    = 60 // a word that names the field
	forOrder    = 34 // a word for an order code; it goes to the part where no other column is one
	forHint     = 30 // a word of several meanings
	forSign     = 20 // a letter or two
	forWord     = 8  // each further word of a phrase
	forUnit     = 30 // the unit is the field's, in header or cells
	forCompany  = 10 // the letter of a side stands beside those of others
	forCells    = 25 // the cells read as values of the field
	forUnitOnly = 40 // the unit in the header, which no other field of the trade has
	forCellUnit = 25 // the same in the cells
	lessWord    = 10 // a word of the header that says something else
	lessUnit    = 60 // a unit in the header of a field without one
	lessPower   = 3  // a sound power where a sound pressure may stand beside it
	lessMains   = 3  // a value for 60 Hz where one for 50 Hz may stand beside it
	enough      = 50
	enoughPart  = 35 // for the part, where no column is enough
)

// guess is what a column may be taken for.
type guess struct {
	column *column
	field  catalog.FieldID
	score  int
	how    How
	why    string
	proof  bool
	word   int  // its place among the words of the field
	either bool // a current or a power by a word that says neither, such as "consumption"
	order  bool // a part by a word for an order code: only where no other column is the part
}

// guessField scores a column for one field; ok is false where it is out of
// question.
func (b *builder) guessField(c *column, id catalog.FieldID) (g guess, ok bool) {
	h := &c.header
	for _, word := range b.lexicon.barred[id] {
		if word.in(h.tokens) {
			return guess{}, false
		}
	}
	if id == catalog.FieldNoise && b.inOneBand(c) {
		return guess{}, false
	}
	if id == catalog.FieldPower && b.widthByLetter(h) {
		return guess{}, false
	}
	g, ok = b.guessWord(c, id)
	if unit, also := b.guessUnit(c, id); also && (!ok || unit.score > g.score) {
		g, ok = unit, true
	}
	if id == catalog.FieldWidth && !ok {
		g, ok = b.guessProducts(c)
	}
	if !ok {
		return guess{}, false
	}
	if id == catalog.FieldNoise && c.headerNoiseKind(b.lexicon) == catalog.NoisePower {
		g.score -= lessPower
	}
	if hz, known := h.condition(quantity.DimFrequency); known && hz != 50 {
		g.score -= lessMains
	}
	return g, true
}

// inOneBand says whether the header of a column names a band, so that its levels
// are not those of the whole noise. That of a mains frequency is none.
func (b *builder) inOneBand(c *column) bool {
	h, ok := b.bandHeaderOf(c)
	return ok && h.hertz && h.plain && nominalHz(h.n) != 50
}

// guessWord scores the best word of the tables for the field.
func (b *builder) guessWord(c *column, id catalog.FieldID) (best guess, ok bool) {
	for place, w := range b.lexicon.words[id] {
		if !w.tokens.in(c.header.tokens) {
			continue
		}
		g, fits := b.scoreWord(c, id, w, place)
		if fits && (!ok || g.score > best.score || g.score == best.score && c.header.spells(w) && !c.header.spells(b.lexicon.words[id][best.word])) {
			best, ok = g, true
		}
	}
	if id == catalog.FieldWidth && c.header.product != "" {
		g := guess{column: c, field: id, how: ByWord, proof: true, why: fmt.Sprintf("the letters %s of a size", strings.ToUpper(c.header.product))}
		g.score = forProof + forWord - b.leftover(c, nil, id)
		if fits := b.addEvidence(&g, catalog.Proof); fits && (!ok || g.score > best.score) {
			best, ok = g, true
		}
	}
	return best, ok
}

// spells says whether the header spells a word as the table does, so that of
// words that are the same in two languages the header's own is named.
func (h *header) spells(w tableWord) bool {
	return strings.Contains(strings.ToLower(h.text), strings.ToLower(w.Text))
}

func (b *builder) scoreWord(c *column, id catalog.FieldID, w tableWord, place int) (guess, bool) {
	g := guess{column: c, field: id, how: ByWord, proof: w.Strength == catalog.Proof, word: place}
	switch w.Strength {
	case catalog.Proof:
		g.score = forProof
	case catalog.Hint:
		g.score = forHint
		if id == catalog.FieldOrderCode {
			g.score = forOrder
		}
		if id == catalog.FieldPart {
			g.score -= min(w.rank, forHint/2)
			g.order = b.named(catalog.FieldOrderCode, w.tokens)
		}
		if other, ok := siblingOf(id); ok {
			g.either = b.named(other, w.tokens) && len(c.header.units) == 0
		}
	default:
		g.score = forSign
	}
	g.why = fmt.Sprintf("the word %q", w.Text)
	if l := w.Language.String(); l != "" {
		g.why += " (" + l + ")"
	}
	g.score += forWord * (len(w.tokens) - 1)
	g.score -= b.leftover(c, w.tokens, id)
	return g, b.addEvidence(&g, w.Strength)
}

// leftover is what the other words of the header cost.
func (b *builder) leftover(c *column, used phrase, id catalog.FieldID) int {
	cost := 0
	for _, t := range c.header.tokens {
		switch {
		case contains(used, t), b.lexicon.fill[t], t == "1", b.lexicon.alone[id][t]:
		case t == b.lexicon.max || t == b.lexicon.nominal:
			cost++
		case len(t) == 1:
			cost += 2
		case id == catalog.FieldNoiseBands && b.lexicon.bandSide[t]:
		case id == catalog.FieldNoise && b.lexicon.choices[catalog.FieldNoiseKind].has([]string{t}):
		case b.lexicon.choices[catalog.FieldSupply].has([]string{t}):
			cost++
		default:
			cost += lessWord
		}
	}
	return min(cost, 4*lessWord)
}

// byUnit are the fields whose unit no other field of the trade shares.
var byUnit = [catalog.NumFields]bool{
	catalog.FieldAirflow: true, catalog.FieldStaticPressure: true, catalog.FieldNoise: true, catalog.FieldSpeed: true,
	catalog.FieldVoltage: true, catalog.FieldCurrent: true, catalog.FieldPower: true, catalog.FieldFrequency: true, catalog.FieldPrice: true,
}

// guessUnit takes a column by its unit alone, whatever its header says.
func (b *builder) guessUnit(c *column, id catalog.FieldID) (guess, bool) {
	if !byUnit[id] {
		return guess{}, false
	}
	d := &catalog.Fields[id]
	g := guess{column: c, field: id, how: ByUnit}
	u, inHeader := c.header.unit(d.Unit.Dimension)
	switch {
	case id == catalog.FieldPrice && c.header.currency != "" && len(c.header.units) == 0:
		g.score, g.why = forUnitOnly, "the currency in the header"
	case id == catalog.FieldPrice && b.allMoney(c):
		g.score, g.why = forCellUnit, "its cells are all amounts with a currency"
	case id == catalog.FieldPrice:
		return guess{}, false
	case inHeader:
		g.score, g.why = forUnitOnly, "the unit "+u.Symbol+" in the header"
	case len(c.header.units) == 0 && b.unitShare(c, d.Unit.Dimension) >= 0.6:
		g.score, g.why = forCellUnit, "the units in the cells"
	default:
		return guess{}, false
	}
	if e := b.evidenceFor(c, id); e.known > 0 && e.share(e.read) < 0.5 {
		return guess{}, false
	}
	g.score += forUnit - min(b.leftover(c, nil, id)/2, 2*lessWord)
	return g, true
}

// allMoney says whether every known cell of a column is an amount with a
// currency.
func (b *builder) allMoney(c *column) bool {
	some := false // in the first known cell; reading all of them for every column would take long
	b.eachSample(c, func(text string, _ []string) bool {
		code, _ := currencyIn(text)
		some = code != ""
		return b.lexicon.isUnknown(normalise(text))
	})
	if !some {
		return false
	}
	e := b.evidenceFor(c, catalog.FieldPrice)
	return len(c.header.units) == 0 && e.known > 0 && e.named == e.known && e.read == e.known
}

// guessProducts takes a column for the size whose cells are products of
// lengths, whatever its header says.
func (b *builder) guessProducts(c *column) (guess, bool) {
	g := guess{column: c, field: catalog.FieldWidth, how: ByCells, why: "its cells are products of lengths"}
	e := b.evidenceFor(c, catalog.FieldWidth)
	if e.known == 0 || e.share(e.products) < 0.7 || e.share(e.read) < 0.7 {
		return guess{}, false
	}
	g.score = forCellUnit + forCells + forWord - min(b.leftover(c, nil, catalog.FieldWidth)/2, lessWord)
	return g, true
}
