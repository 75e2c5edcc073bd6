package partscsv

import (
	"strings"
	"sync"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// lexicon holds the words and units of catalog and quantity in the form in
// which headers and cells are compared with them. It does not change once made.
type lexicon struct {
	vocabulary *vocabulary
	words      [catalog.NumFields][]tableWord     // that name a field
	alone      [catalog.NumFields]map[string]bool // tokens that are such a word by themselves
	barred     [catalog.NumFields][]phrase        // that take it out of question
	fill       map[string]bool                    // tokens that say nothing
	max        string                             // tokens of these words
	nominal    string
	least      string
	units      *unitTree
	unitsOf    map[quantity.Dimension][]quantity.Unit
	meanings   map[string]meanings // of folded words and phrases in cells
	begins     map[string]bool     // folded words that phrases begin with
	unknown    map[string]bool     // folded texts for "not known"
	choices    [catalog.NumFields]phraseBook
	blowers    phraseBook
	fans       phraseBook
	tachs      phraseBook
	alarms     phraseBook
	shapes     phraseBook                    // square, round
	oneSide    phraseBook                    // names of one side of the frame
	weightings phraseBook                    // A-weighted, unweighted
	measures   phraseBook                    // numbers and units in words
	bandSide   map[string]bool               // tokens that may stand beside the frequency of a band
	beside     [catalog.NumFields]phraseBook // words that a cell of a field may hold beside its numbers
}

// maxPhrase is how many words a phrase of the cell tables has at most.
const maxPhrase = 4

// tables gives the one lexicon, made when it is first asked for.
var tables = sync.OnceValue(newLexicon)

func newLexicon() *lexicon {
	x := &lexicon{
		vocabulary: newVocabulary(),
		units:      newUnitTree(),
		unitsOf:    map[quantity.Dimension][]quantity.Unit{},
		meanings:   map[string]meanings{},
		begins:     map[string]bool{},
		unknown:    map[string]bool{},
		fill:       map[string]bool{},
	}
	for _, u := range quantity.Units() {
		x.unitsOf[u.Dimension] = append(x.unitsOf[u.Dimension], u)
	}
	x.learnHeaders()
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
	square, round := catalog.ShapeWords()
	x.shapes = x.vocabulary.phraseBook(square, round)
	x.oneSide = x.vocabulary.phraseBook(catalog.SideWords())
	x.measures = x.vocabulary.phraseBook(catalog.MeasureWords())
	x.learnBands()
	for id := range catalog.NumFields {
		x.beside[id] = x.vocabulary.phraseBook(besideNumbers(id))
	}
	return x
}

// learnBands takes in what stands in the headers of band levels.
func (x *lexicon) learnBands() {
	weighted, unweighted := catalog.WeightingWords()
	x.weightings = x.vocabulary.phraseBook(weighted, unweighted)
	texts := append(catalog.BandWords(), append(weighted, unweighted...)...)
	for _, id := range [...]catalog.FieldID{catalog.FieldNoise, catalog.FieldNoiseBands} {
		for _, w := range catalog.HeaderWords(id) {
			texts = append(texts, w.Text)
		}
	}
	for _, group := range catalog.ChoiceWords(catalog.FieldNoiseKind) {
		texts = append(texts, group...)
	}
	x.bandSide = map[string]bool{}
	for _, text := range texts {
		for _, t := range x.vocabulary.tokens(normalise(text)) {
			x.bandSide[t] = true
		}
	}
}

// besideNumbers lists the words that a cell of a field may hold beside its
// numbers without meaning anything else.
func besideNumbers(id catalog.FieldID) []string {
	var allowed []string
	for _, w := range catalog.HeaderWords(id) {
		if w.Strength == catalog.Proof {
			allowed = append(allowed, w.Text)
		}
	}
	switch id {
	case catalog.FieldNoise, catalog.FieldNoiseBands:
		for _, group := range catalog.ChoiceWords(catalog.FieldNoiseKind) {
			allowed = append(allowed, group...)
		}
	case catalog.FieldVoltage, catalog.FieldVoltageMin, catalog.FieldVoltageMax:
		allowed = append(allowed, "USB", "EC", "brushless", "bürstenlos", "single phase", "einphasig", "monophasé", "monofásico", "three phase", "dreiphasig")
	case catalog.FieldSpeed:
		allowed = append(allowed, "PWM")
	case catalog.FieldLeads, catalog.FieldTachPerRev:
		allowed = append(allowed, catalog.TachWords()...)
		allowed = append(allowed, "PWM", "U", "wire", "polig", "adrig", "pin", "lead", "ppr", "rev", "revolution", "turn", "Umdrehung", "tour", "vuelta")
	}
	return allowed
}

// tableWord is a header word with its tokens.
type tableWord struct {
	catalog.HeaderWord
	tokens phrase
	rank   int // within the hints of its language
}

// learnHeaders takes in the words of headers.
func (x *lexicon) learnHeaders() {
	v := x.vocabulary
	for id := range catalog.NumFields {
		x.learnField(id)
	}
	for _, w := range catalog.FillWords() {
		for _, t := range v.tokens(normalise(w)) {
			x.fill[t] = true
		}
	}
	x.max, x.nominal, x.least = v.tokens("max")[0], v.tokens("nominal")[0], v.tokens("min")[0]
}

func (x *lexicon) learnField(id catalog.FieldID) {
	v := x.vocabulary
	ranks := map[catalog.Language]int{}
	x.alone[id] = map[string]bool{}
	for _, w := range catalog.HeaderWords(id) {
		t := tableWord{HeaderWord: w}
		if w.Strength == catalog.Hint {
			t.rank = ranks[w.Language]
			ranks[w.Language]++
		}
		if w.Strength != catalog.Sign {
			t.tokens = v.tokens(normalise(w.Text))
			x.words[id] = append(x.words[id], t)
			if len(t.tokens) == 1 {
				x.alone[id][t.tokens[0]] = true
			}
			continue
		}
		sign := foldWord(normalise(w.Text))
		for _, end := range [...]string{"", "max", "nenn", "n", "0"} {
			t.tokens = phrase{stem(sign + end)}
			x.words[id] = append(x.words[id], t)
		}
	}
	for _, w := range catalog.NotHeaderWords(id) {
		x.barred[id] = append(x.barred[id], v.tokens(normalise(w)))
	}
}

// meaning gives what a word or phrase does to the number beside it.
func (x *lexicon) meaning(text string) meanings { return x.meanings[foldPhrase(text)] }

// foldPhrase folds the words of a phrase and parts them by single spaces.
func foldPhrase(text string) string {
	if !strings.ContainsAny(text, " .") {
		return foldWord(text)
	}
	return foldWord(strings.Join(strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == '.' }), " "))
}

// isUnknown says whether a normalised cell is empty or a word for "not known".
func (x *lexicon) isUnknown(text string) bool {
	if text == "" {
		return true
	}
	return len(text) <= longestUnknown && !hasDigit(text) && x.unknown[unknownKey(text)]
}

// longestUnknown is more bytes than any word for "not known" has. None of them
// holds a digit.
const longestUnknown = 40

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

// holds says whether words are part of a phrase that is wholly among tokens.
func (b phraseBook) holds(words, tokens []string) bool {
	for _, phrases := range b {
		for _, p := range phrases {
			if phrase(words).in(p) && p.in(tokens) {
				return true
			}
		}
	}
	return false
}
