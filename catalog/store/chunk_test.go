package store

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"hash/crc32"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"lowsone/catalog"
)

// manyFans are fans that fill more than one group of chunks, with texts of their
// own.
func manyFans() []*catalog.Fan {
	fans := inventedFans(groupChunks*chunkRows + chunkRows + 77)
	for i, f := range fans {
		f.Extra = append(f.Extra, catalog.Extra{Header: fmt.Sprint("column ", i/3000), Text: fmt.Sprint("word", i%17)})
	}
	return fans
}

// A catalogue does not depend on the order in which its sources were imported:
// chunks that were copied are those that would have been made.
func TestOrderOfImportsDoesNotMatter(t *testing.T) {
	sources := map[string][]*catalog.Fan{"a.csv": inventedFans(100), "b.csv": manyFans(), "c.csv": inventedFans(chunkRows + 1)}
	var files [2][]byte
	for i, order := range [][]string{{"a.csv", "b.csv", "c.csv"}, {"c.csv", "b.csv", "a.csv"}} {
		dir := t.TempDir()
		for _, source := range order {
			fill(t, dir, source, sources[source]...)
		}
		b, err := os.ReadFile(filepath.Join(dir, generationName(3), blobFile))
		if err != nil {
			t.Fatal(err)
		}
		files[i] = b
	}
	if !bytes.Equal(files[0], files[1]) {
		t.Error("two orders of imports give different files")
	}
}

// Of the rows of one key the last stands, wherever the others stood.
func TestOvertakenRowsAreLeftOut(t *testing.T) {
	dir := t.TempDir()
	fans := inventedFans(2*chunkRows + 100)
	again := map[int]bool{5: true, chunkRows - 1: true, chunkRows: true, 2*chunkRows + 3: true}
	var want []*catalog.Fan
	added := fans
	for i, f := range fans {
		if !again[i] {
			want = append(want, f)
			continue
		}
		changed := *f
		changed.Description = fmt.Sprint("later ", i)
		added = append(added, &changed)
	}
	want = append(want, added[len(fans):]...)
	r := fill(t, dir, "a.csv", added...)
	if r.Overtaken != len(again) || r.Rows != len(fans) {
		t.Errorf("%+v, want %d overtaken and %d rows", r, len(again), len(fans))
	}
	c := open(t, dir)
	defer c.Close()
	for _, f := range want {
		f.Source.Name = "a.csv"
	}
	if got := all(t, c); !reflect.DeepEqual(got, want) {
		t.Errorf("%d rows are not those that stand", len(got))
	}
	columns, err := c.Columns(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	sameColumns(t, columns, catalog.ColumnsOf(want...))
}

// Long rows make short chunks: memory is bounded by bytes, not by rows.
func TestChunksAreBoundedInBytes(t *testing.T) {
	dir := t.TempDir()
	var fans []*catalog.Fan
	for i := range 12 {
		f := part(fmt.Sprint("A", i))
		f.Extra = []catalog.Extra{{Header: "x", Text: strings.Repeat("long ", chunkBytes/25)}}
		fans = append(fans, f)
	}
	fill(t, dir, "a.csv", fans...)
	c := open(t, dir)
	defer c.Close()
	if n := c.chunks.len(); n < 2 {
		t.Errorf("%d chunks, want several", n)
	}
	if got := all(t, c); len(got) != len(fans) || got[11].Part != "A11" {
		t.Errorf("%d rows come back, want %d", len(got), len(fans))
	}
}

func TestNotesOfTheRowsThatStand(t *testing.T) {
	dir := t.TempDir()
	b := begin(t, dir, "a.csv")
	defer b.Abort()
	for i, note := range []uint8{7, 7, 200, 7} {
		f := part("A1")
		if i > 1 {
			f = part(fmt.Sprint("A", i))
		}
		row, err := NewRow(f, note)
		if err != nil {
			t.Fatal(err)
		}
		if err := b.Add(row); err != nil {
			t.Fatal(err)
		}
	}
	s, err := b.Settle()
	if err != nil || s.Notes[7] != 2 || s.Notes[200] != 1 || s.Overtaken != 1 {
		t.Errorf("%d rows with note 7, %d with note 200, %d overtaken, %v, want 2, 1, 1", s.Notes[7], s.Notes[200], s.Overtaken, err)
	}
}

// What cannot be written ends the import and leaves the catalogue as it was.
func TestImportThatCannotBeWritten(t *testing.T) {
	dir := t.TempDir()
	fill(t, dir, "a.csv", part("A1"))
	before := left(t, dir)
	b := begin(t, dir, "a.csv")
	b.spool.file.Close()
	var err error
	for _, f := range inventedFans(5 * chunkRows) {
		if err = add(b, f); err != nil {
			break
		}
	}
	if _, settled := b.Settle(); !errors.Is(settled, os.ErrClosed) || err != nil && !errors.Is(err, os.ErrClosed) {
		t.Errorf("Add gives %v, Settle %v, want both to tell what is wrong", err, settled)
	}
	if _, err := b.Commit(context.Background()); !errors.Is(err, os.ErrClosed) {
		t.Errorf("Commit gives %v", err)
	}
	if got := left(t, dir); !cmp.Equal(got, before) {
		t.Errorf("it leaves %v, want %v", got, before)
	}
	if got := names(t, dir); !cmp.Equal(got, []string{"A1"}) {
		t.Errorf("afterwards there is %v", got)
	}
}

// Columns are made anew of the records where they are damaged: no row is lost.
func TestImportOverDamagedColumns(t *testing.T) {
	dir := t.TempDir()
	fans := inventedFans(3 * chunkRows)
	fill(t, dir, "a.csv", fans...)
	c := open(t, dir)
	var piece []byte
	err := c.blobs.read(func(get getter) error {
		b, err := get(columnPlace(0, pieceID(catalog.FieldAirflow)))
		piece = append(piece, b...)
		return err
	})
	path := c.blobs.path
	if err := errors.Join(err, c.Close()); err != nil {
		t.Fatal(err)
	}
	overwrite(t, path, func(b []byte) []byte {
		at := bytes.Index(b, piece)
		if at < 0 {
			t.Fatal("the column is not in the file")
		}
		b[at+len(piece)/2] ^= 1
		return b
	})
	wantDamage(t, "a damaged column", useAll(dir))
	r := fill(t, dir, "b.csv", part("B1"))
	if r.Damage == nil || len(r.Lost) > 0 || r.Rows != len(fans)+1 {
		t.Errorf("import over a damaged column: %d rows, lost %v, damage %v", r.Rows, r.Lost, r.Damage)
	}
	after := open(t, dir)
	defer after.Close()
	columns, err := after.Columns(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	sameColumns(t, columns, catalog.ColumnsOf(append(fans, part("B1"))...))
}

func TestOlderFormat(t *testing.T) {
	dir := t.TempDir()
	fill(t, dir, "a.csv", part("A1"), part("A2"))
	fill(t, dir, "b.csv", part("B1"))
	overwrite(t, filepath.Join(dir, generationName(2), manifestFile), func(b []byte) []byte {
		var s sealed
		if err := json.Unmarshal(b, &s); err != nil {
			t.Fatal(err)
		}
		content := bytes.Replace(s.Manifest, fmt.Appendf(nil, `"format":%d`, formatVersion), []byte(`"format":2`), 1)
		b, err := json.Marshal(sealed{crc32.Checksum(content, castagnoli), content})
		if err != nil {
			t.Fatal(err)
		}
		return b
	})
	var older *OlderError
	if _, err := Open(context.Background(), dir); !errors.As(err, &older) || !strings.Contains(older.Hint(), "lowsone import") {
		t.Errorf("Open of an older catalogue = %v, want an OlderError", err)
	}
	// Importing is the way to the new form. What it cannot take along it says.
	r := fill(t, dir, "b.csv", part("B1"))
	if want := []Loss{{"a.csv", 2}}; !cmp.Equal(r.Lost, want) || r.Damage == nil {
		t.Errorf("lost %v, damage %v, want %v", r.Lost, r.Damage, want)
	}
	if got := names(t, dir); !cmp.Equal(got, []string{"B1"}) {
		t.Errorf("afterwards there is %v", got)
	}
}
