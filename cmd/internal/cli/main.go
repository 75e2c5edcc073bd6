package cli

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"runtime"
	"strings"
	"syscall"

	"lowsone/cmd/internal/view"
)

// slackBytes is memory that is asked for and never touched, which costs none. The
// garbage collector runs when the heap has doubled; most commands keep little, so
// that it would run a hundred times a second. This makes the little more: a tenth
// of the time of an import, and of a ranking.
const slackBytes = 32 << 20

// Main runs one command line, without the program's name, and gives the exit
// code.
func Main(ctx context.Context, args []string, env Env) int {
	slack := make([]byte, slackBytes)
	defer runtime.KeepAlive(slack)
	s := newSession(env)
	root := newRootCmd(s)
	root.SetArgs(args)
	err := root.ExecuteContext(ctx)
	if flushErr := s.out.Flush(); err == nil {
		err = flushErr
	}
	if err == nil || errors.Is(err, syscall.EPIPE) {
		return exitDone // whoever reads has seen enough
	}
	s.printError(err)
	return codeOf(err)
}

// printError prints an error, and its hint on a line of its own.
func (s *session) printError(err error) {
	if errors.Is(err, context.Canceled) {
		err = errors.New("interrupted")
	}
	s.tell("lowsone: " + err.Error())
	if hint := hintOf(err); hint != "" {
		s.tell("hint: " + hint)
	}
}

// tell writes a message for the person. At a terminal it is broken to its width,
// but for lines that are indented: those are to be copied, or point at a place.
func (s *session) tell(message string) {
	message = cleanLines(message)
	if width, terminal := s.env.Terminal(s.env.Stderr); terminal {
		lines := strings.Split(message, "\n")
		for i, line := range lines {
			if !strings.HasPrefix(line, " ") {
				lines[i] = view.Broken(line, width)
			}
		}
		message = strings.Join(lines, "\n")
	}
	fmt.Fprintln(s.env.Stderr, message)
}

// cleanLines cleans a message that may have several lines.
func cleanLines(text string) string {
	lines := strings.Split(text, "\n")
	for i, line := range lines {
		indent := line[:len(line)-len(strings.TrimLeft(line, " "))]
		lines[i] = indent + view.Clean(line[len(indent):])
	}
	return strings.Join(lines, "\n")
}

func newSession(env Env) *session {
	if env.Terminal == nil {
		env.Terminal = view.Terminal
	}
	width, terminal := env.Terminal(env.Stdout)
	return &session{env: env, out: bufio.NewWriter(env.Stdout), style: view.StyleOf(width, terminal, env.Getenv)}
}
