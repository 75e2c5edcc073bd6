package partscsv

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// normalise brings the many characters for one sign to one, so that headers
// and cells are read with few rules: blanks of every width to a space, dashes
// to "-", quotation marks, apostrophes, multiplication signs. Fractions such as
// ½ are written out. Raised digits behind a letter are its exponent (m³);
// behind a number they are a footnote mark and become "*", never part of the
// number.
func normalise(text string) string {
	if plainASCII(text) {
		return strings.TrimSpace(text)
	}
	var b strings.Builder
	last := rune(' ')
	for _, r := range text {
		s := normalRune(r, last)
		b.WriteString(s)
		if s != "" {
			last, _ = utf8.DecodeLastRuneInString(s)
		}
	}
	return strings.TrimSpace(norm.NFKC.String(b.String()))
}

// plainASCII says whether no rune of the text needs to be changed.
func plainASCII(text string) bool {
	for i := 0; i < len(text); i++ {
		if c := text[i]; c < ' ' || c > '~' || c == '`' {
			return false
		}
	}
	return true
}

// raised are the superscript digits and signs, each standing for the rune of
// the same place in plainRaised.
const (
	raised      = "⁰¹²³⁴⁵⁶⁷⁸⁹⁻⁺"
	plainRaised = "0123456789-+"
)

var fractions = map[rune]string{
	'½': "1/2", '¼': "1/4", '¾': "3/4", '⅛': "1/8", '⅜': "3/8", '⅝': "5/8", '⅞': "7/8",
}

// normalRune gives what stands for r behind the rune last.
func normalRune(r, last rune) string {
	if s, ok := fractions[r]; ok {
		if unicode.IsDigit(last) {
			return " " + s
		}
		return s
	}
	if i := strings.IndexRune(raised, r); i >= 0 {
		return normalRaised(utf8.RuneCountInString(raised[:i]), last)
	}
	switch {
	case unicode.IsSpace(r), unicode.Is(unicode.Zs, r):
		return " "
	case unicode.IsControl(r), unicode.Is(unicode.Cf, r):
		return ""
	}
	if s, ok := sameSigns[r]; ok {
		return s
	}
	return string(r)
}

func normalRaised(place int, last rune) string {
	if unicode.IsLetter(last) || last == '-' {
		return plainRaised[place : place+1]
	}
	if last == '*' {
		return ""
	}
	if unicode.IsDigit(last) || last == ')' || last == '%' || last == ' ' || last == '°' {
		return "*"
	}
	return plainRaised[place : place+1]
}

// sameSigns maps typographic variants of a sign to the one that is read.
var sameSigns = map[rune]string{
	'–': "-", '—': "-", '‒': "-", '‐': "-", '‑': "-", '−': "-", '―': "-", '﹣': "-", '－': "-",
	'～': "~", '〜': "~", '∼': "~", '∽': "~", '≈': "~", '≃': "~",
	'’': "'", '‘': "'", '´': "'", '`': "'", '′': "'", 'ʼ': "'",
	'″': `"`, '“': `"`, '”': `"`, '„': `"`, '‟': `"`, '＂': `"`,
	'✕': "×", '✖': "×", '⨯': "×", 'х': "×", '╳': "×",
	'⌀': "Ø", 'ø': "Ø", '∅': "Ø", '◻': "□", '☐': "□", '▢': "□", '■': "□", '◽': "□",
	'⩽': "≤", '≦': "≤", '⩾': "≥", '≧': "≥", 'º': "°", '˚': "°",
	'†': "*", '‡': "*", '※': "*", '＊': "*", '®': "", '™': "",
	'µ': "u", 'μ': "u", '·': "·", '∙': "·", '⋅': "·",
}
