package index

import (
	"cmp"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// The rules of the search, told in the plain way: each row by itself, with all
// of its words. Search must find the same.

// wordsOf lists the words of a row but for the part number's key.
func (r *row) wordsOf() map[string]bool {
	held := map[string]bool{}
	add := func(term string) { held[term] = true }
	plain, _ := fold(r.Part)
	pieces := cut(plain)
	addWords(plain, pieces, add)
	for i := 1; i < len(pieces) && i <= maxTails; i++ {
		add(clip(join(pieces[i:])))
	}
	for _, code := range r.Codes {
		plain, _ := fold(code)
		pieces := cut(plain)
		if len(pieces) > 0 {
			add(clip(join(pieces)))
		}
		addWords(plain, pieces, add)
	}
	for _, text := range r.Texts {
		addText(text, add)
	}
	return held
}

// oracle answers questions about one row.
type oracle struct {
	part  string
	words map[string]bool
}

func (o oracle) any(is func(word string) bool) bool {
	for word := range o.words {
		if is(word) {
			return true
		}
	}
	return false
}

func (o oracle) begins(text string) bool {
	return o.any(func(word string) bool { return strings.HasPrefix(word, text) })
}

func (o oracle) partBegins(text string) bool {
	return text != "" && o.part != "" && strings.HasPrefix(o.part, text)
}

// match gives how the row meets q without typing errors; 0 for not at all.
func (o oracle) match(q query) Match {
	every, exact, prefix := true, false, false
	for _, a := range q.words {
		one := false
		for _, s := range a.spellings {
			exact = exact || s.key == o.part
			if (len(s.key) >= minPrefix || len(q.words) == 1) && o.partBegins(s.key) {
				prefix, one = true, true
			}
			one = one || o.words[s.key] || a.last && len(s.key) >= minPrefix && o.begins(s.key) || o.separated(s, a.last)
		}
		every = every && one
	}
	several := len(q.words) > 1
	switch {
	case every && exact, several && q.whole == o.part:
		return Exact
	case every && prefix, several && o.partBegins(q.whole):
		return Prefix
	case every, several && o.begins(q.whole):
		return Words
	}
	return 0
}

func (o oracle) separated(s spelling, last bool) bool {
	for _, r := range s.words {
		paired := len(r.pairs) > 0
		for _, p := range r.pairs {
			paired = paired && o.words[p]
		}
		begun := last && r.tail && len(r.text) >= minPrefix && o.begins(r.text)
		if !paired && !o.words[r.text] && !begun {
			return false
		}
	}
	return true
}

// near is match with typing errors.
func (o oracle) near(q query) Match {
	if len(q.whole) >= minNear && o.part != "" && typos(q.whole, o.part) <= 1 {
		return NearPart
	}
	for i, a := range q.words {
		one := oracle.match(o, query{words: q.words[i : i+1]}) != 0
		if len(q.words) > 1 {
			one = o.wordAlone(a, len(q.words))
		}
		for _, s := range a.spellings {
			if len(s.key) < minNear {
				continue
			}
			one = one || o.part != "" && typos(s.key, o.part) <= 1
			if len(s.words) == 1 && s.words[0].letters {
				one = one || o.any(func(word string) bool { return typos(s.key, word) <= 1 })
			}
		}
		if !one {
			return 0
		}
	}
	return NearWords
}

// wordAlone says whether the row holds one word of several asked for.
func (o oracle) wordAlone(a asked, words int) bool {
	for _, s := range a.spellings {
		if (len(s.key) >= minPrefix || words == 1) && o.partBegins(s.key) ||
			o.words[s.key] || a.last && len(s.key) >= minPrefix && o.begins(s.key) || o.separated(s, a.last) {
			return true
		}
	}
	return false
}

// typos counts the typing errors between two texts: insertions, deletions,
// substitutions, exchanges of neighbours.
func typos(a, b string) int {
	x, y := []rune(a), []rune(b)
	d := make([][]int, len(x)+1)
	for i := range d {
		d[i] = make([]int, len(y)+1)
		for j := range d[i] {
			switch {
			case i == 0 || j == 0:
				d[i][j] = i + j
				continue
			case x[i-1] == y[j-1]:
				d[i][j] = d[i-1][j-1]
				continue
			}
			d[i][j] = 1 + min(d[i-1][j], d[i][j-1], d[i-1][j-1])
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				d[i][j] = min(d[i][j], 1+d[i-2][j-2])
			}
		}
	}
	return d[len(x)][len(y)]
}

// searchByRules searches rows by the rules.
func searchByRules(rows []row, text string) []Hit {
	q, err := parse(text)
	if err != nil || len(q.words) == 0 {
		return nil
	}
	var hits []Hit
	for _, how := range []func(oracle, query) Match{oracle.match, oracle.near} {
		for i, r := range rows {
			if m := how(oracle{key(r.Part), r.wordsOf()}, q); m > 0 {
				hits = append(hits, Hit{i, m})
			}
		}
		if len(hits) > 0 {
			break
		}
	}
	slices.SortFunc(hits, func(a, b Hit) int { return cmp.Or(cmp.Compare(b.Match, a.Match), cmp.Compare(a.Row, b.Row)) })
	return hits
}

// scraps are what parts and texts are drawn from: much comes again, in other
// surroundings.
var scraps = []string{
	"a", "b", "ab", "ax", "fan", "nord", "wind", "12", "1", "25", "60", "6025", "v", "mm", "ü", "lü", "ss", "ß", "é", "风", "风扇",
	"-", "/", ".", " ", " ", ", ", "x", "×", "½", "A", "AB", "Fan", "R2", strings.Repeat("long", 17), strings.Repeat("é", 40),
	"1a2b3c4d5e6f7g8h9i",
}

func anyText(longest int) *rapid.Generator[string] {
	return rapid.Custom(func(t *rapid.T) string {
		return strings.Join(rapid.SliceOfN(rapid.SampledFrom(scraps), 0, longest).Draw(t, "scraps"), "")
	})
}

func anyRow() *rapid.Generator[row] {
	return rapid.Custom(func(t *rapid.T) row {
		return row{
			Part:  anyText(6).Draw(t, "part"),
			Codes: rapid.SliceOfN(anyText(4), 0, 2).Draw(t, "codes"),
			Texts: rapid.SliceOfN(anyText(8), 0, 3).Draw(t, "texts"),
		}
	})
}

// asking draws a question, mostly out of the rows themselves, of at most as many
// characters as a search takes.
func asking(t *rapid.T, rows []row) string {
	text := []rune(anyQuestion(t, rows))
	return string(text[:min(len(text), maxText)])
}

func anyQuestion(t *rapid.T, rows []row) string {
	if rapid.IntRange(0, 5).Draw(t, "free") == 0 {
		return anyText(5).Draw(t, "question")
	}
	r := rapid.SampledFrom(rows).Draw(t, "row")
	snippets := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) string { return snippet(t, r) }), 1, 3).Draw(t, "snippets")
	return strings.Join(snippets, " ")
}

// snippet draws what a person may ask of a row: some pieces of one of its texts
// in a row, with separators or without, perhaps with a typing error.
func snippet(t *rapid.T, r row) string {
	folded, _ := fold(rapid.SampledFrom(append(append([]string{r.Part, r.Part}, r.Codes...), r.Texts...)).Draw(t, "from"))
	pieces := cut(folded)
	if len(pieces) == 0 {
		return ""
	}
	begin := rapid.IntRange(0, len(pieces)-1).Draw(t, "begin")
	end := rapid.IntRange(begin, min(len(pieces)-1, begin+4)).Draw(t, "end")
	text := []rune(whole(folded, pieces[begin:end+1]))
	if rapid.Bool().Draw(t, "joined") {
		text = []rune(join(pieces[begin : end+1]))
	}
	at := rapid.IntRange(0, len(text)-1).Draw(t, "at")
	switch rapid.SampledFrom([]string{"", "", "", "cut", "lost", "other", "exchanged"}).Draw(t, "change") {
	case "cut":
		text = text[:at+1]
	case "lost":
		text = slices.Delete(text, at, at+1)
	case "other":
		text[at] = 'q'
	case "exchanged":
		text[at], text[len(text)-1-at] = text[len(text)-1-at], text[at]
		if at > 0 {
			text[at], text[at-1] = text[at-1], text[at]
		}
	}
	return string(text)
}

func TestSearchKeepsTheRules(t *testing.T) {
	found, near := 0, 0
	rapid.Check(t, func(rt *rapid.T) {
		rows := rapid.SliceOfN(anyRow(), 1, 8).Draw(rt, "rows")
		x := build(t, rows, rapid.IntRange(1, 8).Draw(rt, "chunk"))
		for range 15 {
			text := asking(rt, rows)
			got, want := search(t, x, text), searchByRules(rows, text)
			if !slices.Equal(got, want) {
				rt.Fatalf("Search(%q) = %v, want %v", text, got, want)
			}
			if len(want) > 0 {
				found++
				if want[0].Match <= NearPart {
					near++
				}
			}
		}
	})
	if found < 300 || near < 20 {
		t.Errorf("only %d questions found something, %d of them by typing errors", found, near)
	}
}
