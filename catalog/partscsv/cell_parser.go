package partscsv

import (
	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// cellParser makes statements of tokens.
type cellParser struct {
	c      *cell
	tokens []token
	at     int

	open    bool // a statement has its number and may get a unit
	ranging bool // the next number ends the range
	from    bool // "between" was said
	said    meanings
	cond    bool
	joint   tokenKind
	unit    *token // that stood before its number
}

// step takes in one token.
func (p *cellParser) step() {
	t := &p.tokens[p.at]
	switch t.kind {
	case tokNumber:
		p.number(t)
	case tokUnit:
		p.unitToken(t)
	case tokWord:
		p.word(t)
	case tokDash, tokDots, tokTilde:
		p.rangeSign(t)
	case tokSlash, tokComma, tokTimes, tokOpen, tokClose:
		p.part(t.kind)
	case tokPlus:
		if p.open {
			p.part(tokPlus)
		}
	case tokAt:
		p.part(tokAt)
		p.cond = true
	case tokMost:
		p.said |= 1 << catalog.Most
	case tokLeast:
		p.said |= 1 << catalog.Least
	case tokNote:
		p.c.noted = true
	case tokDC:
		p.equals()
	case tokPercent:
		p.c.fail("a percentage, not a value")
	case tokPoint:
	default:
		p.c.fail("%q is not understood", t.text)
	}
}

// equals takes "=": behind a voltage the sign of direct current, else it parts
// two statements of one value.
func (p *cellParser) equals() {
	if last := p.last(); last != nil && p.open && isOf(last.units, quantity.DimVoltage) {
		p.c.supply = catalog.DC
		return
	}
	p.part(tokComma)
}

// part ends the statement before.
func (p *cellParser) part(k tokenKind) {
	p.open = false
	if p.joint == tokOther || k != tokClose {
		p.joint = k
	}
}

func (p *cellParser) number(t *token) {
	if t.err != nil {
		p.c.fail("%s", numberFault(t))
		return
	}
	if p.ranging {
		p.endRange(t)
		return
	}
	if p.open && !p.otherQuantity() {
		if n := len(p.c.words); n > 0 {
			p.c.fail("%q is not understood", p.c.words[n-1])
		}
		p.c.fail("two numbers with nothing between them")
		return
	}
	s := statement{low: t.value, high: t.value, said: p.said, condition: p.cond, joint: p.joint}
	if p.unit != nil {
		s.units, s.unitText = p.unit.units, p.unit.text
	}
	p.c.statements = append(p.c.statements, s)
	p.open, p.said, p.cond, p.joint, p.unit = true, 0, false, tokOther, nil
}

// otherQuantity says whether the number here is of another quantity than the
// statement before, so that nothing need stand between: "230 V AC 50 Hz".
func (p *cellParser) otherQuantity() bool {
	before := p.last().units
	if before == nil {
		return false
	}
	for _, t := range p.tokens[p.at:] {
		switch t.kind {
		case tokUnit:
			return !share(before, t.units)
		case tokNumber, tokSlash, tokDash:
		default:
			return false
		}
	}
	return false
}

func (p *cellParser) endRange(t *token) {
	s := &p.c.statements[len(p.c.statements)-1]
	s.high, p.ranging, p.open = t.value, false, true
	s.said &^= 1 << catalog.Least
	if s.high < s.low {
		p.c.fail("the range runs backwards")
	}
}

func (p *cellParser) unitToken(t *token) {
	if !p.open {
		if p.unit == nil && p.numberAhead(0) {
			p.unit = t
			return
		}
		if !p.unitBehindBrackets(t) {
			p.c.words = append(p.c.words, foldWord(t.text))
		}
		return
	}
	s := &p.c.statements[len(p.c.statements)-1]
	if s.units != nil && s.low == s.high {
		p.c.fail("two units behind one number")
		return
	}
	s.units, s.unitText = t.units, t.text
}

// unitBehindBrackets gives the unit in "12 (7-13.8) V" to all statements before
// it that have none.
func (p *cellParser) unitBehindBrackets(t *token) bool {
	if p.at == 0 || p.tokens[p.at-1].kind != tokClose {
		return false
	}
	given := false
	for i := range p.c.statements {
		if s := &p.c.statements[i]; s.units == nil && !s.condition {
			s.units, s.unitText, given = t.units, t.text, true
		}
	}
	return given
}

// rangeSign takes -, .. and ~, which part the ends of a range, but also stand
// for about, for a minus apart from its number, and for the kind of supply.
func (p *cellParser) rangeSign(t *token) {
	ahead := p.numberAhead(0)
	last := p.last()
	volts := last != nil && p.open && isOf(last.units, quantity.DimVoltage)
	switch {
	case t.kind == tokTilde && !p.open:
		p.said |= 1 << catalog.About
	case t.kind == tokTilde && volts && (!ahead || isOf(p.unitAhead(), quantity.DimFrequency)):
		p.c.supply = catalog.AC
		p.part(tokComma)
	case t.kind == tokDash && volts && !ahead:
		p.c.supply = catalog.DC
	case p.open && ahead && last.units != nil && p.unitAhead() != nil && !share(last.units, p.unitAhead()):
		p.part(tokComma) // "230 V - 50 Hz"
	case p.open && ahead:
		p.ranging, p.open = true, false
	case t.kind == tokDash && ahead && p.behindPlainWord():
		p.part(tokComma) // "square - 60 mm"
	case t.kind == tokDash && ahead:
		p.tokens[p.at+1].value *= -1
	case t.kind == tokDash:
		p.part(tokComma)
	default:
		p.c.fail("a range without its ends")
	}
}

// behindPlainWord says whether a word stands here that says nothing of numbers.
func (p *cellParser) behindPlainWord() bool {
	return p.at > 0 && p.tokens[p.at-1].kind == tokWord && p.tokens[p.at-1].meaning == 0
}

func (p *cellParser) last() *statement {
	if len(p.c.statements) == 0 {
		return nil
	}
	return &p.c.statements[len(p.c.statements)-1]
}

// numberAhead says whether a number follows, but for skip tokens and signs of
// it.
func (p *cellParser) numberAhead(skip int) bool {
	for i := p.at + 1 + skip; i < len(p.tokens); i++ {
		switch t := p.tokens[i]; t.kind {
		case tokNumber:
			return true
		case tokPlus, tokTilde, tokMost, tokLeast:
		default:
			return false
		}
	}
	return false
}

// unitAhead gives the units of the next number, or of the pair or range it
// begins.
func (p *cellParser) unitAhead() []quantity.Unit {
	for _, t := range p.tokens[p.at+1:] {
		switch t.kind {
		case tokUnit:
			return t.units
		case tokNumber, tokSlash, tokDash, tokDots, tokPlus, tokTilde, tokMost, tokLeast:
		default:
			return nil
		}
	}
	return nil
}

func isOf(units []quantity.Unit, d quantity.Dimension) bool {
	_, ok := ofDimension(units, d)
	return ok
}

// share says whether two spellings have a dimension in common.
func share(a, b []quantity.Unit) bool {
	for _, u := range a {
		if isOf(b, u.Dimension) {
			return true
		}
	}
	return false
}

// word takes in what a word says of the numbers beside it.
func (p *cellParser) word(t *token) {
	m := t.meaning
	last := p.last()
	apart := last != nil && last.units != nil && p.unitAhead() != nil && !share(last.units, p.unitAhead())
	switch {
	case t.text == "Ø":
		p.c.round = true
	case t.text == "□":
		p.c.square = true
	case p.open && p.numberAhead(0) && !apart && (m.has(catalog.To) || p.from && m.has(catalog.And)):
		p.ranging, p.open, p.from = true, false, false
	case m.has(catalog.At) && last != nil && p.numberAhead(0):
		p.part(tokAt)
		p.cond = true
	case m.has(catalog.From) && p.rangeAhead():
		p.from = true
	case m&(1<<catalog.About|1<<catalog.Most|1<<catalog.Least) != 0:
		p.bound(m)
	case m.has(catalog.To) && !m.has(catalog.At) && last == nil && p.numberAhead(0): // "bis 20"
		p.said |= 1 << catalog.Most
	case m != 0:
	default:
		p.c.words = append(p.c.words, t.text)
	}
}

// rangeAhead says whether a word that ends a range follows.
func (p *cellParser) rangeAhead() bool {
	for _, t := range p.tokens[p.at+1:] {
		if t.kind == tokWord && (t.meaning.has(catalog.To) || t.meaning.has(catalog.And)) || t.kind == tokDash || t.kind == tokDots {
			return true
		}
	}
	return false
}

// bound keeps "max" and its like for the next number, or for the one before
// where none follows.
func (p *cellParser) bound(m meanings) {
	m &= 1<<catalog.About | 1<<catalog.Most | 1<<catalog.Least
	if last := p.last(); p.open && last != nil && !p.numberAhead(0) {
		last.said |= m
		return
	}
	p.said |= m
}
