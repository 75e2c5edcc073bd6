package intake

import (
	"bytes"
	"context"
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lowsone/catalog"
	"lowsone/catalog/partscsv"
	"lowsone/catalog/store"
	"lowsone/catalog/tabular"
)

// addsUp fails where an account does not add up.
func addsUp(t fataler, a Account, raw []string) {
	t.Helper()
	if a.Rows != a.Imported+a.Rejected+a.Repeated || a.Fans > a.Imported+a.Repeated || a.Rows != len(raw) {
		t.Fatalf("account does not add up: %d rows of %d = %d imported + %d rejected + %d repeated, %d fans",
			a.Rows, len(raw), a.Imported, a.Rejected, a.Repeated, a.Fans)
	}
}

// checkRejects fails where a rejected row is not in the rejects file whole.
func checkRejects(t fataler, a Account, raw []string) {
	t.Helper()
	if (a.RejectsFile != "") != (a.Rejected > 0) {
		t.Fatalf("%d rejected, rejects file %q", a.Rejected, a.RejectsFile)
	}
	if a.Rejected == 0 {
		return
	}
	text, err := os.ReadFile(a.RejectsFile)
	if err != nil {
		t.Fatalf("%v", err)
	}
	records, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	if err != nil || len(records) != a.Rejected+1 {
		t.Fatalf("rejects file holds %d rows (%v), want %d", len(records)-1, err, a.Rejected)
	}
	for _, r := range records[1:] {
		if !containsRow(raw, r[6]) {
			t.Fatalf("rejects file holds %q, which is no row of the file", r[6])
		}
	}
}

type fataler interface {
	Helper()
	Fatalf(string, ...any)
}

// containsRow looks for a row among raw ones, as CSV and catalog.Guarded change them.
func containsRow(raw []string, row string) bool {
	for _, text := range raw {
		if strings.ReplaceAll(catalog.Guarded(text), "\r\n", "\n") == row {
			return true
		}
	}
	return false
}

// rawRows lists the rows of a file as they stand in it.
func rawRows(file string, data []byte) ([]string, error) {
	ctx := context.Background()
	o := tabular.Options{HeaderScore: partscsv.NewHeaders().Score}
	f, err := tabular.Open(ctx, file, bytes.NewReader(data), int64(len(data)), o)
	if err != nil {
		return nil, err
	}
	var list []string
	for row, err := range f.Rows(ctx) {
		if err != nil {
			return nil, err
		}
		list = append(list, row.Raw())
	}
	return list, nil
}

func FuzzImport(f *testing.F) {
	names, err := filepath.Glob(filepath.Join("..", "..", "testdata", "csv", "*.?sv"))
	if err != nil || len(names) < 6 {
		f.Fatalf("seeds = %v, %v", names, err)
	}
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Add([]byte("part,width_mm\nA1,60\nA1,60\n-,60\nA2\n\"=A3\",0\n"))
	f.Add([]byte("Typ;Breite\nA1;60;;\n\"a\r\nb\";6O\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		dir := t.TempDir()
		file := filepath.Join(dir, "f.csv")
		if err := os.WriteFile(file, data, 0o600); err != nil {
			t.Fatal(err)
		}
		a, err := countOnly(Options{File: file, Catalog: dir})
		if err != nil {
			return
		}
		raw, err := rawRows(file, data)
		if err != nil {
			t.Fatal(err)
		}
		if len(raw) == a.Rows+1 { // the first is a second header of units
			raw = raw[1:]
		}
		addsUp(t, a, raw)
		checkRejects(t, a, raw)
	})
}

// countOnly is Run without the catalogue: rows are read and compared, and the
// rejected ones written.
func countOnly(o Options) (Account, error) {
	ctx := context.Background()
	r := &run{o: &o}
	in, err := openInput(ctx, &o)
	if err != nil {
		return r.account, err
	}
	defer in.close()
	r.in = in
	if err := r.open(ctx); err != nil {
		return r.account, err
	}
	if err := r.makePlan(ctx); err != nil {
		return r.account, err
	}
	ledger, err := store.NewLedger(ctx, nil, "f")
	if err != nil {
		return r.account, err
	}
	r.sink = comparison{ledger}
	if r.rejects, err = newRejectsFile(&o, "f", in); err != nil {
		return r.account, err
	}
	defer r.rejects.drop()
	if _, err := r.rows(ctx); err != nil {
		return r.account, err
	}
	r.close(ledger.Settle())
	if err := r.rejects.prepare(); err != nil {
		return r.account, err
	}
	r.account.RejectsFile, err = r.rejects.finish()
	return r.account, err
}

// Property: rows = imported + rejected + repeated, with rows good, bad, ragged
// and repeated in any order, compared with a catalogue that holds some of them.
func TestAccountsAddUp(t *testing.T) {
	dir := t.TempDir()
	file, cat := filepath.Join(dir, "f.csv"), filepath.Join(dir, "c")
	const header = "part;width_mm;airflow_m3h;noise_dba\nSURE;60;45;30\n"
	write := func(t fataler, rows string) []byte {
		data := []byte(header + rows)
		if err := os.WriteFile(file, data, 0o600); err != nil {
			t.Fatalf("%v", err)
		}
		return data
	}
	write(t, "A1;60;45;30\nA2;80;45;30\nGONE;80;45;30\n")
	if _, err := Run(context.Background(), Options{File: file, Catalog: cat}); err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(t *rapid.T) {
		var rows strings.Builder
		for range rapid.IntRange(0, 12).Draw(t, "rows") {
			part := rapid.SampledFrom([]string{"A1", "a 1", "A2", "B3", "", "-", "=C"}).Draw(t, "part")
			size := rapid.SampledFrom([]string{"60", "80", "0", "", "6O"}).Draw(t, "size")
			flow := rapid.SampledFrom([]string{"45", "50", "n/a", "45;9", "45/53"}).Draw(t, "flow")
			fmt.Fprintf(&rows, "%s;%s;%s;30\n", part, size, flow)
		}
		data := write(t, rows.String())
		a, err := Run(context.Background(), Options{File: file, Catalog: cat, DryRun: true})
		if err != nil {
			t.Fatal(err)
		}
		raw, err := rawRows(file, data)
		if err != nil {
			t.Fatal(err)
		}
		addsUp(t, a, raw)
	})
}
