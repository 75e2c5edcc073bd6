package catalog

import "strings"

// Language is the language of a trade word.
type Language uint8

// The languages whose trade words are known.
const (
	AnyLanguage Language = iota // signs and words that all of them use
	English
	German
	French
	Spanish
)

// String gives the language's two letters (ISO 639-1); empty for any.
func (l Language) String() string { return [...]string{"", "en", "de", "fr", "es"}[l] }

// Strength says how far a header word proves what a column holds.
type Strength uint8

// The strengths.
const (
	Sign  Strength = iota // a letter or two that many quantities share
	Hint                  // a word of several meanings: unit or cells decide
	Proof                 // names the field
)

// HeaderWord is a word or phrase that names a field in the header of a column.
// Capitals, accents and the order of words do not count.
type HeaderWord struct {
	Text     string
	Language Language
	Strength Strength
}

// headerWords lists the words of one field: texts are separated by commas. The
// hints of part stand in the order in which they are preferred.
type headerWords struct {
	proof [Spanish + 1]string
	hint  [Spanish + 1]string
	sign  string
	not   string // words of which none may stand in the header, any language
}

// HeaderWords lists the words that name the field in a column header, hints in
// the order they are preferred.
func HeaderWords(id FieldID) []HeaderWord {
	var list []HeaderWord
	add := func(texts string, l Language, s Strength) {
		for _, t := range splitWords(texts) {
			list = append(list, HeaderWord{t, l, s})
		}
	}
	row := &headerTable[id]
	for l, texts := range row.proof {
		add(texts, Language(l), Proof)
	}
	for l, texts := range row.hint {
		add(texts, Language(l), Hint)
	}
	add(row.sign, AnyLanguage, Sign)
	return list
}

// NotHeaderWords lists the words that take a column out of question for the
// field: "speed control" is no speed.
func NotHeaderWords(id FieldID) []string { return splitWords(headerTable[id].not) }

// SameWords lists groups of words that mean the same in a header; the first of
// each group stands for all.
func SameWords() [][]string { return splitGroups(sameWords) }

// CompoundWords lists words that stand in the tables only as parts of others:
// with them "Bestell-Nr." is seen to be the Bestellnummer.
func CompoundWords() []string { return splitWords(compoundWords) }

// FillWords lists words that say nothing about what a column holds.
func FillWords() []string { return splitWords(fillWords) }

// ChoiceWords lists, for each choice of a field, the words that stand for it in
// cells and headers: the first list for Choices[0]. The field must be a Choice.
func ChoiceWords(id FieldID) [][]string {
	groups := splitGroups(choiceTable[id])
	for len(groups) < len(Fields[id].Choices) {
		groups = append(groups, nil)
	}
	return groups
}

// CellMeaning is what a word does to the number beside it in a cell.
type CellMeaning uint8

// The meanings.
const (
	About CellMeaning = iota // the number is rounded
	Most                     // it is the most
	Least                    // it is the least
	To                       // it parts the ends of a range, between two numbers
	And                      // it parts the ends of a range that a From opened
	From                     // it opens a range
	At                       // what follows is the condition the value holds for
	Plain                    // it changes nothing
	numMeanings
)

// CellWords lists the words of a meaning.
func CellWords(m CellMeaning) []string { return splitWords(cellTable[m]) }

// UnknownWords lists what people write where they do not know a value.
func UnknownWords() []string { return splitWords(unknownWords) }

// MeasureWords lists numbers and units in words that no number is read in: what
// stands beside them is not a plain value.
func MeasureWords() []string { return splitWords(measureWords) }

func splitWords(texts string) []string {
	if texts == "" {
		return nil
	}
	return strings.Split(texts, ", ")
}

func splitGroups(texts string) [][]string {
	if texts == "" {
		return nil
	}
	var groups [][]string
	for g := range strings.SplitSeq(texts, "; ") {
		groups = append(groups, splitWords(g))
	}
	return groups
}
