package store

import (
	"context"
	"errors"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"lowsone/catalog"
)

func check(t tester, dir string) *Report {
	t.Helper()
	r, err := Check(context.Background(), dir, nil)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// kept is a catalogue of three sources with the generation before it.
func kept(t *testing.T) (dir string) {
	dir = t.TempDir()
	fans := inventedFans(200)
	for i, f := range fans {
		if i%3 == 0 {
			f.Description = f.Part + " with words of its own"
		}
	}
	fill(t, dir, "b.csv", fans[:100]...)
	fill(t, dir, "a.csv", fans[100:120]...)
	fill(t, dir, "c.csv", fans[120:]...)
	return dir
}

func TestCheckOfAWholeCatalogue(t *testing.T) {
	dir := kept(t)
	r := check(t, dir)
	if !r.Whole() || r.Rows != 200 || len(r.Sources) != 3 || r.Generation != 3 || len(r.Unread)+len(r.Lost)+len(r.Left) > 0 {
		t.Errorf("report of a whole catalogue: %+v", r)
	}
	if want := len(files(t, dir)) - 1; r.Files != want { // CURRENT is not counted
		t.Errorf("it read %d files, want %d", r.Files, want)
	}
	var none *NoneError
	if _, err := Check(context.Background(), t.TempDir(), nil); !errors.As(err, &none) {
		t.Errorf("check of an empty folder = %v, want a NoneError", err)
	}
	empty := t.TempDir()
	fill(t, empty, "a.csv", part("A1"))
	fill(t, empty, "a.csv")
	if r := check(t, empty); !r.Whole() || r.Rows != 0 {
		t.Errorf("report of a catalogue without fans: %+v", r)
	}
}

// Rows of any kind come out of check as they went in.
func TestCheckOfAnyFans(t *testing.T) {
	for seed := range 8 {
		dir := t.TempDir()
		fill(t, dir, "a.csv", anyFans(seed)...)
		if r := check(t, dir); !r.Whole() {
			t.Errorf("seed %d: %+v", seed, r.Damage)
		}
	}
}

// flips is how many bytes of each file TestCheckFindsEveryByte changes;
// LOWSONE_TEST_FLIPS gives another number.
func flips(t *testing.T) int {
	text := os.Getenv("LOWSONE_TEST_FLIPS")
	if text == "" {
		return 5
	}
	n, err := strconv.Atoi(text)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// Every changed byte of every file is found, whatever stands there; what the
// other commands answer meanwhile is right, or an error that names the way back.
func TestCheckFindsEveryByte(t *testing.T) {
	dir := kept(t)
	want := answers(t, dir)
	r := rand.New(rand.NewPCG(5, 6))
	for _, path := range files(t, dir) {
		info, err := os.Stat(path)
		if err != nil {
			t.Fatal(err)
		}
		for range flips(t) {
			at, bit := r.Int64N(info.Size()), byte(1)<<r.IntN(8)
			undo := overwrite(t, path, func(b []byte) []byte { b[at] ^= bit; return b })
			wantFound(t, dir, path, want)
			undo()
		}
	}
}

// So is every file that is cut short or gone.
func TestCheckFindsEveryFile(t *testing.T) {
	dir := kept(t)
	want := answers(t, dir)
	for _, path := range files(t, dir) {
		info, err := os.Stat(path)
		if err != nil {
			t.Fatal(err)
		}
		for _, cut := range []int64{0, info.Size() / 2, info.Size() - 1} {
			undo := overwrite(t, path, func(b []byte) []byte { return b[:cut] })
			wantFound(t, dir, path, want)
			undo()
		}
		if err := os.Rename(path, path+".gone"); err != nil {
			t.Fatal(err)
		}
		if filepath.Base(path) != manifestFile || strings.Contains(path, generationName(3)) {
			wantFound(t, dir, path, want)
		} // without its manifest the one before is a leftover like others
		if err := os.Rename(path+".gone", path); err != nil {
			t.Fatal(err)
		}
	}
}

// wantFound checks that the damage of a file is found and named, and that what is
// answered all the same is right.
func wantFound(t *testing.T, dir, path string, want []any) {
	t.Helper()
	r := check(t, dir)
	named := slices.ContainsFunc(r.Damage, func(d Damage) bool {
		return d.Reason != "" && d.Means != "" && (d.Path == path || strings.HasPrefix(path, d.Path+string(filepath.Separator)))
	})
	if !named {
		t.Errorf("damage of %s is not found: %+v", path, r.Damage)
	}
	for i, got := range answers(t, dir) {
		var damage *DamagedError
		if err, ok := got.(error); ok && errors.As(err, &damage) && strings.Contains(damage.Hint(), "repair") {
			continue
		}
		if diff := cmp.Diff(want[i], got, cmp.Exporter(exported)); diff != "" {
			t.Errorf("with %s damaged, answer %d differs (-want +got):\n%s", path, i, diff)
		}
	}
}

// answers gives all that a catalogue answers, an error where it refuses.
func answers(t *testing.T, dir string) []any {
	t.Helper()
	ctx := context.Background()
	list := make([]any, 6)
	c, err := Open(ctx, dir)
	if err != nil {
		for i := range list {
			list[i] = err
		}
		return list
	}
	defer c.Close()
	or := func(v any, err error) any {
		if err != nil {
			return err
		}
		return v
	}
	info := c.Info()
	list[0] = [3]any{info.Rows, info.Missing, len(info.Sources)}
	list[1] = or(c.Columns(ctx))
	list[3] = or(c.Search(ctx, "with words", 0))
	list[4] = or(c.Search(ctx, "nordwind 60mm", 0))
	rows := make([]int, c.Rows())
	for i := range rows {
		rows[i] = i
	}
	list[2] = or(c.Fans(ctx, rows))
	list[5] = or(c.Find("", inventedFans(8)[7].Part))
	return list
}

// What stands there with right checksums but does not belong together is found
// too: columns of other records, words of other texts, parts of other rows.
func TestCheckComparesWithTheRecords(t *testing.T) {
	fans := inventedFans(60)
	for name, c := range map[string]struct {
		spoil func(g *generation)
		want  string
	}{
		"column":     {func(g *generation) { g.pieces.pieces[catalog.FieldNoise][5] ^= 1 }, "column noise_dba"},
		"words":      {func(g *generation) { g.pieces.pieces[pieceFrame][12] ^= 1 }, "columns of words"},
		"texts":      {func(g *generation) { b := g.pieces.pieces[pieceTexts]; b[2], b[3] = b[3], b[2] }, "texts"},
		"row number": {func(g *generation) { g.parts[3].row = 4 }, "table of parts"},
		"part":       {func(g *generation) { g.parts[3].hash++ }, "table of parts"},
		"counts":     {func(g *generation) { g.manifest.Missing[catalog.FieldLife]-- }, "counts"},
	} {
		dir := t.TempDir()
		fill(t, dir, "a.csv", fans...)
		spoil(t, dir, fans, c.spoil)
		r := check(t, dir)
		if !slices.ContainsFunc(r.Damage, func(d Damage) bool { return strings.Contains(d.Reason, c.want) }) {
			t.Errorf("%s: found %+v, want %q", name, r.Damage, c.want)
		}
	}
}

// spoil makes the first generation anew with something wrong in it.
func spoil(t *testing.T, dir string, fans []*catalog.Fan, change func(g *generation)) {
	t.Helper()
	folder := filepath.Join(dir, generationName(1))
	if err := os.RemoveAll(folder); err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(folder, 0o755); err != nil {
		t.Fatal(err)
	}
	g, err := newGeneration(folder)
	if err != nil {
		t.Fatal(err)
	}
	w := &chunkWriter{ctx: context.Background(), generation: g}
	if err := w.addFans(fans); err != nil {
		t.Fatal(err)
	}
	g.endSource(storedSource{Name: "a.csv", Imported: day})
	change(g)
	if err := g.finish(); err != nil {
		t.Fatal(err)
	}
}

func TestCheckTellsWhatIsLost(t *testing.T) {
	dir := t.TempDir()
	fans := inventedFans(5 * blockRows)
	fill(t, dir, "a.csv", fans...)
	fill(t, dir, "b.csv", part("B1"))
	damageRow(t, dir, 40)
	r := check(t, dir)
	if want := []Loss{{"a.csv", blockRows}}; !cmp.Equal(r.Unread, want) || len(r.Lost) > 0 {
		t.Errorf("unread %v, lost %v, want %v unread and none lost, as the generation before has them", r.Unread, r.Lost, want)
	}
	drop(t, dir, 1)
	damageRow(t, dir, 100)
	r = check(t, dir)
	if want := []Loss{{"a.csv", 2 * blockRows}}; !cmp.Equal(r.Unread, want) || !cmp.Equal(r.Lost, want) {
		t.Errorf("unread %v, lost %v, want %v", r.Unread, r.Lost, want)
	}
}

// Leftovers of killed imports are no damage.
func TestCheckNamesLeftovers(t *testing.T) {
	dir := kept(t)
	for _, name := range []string{generationName(4), generationName(1)} {
		if err := os.MkdirAll(filepath.Join(dir, name), 0o755); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.WriteFile(filepath.Join(dir, currentFile+temporaryMark+"7"), nil, 0o644); err != nil {
		t.Fatal(err)
	}
	r := check(t, dir)
	if want := []string{generationName(1), generationName(4), currentFile + temporaryMark + "7"}; !cmp.Equal(r.Left, want) || !r.Whole() {
		t.Errorf("left %v, damage %v, want %v and none", r.Left, r.Damage, want)
	}
}
