package bench

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"lowsone/cmd/internal/demo/gen"
)

var sizes = []int{10_000, 100_000}

// A bed is a folder with the program and a plain CSV of n invented fans.
type bed struct {
	dir, program, csv string
	rows              int
}

func newBed(b *testing.B, n int) *bed {
	b.Helper()
	dir := b.TempDir()
	s := &bed{dir: dir, program: filepath.Join(dir, "lowsone"), csv: filepath.Join(dir, "fans.csv"), rows: n}
	s.run(b, nil, "go", "build", "-o", s.program, "lowsone/cmd/lowsone")
	var text bytes.Buffer
	if err := gen.WritePlain(&text, gen.Catalogue(gen.DemoSeed, n)); err != nil {
		b.Fatal(err)
	}
	if err := os.WriteFile(s.csv, text.Bytes(), 0o600); err != nil {
		b.Fatal(err)
	}
	return s
}

// run runs a program to its end and gives its standard output.
func (s *bed) run(b *testing.B, stdin []byte, name string, args ...string) string {
	b.Helper()
	var stdout, stderr bytes.Buffer
	cmd := exec.CommandContext(context.Background(), name, args...)
	cmd.Stdin, cmd.Stdout, cmd.Stderr = bytes.NewReader(stdin), &stdout, &stderr
	if err := cmd.Run(); err != nil {
		b.Fatalf("%s %s: %v\n%s", name, strings.Join(args, " "), err, stderr.String())
	}
	return stdout.String()
}

// lowsone runs a command on the catalogue in the folder named.
func (s *bed) lowsone(b *testing.B, catalogue string, args ...string) string {
	b.Helper()
	return s.run(b, nil, s.program, append([]string{"--catalog", filepath.Join(s.dir, catalogue), "-q"}, args...)...)
}

// importAll imports the fans into the catalogue in the folder named, and fails
// unless nearly all of them came in.
func (s *bed) importAll(b *testing.B, catalogue string) {
	b.Helper()
	var account struct{ Rows, Imported int }
	out := s.lowsone(b, catalogue, "--format", "json", "import", s.csv)
	if err := json.Unmarshal([]byte(out), &account); err != nil {
		b.Fatalf("import: %v: %q", err, out)
	}
	if account.Rows != s.rows || account.Imported < s.rows*9/10 {
		b.Fatalf("import: %d rows, %d imported, want %d rows and nearly all imported", account.Rows, account.Imported, s.rows)
	}
}

// time3 gives the least of three times of f, in seconds.
func time3(f func()) float64 {
	least := time.Duration(1<<63 - 1)
	for range 3 {
		begin := time.Now()
		f()
		least = min(least, time.Since(begin))
	}
	return least.Seconds()
}

// report gives the metrics of a benchmark of a whole command, beside a rival's
// seconds.
func (s *bed) report(b *testing.B, rival float64) {
	b.Helper()
	own := b.Elapsed().Seconds() / float64(b.N)
	b.ReportMetric(float64(s.rows)/own, "rows/s")
	if rival > 0 {
		b.ReportMetric(1000*rival, "rival-ms/op")
		b.ReportMetric(own/rival, "x-rival")
	}
}

// each runs a benchmark at every size.
func each(b *testing.B, run func(b *testing.B, s *bed)) {
	b.Helper()
	for _, n := range sizes {
		b.Run(fmt.Sprintf("rows=%d", n), func(b *testing.B) { run(b, newBed(b, n)) })
	}
}
