package store

import (
	"context"
	"errors"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func repair(t *testing.T, dir string) *Repaired {
	t.Helper()
	r, err := Repair(context.Background(), dir, day, nil)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func TestRepairOfAWholeCatalogue(t *testing.T) {
	dir := kept(t)
	before := left(t, dir)
	if r := repair(t, dir); !r.Report.Whole() || r.Generation != 0 || r.Rows != 200 {
		t.Errorf("repair of a whole catalogue: %+v", r)
	}
	if got := left(t, dir); !cmp.Equal(got, before) {
		t.Errorf("it leaves %v, want %v", got, before)
	}
	var none *NoneError
	if _, err := Repair(context.Background(), filepath.Join(t.TempDir(), "nowhere"), day, nil); !errors.As(err, &none) {
		t.Errorf("repair where nothing is = %v, want a NoneError", err)
	}
}

// Whatever one thing is damaged: afterwards all is whole, and at most the rows of
// one block of the source imported last are lost, which importing it brings back.
func TestRepairOfAnyDamage(t *testing.T) {
	fresh := kept(t)
	want := answers(t, fresh)
	r := rand.New(rand.NewPCG(7, 8))
	for n := range len(files(t, fresh)) {
		for _, how := range []string{"flipped", "cut", "gone"} {
			dir := t.TempDir()
			if err := os.CopyFS(dir, os.DirFS(fresh)); err != nil {
				t.Fatal(err)
			}
			path := files(t, dir)[n]
			what := how + " " + strings.TrimPrefix(path, dir)
			spoilFile(t, path, how, r)
			wantRepaired(t, what, dir, want)
		}
	}
}

func spoilFile(t *testing.T, path, how string, r *rand.Rand) {
	t.Helper()
	switch how {
	case "gone":
		if err := os.Remove(path); err != nil {
			t.Fatal(err)
		}
	case "cut":
		overwrite(t, path, func(b []byte) []byte { return b[:r.IntN(len(b))] })
	default:
		overwrite(t, path, func(b []byte) []byte { b[r.IntN(len(b))] ^= 1 << r.IntN(8); return b })
	}
}

func wantRepaired(t *testing.T, what, dir string, want []any) {
	t.Helper()
	r, err := Repair(context.Background(), dir, day, nil)
	if err != nil {
		t.Errorf("%s: %v", what, err)
		return
	}
	if len(r.Lost) > 0 {
		big := strings.HasPrefix(what, "cut /gen-000003") || strings.HasPrefix(what, "gone /gen-000003")
		if len(r.Lost) > 1 || r.Lost[0].Source != "c.csv" || r.Lost[0].Rows > blockRows && !big || !cmp.Equal(r.Lost, r.Report.Lost) {
			t.Errorf("%s: lost %v, foretold %v", what, r.Lost, r.Report.Lost)
		}
		fans := inventedFans(200)
		for i, f := range fans {
			if i%3 == 0 {
				f.Description = f.Part + " with words of its own"
			}
		}
		if again := fill(t, dir, "c.csv", fans[120:]...); again.New != TotalRows(r.Lost) || again.Changed > 0 {
			t.Errorf("%s: importing c.csv again gives %+v, want %d new rows", what, again.Counts, TotalRows(r.Lost))
		}
	}
	if after := check(t, dir); !after.Whole() || len(after.Left) > 0 && r.Generation > 0 && !r.Pointed {
		t.Errorf("%s: afterwards %+v", what, after)
	}
	if diff := cmp.Diff(want, answers(t, dir), cmp.Exporter(exported)); diff != "" {
		t.Errorf("%s: afterwards answers differ (-want +got):\n%s", what, diff)
	}
}

// A repair that is stopped leaves everything as it was.
func TestRepairStopped(t *testing.T) {
	dir := kept(t)
	damageRow(t, dir, 150)
	before := left(t, dir)
	ctx, cancel := context.WithCancel(context.Background())
	_, err := Repair(ctx, dir, day, func(p Progress) { cancel() })
	if !errors.Is(err, context.Canceled) {
		t.Errorf("a repair that is stopped = %v", err)
	}
	if got := left(t, dir); !cmp.Equal(got, before) {
		t.Errorf("it leaves %v, want %v", got, before)
	}
}

// What is left of a damaged generation stays where rows were lost, until another
// import.
func TestRepairKeepsWhatWasLost(t *testing.T) {
	dir := kept(t)
	damageRow(t, dir, 150) // of c.csv: the generation before has none of it
	r := repair(t, dir)
	if want := []Loss{{"c.csv", blockRows}}; !cmp.Equal(r.Lost, want) || r.Rows != 200-blockRows {
		t.Errorf("lost %v of %d, want %v", r.Lost, r.Rows, want)
	}
	if got, want := left(t, dir), []string{"CURRENT", "LOCK", "gen-000003", "gen-000004"}; !cmp.Equal(got, want) || r.Kept != 3 {
		t.Errorf("it leaves %v, and says that it keeps %d, want %v and 3", got, r.Kept, want)
	}
	if again := repair(t, dir); again.Kept != 0 || len(again.Lost) > 0 {
		t.Errorf("the next repair keeps %d and loses %v, want neither", again.Kept, again.Lost)
	}
	if report, err := Check(context.Background(), dir, nil); err != nil || !report.Whole() {
		t.Errorf("after the next repair there is %+v, %v", report, err)
	}
}

func TestRepairOfAPointer(t *testing.T) {
	dir := kept(t)
	overwrite(t, filepath.Join(dir, currentFile), func([]byte) []byte { return []byte("gen-000002 12345678\n") })
	before := left(t, dir)
	if r := repair(t, dir); !r.Pointed || r.Generation != 3 {
		t.Errorf("repair of a pointer: %+v", r)
	}
	if got := left(t, dir); !cmp.Equal(got, before) || !check(t, dir).Whole() {
		t.Errorf("it leaves %v, want %v", got, before)
	}
}

func TestRepairOfNothing(t *testing.T) {
	dir := t.TempDir()
	fill(t, dir, "a.csv", part("A1"))
	for _, path := range files(t, filepath.Join(dir, generationName(1))) {
		if err := os.Truncate(path, 0); err != nil {
			t.Fatal(err)
		}
	}
	var nothing *NothingLeftError
	if _, err := Repair(context.Background(), dir, day, nil); !errors.As(err, &nothing) || nothing.Hint() == "" {
		t.Errorf("repair of an empty generation = %v, want a NothingLeftError", err)
	}
	fill(t, dir, "a.csv", part("A1")) // and importing is the way back
	if r := check(t, dir); !r.Whole() {
		t.Errorf("afterwards %+v", r)
	}
}

func TestRepairWaitsForNoImport(t *testing.T) {
	dir := kept(t)
	b := begin(t, dir, "b.csv")
	defer b.Abort()
	var busy *BusyError
	if _, err := Repair(context.Background(), dir, day, nil); !errors.As(err, &busy) {
		t.Errorf("repair beside an import = %v, want a BusyError", err)
	}
}

func TestForget(t *testing.T) {
	dir := kept(t)
	before := open(t, dir)
	want := partsOf(all(t, before))
	before.Close()
	var none *NoSourceError
	if _, err := Forget(context.Background(), dir, "d.csv", day, nil); !errors.As(err, &none) || !cmp.Equal(none.Sources, []string{"a.csv", "b.csv", "c.csv"}) {
		t.Errorf("forgetting what is not there = %v, want a NoSourceError with the sources", err)
	}
	r, err := Forget(context.Background(), dir, "b.csv", day, nil)
	if err != nil || r.Removed != 100 || r.Rows != 100 {
		t.Errorf("Forget = %+v, %v", r, err)
	}
	if got := names(t, dir); !cmp.Equal(got, append(want[:20:20], want[120:]...)) {
		t.Errorf("without b.csv there is %v", got)
	}
	if r := check(t, dir); !r.Whole() {
		t.Errorf("afterwards %+v", r)
	}
	for _, name := range []string{"a.csv", "c.csv"} {
		if _, err := Forget(context.Background(), dir, name, day, nil); err != nil {
			t.Fatal(err)
		}
	}
	if got := names(t, dir); len(got) != 0 {
		t.Errorf("without any source there is %v", got)
	}
	fill(t, dir, "a.csv", part("A1"))
	if r := check(t, dir); !r.Whole() || r.Rows != 1 {
		t.Errorf("after all was forgotten and one imported: %+v", r)
	}
}
