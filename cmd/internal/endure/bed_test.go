package endure

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
)

// program builds the program once for all tests.
var program = sync.OnceValues(func() (string, error) {
	dir, err := os.MkdirTemp("", "lowsone-endure-")
	if err != nil {
		return "", err
	}
	path := filepath.Join(dir, "lowsone")
	// Whose the work tree is, and whether git is there, does not matter here.
	out, err := exec.Command("go", "build", "-buildvcs=false", "-o", path, "lowsone/cmd/lowsone").CombinedOutput()
	if err != nil {
		return "", errors.Join(fmt.Errorf("go build: %w: %s", err, out), os.RemoveAll(dir))
	}
	return path, errors.Join(os.Chmod(dir, 0o755), os.Chmod(path, 0o755)) // others run it, too
})

// TestMain removes what program built.
func TestMain(m *testing.M) {
	if limited() {
		return // this process has become the program
	}
	code := m.Run()
	if path, err := program(); err == nil {
		os.RemoveAll(filepath.Dir(path))
	}
	os.Exit(code)
}

// A bed is a folder with a catalogue and two parts lists that take turns as its
// only source: they share most of their parts, but not their words.
type bed struct {
	t       *testing.T
	program string
	dir     string
	cat     string
	tmp     string // for temporary files
	lists   [2]string
	answers [2]answer // of a catalogue that holds the list
	state   int       // list that the catalogue holds
	time    time.Duration
}

// answer is what a catalogue says of all it holds, and of some words.
type answer struct{ all, winter string }

// rows is how many rows a list has: enough for an import to be hit anywhere.
const rows = 1500

func newBed(t *testing.T) *bed {
	t.Helper()
	path, err := program()
	if err != nil {
		t.Fatal(err)
	}
	b := &bed{t: t, program: path, dir: t.TempDir()}
	b.cat, b.tmp = filepath.Join(b.dir, "catalogue"), filepath.Join(b.dir, "tmp")
	if err := os.Mkdir(b.tmp, 0o777); err != nil {
		t.Fatal(err)
	}
	for i, season := range []string{"summer", "winter"} {
		b.lists[i] = filepath.Join(b.dir, season+".csv")
		if err := os.WriteFile(b.lists[i], list(season, i), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	for i := range b.lists {
		began := time.Now()
		b.mustImport(i)
		b.time = time.Since(began)
		b.answers[i] = b.ask()
	}
	if b.answers[0] == b.answers[1] || strings.Contains(b.answers[0].winter, "LX-") || !strings.Contains(b.answers[1].winter, "LX-") {
		t.Fatal("the two lists do not give two answers")
	}
	return b
}

// list makes a parts list of invented fans; every thousandth row is rejected.
func list(season string, n int) []byte {
	var out bytes.Buffer
	out.WriteString("part,maker,kind,width_mm,height_mm,depth_mm,voltage_v,supply,airflow_m3h,static_pressure_pa,noise_dba,price,currency,description\n")
	for i := n * rows / 10; i < n*rows/10+rows; i++ {
		width := "60"
		if i%1000 == 999 {
			width = "sixty"
		}
		fmt.Fprintf(&out, "LX-%d,Nordwehe,axial,%s,60,25,12,dc,%d.5,%d,%d,%d.25,EUR,%s stock %d\n",
			i, width, 20+i%50, 30+i%90, 20+i%25, 3+i%7+n, season, i)
	}
	return out.Bytes()
}

// command is the program with the bed's catalogue and temporary files.
func (b *bed) command(args ...string) *exec.Cmd {
	cmd := exec.CommandContext(context.Background(), b.program, append([]string{"--catalog", b.cat}, args...)...)
	cmd.Env = append(os.Environ(), "TMPDIR="+b.tmp)
	return cmd
}

// run runs a command to its end.
func (b *bed) run(args ...string) (stdout, stderr string, code int) {
	b.t.Helper()
	return b.finish(b.command(args...))
}

func (b *bed) finish(cmd *exec.Cmd) (stdout, stderr string, code int) {
	b.t.Helper()
	var out, errs bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &errs
	err := cmd.Run()
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		b.t.Fatal(err)
	}
	return out.String(), errs.String(), cmd.ProcessState.ExitCode()
}

// must runs a command that has to succeed.
func (b *bed) must(args ...string) string {
	b.t.Helper()
	stdout, stderr, code := b.run(args...)
	if code != 0 {
		b.t.Fatalf("lowsone %s: exit %d: %s", strings.Join(args, " "), code, stderr)
	}
	return stdout
}

// importOf gives the arguments that import a list as the one source.
func (b *bed) importOf(n int) []string {
	return []string{"import", b.lists[n], "--source", "list", "-q", "--format", "json"}
}

func (b *bed) mustImport(n int) {
	b.t.Helper()
	b.must(b.importOf(n)...)
	b.state = n
}

// ask asks for all fans, and for those with certain words.
func (b *bed) ask() answer {
	b.t.Helper()
	ask := func(words ...string) string {
		stdout, stderr, code := b.run(append([]string{"search", "--format", "json", "-q"}, words...)...)
		if code != 0 && code != 3 {
			b.t.Fatalf("search %v: exit %d: %s", words, code, stderr)
		}
		return stdout
	}
	return answer{ask(), ask("winter")}
}

// whole looks which of the two lists the catalogue holds, and that it is whole.
func (b *bed) whole() (state int) {
	b.t.Helper()
	got := b.ask()
	state = -1
	for i := range b.answers {
		if got == b.answers[i] {
			state = i
		}
	}
	if state < 0 {
		b.t.Fatalf("the catalogue answers as neither: %d bytes for all, %d for words", len(got.all), len(got.winter))
	}
	if stdout, stderr, code := b.run("catalog", "check"); code != 0 {
		b.t.Fatalf("catalog check: exit %d: %s%s", code, stdout, stderr)
	}
	var holds struct{ Fans int }
	if err := json.Unmarshal([]byte(b.must("catalog", "--format", "json")), &holds); err != nil || holds.Fans != rows-rows/1000 {
		b.t.Fatalf("it holds %d fans, %v, want %d", holds.Fans, err, rows-rows/1000)
	}
	return state
}

// swept fails where anything stands in the catalogue's folder, or among the
// temporary files, that is not promised.
func (b *bed) swept() {
	b.t.Helper()
	generations := 0
	for _, name := range b.names(b.cat) {
		switch {
		case strings.HasPrefix(name, "gen-"):
			generations++
		case name != "CURRENT" && name != "LOCK" && name != "rejects-list.csv":
			b.t.Errorf("%s is left in the catalogue's folder", name)
		}
	}
	if generations > 2 {
		b.t.Errorf("%d generations are left: %v", generations, b.names(b.cat))
	}
	if left := b.names(b.tmp); len(left) > 0 {
		b.t.Errorf("temporary files are left: %v", left)
	}
}

func (b *bed) names(dir string) (names []string) {
	b.t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		b.t.Fatal(err)
	}
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names
}
