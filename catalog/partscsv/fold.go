package partscsv

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// foldWord brings the spellings of one word to one form: lower case, accents
// dropped, ß as ss, and the two ways to write an umlaut ("Lüfter", "Luefter")
// made the same as its vowel without dots ("Lufter").
func foldWord(word string) string {
	if plainASCII(word) {
		return foldASCII(word)
	}
	var b strings.Builder
	for _, r := range norm.NFD.String(strings.ToLower(word)) {
		switch {
		case unicode.Is(unicode.Mn, r):
		case r == 'ß':
			b.WriteString("ss")
		default:
			b.WriteRune(r)
		}
	}
	return umlauts.Replace(b.String())
}

// foldASCII is foldWord for letters without accents.
func foldASCII(word string) string {
	word = strings.ToLower(word)
	for i := 1; i < len(word); i++ {
		if word[i] == 'e' && (word[i-1] == 'a' || word[i-1] == 'o' || word[i-1] == 'u') {
			return umlauts.Replace(word)
		}
	}
	return word
}

var umlauts = strings.NewReplacer("ae", "a", "oe", "o", "ue", "u")

// stem drops the endings by which the plural and the other forms of one noun
// differ in the four languages. It is applied to the words of the tables as
// well, so that only what it makes equal matters.
func stem(folded string) string {
	if len(folded) < 4 {
		return folded
	}
	for _, ending := range [...]string{"en", "es", "e", "s", "x"} {
		if rest, ok := strings.CutSuffix(folded, ending); ok && len(rest) >= 3 {
			return rest
		}
	}
	return folded
}

// words cuts a normalised text into its words: letters and digits, at every
// other sign and where small letters go over to capitals ("AirFlow").
func words(text string) []string {
	var list []string
	start, last := -1, rune(0)
	flush := func(end int) {
		if start >= 0 {
			list = append(list, text[start:end])
		}
		start = -1
	}
	for i, r := range text {
		switch {
		case !unicode.IsLetter(r) && !unicode.IsDigit(r) && !unicode.Is(unicode.Mn, r):
			flush(i)
		case start < 0:
			start = i
		case unicode.IsUpper(r) && unicode.IsLower(last):
			flush(i)
			start = i
		}
		last = r
	}
	flush(len(text))
	return list
}
