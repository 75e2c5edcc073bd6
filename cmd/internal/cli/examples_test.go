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

// TestHelpOfEveryCommand asks each command for its help.
func TestHelpOfEveryCommand(t *testing.T) {
	for _, cmd := range everyCommand() {
		args := append(strings.Fields(cmd.CommandPath())[1:], "--help")
		stdout, stderr, code := run(t, strings.NewReader(""), nil, args...)
		if code != exitDone || stderr != "" || !strings.Contains(stdout, "usage: "+cmd.CommandPath()) {
			t.Errorf("lowsone %s: exit %d, stdout %q, stderr %q", strings.Join(args, " "), code, stdout, stderr)
		}
		for line := range strings.Lines(stdout) {
			if strings.HasPrefix(line, "  lowsone ") {
				continue // an example is one line, however long
			}
			if n := len([]rune(strings.TrimRight(line, "\n"))); n > 80 {
				t.Errorf("lowsone %s: %d characters wide: %s", strings.Join(args, " "), n, line)
			}
		}
	}
}
