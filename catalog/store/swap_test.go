package store

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func begin(t tester, dir, source string) *Builder {
	t.Helper()
	b, err := Begin(context.Background(), dir, Import{Source: source, Time: day})
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// left lists what stands in the catalogue folder.
func left(t tester, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names
}

func TestNone(t *testing.T) {
	for _, dir := range []string{t.TempDir(), filepath.Join(t.TempDir(), "nowhere", "yet")} {
		_, err := Open(context.Background(), dir)
		var none *NoneError
		if !errors.Is(err, ErrNone) || !errors.As(err, &none) || none.Dir != dir || none.Hint() == "" {
			t.Errorf("Open(%q) = %v, want a NoneError", dir, err)
		}
	}
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(context.Background(), file); err == nil || errors.Is(err, ErrNone) || !strings.HasSuffix(err.Error(), "is a file, a catalogue is a folder") {
		t.Errorf("Open of a file = %v, want it called a file", err)
	}
	if _, err := Begin(context.Background(), file, Import{Source: "a"}); err == nil {
		t.Error("an import into a file begins")
	}
}

func TestTheOldAnswersUntilCommit(t *testing.T) {
	dir := t.TempDir()
	fill(t, dir, "a.csv", part("old"))
	b := begin(t, dir, "a.csv")
	if err := add(b, part("new")); err != nil {
		t.Fatal(err)
	}
	if got := names(t, dir); !cmp.Equal(got, []string{"old"}) {
		t.Errorf("before Commit there is %v", got)
	}
	before := open(t, dir)
	defer before.Close()
	if _, err := b.Commit(context.Background()); err != nil {
		t.Fatal(err)
	}
	if got := names(t, dir); !cmp.Equal(got, []string{"new"}) {
		t.Errorf("after Commit there is %v", got)
	}
	if f, err := before.Fan(0); err != nil || f.Part != "old" {
		t.Errorf("a catalogue opened before reads %v, %v", f, err)
	}
	if err := b.Abort(); err != nil {
		t.Errorf("Abort after Commit = %v", err)
	}
	if got := names(t, dir); !cmp.Equal(got, []string{"new"}) {
		t.Errorf("after a late Abort there is %v", got)
	}
}

func TestAbort(t *testing.T) {
	dir := t.TempDir()
	fill(t, dir, "a.csv", part("old"))
	want := left(t, dir)
	b := begin(t, dir, "a.csv")
	if err := add(b, part("new")); err != nil {
		t.Fatal(err)
	}
	if err := b.Abort(); err != nil {
		t.Fatal(err)
	}
	if got := left(t, dir); !cmp.Equal(got, want) {
		t.Errorf("Abort leaves %v, want %v", got, want)
	}
	if _, err := b.Commit(context.Background()); err == nil {
		t.Error("Commit after Abort gives no error")
	}
	if got := names(t, dir); !cmp.Equal(got, []string{"old"}) {
		t.Errorf("after Abort there is %v", got)
	}
	begin(t, dir, "a.csv").Abort() // the lock is free
}

func TestCommitStopped(t *testing.T) {
	dir := t.TempDir()
	fill(t, dir, "a.csv", part("old"))
	want := left(t, dir)
	b := begin(t, dir, "b.csv")
	for _, f := range inventedFans(3 * chunkRows) {
		if err := add(b, f); err != nil {
			t.Fatal(err)
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	b.im.Progress = func(p Progress) {
		if p.Done >= chunkRows {
			cancel()
		}
	}
	if _, err := b.Commit(ctx); !errors.Is(err, context.Canceled) {
		t.Errorf("Commit of a cancelled import = %v", err)
	}
	if got := left(t, dir); !cmp.Equal(got, want) {
		t.Errorf("a stopped import leaves %v, want %v", got, want)
	}
	if got := names(t, dir); !cmp.Equal(got, []string{"old"}) {
		t.Errorf("after a stopped import there is %v", got)
	}
}

func TestProgress(t *testing.T) {
	dir := t.TempDir()
	fill(t, dir, "b.csv", inventedFans(10)...)
	b := begin(t, dir, "a.csv")
	var told []Progress
	b.im.Progress = func(p Progress) { told = append(told, p) }
	for _, f := range append(inventedFans(chunkRows), part("A1"), part("A1")) {
		if err := add(b, f); err != nil {
			t.Fatal(err)
		}
	}
	r, err := b.Commit(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	if want := []Progress{{0, r.Rows}, {chunkRows, r.Rows}, {chunkRows + 1, r.Rows}, {r.Rows, r.Rows}}; !cmp.Equal(told, want) {
		t.Errorf("progress %v, want %v", told, want)
	}
}

// A killed import leaves its lock to the system and its folder to the next.
func TestLeftoversAreSwept(t *testing.T) {
	dir := t.TempDir()
	fill(t, dir, "a.csv", part("1"))
	fill(t, dir, "a.csv", part("2"))
	fill(t, dir, "a.csv", part("3"))
	for _, name := range []string{"gen-000009", "gen-000010/words/00"} {
		if err := os.MkdirAll(filepath.Join(dir, name), 0o755); err != nil {
			t.Fatal(err)
		}
	}
	for _, name := range []string{"gen-000009/spool", "gen-000010/words/00/root.bolt", "CURRENT.new-123"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte("half"), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.WriteFile(filepath.Join(dir, "notes.txt"), []byte("not ours"), 0o644); err != nil {
		t.Fatal(err)
	}
	begin(t, dir, "a.csv").Abort()
	// The live generation and the one before it stay, and what is not ours.
	if got, want := left(t, dir), []string{"CURRENT", "LOCK", "gen-000002", "gen-000003", "notes.txt"}; !cmp.Equal(got, want) {
		t.Errorf("after the sweep there is %v, want %v", got, want)
	}
	fill(t, dir, "a.csv", part("4"))
	if got, want := left(t, dir), []string{"CURRENT", "LOCK", "gen-000003", "gen-000004", "notes.txt"}; !cmp.Equal(got, want) {
		t.Errorf("after another import there is %v, want %v", got, want)
	}
}

// A generation that is being read stays, even for what is opened late.
func TestReadersKeepTheirGeneration(t *testing.T) {
	dir := t.TempDir()
	fill(t, dir, "a.csv", part("first"))
	c := open(t, dir)
	for i := range 4 {
		fill(t, dir, "a.csv", part(fmt.Sprint("later", i)))
	}
	if hits, err := c.Search(context.Background(), "first", 0); err != nil || len(hits) != 1 {
		t.Errorf("after four imports a reader of the first finds %v, %v", hits, err)
	}
	if err := c.Close(); err != nil {
		t.Fatal(err)
	}
	fill(t, dir, "a.csv", part("last"))
	if got, want := left(t, dir), []string{"CURRENT", "LOCK", "gen-000005", "gen-000006"}; !cmp.Equal(got, want) {
		t.Errorf("once it is closed there is %v, want %v", got, want)
	}
}

func TestReadersDuringSwaps(t *testing.T) {
	dir := t.TempDir()
	fill(t, dir, "a.csv", batch(0)...)
	stop := make(chan struct{})
	var wg sync.WaitGroup
	for range 3 {
		wg.Go(func() {
			for {
				select {
				case <-stop:
					return
				default:
					readWhole(t, dir)
				}
			}
		})
	}
	for n := 1; n <= 8; n++ {
		fill(t, dir, "a.csv", batch(n)...)
	}
	close(stop)
	wg.Wait()
}

// readWhole opens the catalogue and reads all of it in every way.
func readWhole(t *testing.T, dir string) {
	ctx := context.Background()
	c, err := Open(ctx, dir)
	if err != nil {
		t.Errorf("Open: %v", err)
		return
	}
	defer c.Close()
	f, err := c.Fan(0)
	if err != nil {
		t.Errorf("Fan(0): %v", err)
		return
	}
	prefix, _, _ := strings.Cut(f.Part, "-")
	columns, err := c.Columns(ctx)
	if err != nil || columns.Rows != 40 {
		t.Errorf("Columns: %v", err)
		return
	}
	for i := range columns.Rows {
		if part := columns.Text(0, i); !strings.HasPrefix(part, prefix+"-") {
			t.Errorf("row %d of generation %s is %q", i, prefix, part)
		}
	}
	if hits, err := c.Search(ctx, f.Description, 0); err != nil || len(hits) != 40 {
		t.Errorf("Search(%q) finds %d rows, %v", f.Description, len(hits), err)
	}
	if rows, err := c.Find("", prefix+"-39"); err != nil || !cmp.Equal(rows, []int{39}) {
		t.Errorf("Find gives %v, %v", rows, err)
	}
}

func TestReadOnlyFolder(t *testing.T) {
	if os.Getuid() == 0 {
		t.Skip("the superuser writes everywhere")
	}
	dir := t.TempDir()
	fill(t, dir, "a.csv", part("A1"))
	if err := os.Chmod(dir, 0o555); err != nil {
		t.Fatal(err)
	}
	defer os.Chmod(dir, 0o755)
	if got := names(t, dir); !cmp.Equal(got, []string{"A1"}) {
		t.Errorf("a read-only catalogue holds %v", got)
	}
	if _, err := Begin(context.Background(), dir, Import{Source: "a.csv"}); !errors.Is(err, os.ErrPermission) {
		t.Errorf("an import into it = %v, want a refusal", err)
	}
}
