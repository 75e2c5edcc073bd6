package catalog

import (
	"strings"
	"testing"
)

// A word that names one field must not name another: reading would hang on the
// order of the fields. Words of several meanings are hints.
func TestProofWordsNameOneField(t *testing.T) {
	owner := map[string]FieldID{}
	for id := range NumFields {
		for _, w := range HeaderWords(id) {
			if w.Strength != Proof {
				continue
			}
			key := strings.ToLower(w.Text)
			if other, ok := owner[key]; ok && other != id {
				t.Errorf("%q names %s and %s", w.Text, Fields[other].Name, Fields[id].Name)
			}
			owner[key] = id
		}
	}
}

// Each field can be named in each of the four languages, but for those whose
// name is a sign in all of them.
func TestEveryFieldHasItsWords(t *testing.T) {
	for id := range NumFields {
		var has [Spanish + 1]bool
		for _, w := range HeaderWords(id) {
			has[w.Language] = true
			if w.Text != strings.TrimSpace(w.Text) || w.Text == "" {
				t.Errorf("%s has the word %q", Fields[id].Name, w.Text)
			}
		}
		for l := English; l <= Spanish; l++ {
			if !has[l] {
				t.Errorf("%s has no word in %s", Fields[id].Name, l)
			}
		}
	}
}

func TestChoiceWordsFitTheChoices(t *testing.T) {
	for id := range NumFields {
		d := &Fields[id]
		if d.Form != Choice {
			continue
		}
		groups := ChoiceWords(id)
		if len(groups) != len(d.Choices) {
			t.Fatalf("%s has %d groups of words for %d choices", d.Name, len(groups), len(d.Choices))
		}
		for i, name := range d.Choices {
			found := false
			for _, w := range groups[i] {
				found = found || strings.EqualFold(w, name)
			}
			if !found {
				t.Errorf("%s: the words for %q do not hold it: %q", d.Name, name, groups[i])
			}
		}
	}
}

func TestUnknownWordsHoldNoDigit(t *testing.T) {
	for _, w := range UnknownWords() {
		if strings.ContainsAny(w, "0123456789") || len(w) > 40 {
			t.Errorf("unknown word %q: reading takes none with a digit, or of more than 40 bytes", w)
		}
	}
}
