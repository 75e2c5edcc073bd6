package partscsv

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/catalog/tabular"
)

// tokenKind is what a piece of a cell is.
type tokenKind uint8

const (
	tokNumber tokenKind = iota
	tokUnit
	tokWord    // letters that are no unit
	tokDash    // - between things: a range, or a minus sign apart
	tokDots    // .. or ...
	tokTilde   // ~
	tokSlash   // / or |
	tokTimes   // x or ×
	tokTol     // ±, +/-
	tokPlus    // +
	tokPercent // %
	tokOpen    // ( [ {
	tokClose   // ) ] }
	tokAt      // @
	tokMost    // < ≤
	tokLeast   // > ≥
	tokComma   // , ; : between things
	tokNote    // * and other footnote marks
	tokDC      // = or ⎓ behind a voltage
	tokPoint   // . behind a word: an abbreviation
	tokOther   // any other sign
)

// token is one piece of a cell.
type token struct {
	kind    tokenKind
	text    string
	value   float64
	err     error           // of a number
	units   []quantity.Unit // of a unit
	meaning meanings        // of a word
}

// meanings is a set of catalog.CellMeaning.
type meanings uint16

func (m meanings) has(c catalog.CellMeaning) bool { return m&(1<<c) != 0 }

// lexer cuts one normalised cell into tokens.
type lexer struct {
	lexicon *lexicon
	text    string
	mark    tabular.Mark
	at      int
	tokens  []token
	apart   bool // blanks part numbers, never groups of digits of one
}

// lex cuts a normalised cell into tokens. The result is good until the next
// call with the same scratch.
func (x *lexicon) lex(text string, mark tabular.Mark, scratch []token) []token {
	l := lexer{lexicon: x, text: text, mark: mark, tokens: scratch[:0]}
	return l.run()
}

// lexApart is lex for a cell in which blanks part numbers: "63:28 125:33".
func (x *lexicon) lexApart(text string, mark tabular.Mark, scratch []token) []token {
	l := lexer{lexicon: x, text: text, mark: mark, tokens: scratch[:0], apart: true}
	return l.run()
}

func (l *lexer) run() []token {
	for l.at < len(l.text) {
		if l.text[l.at] == ' ' {
			l.at++
			continue
		}
		l.next()
	}
	return l.tokens
}

func (l *lexer) rest() string { return l.text[l.at:] }

func (l *lexer) add(k tokenKind, size int) {
	l.tokens = append(l.tokens, token{kind: k, text: l.text[l.at : l.at+size]})
	l.at += size
}

// behind says whether the token before is one of kinds.
func (l *lexer) behind(kinds ...tokenKind) bool {
	if len(l.tokens) == 0 {
		return false
	}
	last := l.tokens[len(l.tokens)-1].kind
	for _, k := range kinds {
		if last == k {
			return true
		}
	}
	return false
}

func (l *lexer) next() {
	if l.unitFirst() || l.number() || l.sign() || l.unit() || l.word() {
		return
	}
	if l.text[l.at] == '.' && len(l.tokens) > 0 {
		l.add(tokPoint, 1)
		return
	}
	_, size := utf8.DecodeRuneInString(l.rest())
	l.add(tokOther, size)
}

// unitFirst takes a unit that begins with a number, "1/min", behind a number.
func (l *lexer) unitFirst() bool {
	return strings.HasPrefix(l.rest(), "1/") && l.behind(tokNumber) && l.unit()
}

// sign takes signs.
func (l *lexer) sign() bool {
	text := l.rest()
	for _, s := range signs {
		if strings.HasPrefix(text, s.text) {
			if s.kind == tokDC && !l.behind(tokUnit, tokNumber) {
				continue
			}
			l.add(s.kind, len(s.text))
			return true
		}
	}
	return false
}

// signs are the signs of cells, longer ones before those they begin with.
var signs = []struct {
	text string
	kind tokenKind
}{
	{"+/-", tokTol}, {"+-", tokTol}, {"±", tokTol}, {"-/+", tokTol},
	{"...", tokDots}, {"..", tokDots}, {"÷", tokDots},
	{"<=", tokMost}, {"<", tokMost}, {"≤", tokMost}, {">=", tokLeast}, {">", tokLeast}, {"≥", tokLeast},
	{"-", tokDash}, {"~", tokTilde}, {"/", tokSlash}, {"|", tokSlash}, {"×", tokTimes}, {"%", tokPercent},
	{"(", tokOpen}, {"[", tokOpen}, {"{", tokOpen}, {")", tokClose}, {"]", tokClose}, {"}", tokClose},
	{"@", tokAt}, {",", tokComma}, {";", tokComma}, {":", tokComma}, {"+", tokPlus},
	{"*", tokNote}, {"=", tokDC}, {"⎓", tokDC},
}

// unit takes a unit. A small "a" before a number is a word ("7 a 13"), so is an
// "in" behind a unit ("28 dB(A) in 1 m"), and a
// letter at a product sign is a label ("60W x 60H").
func (l *lexer) unit() bool {
	units, size := l.lexicon.units.longest(l.rest())
	if size == 0 {
		return false
	}
	text := l.text[l.at : l.at+size]
	if (text == "a" || text == "in" && l.behind(tokUnit)) && numberNext(l.text[l.at+size:]) {
		return false
	}
	if l.behind(tokTimes) && len(text) == 1 && text != `"` {
		return false
	}
	if text == "min" && !l.behind(tokNumber) {
		return false
	}
	l.tokens = append(l.tokens, token{kind: tokUnit, text: text, units: units})
	l.at += size
	return true
}

// word takes letters, or an x between numbers as the sign it stands for.
func (l *lexer) word() bool {
	text := l.rest()
	n := 0
	for n < len(text) {
		r, size := utf8.DecodeRuneInString(text[n:])
		if !unicode.IsLetter(r) && r != 'Ø' && r != '□' && !(n > 0 && r == '\'') {
			break
		}
		n += size
		if r == 'Ø' || r == '□' {
			break
		}
	}
	if n == 0 {
		return false
	}
	if (text[:n] == "x" || text[:n] == "X") && len(l.tokens) > 0 {
		l.add(tokTimes, n)
		return true
	}
	n = l.phrase(text, n)
	l.add(tokWord, n)
	last := &l.tokens[len(l.tokens)-1]
	last.meaning = l.lexicon.meaning(last.text)
	return true
}

// phrase stretches a word to the longest phrase of the tables it begins.
func (l *lexer) phrase(text string, n int) int {
	longest := n
	if !l.lexicon.begins[foldPhrase(text[:n])] {
		return longest
	}
	for end, count := n, 1; count < maxPhrase; count++ {
		for end < len(text) && (text[end] == ' ' || text[end] == '.') {
			end++
		}
		start := end
		for end < len(text) {
			r, size := utf8.DecodeRuneInString(text[end:])
			if !unicode.IsLetter(r) && r != '\'' {
				break
			}
			end += size
		}
		if end == start {
			break
		}
		if l.lexicon.meaning(text[:end]) != 0 {
			longest = end
		}
	}
	return longest
}
