package partscsv

import (
	"strings"

	"lowsone/catalog"
)

// lexicon holds the words and units of catalog and quantity in the form in
// which headers and cells are compared with them. It does not change once made.
type lexicon struct {
	vocabulary *vocabulary
	units      *unitTree
	meanings   map[string]meanings // of folded words and phrases in cells
	begins     map[string]bool     // folded words that phrases begin with
	unknown    map[string]bool     // folded texts for "not known"
	choices    [catalog.NumFields]phraseBook
	blowers    phraseBook
	fans       phraseBook
	tachs      phraseBook
	alarms     phraseBook
	inStock    phraseBook
}

// maxPhrase is how many words a phrase of the cell tables has at most.
const maxPhrase = 4

func newLexicon() *lexicon {
	x := &lexicon{
		vocabulary: newVocabulary(),
		units:      newUnitTree(),
		meanings:   map[string]meanings{},
		begins:     map[string]bool{},
		unknown:    map[string]bool{},
	}
	for m := catalog.About; m <= catalog.Plain; m++ {
		for _, w := range catalog.CellWords(m) {
			key := foldPhrase(normalise(w))
			x.meanings[key] |= 1 << m
			if first, _, ok := strings.Cut(key, " "); ok {
				x.begins[first] = true
			}
		}
	}
	for _, w := range catalog.UnknownWords() {
		x.unknown[unknownKey(w)] = true
	}
	for id := range catalog.Fields {
		if catalog.Fields[id].Form == catalog.Choice {
			x.choices[id] = x.vocabulary.phraseBook(catalog.ChoiceWords(catalog.FieldID(id))...)
		}
	}
	x.blowers = x.vocabulary.phraseBook(catalog.BlowerWords())
	x.fans = x.vocabulary.phraseBook(catalog.FanWords())
	x.tachs = x.vocabulary.phraseBook(catalog.TachWords())
	x.alarms = x.vocabulary.phraseBook(catalog.AlarmWords())
	some, none := catalog.InStockWords()
	x.inStock = x.vocabulary.phraseBook(none, some)
	return x
}

// meaning gives what a word or phrase does to the number beside it.
func (x *lexicon) meaning(text string) meanings { return x.meanings[foldPhrase(text)] }

// foldPhrase folds the words of a phrase and parts them by single spaces.
func foldPhrase(text string) string {
	if strings.IndexAny(text, " .") < 0 {
		return foldWord(text)
	}
	return foldWord(strings.Join(strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == '.' }), " "))
}

// isUnknown says whether a normalised cell is empty or a word for "not known".
func (x *lexicon) isUnknown(text string) bool {
	if text == "" {
		return true
	}
	return len(text) <= 40 && x.unknown[unknownKey(text)]
}

// unknownKey folds case and blanks; accents may be missing.
func unknownKey(text string) string {
	key := strings.Join(strings.Fields(foldWord(text)), "")
	if key != "" && strings.Trim(key, "-–—") == "" {
		return "-"
	}
	return strings.Trim(key, "()[]")
}

// phraseBook finds phrases of one or several words among tokens.
type phraseBook [][]phrase

// phrase is the tokens of one text.
type phrase []string

func (v *vocabulary) phraseBook(groups ...[]string) phraseBook {
	book := make(phraseBook, len(groups))
	for i, texts := range groups {
		for _, t := range texts {
			p := v.tokens(normalise(t))
			if len(p) == 0 {
				p = phrase{normalise(t)} // a sign
			}
			book[i] = append(book[i], p)
		}
	}
	return book
}

// in says whether all words of the phrase are among tokens.
func (p phrase) in(tokens []string) bool {
	for _, w := range p {
		if !contains(tokens, w) {
			return false
		}
	}
	return true
}

func contains(tokens []string, word string) bool {
	for _, t := range tokens {
		if t == word {
			return true
		}
	}
	return false
}

// find gives the group of the longest phrase among tokens, and its words; -1
// where there is none, and ambiguous where two groups have one of that length.
func (b phraseBook) find(tokens []string) (group int, found phrase, ambiguous bool) {
	group = -1
	for i, phrases := range b {
		for _, p := range phrases {
			switch {
			case len(p) < len(found) || !p.in(tokens):
			case len(p) > len(found):
				group, found, ambiguous = i, p, false
			case i != group:
				ambiguous = true
			}
		}
	}
	return group, found, ambiguous
}

// has says whether any phrase is among tokens.
func (b phraseBook) has(tokens []string) bool {
	group, _, _ := b.find(tokens)
	return group >= 0
}
