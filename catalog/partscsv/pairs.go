package partscsv

import (
	"fmt"
	"strings"

	"lowsone/catalog/quantity"
)

// pairedNumber is a number of a cell of pairs.
type pairedNumber struct {
	value    float64 // in Hz or dB
	of       pairSide
	weighted bool // in dB(A)
}

// pairSide is which side of a pair a number is by its unit.
type pairSide uint8

const (
	ofEither pairSide = iota // it has no unit
	ofFrequency
	ofLevel
)

// notPairs is the fault of a cell whose numbers make no pairs.
const notPairs = "no pairs of a frequency and a level"

// pairedNumbers gives the numbers of a cell of pairs: frequency and level by
// turns, or level and frequency where units say so. Any sign may stand between
// them, and words of noise and bands anywhere.
//
// A blank may part pairs, "63:28 125:33", or groups of digits, "1 000:23". It
// parts pairs where those then are levels at mid-band frequencies.
func (r *Reader) pairedNumbers(c *column, text string) (list []pairedNumber, fault string) {
	text = normalise(text)
	if strings.Contains(text, " ") {
		r.tokens = r.plan.lexicon.lexApart(text, c.mark, r.tokens)
		if list, fault = r.pairsOfTokens(); fault == "" && areLevelsOfBands(list) {
			return list, ""
		}
	}
	r.tokens = r.plan.lexicon.lex(text, c.mark, r.tokens)
	return r.pairsOfTokens()
}

// pairsOfTokens gives the numbers of the tokens of a cell of pairs.
func (r *Reader) pairsOfTokens() (list []pairedNumber, fault string) {
	list = r.numbers[:0]
	for i := range r.tokens {
		t := &r.tokens[i]
		switch {
		case t.kind == tokNumber && t.err != nil:
			return nil, numberFault(t)
		case t.kind == tokNumber:
			list = append(list, pairedNumber{value: t.value})
		case t.kind == tokUnit && len(list) > 0 && list[len(list)-1].unit(t):
		case t.kind == tokWord && r.plan.lexicon.besidePairs(t.text):
		case parts(t.kind):
		default:
			return nil, fmt.Sprintf("%q %s", t.text, notUnderstood)
		}
	}
	r.numbers = list
	if !arePairs(list) {
		return nil, notPairs
	}
	return list, ""
}

// parts says whether a sign may stand between the numbers of pairs.
func parts(k tokenKind) bool {
	switch k {
	case tokComma, tokSlash, tokDC, tokOpen, tokClose, tokAt, tokPoint:
		return true
	}
	return false
}

// besidePairs says whether a word says nothing but that levels in bands are
// meant.
func (x *lexicon) besidePairs(word string) bool {
	for _, t := range x.vocabulary.tokens(word) {
		if !x.bandSide[t] && !x.fill[t] {
			return false
		}
	}
	return true
}

// unit takes in the unit behind the number, and says whether it can have it.
func (p *pairedNumber) unit(t *token) bool {
	if p.of != ofEither {
		return false
	}
	if u, ok := ofDimension(t.units, quantity.DimFrequency); ok {
		p.value, p.of = u.ToSI(p.value), ofFrequency
		return true
	}
	if u, ok := ofDimension(t.units, quantity.DimLevel); ok {
		p.value, p.of, p.weighted = u.ToSI(p.value), ofLevel, saysA(t.text)
		return true
	}
	if t.text == "k" || t.text == "K" { // 1k, which may be 1 kelvin too
		p.value, p.of = 1000*p.value, ofFrequency
		return true
	}
	return false
}

// arePairs says whether numbers are pairs by their units.
func arePairs(list []pairedNumber) bool {
	for i := 0; i+1 < len(list); i += 2 {
		// A level stands first only where a frequency behind it says so.
		if (list[i].of == ofLevel) != (list[i+1].of == ofFrequency) {
			return false
		}
	}
	return len(list) > 0 && len(list)%2 == 0
}

// Levels of a fan in a band, A-weighted ones too, lie between these, dB.
const (
	leastBandLevel = -80
	mostBandLevel  = 140
)

// areLevelsOfBands says whether every pair is a possible level at a mid-band
// frequency.
func areLevelsOfBands(list []pairedNumber) bool {
	for i := 0; i+1 < len(list); i += 2 {
		hz, db := &list[i], &list[i+1]
		if hz.of == ofLevel {
			hz, db = db, hz
		}
		if _, ok := bandOf(hz.value); !ok || db.value < leastBandLevel || db.value > mostBandLevel {
			return false
		}
	}
	return len(list) > 0
}
