package tabular

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// fold brings the ways of writing a number to ASCII: full-width forms (those
// U+FF01 to U+FF5E that NFKC maps), minus signs, spaces of any width, the
// typographic apostrophe. All else stays. NFKC itself would make 5² into 52.
func fold(text string) string {
	for i := 0; i < len(text); i++ {
		if text[i] >= utf8.RuneSelf {
			return strings.Map(foldRune, text)
		}
	}
	return text
}

func foldRune(r rune) rune {
	switch {
	case r < utf8.RuneSelf:
		return r
	case r >= '\uff01' && r <= '\uff5e':
		return r - '\uff01' + '!'
	case r == '\u2212' || r == '\ufe63': // minus sign, small hyphen
		return '-'
	case r == '\u2019': // right single quotation mark
		return '\''
	case unicode.Is(unicode.Zs, r):
		return ' '
	}
	return r
}
