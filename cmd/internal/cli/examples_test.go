package cli

import (
	"bytes"
	"io"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/spf13/cobra"
)

// everyCommand lists the program and all its commands, with those below them.
func everyCommand() []*cobra.Command {
	env := Env{Stdin: strings.NewReader(""), Stdout: io.Discard, Stderr: io.Discard,
		Getenv: func(string) string { return "" }, Now: time.Now}
	root := newRootCmd(newSession(env))
	all := []*cobra.Command{root}
	for i := 0; i < len(all); i++ {
		all = append(all, all[i].Commands()...)
	}
	return all
}

// TestEveryExampleIsRun looks for each example of the help among the commands
// of the sessions.
func TestEveryExampleIsRun(t *testing.T) {
	var sessions bytes.Buffer
	for _, file := range sessionFiles(t) {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		sessions.Write(data)
	}
	for _, cmd := range everyCommand() {
		if cmd.HasParent() && cmd.Name() != "help" && cmd.Example == "" {
			t.Errorf("%s has no example", cmd.Name())
		}
		for example := range strings.Lines(cmd.Example) {
			line := strings.TrimSpace(example)
			if run := "\n$ " + line; !strings.Contains(sessions.String(), run+"\n") && !strings.Contains(sessions.String(), run+" > ") {
				t.Errorf("no session runs the example of %s: %s", cmd.Name(), line)
			}
		}
	}
}

// TestExamplesOnTheDemo runs the examples that name parts or values on the demo's
// list: they work there.
func TestExamplesOnTheDemo(t *testing.T) {
	vars := atDemo(t)
	for _, cmd := range everyCommand() {
		switch cmd.Name() {
		case "search", "show", "system", "rank", "shortlist", "slow":
		default:
			continue
		}
		for example := range strings.Lines(cmd.Example) {
			words, err := split(strings.TrimSpace(example))
			if err != nil {
				t.Fatal(err)
			}
			if _, stderr, code := run(t, strings.NewReader(""), vars, words[1:]...); code != exitDone {
				t.Errorf("%s: exit %d: %s", strings.TrimSpace(example), code, stderr)
			}
		}
	}
}

// TestHelpOfEveryCommand asks each command for its help.
func TestHelpOfEveryCommand(t *testing.T) {
	for _, cmd := range everyCommand() {
		args := append(strings.Fields(cmd.CommandPath())[1:], "--help")
		stdout, stderr, code := run(t, strings.NewReader(""), nil, args...)
		if code != exitDone || stderr != "" || !strings.Contains(stdout, "usage: "+cmd.CommandPath()) {
			t.Errorf("lowsone %s: exit %d, stdout %q, stderr %q", strings.Join(args, " "), code, stdout, stderr)
		}
		for line := range strings.Lines(stdout) {
			if n := len([]rune(strings.TrimRight(line, "\n"))); n > 80 {
				t.Errorf("lowsone %s: %d characters wide: %s", strings.Join(args, " "), n, line)
			}
		}
	}
}
