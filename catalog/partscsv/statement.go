package partscsv

import (
	"fmt"

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
	if n := len(tokens); n > 0 && tokens[n-1].kind == tokTimes {
		c.fail("a product without its last side")
	}
	if len(c.statements) == 0 {
		c.fail("no number in it")
	}
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
