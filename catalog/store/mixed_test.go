package store

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// twoGenerations is a catalogue whose last import brought a source of its own.
func twoGenerations(t *testing.T) (dir, before, live string) {
	dir = t.TempDir()
	fill(t, dir, "a.csv", inventedFans(2*blockRows)...)
	fill(t, dir, "b.csv", part("B1"), part("B2"))
	return dir, filepath.Join(dir, generationName(1)), filepath.Join(dir, generationName(2))
}

func readFile(t *testing.T, path string) []byte {
	t.Helper()
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func writeFile(t *testing.T, path string, content []byte) {
	t.Helper()
	if err := os.WriteFile(path, content, 0o644); err != nil {
		t.Fatal(err)
	}
}

// A manifest is whole and yet wrong where it is that of another generation: taken
// at its word, the rows of the last import would be gone unsaid.
func TestManifestOfAnotherGeneration(t *testing.T) {
	dir, before, live := twoGenerations(t)
	want := names(t, dir)
	writeFile(t, filepath.Join(live, manifestFile), readFile(t, filepath.Join(before, manifestFile)))
	wantDamage(t, "the manifest of the generation before", useAll(dir))
	r := repair(t, dir)
	if len(r.Lost) > 0 || r.Before {
		t.Errorf("repair = %+v, want nothing lost: the records are whole", r)
	}
	if got := names(t, dir); !cmp.Equal(got, want) {
		t.Errorf("afterwards there is %v, want %v", got, want)
	}
}

// Where CURRENT is damaged too, the newest generation is the one that something is
// lost of; the one before does not stand in for it unsaid.
func TestPointerAndLiveGenerationDamaged(t *testing.T) {
	for _, current := range []string{"", "gen-00000x\n", "gone"} {
		dir, _, live := twoGenerations(t)
		want := names(t, dir)
		writeFile(t, filepath.Join(dir, currentFile), []byte(current))
		if current == "gone" {
			if err := os.Remove(filepath.Join(dir, currentFile)); err != nil {
				t.Fatal(err)
			}
		}
		content := readFile(t, filepath.Join(live, manifestFile))
		content[len(content)/2] ^= 1
		writeFile(t, filepath.Join(live, manifestFile), content)
		r := repair(t, dir)
		if got := names(t, dir); !cmp.Equal(got, want) && len(r.Lost) == 0 && !r.Before {
			t.Errorf("CURRENT %q: repaired to %v with nothing said to be lost, want %v", current, got, want)
		}
		if r.Report.Generation != 2 {
			t.Errorf("CURRENT %q: generation %d was looked at, want 2", current, r.Report.Generation)
		}
	}
}

// The generation before gives its records also where its words are damaged.
func TestRecordsOfTheGenerationBeforeWithoutItsWords(t *testing.T) {
	for name, mend := range map[string]func(dir string) []Loss{
		"repair": func(dir string) []Loss { return repair(t, dir).Lost },
		"import": func(dir string) []Loss { return fill(t, dir, "c.csv", part("C1")).Lost },
	} {
		dir, before, live := twoGenerations(t)
		blobs := filepath.Join(live, blobFile)
		writeFile(t, blobs, make([]byte, len(readFile(t, blobs))))
		if err := os.RemoveAll(filepath.Join(before, wordsFolder)); err != nil {
			t.Fatal(err)
		}
		if lost := mend(dir); !cmp.Equal(lost, []Loss{{"b.csv", 2}}) {
			t.Errorf("%s: lost %v, want only the rows of b.csv", name, lost)
		}
	}
}
