package view

import (
	"strings"

	"github.com/jedib0t/go-pretty/v6/text"
)

// wrapSoft breaks a text at its blanks, and words that are too long within, into
// lines no wider than width. The library's way of the same name lets a character two
// columns wide stand across the end of a line: such words are broken before it.
func wrapSoft(said string, width int) string {
	words := strings.Fields(said)
	wide := false
	for i, word := range words {
		if text.StringWidth(word) > width && !strings.ContainsRune(word, text.EscapeStartRune) {
			words[i] = pieces(word, width)
			wide = wide || words[i] != word
		}
	}
	if wide {
		said = strings.Join(words, " ")
	}
	return text.WrapSoft(said, width)
}

// pieces puts blanks into a word with wide characters so that no piece of it is
// wider than width, unless a character alone is.
func pieces(word string, width int) string {
	var b strings.Builder
	n, wide := 0, false
	for _, r := range word {
		w := text.RuneWidth(r)
		wide = wide || w > 1
		if n > 0 && n+w > width {
			b.WriteByte(' ')
			n = 0
		}
		b.WriteRune(r)
		n += w
	}
	if !wide {
		return word // the library breaks it well
	}
	return b.String()
}
