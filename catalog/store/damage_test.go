package store

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"hash/crc32"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"go.etcd.io/bbolt"

	"lowsone/catalog"
)

// useAll reads everything a catalogue answers and gives the first error.
func useAll(dir string) error {
	ctx := context.Background()
	c, err := Open(ctx, dir)
	if err != nil {
		return err
	}
	defer c.Close()
	_, errColumns := c.Columns(ctx)
	errScan := c.View(&Twins{}).Scan(ctx, allFields(), func(*catalog.Columns, int, int) error { return nil })
	if (errColumns == nil) != (errScan == nil) {
		return fmt.Errorf("columns: %v, scan: %v", errColumns, errScan) // no damage: one of them does not see it
	}
	rows := make([]int, c.Rows())
	for i := range rows {
		rows[i] = i
	}
	_, errFans := c.Fans(ctx, rows)
	_, errFind := c.Find("", "nothing like it")
	_, errSearch := c.Search(ctx, "axial", 0)
	for _, err := range []error{errColumns, errFans, errFind, errSearch} {
		if err != nil {
			return err
		}
	}
	return nil
}

func wantDamage(t *testing.T, what string, err error) {
	t.Helper()
	var damage *DamagedError
	if !errors.As(err, &damage) {
		t.Errorf("%s: %v, want a DamagedError", what, err)
		return
	}
	if damage.Path == "" || damage.Reason == "" || !strings.Contains(damage.Hint(), "lowsone import") {
		t.Errorf("%s: %+v does not name file, reason and way back", what, damage)
	}
}

// files lists the files of a catalogue, without the lock.
func files(t tester, dir string) (paths []string) {
	t.Helper()
	err := filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err == nil && !e.IsDir() && e.Name() != lockFile {
			paths = append(paths, path)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return paths
}

func overwrite(t tester, path string, change func(content []byte) []byte) (undo func()) {
	t.Helper()
	content, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	write := func(b []byte) {
		if err := os.WriteFile(path, b, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write(change(append([]byte(nil), content...)))
	return func() { write(content) }
}

func TestTruncatedFiles(t *testing.T) {
	dir := t.TempDir()
	fill(t, dir, "a.csv", inventedFans(300)...)
	for _, path := range files(t, dir) {
		info, err := os.Stat(path)
		if err != nil {
			t.Fatal(err)
		}
		size := int(info.Size())
		cuts := []int{0, size / 2, size - 1}
		if name := filepath.Base(path); name == currentFile || name == manifestFile {
			cuts[2]-- // the line end may go
		}
		for _, cut := range cuts {
			undo := overwrite(t, path, func(b []byte) []byte { return b[:cut] })
			wantDamage(t, fmt.Sprintf("%s cut to %d bytes", path, cut), useAll(dir))
			undo()
		}
	}
	if err := useAll(dir); err != nil {
		t.Fatal(err)
	}
}

func TestMissingFiles(t *testing.T) {
	dir := t.TempDir()
	fill(t, dir, "a.csv", inventedFans(30)...)
	for _, path := range files(t, dir) {
		moved := path + ".moved"
		if err := os.Rename(path, moved); err != nil {
			t.Fatal(err)
		}
		if err := useAll(dir); filepath.Base(path) == currentFile {
			if err != nil {
				t.Errorf("without CURRENT the only whole generation answers %v", err)
			}
		} else {
			wantDamage(t, "missing "+path, err)
		}
		if err := os.Rename(moved, path); err != nil {
			t.Fatal(err)
		}
	}
}

// Every flipped byte is found, or changes nothing that is read.
func TestFlippedBytes(t *testing.T) {
	dir := t.TempDir()
	fans := inventedFans(300)
	fill(t, dir, "a.csv", fans...)
	want := open(t, dir)
	wantFans := all(t, want)
	want.Close()
	r := rand.New(rand.NewPCG(1, 2))
	found := 0
	for _, path := range files(t, dir) {
		info, err := os.Stat(path)
		if err != nil {
			t.Fatal(err)
		}
		for range 25 {
			at, bit := r.Int64N(info.Size()), byte(1)<<r.IntN(8)
			undo := overwrite(t, path, func(b []byte) []byte { b[at] ^= bit; return b })
			err := useAll(dir)
			if err == nil && strings.Contains(path, wordsFolder) {
				t.Errorf("byte %d of %s: an unnoticed change", at, path)
			}
			if err == nil {
				// Unused bytes of a page: all must still be as it was.
				c := open(t, dir)
				if d := cmp.Diff(wantFans, all(t, c), cmpopts.EquateComparable(), cmp.Exporter(exported)); d != "" {
					t.Errorf("byte %d of %s: an unnoticed change: %s", at, path, d)
				}
				c.Close()
			} else {
				found++
				wantDamage(t, path, err)
			}
			undo()
		}
	}
	if found == 0 {
		t.Error("no flipped byte was found")
	}
}

func TestMissingIndexLeavesTheRest(t *testing.T) {
	dir := t.TempDir()
	fill(t, dir, "a.csv", inventedFans(30)...)
	if err := os.RemoveAll(filepath.Join(dir, generationName(1), wordsFolder)); err != nil {
		t.Fatal(err)
	}
	c := open(t, dir)
	defer c.Close()
	if columns, err := c.Columns(context.Background(), catalog.FieldNoise); err != nil || columns.Rows != 30 {
		t.Errorf("without words Columns gives %v", err)
	}
	if _, err := c.Fan(3); err != nil {
		t.Errorf("without words Fan gives %v", err)
	}
	for range 2 {
		_, err := c.Search(context.Background(), "axial", 0)
		wantDamage(t, "Search without words", err)
	}
}

func TestNewerFormat(t *testing.T) {
	dir := t.TempDir()
	fill(t, dir, "a.csv", part("A1"))
	overwrite(t, filepath.Join(dir, generationName(1), manifestFile), func([]byte) []byte {
		content := fmt.Appendf(nil, `{"format":%d,"rows":"many"}`, formatVersion+1)
		b, err := json.Marshal(sealed{crc32.Checksum(content, castagnoli), content})
		if err != nil {
			t.Fatal(err)
		}
		return b
	})
	var newer *NewerError
	if _, err := Open(context.Background(), dir); !errors.As(err, &newer) || newer.Hint() == "" {
		t.Errorf("Open of a newer catalogue = %v, want a NewerError", err)
	}
	// An import must not replace what it does not understand.
	if _, err := Begin(context.Background(), dir, Import{Source: "a.csv"}); !errors.As(err, &newer) {
		t.Errorf("an import into a newer catalogue = %v, want a NewerError", err)
	}
	if got := left(t, dir); !cmp.Equal(got, []string{"CURRENT", "LOCK", "gen-000001"}) {
		t.Errorf("it leaves %v", got)
	}
}

// All pages that lead to others are checked before the file is used: one that
// leads in a circle would never be left.
func TestBranchesAreKnown(t *testing.T) {
	path := filepath.Join(t.TempDir(), blobFile)
	w, err := createBlobs(path)
	if err != nil {
		t.Fatal(err)
	}
	// Several flushes, which leave free pages full of what stood there.
	content := make([]byte, 20_000)
	r := rand.New(rand.NewPCG(1, 2))
	for i := range content {
		content[i] = byte(1 + r.IntN(255))
	}
	for i := range 5000 {
		err := w.put(rowsPlace(i), content[:r.IntN(9000)])
		if i%10 == 0 {
			err = errors.Join(err, w.put(columnPlace(i, 0), content))
		}
		if i%1000 == 0 {
			err = errors.Join(err, w.put(partsPlace(i), content))
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	known, err := w.close()
	if err != nil {
		t.Fatal(err)
	}
	blobs, err := openBlobs(path, known)
	if err != nil {
		t.Fatal(err)
	}
	defer blobs.close()
	want := 0
	err = blobs.db.View(func(tx *bbolt.Tx) error {
		for _, bucket := range []string{bucketRows, bucketColumns, bucketParts} {
			want += tx.Bucket([]byte(bucket)).Stats().BranchPageN
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if got := len(known.Pages); got != want || want < 2 {
		t.Errorf("%d branch pages are known, there are %d", got, want)
	}
}

func FuzzManifest(f *testing.F) {
	dir := f.TempDir()
	fill(f, dir, "a.csv", part("A1"))
	b, err := os.ReadFile(filepath.Join(dir, generationName(1), manifestFile))
	if err != nil {
		f.Fatal(err)
	}
	f.Add(b)
	f.Fuzz(func(t *testing.T, content []byte) {
		// Past the checksum, which fuzzing would never meet.
		b, err := json.Marshal(sealed{crc32.Checksum(content, castagnoli), content})
		if err != nil {
			return
		}
		m, err := decodeManifest("m", b)
		if err != nil {
			return
		}
		if s, err := schemaOf(m.Fields); err == nil {
			_ = m.info("", 1, s)
		}
	})
}
