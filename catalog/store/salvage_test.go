package store

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestDamagedPointer(t *testing.T) {
	dir := t.TempDir()
	fill(t, dir, "a.csv", part("A1"))
	for _, text := range []string{"", "gen-1", "gen-000001x", "../gen-000001", "gen-000000", "gen-000077"} {
		overwrite(t, filepath.Join(dir, currentFile), func([]byte) []byte { return []byte(text) })
		_, err := Open(context.Background(), dir)
		wantDamage(t, "CURRENT holds "+text, err)
	}
	// The next import finds the rows all the same.
	overwrite(t, filepath.Join(dir, currentFile), func([]byte) []byte { return []byte("?") })
	r := fill(t, dir, "b.csv", part("B1"))
	if r.Damage == nil || len(r.Lost) > 0 || r.Rows != 2 {
		t.Errorf("import over a damaged pointer: %+v", r)
	}
	if got := names(t, dir); !cmp.Equal(got, []string{"A1", "B1"}) {
		t.Errorf("afterwards there is %v", got)
	}
}

// An import keeps what can still be read of other sources, and says what it
// could not.
func TestImportOverDamagedRows(t *testing.T) {
	dir := t.TempDir()
	fill(t, dir, "a.csv", inventedFans(3*blockRows)...)
	fill(t, dir, "b.csv", part("B1"))
	drop(t, dir, 1) // it would have them
	damageRow(t, dir, blockRows+5)
	wantDamage(t, "damaged rows", useAll(dir))
	r := fill(t, dir, "c.csv", part("C1"))
	if want := []Loss{{"a.csv", blockRows}}; !cmp.Equal(r.Lost, want) || r.Damage == nil {
		t.Errorf("lost %v, damage %v, want %v", r.Lost, r.Damage, want)
	}
	if want := 2*blockRows + 2; r.Rows != want {
		t.Errorf("%d rows are left, want %d", r.Rows, want)
	}
	if err := useAll(dir); err != nil {
		t.Errorf("afterwards: %v", err)
	}
	// The way back: importing the source again.
	if r := fill(t, dir, "a.csv", inventedFans(3*blockRows)...); r.New != blockRows || r.Unchanged != 2*blockRows || len(r.Lost) > 0 {
		t.Errorf("importing the damaged source again: %+v", r)
	}
}

// drop removes a generation.
func drop(t *testing.T, dir string, n int) {
	t.Helper()
	if err := os.RemoveAll(filepath.Join(dir, generationName(n))); err != nil {
		t.Fatal(err)
	}
}

// damageRow flips a byte in the block that holds a row.
func damageRow(t *testing.T, dir string, row int) {
	t.Helper()
	c := open(t, dir)
	var block []byte
	chunk, place := c.chunks.at(row)
	err := c.blobs.read(func(get getter) error {
		b, err := c.block(get, chunk, place/blockRows)
		block = append(block, b...)
		return err
	})
	path := c.blobs.path
	if err := errors.Join(err, c.Close()); err != nil {
		t.Fatal(err)
	}
	overwrite(t, path, func(b []byte) []byte {
		at := strings.Index(string(b), string(block))
		if at < 0 {
			t.Fatal("the block is not in the file")
		}
		b[at+len(block)/2] ^= 1
		return b
	})
}

func TestImportOverACatalogueThatDoesNotOpen(t *testing.T) {
	dir := t.TempDir()
	fill(t, dir, "a.csv", part("A1"), part("A2"))
	fill(t, dir, "b.csv", part("B1"))
	fill(t, dir, "a.csv", part("A1"), part("A2"), part("A3")) // the one before has other rows
	if err := os.Truncate(filepath.Join(dir, generationName(3), blobFile), 100); err != nil {
		t.Fatal(err)
	}
	// Beginning alone changes nothing.
	before := left(t, dir)
	begin(t, dir, "b.csv").Abort()
	if got := left(t, dir); !cmp.Equal(got, before) {
		t.Errorf("an aborted import leaves %v, want %v", got, before)
	}
	r := fill(t, dir, "b.csv", part("B1"))
	if want := []Loss{{"a.csv", 3}}; !cmp.Equal(r.Lost, want) || r.Damage == nil {
		t.Errorf("lost %v, damage %v, want %v", r.Lost, r.Damage, want)
	}
	if got := names(t, dir); !cmp.Equal(got, []string{"B1"}) {
		t.Errorf("afterwards there is %v", got)
	}
	// The last whole generation is still there.
	if got := left(t, dir); !cmp.Equal(got, []string{"CURRENT", "LOCK", "gen-000002", "gen-000004"}) {
		t.Errorf("afterwards the folder holds %v", got)
	}
}
