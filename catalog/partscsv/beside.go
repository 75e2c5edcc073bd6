package partscsv

import (
	"strings"
	"unicode/utf8"

	"lowsone/catalog"
)

// leastRemark is how many letters the longest word of a remark in brackets has at
// the least: shorter ones may be signs, as the C of dB(C).
const leastRemark = 4

// withoutRemarks cuts out of a cell what stands in brackets behind its number and
// is nothing but words that say nothing of numbers: "25 (ohne Gitter)".
func (r *Reader) withoutRemarks(c *column, clean string) (rest string, cut []string) {
	var b strings.Builder
	for {
		before, after, ok := strings.Cut(clean, "(")
		inside, behind, closed := strings.Cut(after, ")")
		if !ok || !closed {
			break
		}
		b.WriteString(before)
		if hasDigit(b.String()) && r.isRemark(c, inside) {
			b.WriteByte(' ')
			cut = append(cut, strings.TrimSpace(inside))
		} else {
			b.WriteString("(" + inside + ")")
		}
		clean = behind
	}
	b.WriteString(clean)
	return b.String(), cut
}

// isRemark says whether a text in brackets holds no number, no unit, and no word
// that may say what the number beside it is.
func (r *Reader) isRemark(c *column, text string) bool {
	x := r.plan.lexicon
	long := false
	for _, t := range x.lex(text, c.mark, nil) {
		switch t.kind {
		case tokWord:
			long = long || utf8.RuneCountInString(t.text) >= leastRemark
		case tokComma, tokPoint, tokDash, tokSlash:
		default:
			return false
		}
	}
	tokens := x.vocabulary.tokens(text)
	return long && !x.measures.has(tokens) && !x.weightings.has(tokens) && !x.beside[c.field].has(tokens) &&
		!x.choices[catalog.FieldNoiseKind].has(tokens) && !x.choices[catalog.FieldSupply].has(tokens)
}
