package cli

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"strings"
	"syscall"

	"lowsone/cmd/internal/view"
)

// Main runs one command line, without the program's name, and gives the exit
// code.
func Main(ctx context.Context, args []string, env Env) int {
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
	fmt.Fprintf(s.env.Stderr, "lowsone: %s\n", cleanLines(err.Error()))
	if hint := hintOf(err); hint != "" {
		fmt.Fprintf(s.env.Stderr, "hint: %s\n", cleanLines(hint))
	}
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
