package index

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// shelf is a small invented catalogue. Its order is its row numbers.
var shelf = []row{
	{Part: "AB-6025/12", Codes: []string{"77-1040"}, Texts: []string{"Nordwind", "axial 60x60x25 60mm 12V DC", "Ball bearing, low noise"}},
	{Part: "AB-6025/24", Texts: []string{"Nordwind", "axial 60x60x25 60mm 24V DC", "Ball bearing"}},
	{Part: "AB60-2512S", Texts: []string{"Halvorsen", "axial 12V", "sleeve bearing, 60 × 60 × 25 mm, 3 pin"}},
	{Part: "LÜ 92 B", Texts: []string{"Brümmer", "Lüfter mit Gleitlager, geräuscharm, Schutzart IP 55"}},
	{Part: "QX1225", Texts: []string{"Cécile & fils", "ventilateur centrifuge; câble 300 mm"}},
	{Part: "bearing-7", Texts: []string{"Nordwind", "spare plate"}},
	{Part: "风扇9", Texts: []string{"散热风扇 12V"}},
}

func search(t testing.TB, x *Index, text string) []Hit {
	t.Helper()
	hits, err := x.Search(context.Background(), text)
	if err != nil {
		t.Fatalf("Search(%q): %v", text, err)
	}
	return hits
}

func TestSearch(t *testing.T) {
	tests := []struct {
		name, text string
		want       []Hit
	}{
		{"exact", "AB-6025/12", []Hit{{0, Exact}, {2, Prefix}}},
		{"exact, no separators", "ab602512", []Hit{{0, Exact}, {2, Prefix}}},
		{"exact, with blanks", "AB 6025 12", []Hit{{0, Exact}, {2, Prefix}}},
		{"exact, other separators", "ab.6025_12", []Hit{{0, Exact}, {2, Prefix}}},
		{"beginning", "ab6025", []Hit{{0, Prefix}, {1, Prefix}, {2, Prefix}}},
		{"beginning with blank", "AB 6025/2", []Hit{{1, Prefix}}},
		{"tail", "6025/12", []Hit{{0, Words}, {2, Words}}},
		{"beginning of a tail", "6025/1", []Hit{{0, Words}, {2, Words}}},
		{"piece", "6025", []Hit{{0, Words}, {1, Words}, {2, Words}}},
		{"order code", "771040", []Hit{{0, Words}}},
		{"order code as printed", "77-1040", []Hit{{0, Words}}},
		{"typing error", "AB-6035/12", []Hit{{0, NearPart}}},
		{"missing character", "AB-602/24", []Hit{{1, NearPart}}},
		{"characters exchanged", "AB-6052/24", []Hit{{1, NearPart}}},
		{"first character wrong", "XB-6025/12", []Hit{{0, NearPart}}},
		{"two errors", "AB-6035/13", nil},
		{"maker", "nordwind", []Hit{{0, Words}, {1, Words}, {5, Words}}},
		{"all words", "ball nordwind 24v", []Hit{{1, Words}}},
		{"no row has all", "ball halvorsen", nil},
		{"last word begins", "nordwind bear", []Hit{{5, Prefix}, {0, Words}, {1, Words}}},
		{"only the last word may begin another", "bal nordwind", nil},
		{"part before words", "bearing", []Hit{{5, Prefix}, {0, Words}, {1, Words}, {2, Words}}},
		{"word with an error", "bearnig noise", []Hit{{0, NearWords}}},
		{"maker and part", "Nordwind AB-6025/12", []Hit{{0, Exact}}},
		{"frame", "60x60x25", []Hit{{0, Words}, {1, Words}, {2, Words}}},
		{"frame with signs", "60×60×25", []Hit{{0, Words}, {1, Words}, {2, Words}}},
		{"another frame", "25x60x60", nil},
		{"number and unit apart", "3pin", []Hit{{2, Words}}},
		{"number and unit together", "ip55", []Hit{{3, Words}}},
		{"umlaut", "Lüfter", []Hit{{3, Words}}},
		{"umlaut dropped", "lufter", []Hit{{3, Words}}},
		{"umlaut spelled out", "LUEFTER", []Hit{{3, Words}}},
		{"umlaut in the part", "lü92", []Hit{{3, Prefix}}},
		{"accents", "cecile câble", []Hit{{4, Words}}},
		{"script without blanks", "风扇", []Hit{{6, Prefix}}},
		{"part of such a run", "散热 12v", []Hit{{6, Words}}},
		{"signs are no syntax", `+nordwind -ball *:* "bearing"~2 /x?/`, nil},
		{"signs separate", "ball+bearing (noise)", []Hit{{0, Words}}},
		{"stray signs are ignored", "- ball & noise !", []Hit{{0, Words}}},
		{"nothing", "", nil},
		{"only signs", "-- / **", nil},
		{"broken text", "ball\xff\x00noise", []Hit{{0, Words}}},
	}
	for _, perChunk := range []int{1, 3, 100} {
		x := build(t, shelf, perChunk)
		for _, tt := range tests {
			if got := search(t, x, tt.text); !cmp.Equal(got, tt.want) {
				t.Errorf("%s: Search(%q) = %v, want %v", tt.name, tt.text, got, tt.want)
			}
		}
	}
}

func TestUmlautSpelledOutInTheRow(t *testing.T) {
	x := build(t, []row{{Part: "A1", Texts: []string{"Radialluefter, Strasse"}}}, 1)
	for _, text := range []string{"Radiallüfter", "radialluefter", "Straße"} {
		if got := search(t, x, text); len(got) != 1 {
			t.Errorf("Search(%q) = %v, want the one row", text, got)
		}
	}
}

func TestTypingErrorInATail(t *testing.T) {
	x := build(t, []row{{Part: "QX-nord-wind"}, {Part: "QX-nord/west", Codes: []string{"nor dwinp"}}}, 1)
	for text, want := range map[string][]Hit{
		"nordwint": {{0, NearWords}, {1, NearWords}}, // "nordwind" from behind QX, and the code
		"nordwesd": {{1, NearWords}},
		"qxnord":   {{0, Prefix}, {1, Prefix}},
		"ordwind":  {{0, NearWords}},
	} {
		if got := search(t, x, text); !cmp.Equal(got, want) {
			t.Errorf("Search(%q) = %v, want %v", text, got, want)
		}
	}
}

func TestTextLimits(t *testing.T) {
	x := build(t, shelf, 1)
	for _, text := range []string{strings.Repeat("ü", maxText+1), strings.Repeat("a ", maxWords+1)} {
		var te *TextError
		if _, err := x.Search(context.Background(), text); !errors.As(err, &te) {
			t.Errorf("Search(%d bytes) = %v, want a TextError", len(text), err)
		}
	}
	if got := search(t, x, strings.Repeat("x", maxText)); got != nil {
		t.Errorf("a long word finds %v", got)
	}
}

func TestRowLimits(t *testing.T) {
	long := strings.Repeat("ß", maxTerm) // folds to twice the runes
	many := strings.Repeat("alpha-9 ", 5) + strings.Repeat("word ", 3*maxTerms)
	x := build(t, []row{{Part: long, Texts: []string{many, strings.Repeat("é", 3*maxTerm)}}, {Part: "B2"}}, 1)
	for _, text := range []string{long, "word", "alpha", strings.Repeat("e", maxTerm+5)} {
		if got := search(t, x, text); len(got) != 1 || got[0].Row != 0 {
			t.Errorf("Search(%.20q) = %v, want row 0", text, got)
		}
	}
}

func TestWordsAreClipped(t *testing.T) {
	for _, text := range []string{strings.Repeat("é", 500), strings.Repeat("风", 50) + strings.Repeat("7", 500)} {
		for term := range newDocument(1, text).fields[1].terms {
			if len(term) > maxTerm {
				t.Errorf("%.20q gives a word of %d bytes", text, len(term))
			}
		}
	}
}

// More different texts than one shard takes, and than are remembered.
func TestManyTexts(t *testing.T) {
	var rows []row
	filler := strings.Repeat("filler ", 80)
	for i := range shardTexts + 40*batchTexts {
		r := shelf[i%len(shelf)]
		r.Texts = append([]string{fmt.Sprintf("n%d %s", i, filler)}, r.Texts...)
		rows = append(rows, r)
	}
	x := build(t, rows, 1000)
	if len(x.shards) < 2 && runtime.GOMAXPROCS(0) > 1 {
		t.Errorf("%d texts stand in %d shard", x.texts, len(x.shards))
	}
	if x.texts < len(rows)+3 || x.texts > 2*len(rows) {
		t.Errorf("%d rows with a text of their own have %d texts", len(rows), x.texts)
	}
	last := len(rows) - 1
	for text, want := range map[string]func(i int) Match{
		"n1771 filler":           func(i int) Match { return map[bool]Match{true: Words}[i == 1771] },
		fmt.Sprint("n", last):    func(i int) Match { return map[bool]Match{true: Words}[i == last] },
		"halvorsen":              func(i int) Match { return map[bool]Match{true: Words}[i%len(shelf) == 2] },
		"AB-6025/24 filler ball": func(i int) Match { return map[bool]Match{true: Exact}[i%len(shelf) == 1] },
	} {
		var hits []Hit
		for i := range rows {
			if m := want(i); m > 0 {
				hits = append(hits, Hit{i, m})
			}
		}
		if got := search(t, x, text); !slices.Equal(got, hits) {
			t.Errorf("Search(%q) gives %d hits, want %d", text, len(got), len(hits))
		}
	}
}

func TestNoRows(t *testing.T) {
	x := build(t, nil, 1)
	if got := search(t, x, "anything"); got != nil {
		t.Errorf("an empty index finds %v", got)
	}
}

func TestDamage(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "words")
	b, err := NewBuilder(dir)
	if err != nil {
		t.Fatal(err)
	}
	rows := shelve(b, shelf, 3)
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	texts := b.Texts()
	if _, err := Open(dir, texts+1, rows); !errors.Is(err, ErrDamaged) {
		t.Errorf("Open with a text too few = %v, want ErrDamaged", err)
	}
	bolt := filepath.Join(dir, "00", "root.bolt")
	if err := os.WriteFile(bolt, []byte("no index"), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(dir, texts, rows); !errors.Is(err, ErrDamaged) {
		t.Errorf("Open over a broken file = %v, want ErrDamaged", err)
	}
	os.Remove(bolt)
	if _, err := Open(dir, texts, rows); !errors.Is(err, ErrDamaged) {
		t.Errorf("Open without a file = %v, want ErrDamaged", err)
	}
	if _, err := os.Stat(bolt); err == nil {
		t.Error("Open made the file that was missing")
	}
	if _, err := Open(filepath.Join(dir, "nowhere"), 0, rows); !errors.Is(err, ErrDamaged) {
		t.Errorf("Open of no folder = %v, want ErrDamaged", err)
	}
}

// What the catalogue keeps for the index may be damaged too.
func TestDamagedRows(t *testing.T) {
	x := build(t, shelf, 100)
	whole := x.rows.(shelves)[0]
	for name, change := range map[string]func(c *Chunk){
		"keys cut short":     func(c *Chunk) { c.Keys = c.Keys[:len(c.Keys)-1] },
		"keys of other rows": func(c *Chunk) { c.Keys = new(KeyWriter).Take() },
		"codes cut short":    func(c *Chunk) { c.Slots[1].Codes = c.Slots[1].Codes[1:] },
		"code too high":      func(c *Chunk) { c.Slots[1].Codes[2] = 99 },
		"width":              func(c *Chunk) { c.Slots[1].Width = 7 },
		"texts cut short":    func(c *Chunk) { c.Slots[0].Texts = c.Slots[0].Texts[1:] },
	} {
		c := whole
		c.Slots = slices.Clone(c.Slots)
		c.Slots[1].Codes = slices.Clone(c.Slots[1].Codes)
		change(&c)
		x.rows = shelves{c}
		if _, err := x.Search(context.Background(), "axial nordwind"); !errors.Is(err, ErrDamaged) {
			t.Errorf("%s: Search gives %v, want ErrDamaged", name, err)
		}
	}
}

// FuzzKeys: no bytes make the reader of keys panic.
func FuzzKeys(f *testing.F) {
	var w KeyWriter
	for _, r := range shelf {
		w.Add(r.Part, r.Codes...)
	}
	f.Add(w.Take(), "6025")
	f.Add([]byte{}, "a")
	f.Fuzz(func(t *testing.T, b []byte, text string) {
		k, err := readKeys(b)
		if err != nil || text == "" {
			return
		}
		k.find(text)
		k.nearPart(text)
		k.nearWord(text)
	})
}

func TestAbort(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "words")
	b, err := NewBuilder(dir)
	if err != nil {
		t.Fatal(err)
	}
	for i := range 2 * batchTexts {
		b.Text(fmt.Append(nil, "text ", i))
	}
	b.Abort()
	if _, err := Open(dir, 2*batchTexts, shelves{}); !errors.Is(err, ErrDamaged) {
		t.Errorf("an aborted index opens: %v", err)
	}
}

func TestSearchStops(t *testing.T) {
	x := build(t, shelf, 1)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := x.Search(ctx, "nordwind"); !errors.Is(err, context.Canceled) {
		t.Errorf("Search with a cancelled context = %v", err)
	}
}

func FuzzSearch(f *testing.F) {
	for _, text := range []string{"AB-6025/12", "60×60×25", "Lüfter ß", "a b c", "风扇 12V", "\xff~*?\"", "1½\"", "\u0308ü", strings.Repeat("a1", 40)} {
		f.Add(text)
	}
	x := build(f, shelf, 1)
	f.Fuzz(func(t *testing.T, text string) {
		hits, err := x.Search(context.Background(), text)
		var te *TextError
		if err != nil && !errors.As(err, &te) {
			t.Fatalf("Search(%q): %v", text, err)
		}
		seen := map[int]bool{}
		for _, h := range hits {
			if h.Row < 0 || h.Row >= len(shelf) || seen[h.Row] {
				t.Fatalf("Search(%q) = %v: a row twice or out of range", text, hits)
			}
			seen[h.Row] = true
		}
	})
}

// FuzzOwnWords: a row is found by its own part number and by each of its words.
func FuzzOwnWords(f *testing.F) {
	f.Add("AB-6025/12", "Lüfter, 60 × 60 mm")
	f.Add("9散热", "ŁØDÝ ½ x1y2z3")
	f.Fuzz(func(t *testing.T, part, text string) {
		r := row{Part: part, Texts: []string{text}}
		held := r.wordsOf()
		q, err := parse(text)
		if err != nil {
			return
		}
		for _, a := range q.words {
			for _, s := range a.spellings {
				for _, w := range s.words {
					if !held[w.text] {
						t.Errorf("text %q holds the word %q, indexed are %v", text, w.text, held)
					}
				}
			}
		}
	})
}
