package store

import (
	"context"
	"encoding/binary"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"lowsone/catalog"
)

// An import takes rows that cannot be read from the generation before, where that
// holds the same ones.
func TestRowsOfTheGenerationBefore(t *testing.T) {
	dir := t.TempDir()
	fans := inventedFans(3 * blockRows)
	fill(t, dir, "a.csv", fans...)
	fill(t, dir, "b.csv", part("B1"))
	damageRow(t, dir, blockRows+5)
	wantDamage(t, "damaged rows", useAll(dir))
	r := fill(t, dir, "c.csv", part("C1"))
	if r.Damage == nil || len(r.Lost) > 0 || r.Rows != len(fans)+2 {
		t.Errorf("import over damaged rows that stand in the generation before: %+v", r)
	}
	if got, want := names(t, dir)[:len(fans)], partsOf(fans); !cmp.Equal(got, want) {
		t.Errorf("afterwards there is %v, want %v", got, want)
	}
	// A damaged generation of which nothing was lost is no good as the one before.
	if got := left(t, dir); !cmp.Equal(got, []string{"CURRENT", "LOCK", "gen-000001", "gen-000003"}) {
		t.Errorf("afterwards the folder holds %v", got)
	}
}

func partsOf(fans []*catalog.Fan) []string {
	var names []string
	for _, f := range fans {
		names = append(names, f.Part)
	}
	return names
}

// The generation before is no help where its rows of a source are others, though
// name, number and time are the same.
func TestOtherRowsAreNoRescue(t *testing.T) {
	dir := t.TempDir()
	fans := inventedFans(2 * blockRows)
	fill(t, dir, "a.csv", fans...)
	for _, f := range fans {
		f.Description = "anew"
	}
	fill(t, dir, "a.csv", fans...)
	damageRow(t, dir, 3)
	r := fill(t, dir, "b.csv", part("B1"))
	if want := []Loss{{"a.csv", blockRows}}; !cmp.Equal(r.Lost, want) {
		t.Errorf("lost %v, want %v", r.Lost, want)
	}
	// Where rows were lost, what is left of them stays.
	if got := left(t, dir); !cmp.Equal(got, []string{"CURRENT", "LOCK", "gen-000002", "gen-000003"}) {
		t.Errorf("afterwards the folder holds %v", got)
	}
}

// wrecked is a catalogue of one generation, to be damaged.
func wrecked(t *testing.T, rows int) (dir, blobs string, fans []*catalog.Fan) {
	dir = t.TempDir()
	fans = inventedFans(rows)
	for _, f := range fans {
		f.Extra = nil
	}
	fill(t, dir, "a.csv", fans...)
	return dir, filepath.Join(dir, generationName(1), blobFile), fans
}

// wantSaved imports another source and looks how many rows are lost.
func wantSaved(t *testing.T, what, dir string, fans []*catalog.Fan, most int) {
	t.Helper()
	r := fill(t, dir, "b.csv", part("B1"))
	lost := 0
	for _, l := range r.Lost {
		lost += l.Rows
	}
	if r.Damage == nil || lost > most || r.Rows != len(fans)-lost+1 {
		t.Errorf("%s: %+v, want at most %d rows lost", what, r, most)
	}
	if lost == 0 {
		if got, want := names(t, dir)[:len(fans)], partsOf(fans); !cmp.Equal(got, want) {
			t.Errorf("%s: there is %v, want %v", what, got, want)
		}
	}
	if err := useAll(dir); err != nil {
		t.Errorf("%s: afterwards %v", what, err)
	}
}

// Where the pages lead nowhere, the records are found without them.
func TestRecordsWithoutPages(t *testing.T) {
	page := os.Getpagesize()
	for name, change := range map[string]func(b []byte) []byte{
		"both metas": func(b []byte) []byte { clear(b[:2*page]); return b },
		"headers of all pages": func(b []byte) []byte {
			for at := 0; at < len(b); at += page {
				if id := binary.LittleEndian.Uint64(b[at:]); id == uint64(at/page) {
					clear(b[at : at+16])
				}
			}
			return b
		},
		"cut off": func(b []byte) []byte { return b[:len(b)-page] },
	} {
		dir, blobs, fans := wrecked(t, chunkRows+300)
		overwrite(t, blobs, change)
		wantDamage(t, name, useAll(dir))
		wantSaved(t, name, dir, fans, 0)
	}
}

// The head of the records of a chunk says where its blocks are. One wrong byte of
// it loses nothing.
func TestRecordsWithADamagedHead(t *testing.T) {
	for _, at := range []int{0, 1, 2, 3, 7, 4 * 9, 4 * 10} {
		dir, blobs, fans := wrecked(t, 10*blockRows)
		overwrite(t, blobs, func(b []byte) []byte {
			begin := headOf(t, b, 10)
			b[begin+at] ^= 0x41
			return b
		})
		wantDamage(t, "head", useAll(dir))
		wantSaved(t, "head", dir, fans, 0)
	}
}

// headOf finds the head of the only chunk, which has so many blocks.
func headOf(t *testing.T, b []byte, blocks int) int {
	t.Helper()
	p := rowsPlace(0)
	for i := range len(b) - 4*(blocks+1) {
		if binary.LittleEndian.Uint32(b[i+4*blocks:]) == p.crc(b[i:i+4*blocks]) {
			return i
		}
	}
	t.Fatal("the head is not in the file")
	return 0
}

// Without its manifest a generation still says what it holds.
func TestWithoutManifest(t *testing.T) {
	for name, change := range map[string]func(path string) error{
		"gone":    os.Remove,
		"changed": func(path string) error { return os.WriteFile(path, []byte("{}"), 0o644) },
	} {
		dir, blobs, fans := wrecked(t, 2*blockRows)
		if err := change(filepath.Join(filepath.Dir(blobs), manifestFile)); err != nil {
			t.Fatal(err)
		}
		wantDamage(t, name, useAll(dir))
		wantSaved(t, name, dir, fans, 0)
	}
}

// Where nothing is left of a generation, the one before stands in.
func TestTheOneBeforeStandsIn(t *testing.T) {
	dir := t.TempDir()
	fill(t, dir, "a.csv", part("A1"))
	fill(t, dir, "b.csv", part("B1"))
	drop(t, dir, 2)
	r := fill(t, dir, "c.csv", part("C1"))
	if r.Damage == nil || !r.Before || len(r.Lost) > 0 {
		t.Errorf("import over a generation that is gone: %+v", r)
	}
	if got := names(t, dir); !cmp.Equal(got, []string{"A1", "C1"}) {
		t.Errorf("afterwards there is %v", got)
	}
}

// Nothing that was finished is swept while it is not known which one is live.
func TestDamagedPointerSweepsNothing(t *testing.T) {
	dir := t.TempDir()
	fill(t, dir, "a.csv", part("A1"))
	fill(t, dir, "a.csv", part("A2"))
	if err := os.Truncate(filepath.Join(dir, generationName(2), blobFile), 5000); err != nil {
		t.Fatal(err)
	}
	overwrite(t, filepath.Join(dir, currentFile), func([]byte) []byte { return []byte("?") })
	if err := os.Mkdir(filepath.Join(dir, generationName(3)), 0o755); err != nil {
		t.Fatal(err)
	}
	begin(t, dir, "b.csv").Abort()
	if got := left(t, dir); !cmp.Equal(got, []string{"CURRENT", "LOCK", "gen-000001", "gen-000002"}) {
		t.Errorf("an import that was begun leaves %v", got)
	}
}

// One changed byte anywhere in the blob file takes a block of rows at the most.
func TestOneByteTakesOneBlock(t *testing.T) {
	const blocks = 12
	dir, path, fans := wrecked(t, blocks*blockRows)
	want := partsOf(fans)
	info, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	r := rand.New(rand.NewPCG(3, 4))
	for range 60 {
		at, bit := r.Int64N(info.Size()), byte(1)<<r.IntN(8)
		undo := overwrite(t, path, func(b []byte) []byte { b[at] ^= bit; return b })
		got := saved(t, dir)
		if len(got) < (blocks-1)*blockRows || !subsequence(got, want) {
			t.Errorf("byte %d: %d rows of %d are saved: %v", at, len(got), len(want), got)
		}
		undo()
	}
}

// saved lists the parts that can be had of the first generation.
func saved(t *testing.T, dir string) (parts []string) {
	t.Helper()
	ctx := context.Background()
	c, err := openGeneration(dir, 1)
	if err != nil {
		if c, err = openWreck(ctx, dir, 1, &DamagedError{dir, err.Error()}); err != nil {
			t.Fatal(err)
		}
	}
	c.rescue = &rescue{of: c}
	defer c.Close()
	for chunk := range c.chunks.len() {
		err := c.blocks(ctx, chunk, func(fans []*catalog.Fan, _ int, _ error) error {
			parts = append(parts, partsOf(fans)...)
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	return parts
}

// subsequence says whether a list is another with some left out.
func subsequence(list, of []string) bool {
	for _, item := range list {
		i := slices.Index(of, item)
		if i < 0 {
			return false
		}
		of = of[i+1:]
	}
	return true
}

// FuzzSift puts anything into a blob file: what is found in it is what checksums
// vouch for, and nothing makes the search fail.
func FuzzSift(f *testing.F) {
	dir := f.TempDir()
	fill(f, dir, "a.csv", inventedFans(40)...)
	b, err := os.ReadFile(filepath.Join(dir, generationName(1), blobFile))
	if err != nil {
		f.Fatal(err)
	}
	f.Add(b)
	f.Add([]byte(strings.Repeat("\x00", 300)))
	f.Add([]byte("manifest\xff\xff\xff\xff\xff\xff\xff\xff"))
	chunks := chunksOf([]storedSource{{Name: "a.csv", Rows: 40, Chunks: []int{40}}})
	f.Fuzz(func(t *testing.T, content []byte) {
		path := filepath.Join(t.TempDir(), blobFile)
		if err := os.WriteFile(path, content, 0o644); err != nil {
			t.Fatal(err)
		}
		if m, err := siftAbout(context.Background(), path); err == nil && m.fault() != "" {
			t.Errorf("the file says of itself %+v", m)
		}
		s, err := sift(context.Background(), path, chunks)
		if err != nil {
			t.Fatal(err)
		}
		defer s.close()
		for n := range 2 {
			currentSchema().savedFans(rowsPlace(0), s.blob(0), n, 40)
			currentSchema().savedFans(rowsPlace(0), content, n, 40)
		}
	})
}
