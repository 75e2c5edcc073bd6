package partscsv

import (
	"regexp"
	"strings"
	"unicode"

	"lowsone/catalog"
)

// vocabulary knows the words of the trade by their stems and takes compounds
// apart: "Schalldruckpegel", "Schalldruck-Pegel" and "Schall-Druck-Pegel" are
// the same three words to it.
type vocabulary struct {
	known map[string]bool   // stems of all words
	same  map[string]string // stem to the stem that stands for it
	parts map[string][]string
}

// longestCompound is more bytes than any word has that is made of others.
const longestCompound = 100

// minPart is the fewest letters of a part of a compound.
const minPart = 3

// newVocabulary takes in all words of headers and cells.
func newVocabulary() *vocabulary {
	v := &vocabulary{known: map[string]bool{}, same: map[string]string{}, parts: map[string][]string{}}
	for id := range catalog.NumFields {
		for _, w := range catalog.HeaderWords(id) {
			if w.Strength != catalog.Sign {
				v.learn(w.Text)
			}
		}
		v.learn(catalog.NotHeaderWords(id)...)
		if catalog.Fields[id].Form == catalog.Choice {
			for _, group := range catalog.ChoiceWords(id) {
				v.learn(group...)
			}
		}
	}
	v.learn(catalog.FillWords()...)
	v.learn(catalog.CompoundWords()...)
	v.learn(catalog.BlowerWords()...)
	v.learn(catalog.FanWords()...)
	v.learn(catalog.TachWords()...)
	v.learn(catalog.AlarmWords()...)
	v.learn(catalog.BandWords()...)
	weighted, unweighted := catalog.WeightingWords()
	v.learn(append(weighted, unweighted...)...)
	v.learnSame()
	v.takeApart()
	return v
}

func (v *vocabulary) learn(texts ...string) {
	for _, t := range texts {
		for _, w := range words(normalise(t)) {
			v.known[stem(foldWord(w))] = true
		}
	}
}

func (v *vocabulary) learnSame() {
	for _, group := range catalog.SameWords() {
		v.learn(group...)
		first := stem(foldWord(group[0]))
		for _, w := range group {
			v.same[stem(foldWord(w))] = first
		}
	}
}

// takeApart finds the parts of every known word that is a compound of others.
func (v *vocabulary) takeApart() {
	whole := make([]string, 0, len(v.known))
	for w := range v.known {
		whole = append(whole, w)
	}
	for _, w := range whole {
		if parts := v.compound(w, w); len(parts) > 1 {
			v.parts[w] = parts
		}
	}
}

// tokens gives the words of a text as the tables are compared by: stems, with
// compounds taken apart and words of one meaning made the same.
func (v *vocabulary) tokens(text string) []string {
	var list []string
	for _, w := range words(text) {
		list = v.add(list, stem(foldWord(w)))
	}
	return list
}

func (v *vocabulary) add(list []string, s string) []string {
	if same, ok := v.same[s]; ok {
		return append(list, same)
	}
	if rest, ok := strings.CutSuffix(s, "nr"); ok && len(rest) >= minPart && !v.known[s] {
		return v.add(v.add(list, stem(rest)), "nr") // "Bestellnr"
	}
	parts := v.parts[s]
	if parts == nil && !v.known[s] {
		parts = v.compound(s, "")
	}
	if len(parts) < 2 {
		return append(list, s)
	}
	for _, p := range parts {
		list = v.add(list, p)
	}
	return list
}

// dotted finds letters with points between them: "P.V.P.".
var dotted = regexp.MustCompile(`(^|[^\p{L}])(\p{L}(?:\.\p{L})+\b\.?)`)

// initials makes one word of initials with points, where it is a known one:
// "P.V.P." is the PVP.
func (v *vocabulary) initials(text string) string {
	if !strings.Contains(text, ".") {
		return text
	}
	return dotted.ReplaceAllStringFunc(text, func(found string) string {
		word := strings.ReplaceAll(found, ".", "")
		if v.known[stem(foldWord(strings.TrimLeftFunc(word, func(r rune) bool { return !unicode.IsLetter(r) })))] {
			return word + " "
		}
		return found
	})
}

// linking are the letters between the parts of German compounds, none first.
var linking = [...]string{"", "s", "n", "en", "es", "er", "e"}

// compound takes a stem apart into known words other than except; none where
// it is not made of them wholly. Longer first parts are tried first.
func (v *vocabulary) compound(s, except string) []string {
	if len(s) < 2*minPart || len(s) > longestCompound || strings.ContainsAny(s, "0123456789") {
		return nil
	}
	for n := len(s); n >= minPart; n-- {
		part := stem(s[:n])
		if part == except || !v.known[part] && !v.known[s[:n]] {
			continue
		}
		if !v.known[part] {
			part = s[:n]
		}
		if n == len(s) {
			return []string{part}
		}
		for _, link := range linking {
			rest, ok := strings.CutPrefix(s[n:], link)
			if !ok || len(rest) < minPart {
				continue
			}
			if parts := v.compound1(rest, except); parts != nil {
				return append([]string{part}, parts...)
			}
		}
	}
	return nil
}

// compound1 is compound for the rest of a word, which may be one short part.
func (v *vocabulary) compound1(rest, except string) []string {
	if s := stem(rest); s != except && v.known[s] {
		return []string{s}
	}
	return v.compound(rest, except)
}
