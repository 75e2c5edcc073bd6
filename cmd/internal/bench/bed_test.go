package bench

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"lowsone/cmd/internal/demo/gen"
)

// A bed is a folder with the program and a plain CSV of n invented fans.
type bed struct {
	dir, program, csv string
	rows              int
}

func newBed(b *testing.B, n int) *bed {
	b.Helper()
	dir := b.TempDir()
	s := &bed{dir: dir, program: filepath.Join(dir, "lowsone"), csv: filepath.Join(dir, "fans.csv"), rows: n}
	s.run(b, nil, "go", "build", "-buildvcs=false", "-o", s.program, "lowsone/cmd/lowsone")
	s.run(b, nil, "env", writtenTo+"="+s.csv, writtenRows+"="+strconv.Itoa(n), os.Args[0], "-test.run=^TestWriteFans$")
	return s
}

// What TestWriteFans writes.
const (
	writtenTo   = "LOWSONE_BENCH_CSV"
	writtenRows = "LOWSONE_BENCH_CSV_ROWS"
)

// TestWriteFans writes the fans of a bed, as a process of its own: one that has
// held them would pass on its memory, as the system counts it, to all that it
// starts.
func TestWriteFans(t *testing.T) {
	path := os.Getenv(writtenTo)
	if path == "" {
		t.Skip("only as a process of newBed")
	}
	n, err := strconv.Atoi(os.Getenv(writtenRows))
	if err != nil {
		t.Fatal(err)
	}
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(gen.WritePlain(f, gen.Catalogue(gen.DemoSeed, n)), f.Close()); err != nil {
		t.Fatal(err)
	}
}

// at names something in the folder.
func (s *bed) at(name string) string { return filepath.Join(s.dir, name) }

// outcome is what came of one run of a program.
type outcome struct {
	out     string
	seconds float64
	peak    int64 // bytes of memory at the most; 0 where the system does not tell
}

// run runs a program to its end.
func (s *bed) run(b *testing.B, stdin []byte, name string, args ...string) outcome {
	b.Helper()
	var stdout, stderr bytes.Buffer
	cmd := exec.CommandContext(context.Background(), name, args...)
	cmd.Stdin, cmd.Stdout, cmd.Stderr = bytes.NewReader(stdin), &stdout, &stderr
	begin := time.Now()
	if err := cmd.Run(); err != nil {
		b.Fatalf("%s %s: %v\n%s", name, strings.Join(args, " "), err, stderr.String())
	}
	return outcome{stdout.String(), time.Since(begin).Seconds(), peakOf(cmd.ProcessState)}
}

// lowsone runs a command on the catalogue in the folder named.
func (s *bed) lowsone(b *testing.B, catalogue string, args ...string) outcome {
	b.Helper()
	return s.run(b, nil, s.program, append([]string{"--catalog", s.at(catalogue), "-q"}, args...)...)
}

// importAll imports the fans into a new catalogue in the folder named, and fails
// unless nearly all of them came in.
func (s *bed) importAll(b *testing.B, catalogue string) outcome {
	b.Helper()
	if err := os.RemoveAll(s.at(catalogue)); err != nil {
		b.Fatal(err)
	}
	var account struct{ Rows, Imported int }
	o := s.lowsone(b, catalogue, "--format", "json", "import", s.csv)
	if err := json.Unmarshal([]byte(o.out), &account); err != nil {
		b.Fatalf("import: %v: %q", err, o.out)
	}
	if account.Rows != s.rows || account.Imported < s.rows*9/10 {
		b.Fatalf("import: %d rows, %d imported, want %d rows and nearly all imported", account.Rows, account.Imported, s.rows)
	}
	return o
}

// size gives the bytes of a file, or of all files in a folder.
func (s *bed) size(b *testing.B, name string) (total int64) {
	b.Helper()
	err := filepath.WalkDir(s.at(name), func(_ string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		info, err := e.Info()
		total += info.Size()
		return err
	})
	if err != nil {
		b.Fatal(err)
	}
	return total
}

func (s *bed) String() string { return count(s.rows) }

// count writes a number of rows as people say it: 10k, 1M.
func count(n int) string {
	switch {
	case n >= 1_000_000 && n%1_000_000 == 0:
		return fmt.Sprintf("%dM", n/1_000_000)
	case n >= 1000 && n%1000 == 0:
		return fmt.Sprintf("%dk", n/1000)
	}
	return fmt.Sprint(n)
}
