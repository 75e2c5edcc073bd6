package partscsv

import (
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"lowsone/catalog/quantity"
)

// headerScan walks a header once.
type headerScan struct {
	x    *lexicon
	h    *header
	text string
	at   int
	open int // brackets that are open
	rest strings.Builder
}

// otherWeighting finds a weighting in brackets behind dB that is not A: with it, dB
// is another quantity.
var otherWeighting = regexp.MustCompile(`(?i)\bdB\s*[(\[]\s*([CZ])\s*[)\]]`)

// numero writes the sign for "number" out, lest "n°" be read as a letter.
func (s *headerScan) numero() {
	lower := strings.ToLower(s.text)
	for _, sign := range [...]string{"n°", "#"} {
		if i := strings.Index(lower, sign); i >= 0 && len(lower) == len(s.text) {
			s.text = s.text[:i] + " number " + s.text[i+len(sign):]
			lower = strings.ToLower(s.text)
		}
	}
}

func (s *headerScan) run() {
	for s.at < len(s.text) {
		r, size := utf8.DecodeRuneInString(s.text[s.at:])
		switch {
		case strings.ContainsRune("([{", r):
			s.open++
			s.skip(size)
		case strings.ContainsRune(")]}", r):
			s.open = max(0, s.open-1)
			s.skip(size)
		case s.boundary() && (s.productLetters() || s.currencySign() || s.unit() || s.quantity()):
		default:
			s.rest.WriteRune(r)
			s.at += size
		}
	}
}

// skip leaves a sign out and parts the words beside it.
func (s *headerScan) skip(size int) {
	s.rest.WriteByte(' ')
	s.at += size
}

// boundary says whether a word may begin here.
func (s *headerScan) boundary() bool {
	last, _ := utf8.DecodeLastRuneInString(s.text[:s.at])
	return s.at == 0 || !unicode.IsLetter(last) && !unicode.IsDigit(last)
}

// productLetters takes "W x H x D" and its like.
func (s *headerScan) productLetters() bool {
	rest := strings.ToLower(s.text[s.at:])
	var letters []byte
	end, slashes := 0, 0
	for i := 0; i < len(rest); {
		c := rest[i]
		if strings.IndexByte(sideLetters, c) < 0 || i+1 < len(rest) && unicode.IsLetter(rune(rest[i+1])) && rest[i+1] != 'x' {
			break
		}
		letters = append(letters, c)
		end = i + 1
		n := timesSign(rest[end:])
		if n == 0 {
			break
		}
		slashes += strings.Count(rest[end:end+n], "/")
		i = end + n
	}
	if len(letters) < 2 || len(letters) > 3 || slashes > 0 && len(letters) < 3 {
		return false // "l/h" is no product
	}
	if next, size := utf8.DecodeRuneInString(rest[end:]); size > 0 && unicode.IsLetter(next) {
		return false
	}
	s.h.product = string(letters)
	s.skip(end)
	return true
}

// sideLetters stand for the sides of a frame: width, breadth, length, height,
// depth and what they are called in the other languages.
const sideLetters = "wblhdtpa"

// timesSign gives the length of a multiplication sign with the blanks around it.
func timesSign(text string) int {
	trimmed := strings.TrimLeft(text, " ")
	for _, sign := range [...]string{"x", "×", "*", "/"} {
		if rest, ok := strings.CutPrefix(trimmed, sign); ok {
			return len(text) - len(strings.TrimLeft(rest, " "))
		}
	}
	return 0
}

// currencySign takes a currency.
func (s *headerScan) currencySign() bool {
	code, size := currencyAt(s.text[s.at:])
	if size == 0 || s.h.currency != "" {
		return false
	}
	s.h.currency = code
	s.skip(size)
	return true
}

// doubtful are spellings that are also words, abbreviations or symbols.
func doubtful(spelling string) bool {
	switch spelling {
	case "in", "min", "std", "std.", "sec", "kh", "in.", "ba", "hr":
		return true
	}
	return len(spelling) == 1 && spelling != `"`
}

// unitPlace says whether a unit would stand here: in brackets, behind a comma
// or slash, or at the end behind other words; or alone before a bracket.
func (s *headerScan) unitPlace(size int) bool {
	spelling := strings.TrimSpace(s.text[s.at : s.at+size])
	before := strings.TrimRight(s.text[:s.at], " ")
	after := strings.TrimLeft(s.text[s.at+size:], " ")
	if strings.EqualFold(spelling, "min") {
		return false // the least, never minutes
	}
	last, _ := utf8.DecodeLastRuneInString(before)
	bracketed := s.open > 0 && strings.ContainsRune("([{/|;,", last)
	behind := strings.ContainsRune(",/|:;", last) || before != "" && unitCase(spelling)
	alone := before == "" && (after == "" || after[0] == '(' || after[0] == '[') && unitCase(spelling)
	return bracketed || (after == "" || strings.ContainsRune("/|(", rune(after[0]))) && behind || alone
}

// unitCase says whether a single letter is written as the unit is.
func unitCase(spelling string) bool {
	switch spelling {
	case "V", "A", "W", "C", "F", "K", "h", "m":
		return true
	}
	return len(spelling) > 1
}

// pair adds the second number of "50/60 Hz", between two places of the text.
func (s *headerScan) pair(from, to int, units []quantity.Unit) {
	if to <= from+1 {
		return
	}
	if v, err := parsePlain(s.text[from+1 : to]); err == nil {
		s.h.conditions = append(s.h.conditions, condition{v, units})
	}
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// unit takes a unit. A short spelling may as well be a word or a letter for a
// quantity, so it counts only where units stand.
func (s *headerScan) unit() bool {
	units, size := s.x.units.longest(s.text[s.at:])
	if size == 0 {
		return false
	}
	spelling := quantity.Fold(s.text[s.at : s.at+size])
	if doubtful(spelling) && !s.unitPlace(size) || spelling == "volt" && strings.HasPrefix(s.text[s.at+size:], ".") {
		return false // "Oper. volt." is a voltage
	}
	s.h.units = append(s.h.units, headerUnit{units, spelling})
	s.skip(size)
	return true
}

// quantity takes a number with a unit: what the values hold for.
func (s *headerScan) quantity() bool {
	n := 0
	for n < len(s.text)-s.at && (isDigit(s.text[s.at+n]) || n > 0 && (s.text[s.at+n] == '.' || s.text[s.at+n] == ',')) {
		n++
	}
	if n == 0 {
		return false
	}
	// A range or pair "50/60 Hz" holds for the first.
	end := s.at + n
	rest := s.text[end:]
	if len(rest) > 1 && (rest[0] == '/' || rest[0] == '-') && isDigit(rest[1]) {
		m := 1
		for m < len(rest) && isDigit(rest[m]) {
			m++
		}
		rest = rest[m:]
	}
	blanks := len(rest) - len(strings.TrimLeft(rest, " "))
	units, size := s.x.units.longest(rest[blanks:])
	value, err := parsePlain(s.text[s.at:end])
	if size == 0 || err != nil {
		return false
	}
	s.h.conditions = append(s.h.conditions, condition{value, units})
	s.pair(end, len(s.text)-len(rest), units)
	s.rest.WriteByte(' ')
	s.at = len(s.text) - len(rest) + blanks + size
	return true
}
