package index

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// foldings are letters and signs that decomposition leaves as they are, with
// the plain and the German way to spell them.
var foldings = map[rune][2]string{
	'ß': {"ss", "ss"}, 'æ': {"ae", "ae"}, 'œ': {"oe", "oe"}, 'ø': {"o", "oe"},
	'ł': {"l", "l"}, 'đ': {"d", "d"}, 'ð': {"d", "d"}, 'þ': {"th", "th"},
	'ı': {"i", "i"}, '×': {"x", "x"},
}

const diaeresis = '\u0308'

// fold gives text in lower case without accents, and the same with umlauts as
// German writes them where it has none (ü as ue). The two are equal where
// there is no umlaut.
func fold(text string) (plain, german string) {
	if isASCII(text) {
		lower := strings.ToLower(text)
		return lower, lower
	}
	var p, g strings.Builder
	var before rune
	for _, r := range norm.NFKD.String(strings.ToLower(text)) {
		switch both, special := foldings[r]; {
		case special:
			p.WriteString(both[0])
			g.WriteString(both[1])
		case r == diaeresis && (before == 'a' || before == 'o' || before == 'u'):
			g.WriteByte('e')
		case unicode.Is(unicode.Mn, r):
		default:
			p.WriteRune(r)
			g.WriteRune(r)
		}
		before = r
	}
	return p.String(), g.String()
}

func isASCII[T string | []byte](s T) bool {
	for i := range len(s) {
		if s[i] >= utf8.RuneSelf {
			return false
		}
	}
	return true
}

// class is what a rune is to the cutting of words.
type class uint8

const (
	separator class = iota
	letter
	digit
	ideograph // a word by itself: such scripts write no spaces
)

func classOf(r rune) class {
	switch {
	case r < utf8.RuneSelf:
		return asciiClass(byte(r))
	case r == utf8.RuneError:
		return separator
	case unicode.In(r, unicode.Han, unicode.Hiragana, unicode.Katakana):
		return ideograph
	case unicode.IsLetter(r):
		return letter
	case unicode.IsDigit(r):
		return digit
	}
	return separator
}

func asciiClass(b byte) class {
	switch {
	case b >= 'a' && b <= 'z', b >= 'A' && b <= 'Z':
		return letter
	case b >= '0' && b <= '9':
		return digit
	}
	return separator
}

// piece is a run of letters or of digits in a folded text.
type piece struct {
	text   string
	begin  int // in the folded text
	class  class
	joined bool // stands against the piece before, without a separator
}

// cut gives the pieces of a folded text.
func cut(folded string) []piece {
	pieces := make([]piece, 0, 8+len(folded)/8)
	begin, running := 0, separator
	touching := false
	end := func(i int) {
		if running != separator {
			pieces = append(pieces, piece{folded[begin:i], begin, running, touching})
		}
	}
	for i, r := range folded {
		c := classOf(r)
		if c == running && c != ideograph {
			continue
		}
		end(i)
		touching = running != separator && c != separator
		begin, running = i, c
	}
	end(len(folded))
	return pieces
}

// words passes the pieces grouped into words: a word ends at a separator.
func words(pieces []piece, pass func(word []piece)) {
	for begin := 0; begin < len(pieces); {
		end := begin + 1
		for end < len(pieces) && pieces[end].joined {
			end++
		}
		pass(pieces[begin:end])
		begin = end
	}
}

// whole gives the text of a word of a folded text.
func whole(folded string, word []piece) string {
	last := word[len(word)-1]
	return folded[word[0].begin : last.begin+len(last.text)]
}

// join gives the text of pieces without what separates them.
func join(pieces []piece) string {
	if len(pieces) == 1 {
		return pieces[0].text
	}
	var b strings.Builder
	for _, p := range pieces {
		b.WriteString(p.text)
	}
	return b.String()
}
