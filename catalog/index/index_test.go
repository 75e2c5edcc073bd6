package index

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// shelf is a small invented catalogue. Its order is its row numbers.
var shelf = []Row{
	{Part: "AB-6025/12", Codes: []string{"77-1040"}, Texts: []string{"Nordwind", "axial 60x60x25 60mm 12V DC", "Ball bearing, low noise"}},
	{Part: "AB-6025/24", Texts: []string{"Nordwind", "axial 60x60x25 60mm 24V DC", "Ball bearing"}},
	{Part: "AB60-2512S", Texts: []string{"Halvorsen", "axial 12V", "sleeve bearing, 60 × 60 × 25 mm, 3 pin"}},
	{Part: "LÜ 92 B", Texts: []string{"Brümmer", "Lüfter mit Gleitlager, geräuscharm, Schutzart IP 55"}},
	{Part: "QX1225", Texts: []string{"Cécile & fils", "ventilateur centrifuge; câble 300 mm"}},
	{Part: "bearing-7", Texts: []string{"Nordwind", "spare plate"}},
	{Part: "风扇9", Texts: []string{"散热风扇 12V"}},
}

func build(t testing.TB, rows []Row, shards int) *Index {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "words")
	b, err := NewBuilder(dir, shards)
	if err != nil {
		t.Fatal(err)
	}
	for i, r := range rows {
		b.Add(i, r)
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	x, err := Open(dir, len(rows))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { x.Close() })
	return x
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
	for _, shards := range []int{1, 3} {
		x := build(t, shelf, shards)
		for _, tt := range tests {
			if got := search(t, x, tt.text); !cmp.Equal(got, tt.want) {
				t.Errorf("%s: Search(%q) = %v, want %v", tt.name, tt.text, got, tt.want)
			}
		}
	}
}

func TestUmlautSpelledOutInTheRow(t *testing.T) {
	x := build(t, []Row{{Part: "A1", Texts: []string{"Radialluefter, Strasse"}}}, 1)
	for _, text := range []string{"Radiallüfter", "radialluefter", "Straße"} {
		if got := search(t, x, text); len(got) != 1 {
			t.Errorf("Search(%q) = %v, want the one row", text, got)
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
	x := build(t, []Row{{Part: long, Texts: []string{many, strings.Repeat("é", 3*maxTerm)}}, {Part: "B2"}}, 1)
	for _, text := range []string{long, "word", "alpha", strings.Repeat("e", maxTerm+5)} {
		if got := search(t, x, text); len(got) != 1 || got[0].Row != 0 {
			t.Errorf("Search(%.20q) = %v, want row 0", text, got)
		}
	}
}

func TestWordsAreClipped(t *testing.T) {
	d := newDocument(1, &Row{Part: strings.Repeat("p", 500), Texts: []string{strings.Repeat("é", 500), strings.Repeat("风", 50) + strings.Repeat("7", 500)}})
	for _, f := range d.fields {
		for term := range f.terms {
			if len(term) > maxTerm {
				t.Errorf("field %s holds a word of %d bytes", f.name, len(term))
			}
		}
	}
}

func TestManyShardsGiveTheSame(t *testing.T) {
	var rows []Row
	for i := range 3000 {
		r := shelf[i%len(shelf)]
		r.Texts = append([]string{strings.Repeat("n", 1+i%5)}, r.Texts...)
		rows = append(rows, r)
	}
	one, four := build(t, rows, 1), build(t, rows, 4)
	for _, text := range []string{"nordwind", "AB-6025/12", "nnn ball", "bearnig"} {
		a, b := search(t, one, text), search(t, four, text)
		if len(a) == 0 || !slices.Equal(a, b) {
			t.Errorf("Search(%q): one shard gives %d hits, four %d; they differ", text, len(a), len(b))
		}
	}
}

func TestNoRows(t *testing.T) {
	x := build(t, nil, 2)
	if got := search(t, x, "anything"); got != nil {
		t.Errorf("an empty index finds %v", got)
	}
}

func TestDamage(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "words")
	b, err := NewBuilder(dir, 1)
	if err != nil {
		t.Fatal(err)
	}
	for i, r := range shelf {
		b.Add(i, r)
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(dir, len(shelf)+1); !errors.Is(err, ErrDamaged) {
		t.Errorf("Open with a row too few = %v, want ErrDamaged", err)
	}
	bolt := filepath.Join(dir, "00", "root.bolt")
	if err := os.WriteFile(bolt, []byte("no index"), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(dir, len(shelf)); !errors.Is(err, ErrDamaged) {
		t.Errorf("Open over a broken file = %v, want ErrDamaged", err)
	}
	os.Remove(bolt)
	if _, err := Open(dir, len(shelf)); !errors.Is(err, ErrDamaged) {
		t.Errorf("Open without a file = %v, want ErrDamaged", err)
	}
	if _, err := os.Stat(bolt); err == nil {
		t.Error("Open made the file that was missing")
	}
	if _, err := Open(filepath.Join(dir, "nowhere"), 0); !errors.Is(err, ErrDamaged) {
		t.Errorf("Open of no folder = %v, want ErrDamaged", err)
	}
}

func TestAbort(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "words")
	b, err := NewBuilder(dir, 2)
	if err != nil {
		t.Fatal(err)
	}
	for i := range 2 * batchRows {
		b.Add(i, shelf[0])
	}
	b.Abort()
	if _, err := Open(dir, 2*batchRows); !errors.Is(err, ErrDamaged) {
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
		r := Row{Part: part, Texts: []string{text}}
		held := map[string]bool{}
		r.terms(func(term string) { held[term] = true })
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
