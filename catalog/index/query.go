package index

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"
)

// Limits of an asked text.
const (
	maxText  = 400 // characters
	maxWords = 32
)

// TextError says why a text cannot be searched for.
type TextError struct{ Reason string }

// Error gives the reason.
func (e *TextError) Error() string { return "search text: " + e.Reason }

// Hint names the mend.
func (e *TextError) Hint() string { return "ask for a part number or a few words" }

// query is an asked text, cut into words. Of what must all be found the longest
// stands first: it is the rarest, and where it is not found the others need not
// be looked for.
type query struct {
	whole string  // key of the whole text
	words []asked // as blanks separate them
}

// asked is one word of a query in its spellings: one, or two where it holds an
// umlaut.
type asked struct {
	spellings []spelling
	last      bool // of the query
}

type spelling struct {
	key   string // without separators
	words []required
}

// required is a word between separators: it stands in a row as it is, or as
// all of its pairs ("60x60x25" in "60 x 60 x 25 mm").
type required struct {
	text    string
	pairs   []string
	letters bool // no digits
	tail    bool // the last of several words between separators
}

func parse(text string) (query, error) {
	if n := utf8.RuneCountInString(text); n > maxText {
		return query{}, &TextError{fmt.Sprintf("%d characters, at most %d", n, maxText)}
	}
	q := query{whole: key(text)}
	for _, word := range strings.Fields(text) {
		plain, german := fold(word)
		var a asked
		for _, folded := range []string{plain, german} {
			if len(a.spellings) == 1 && german == plain {
				break
			}
			if s, ok := spell(folded); ok {
				a.spellings = append(a.spellings, s)
			}
		}
		if len(a.spellings) > 0 {
			q.words = append(q.words, a)
		}
	}
	if n := len(q.words); n > maxWords {
		return query{}, &TextError{fmt.Sprintf("%d words, at most %d", n, maxWords)}
	}
	if len(q.words) > 0 {
		q.words[len(q.words)-1].last = true
	}
	longestFirst(q.words, func(a asked) string { return a.spellings[0].key })
	return q, nil
}

func longestFirst[T any](list []T, text func(T) string) {
	slices.SortStableFunc(list, func(a, b T) int { return len(text(b)) - len(text(a)) })
}

// spell gives a folded word as it is asked for; not ok where it holds neither
// letter nor digit.
func spell(folded string) (s spelling, ok bool) {
	pieces := cut(folded)
	if len(pieces) == 0 {
		return s, false
	}
	s.key = clip(join(pieces))
	words(pieces, func(word []piece) { s.words = append(s.words, requiredOf(word)) })
	s.words[len(s.words)-1].tail = len(s.words) > 1
	longestFirst(s.words, func(r required) string { return r.text })
	return s, true
}

func requiredOf(word []piece) required {
	r := required{text: clip(join(word)), letters: len(word) == 1 && word[0].class == letter}
	for i := 1; i < len(word); i++ {
		if !pairs(word[i-1], word[i]) { // an ideograph is a word by itself
			return required{text: r.text, pairs: textsOf(word)}
		}
		r.pairs = append(r.pairs, clip(word[i-1].text+word[i].text))
	}
	longestFirst(r.pairs, func(pair string) string { return pair })
	return r
}

func textsOf(pieces []piece) []string {
	texts := make([]string, len(pieces))
	for i, p := range pieces {
		texts[i] = clip(p.text)
	}
	return texts
}
