package intake

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestLeftBehind(t *testing.T) {
	for name, want := range map[string]bool{
		".rejects-liste.csv4711":        true,
		".rejects-a.csv.csv1":           true,
		".rejects-.csv1":                true,
		"rejects-liste.csv":             false,
		".rejects-liste.csv":            false,
		".rejects-liste.csv4x":          false,
		".rejects-liste4711":            false,
		"CURRENT":                       false,
		".rejects-liste.csv4711.backup": false,
	} {
		if got := leftBehind(name); got != want {
			t.Errorf("leftBehind(%q) = %v, want %v", name, got, want)
		}
	}
}

// An import sweeps what a killed one left of its list of rejected rows, and
// leaves what is not its own.
func TestSweep(t *testing.T) {
	p := newPlace(t, listHeader+goodRows)
	p.ok(nil)
	for _, name := range []string{".rejects-liste.csv4711", ".rejects-notes", "rejects-other.csv"} {
		if err := os.WriteFile(filepath.Join(p.cat, name), []byte("x"), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	p.ok(nil)
	var names []string
	entries, err := os.ReadDir(p.cat)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		names = append(names, e.Name())
	}
	if want := []string{".rejects-notes", "CURRENT", "LOCK", "gen-000001", "rejects-other.csv"}; !cmp.Equal(names, want) {
		t.Errorf("after another import the folder holds %v, want %v", names, want)
	}
}

// The same list again mends a catalogue whose words are damaged, though it brings
// nothing new.
func TestTheSameListMendsWords(t *testing.T) {
	p := newPlace(t, listHeader+goodRows)
	p.ok(nil)
	words, err := filepath.Glob(filepath.Join(p.cat, "gen-000001", "words", "*", "root.bolt"))
	if err != nil || len(words) == 0 {
		t.Fatalf("words: %v, %v", words, err)
	}
	if err := os.Truncate(words[0], 100); err != nil {
		t.Fatal(err)
	}
	a := p.ok(nil)
	p.wants(a, counts{Rows: 2, Repeated: 2, Fans: 2, Changed: true})
	if len(a.Warnings) != 1 {
		t.Errorf("warnings = %v, want one of the damage", a.Warnings)
	}
	p.wants(p.ok(nil), counts{Rows: 2, Repeated: 2, Fans: 2})
}
