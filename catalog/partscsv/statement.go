package partscsv

import (
	"fmt"
	"math"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// statement is one value that a cell states: a number or a range, with its
// unit as far as it stands there.
type statement struct {
	low, high float64 // as written; equal where it is one number
	units     []quantity.Unit
	unitText  string
	said      meanings // Most, Least, About
	condition bool     // what another value holds for
	joint     tokenKind
}

// ranged says whether the statement is a range.
func (s *statement) ranged() bool { return s.low != s.high }

// tolerance is what follows a value: ±10 %, +10/-15 %, ±1.2 V.
type tolerance struct {
	minus, plus float64
	percent     bool
}

// cell is a cell taken apart.
type cell struct {
	statements []statement
	words      []string // that change no number: "DC", "LwA"
	tolerance  *tolerance
	supply     catalog.Supply // from a sign behind the voltage
	round      bool           // Ø
	square     bool           // □
	labels     string         // letters of a product's sides
	noted      bool           // a footnote mark stood there
	fault      string         // why it cannot be read
}

func (c *cell) fail(format string, args ...any) {
	if c.fault == "" {
		c.fault = fmt.Sprintf(format, args...)
	}
}

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

// parse makes statements of a cell's tokens, which it may change.
func (x *lexicon) parse(tokens []token, c *cell, inch bool) {
	*c = cell{statements: c.statements[:0], words: c.words[:0]}
	tokens = dropFootnotes(tokens, c)
	tokens = takeTolerance(tokens, c)
	if inch || hasInch(tokens) {
		tokens = takeFractions(tokens)
	}
	p := cellParser{c: c, tokens: tokens, joint: tokOther}
	for p.at < len(p.tokens) && c.fault == "" {
		p.step()
		p.at++
	}
	if p.ranging {
		c.fail("a range without its end")
	}
	if len(c.statements) == 0 {
		c.fail("no number in it")
	}
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
	case t.kind == tokDash && ahead:
		p.tokens[p.at+1].value *= -1
	case t.kind == tokDash:
		p.part(tokComma)
	default:
		p.c.fail("a range without its ends")
	}
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

// numberFault says what is wrong with a number.
func numberFault(t *token) string {
	return fmt.Sprintf("%v", t.err)
}

// dropFootnotes cuts out "1)" behind something else, and "*".
func dropFootnotes(tokens []token, c *cell) []token {
	kept, open := tokens[:0], 0
	for i, t := range tokens {
		switch {
		case t.kind == tokOpen:
			open++
		case t.kind == tokClose && open > 0:
			open--
		case t.kind == tokClose && len(kept) > 1 && tokens[i-1].kind == tokNumber && len(tokens[i-1].text) == 1:
			c.noted = true
			kept = kept[:len(kept)-1]
			continue
		case t.kind == tokNote && !betweenNumbers(tokens, i):
			c.noted = true
			continue
		case t.kind == tokNote:
			t.kind = tokTimes // 60*60*25
		}
		kept = append(kept, t)
	}
	return kept
}

func betweenNumbers(tokens []token, i int) bool {
	return i > 0 && i+1 < len(tokens) && (tokens[i-1].kind == tokNumber || tokens[i-1].kind == tokUnit) && tokens[i+1].kind == tokNumber
}

// takeTolerance cuts a tolerance out of the tokens.
func takeTolerance(tokens []token, c *cell) []token {
	for i, t := range tokens {
		end, tol := toleranceAt(tokens, i)
		if tol == nil {
			continue
		}
		if t.kind == tokOpen {
			end++
		}
		c.tolerance = tol
		return append(tokens[:i], tokens[end:]...)
	}
	return tokens
}

// toleranceAt reads a tolerance that begins at i, and says where it ends.
func toleranceAt(tokens []token, i int) (end int, tol *tolerance) {
	at := func(j int, k tokenKind) bool { return j < len(tokens) && tokens[j].kind == k }
	open := i
	if at(i, tokOpen) {
		i++
	}
	done := func(end int, tol tolerance) (int, *tolerance) {
		tol.percent = at(end, tokPercent)
		if tol.percent {
			end++
		}
		if open < i && !at(end, tokClose) {
			return 0, nil
		}
		tol.minus, tol.plus = math.Abs(tol.minus), math.Abs(tol.plus)
		return end, &tol
	}
	switch {
	case at(i, tokTol) && at(i+1, tokNumber):
		v := tokens[i+1].value
		end := i + 2
		if at(end, tokUnit) {
			end++
		}
		return done(end, tolerance{v, v, false})
	case i == 0 || !at(i, tokPlus) && !at(i, tokDash) || !at(i+1, tokNumber):
		return 0, nil
	}
	j := i + 2
	if at(j, tokPercent) {
		j++
	}
	if at(j, tokSlash) && at(j+1, tokNumber) && at(j+2, tokPercent) && (tokens[j+1].value < 0) == at(i, tokPlus) {
		if at(i, tokPlus) {
			return done(j+2, tolerance{minus: tokens[j+1].value, plus: tokens[i+1].value})
		}
		return done(j+2, tolerance{minus: tokens[i+1].value, plus: tokens[j+1].value})
	}
	if at(i+2, tokPercent) && at(i, tokPlus) {
		return done(i+2, tolerance{plus: tokens[i+1].value})
	}
	if at(i+2, tokPercent) {
		return done(i+2, tolerance{minus: tokens[i+1].value})
	}
	return 0, nil
}

func hasInch(tokens []token) bool {
	for _, t := range tokens {
		if u, ok := ofDimension(t.units, quantity.DimLength); ok && u.Symbol == "inch" {
			return true
		}
	}
	return false
}

// takeFractions makes one number of "2 3/8" and "2-3/8".
func takeFractions(tokens []token) []token {
	kept := tokens[:0]
	for i := 0; i < len(tokens); i++ {
		if i+2 < len(tokens) && isFraction(tokens[i], tokens[i+1], tokens[i+2]) {
			f := tokens[i].value / tokens[i+2].value
			if n := len(kept); n > 0 && kept[n-1].kind == tokDash && n > 1 && whole(kept[n-2]) {
				kept = kept[:n-1]
			}
			if n := len(kept); n > 0 && whole(kept[n-1]) {
				kept[n-1].value += f
			} else {
				kept = append(kept, token{kind: tokNumber, text: tokens[i].text + "/" + tokens[i+2].text, value: f})
			}
			i += 2
			continue
		}
		kept = append(kept, tokens[i])
	}
	return kept
}

func whole(t token) bool {
	return t.kind == tokNumber && t.err == nil && t.value == math.Trunc(t.value) && t.value >= 0
}

// isFraction says whether three tokens are a fraction of an inch: halves down
// to sixty-fourths.
func isFraction(n, slash, d token) bool {
	if slash.kind != tokSlash || !whole(n) || !whole(d) || n.value >= d.value || n.value < 1 {
		return false
	}
	switch d.value {
	case 2, 4, 8, 16, 32, 64:
		return true
	}
	return false
}
