package cli

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"
)

// exactly lets a command have n arguments; the hint says which.
func exactly(n int, hint string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		switch {
		case len(args) == n:
			return nil
		case len(args) < n:
			return usagef(hint, "%s needs an argument", cmd.Name())
		}
		return usagef(hint, "%s does not know what to do with %q", cmd.Name(), args[n])
	}
}

// hasEnding says whether the name of a file ends so, whatever its case.
func hasEnding(name string, endings ...string) bool {
	return slices.ContainsFunc(endings, func(end string) bool { return strings.HasSuffix(strings.ToLower(name), end) })
}

// wholeNumber reads a number of things: 0, 1, 2 …
func wholeNumber(text string) (int, error) {
	n, err := strconv.Atoi(text)
	if err != nil || n < 0 {
		return 0, errors.New("not a whole number")
	}
	return n, nil
}

// lineNumber reads the number of a line.
func lineNumber(text string) (int, error) {
	n, err := wholeNumber(text)
	if err == nil && n == 0 {
		err = errors.New("lines count from 1")
	}
	return n, err
}

// quoted puts quotes around an argument that a shell would take apart.
func quoted(arg string) string {
	if arg != "" && !strings.ContainsAny(arg, " \t\"'\\$`&|;<>()*?[]#~=%!{}") {
		return arg
	}
	return "'" + strings.ReplaceAll(arg, "'", `'\''`) + "'"
}
