package partscsv

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"lowsone/catalog/tabular"
)

// number takes a number with its sign.
func (l *lexer) number() bool {
	text := l.rest()
	n := 0
	if c := text[0]; (c == '-' || c == '+') && l.signPlace() {
		n = 1
	}
	if n < len(text) && !isDigit(text[n]) && !(len(text) > n+1 && (text[n] == '.' || text[n] == ',') && isDigit(text[n+1]) && !l.behind(tokNumber)) {
		return false
	}
	if n == len(text) || n == 0 && !isDigit(text[0]) && l.behindLetter() {
		return false // "Max.0.15"
	}
	end := l.numberEnd(text, n)
	value, err := tabular.ParseNumber(text[:end], l.decimal())
	l.tokens = append(l.tokens, token{kind: tokNumber, text: text[:end], value: value, err: err})
	l.at += end
	return true
}

// behindLetter says whether a letter stands right before.
func (l *lexer) behindLetter() bool {
	r, size := utf8.DecodeLastRuneInString(l.text[:l.at])
	return size > 0 && unicode.IsLetter(r)
}

func (l *lexer) decimal() tabular.Mark {
	if l.mark == 0 {
		return tabular.Point
	}
	return l.mark
}

// signPlace says whether a - or + here is the sign of a number: at the start,
// or behind anything but a number or its unit. A blank before and none behind
// does not make it one: "10 -20" is a range.
func (l *lexer) signPlace() bool {
	return !l.behind(tokNumber, tokUnit, tokPercent, tokClose, tokNote, tokDash, tokTol) || l.behind(tokDash, tokTol)
}

// numberEnd finds the end of the number whose digits begin at i.
func (l *lexer) numberEnd(text string, i int) int {
	first := i
	marked := false
	for i < len(text) {
		c := text[i]
		switch {
		case isDigit(c):
		case (c == '.' || c == ',') && i+1 < len(text) && isDigit(text[i+1]):
			marked = true
		case (c == ' ' && !l.apart || c == '\'') && !marked && groupFollows(text, i) && groupBefore(text[first:i]):
		default:
			return exponentEnd(text, i)
		}
		i++
	}
	return i
}

// groupFollows says whether exactly three digits follow the sign at i.
func groupFollows(text string, i int) bool {
	if i+3 >= len(text) || !isDigit(text[i+1]) || !isDigit(text[i+2]) || !isDigit(text[i+3]) {
		return false
	}
	return i+4 == len(text) || !isDigit(text[i+4]) && text[i+4] != '/'
}

// groupBefore says whether one to three digits end the text, behind nothing or
// a sign between groups.
func groupBefore(text string) bool {
	group := text[strings.LastIndexAny(text, " '")+1:]
	return len(group) >= 1 && len(group) <= 3
}

// exponentEnd steps over an exponent at i.
func exponentEnd(text string, i int) int {
	if i >= len(text) || text[i] != 'e' && text[i] != 'E' {
		return i
	}
	j := i + 1
	if j < len(text) && (text[j] == '-' || text[j] == '+') {
		j++
	}
	digits := j
	for j < len(text) && isDigit(text[j]) {
		j++
	}
	if j == digits || j-digits > 3 {
		return i
	}
	return j
}

// numberNext says whether a blank and then a number follow.
func numberNext(text string) bool {
	trimmed := strings.TrimLeft(text, " ")
	return len(trimmed) < len(text) && trimmed != "" && (isDigit(trimmed[0]) || len(trimmed) > 1 && trimmed[0] == '-' && isDigit(trimmed[1]))
}
