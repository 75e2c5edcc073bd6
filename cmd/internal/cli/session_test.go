package cli

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"
)

var update = flag.Bool("update", false, "rewrite the expected output of the sessions")

// TestMain refuses to rewrite expectations where nobody reads them.
func TestMain(m *testing.M) {
	flag.Parse()
	if *update && os.Getenv("CI") != "" {
		fmt.Fprintln(os.Stderr, "-update rewrites what tests expect: not in CI")
		os.Exit(2)
	}
	time.Local = time.UTC // sessions show times
	os.Exit(m.Run())
}

// TestSessions runs the sessions in testdata/session: archives of input files
// and one file named "session" with commands, their output, and comments.
//
// A command is a line "$ [NAME=VALUE…] lowsone ARGS [< FILE] [> FILE]". Below it stand
// standard output as it is, standard error behind "2| ", and "exit N" where
// the code is not 0. TERMINAL=80 makes standard output a terminal of 80
// columns. $WORK stands for the folder the session runs in. An input file that is
// one line "@PATH" is a copy of that file of the tree, one that is a line "%wav …"
// a recording (see sound), and one that begins with a line "%xlsx" a workbook (see
// workbookOf).
func TestSessions(t *testing.T) {
	for _, file := range sessionFiles(t) {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txtar"), func(t *testing.T) {
			archive, err := txtar.ParseFile(file)
			if err != nil {
				t.Fatal(err)
			}
			work := t.TempDir()
			session := unpack(t, archive, work)
			t.Chdir(work)
			got := replay(t, string(session.Data), work)
			if *update {
				session.Data = []byte(got)
				rewrite(t, file, archive)
				return
			}
			if diff := cmp.Diff(strings.Split(string(session.Data), "\n"), strings.Split(got, "\n")); diff != "" {
				t.Errorf("session differs (-want +got):\n%s", diff)
			}
		})
	}
}

func sessionFiles(t *testing.T) []string {
	files, err := filepath.Glob(filepath.Join("testdata", "session", "*.txtar"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no sessions: %v", err)
	}
	for i, f := range files {
		if files[i], err = filepath.Abs(f); err != nil {
			t.Fatal(err)
		}
	}
	return files
}

func rewrite(t *testing.T, file string, archive *txtar.Archive) {
	if err := os.WriteFile(file, txtar.Format(archive), 0o666); err != nil {
		t.Fatal(err)
	}
}

// unpack writes the input files and gives the session.
func unpack(t *testing.T, archive *txtar.Archive, work string) *txtar.File {
	var session *txtar.File
	for i, f := range archive.Files {
		if f.Name == "session" {
			session = &archive.Files[i]
			continue
		}
		path := filepath.Join(work, filepath.FromSlash(f.Name))
		if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
			t.Fatal(err)
		}
		data := unescape(f.Data)
		if from, ok := strings.CutPrefix(string(f.Data), "@"); ok {
			data = ofTree(t, strings.TrimSpace(from))
		}
		if words, ok := strings.CutPrefix(string(f.Data), "%wav"); ok {
			data = parseSound(t, words).encode()
		}
		if rows, ok := strings.CutPrefix(string(f.Data), "%xlsx\n"); ok {
			data = workbookOf(t, rows)
		}
		if err := os.WriteFile(path, data, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	if session == nil {
		t.Fatal("no file named session")
	}
	return session
}

// ofTree reads a file of the tree.
func ofTree(t *testing.T, path string) []byte {
	data, err := os.ReadFile(filepath.Join("..", "..", "..", filepath.FromSlash(path)))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// unescape turns \xNN into that byte, so that archives hold no control
// characters.
func unescape(data []byte) []byte {
	var out []byte
	for len(data) > 0 {
		if bytes.HasPrefix(data, []byte(`\x`)) && len(data) >= 4 {
			if v, err := strconv.ParseUint(string(data[2:4]), 16, 8); err == nil {
				out = append(out, byte(v))
				data = data[4:]
				continue
			}
		}
		out = append(out, data[0])
		data = data[1:]
	}
	return out
}

// replay runs the commands of a session and gives it with what they print now.
func replay(t *testing.T, session, work string) string {
	var out strings.Builder
	inOutput := false
	for line := range strings.Lines(session) {
		switch {
		case strings.HasPrefix(line, "$ "):
			out.WriteString(line)
			out.WriteString(runLine(t, strings.TrimSpace(line[2:]), work))
			inOutput = true
		case strings.HasPrefix(line, "# "):
			out.WriteString(line)
			inOutput = false
		case !inOutput:
			out.WriteString(line)
		}
	}
	return out.String()
}

// runLine runs one command in this process.
func runLine(t *testing.T, line, work string) string {
	words, err := split(string(unescape([]byte(line))))
	if err != nil {
		t.Fatalf("%s: %v", line, err)
	}
	vars := map[string]string{"LOWSONE_CATALOG": filepath.Join(work, "catalogue")}
	for len(words) > 0 && strings.Contains(words[0], "=") {
		name, value, _ := strings.Cut(words[0], "=")
		vars[name], words = value, words[1:]
	}
	stdin := io.Reader(strings.NewReader(""))
	if n := len(words); n > 2 && words[n-2] == "<" {
		data, err := os.ReadFile(words[n-1])
		if err != nil {
			t.Fatal(err)
		}
		stdin, words = bytes.NewReader(data), words[:n-2]
	}
	into := ""
	if n := len(words); n > 2 && words[n-2] == ">" {
		into, words = words[n-1], words[:n-2]
	}
	if len(words) == 0 || words[0] != "lowsone" {
		t.Fatalf("%s: not a lowsone command", line)
	}
	stdout, stderr, code := run(t, stdin, vars, words[1:]...)
	if into != "" {
		if err := os.WriteFile(into, []byte(stdout), 0o666); err != nil {
			t.Fatal(err)
		}
		stdout = ""
	}
	return portable(asText(stdout, stderr, code), work)
}

// portable takes out of a text what hangs on the name of the folder: the name
// itself, and the width of a table that holds it; and sizes of files of a
// catalogue, which hang on the machine.
func portable(text, work string) string {
	text = regexp.MustCompile(`\d+ were written`).ReplaceAllString(text, "N were written")
	paragraphs := strings.Split(text, "\n\n")
	for i, p := range paragraphs {
		if strings.Contains(p, work) {
			paragraphs[i] = regexp.MustCompile("─+").ReplaceAllString(p, "────────")
		}
	}
	return strings.ReplaceAll(strings.Join(paragraphs, "\n\n"), work, "$WORK")
}

// run runs the program in this process, with nothing of the real person's
// folders, variables or clock in reach.
func run(t *testing.T, stdin io.Reader, vars map[string]string, args ...string) (stdout, stderr string, code int) {
	t.Helper()
	var out, errs bytes.Buffer
	env := Env{
		Stdin: stdin, Stdout: &out, Stderr: &errs,
		Getenv:   func(name string) string { return vars[name] },
		Now:      func() time.Time { return time.Date(2030, 4, 5, 10, 30, 0, 0, time.UTC) },
		DataHome: vars["DATA_HOME"],
		Terminal: func(stream io.Writer) (int, bool) {
			name := "TERMINAL"
			if stream == &errs {
				name = "STDERR"
			}
			width, err := strconv.Atoi(vars[name])
			return width, err == nil
		},
	}
	code = Main(context.Background(), args, env)
	return out.String(), errs.String(), code
}

// asText writes down what a command printed.
func asText(stdout, stderr string, code int) string {
	text := visible(stdout)
	if text != "" && !strings.HasSuffix(text, "\n") {
		text += "\\\n"
	}
	for line := range strings.Lines(visible(stderr)) {
		text += "2| " + strings.TrimSuffix(line, "\n") + "\n"
	}
	if code != exitDone {
		text += fmt.Sprintf("exit %d\n", code)
	}
	return text
}

// visible shows escape sequences, so that a session holds no control
// characters.
func visible(text string) string { return strings.ReplaceAll(text, "\x1b", `\e`) }

// split takes a command line apart as a shell does: blanks, single and double
// quotes.
func split(line string) ([]string, error) {
	var words []string
	var word strings.Builder
	quote, open := rune(0), false
	for _, r := range line {
		switch {
		case quote != 0 && r == quote:
			quote = 0
		case quote != 0:
			word.WriteRune(r)
		case r == '"' || r == '\'':
			quote, open = r, true
		case r == ' ':
			if open || word.Len() > 0 {
				words = append(words, word.String())
			}
			word.Reset()
			open = false
		default:
			word.WriteRune(r)
		}
	}
	if quote != 0 {
		return nil, fmt.Errorf("quote not closed")
	}
	if open || word.Len() > 0 {
		words = append(words, word.String())
	}
	return words, nil
}
