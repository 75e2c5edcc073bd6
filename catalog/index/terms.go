package index

import "unicode/utf8"

// Limits of what one row brings into the index. What lies beyond stays in the
// record but is not found by words.
const (
	maxTerm  = 64   // bytes of one word; a longer one is found by its beginning
	maxTerms = 2000 // different words of one text
	maxTails = 12   // tails of one part number
	maxUnit  = 4    // bytes of letters or digits that are joined across a separator: mm, rpm, IP
)

// addText passes each word of a text to add. Words may come twice.
func addText(text string, add func(string)) {
	plain, german := fold(text)
	pieces := cut(plain)
	addWords(plain, pieces, add)
	addPairs(plain, pieces, add)
	if german != plain {
		addWords(german, cut(german), add)
	}
}

// addWords adds each word and, where it is made of several, its pieces.
func addWords(folded string, pieces []piece, add func(string)) {
	words(pieces, func(word []piece) {
		add(clip(whole(folded, word)))
		if len(word) == 1 {
			return
		}
		for _, p := range word {
			add(clip(p.text))
		}
	})
}

// addPairs adds number and letters that follow each other as one word, also
// across a separator where the letters may be a unit: "60 mm" is found by
// 60mm, "IP 55" by ip55.
func addPairs(folded string, pieces []piece, add func(string)) {
	for i := 1; i < len(pieces); i++ {
		a, b := pieces[i-1], pieces[i]
		switch {
		case !pairs(a, b):
		case b.joined:
			add(clip(whole(folded, pieces[i-1:i+1])))
		case len(a.text) <= maxUnit && len(b.text) <= maxUnit:
			add(clip(a.text + b.text))
		}
	}
}

// pairs says whether one is a number and the other letters.
func pairs(a, b piece) bool {
	return a.class != b.class && a.class != ideograph && b.class != ideograph
}

// key gives the part number's key: its letters and digits.
func key(part string) string {
	plain, _ := fold(part)
	return clip(join(cut(plain)))
}

// clip cuts a word to the length that is indexed, at a rune boundary.
func clip(word string) string {
	if len(word) <= maxTerm {
		return word
	}
	n := maxTerm
	for !utf8.RuneStart(word[n]) {
		n--
	}
	return word[:n]
}
