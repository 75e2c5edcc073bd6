package cli

import (
	"errors"
	"fmt"

	"lowsone/acoustics/recording"
	"lowsone/catalog"
	"lowsone/catalog/partscsv"
	"lowsone/catalog/quantity"
	"lowsone/catalog/tabular"
	"lowsone/match"
	"lowsone/match/devicefile"
	"lowsone/match/trial"
)

// failure is an error with the exit code it leads to and, where it can be
// named, the mend.
type failure struct {
	code int
	err  error
	hint string
}

// Error prints the reason, without the hint.
func (f *failure) Error() string { return f.err.Error() }

// Unwrap gives the error behind the failure.
func (f *failure) Unwrap() error { return f.err }

// Hint names the mend; empty where none can be named.
func (f *failure) Hint() string { return f.hint }

// failf is a failure of the work itself: exit 1.
func failf(hint, format string, args ...any) error {
	return &failure{exitFailed, fmt.Errorf(format, args...), hint}
}

// usagef is a wrong command line: exit 2.
func usagef(hint, format string, args ...any) error {
	return &failure{exitUsage, fmt.Errorf(format, args...), hint}
}

// nothingf says that nothing was found or nothing fits: exit 3. What a program
// reads has been printed before.
func nothingf(hint, format string, args ...any) error {
	return &failure{exitNothing, fmt.Errorf(format, args...), hint}
}

// asUsage makes an error of an argument a wrong command line; it keeps its own
// hint.
func asUsage(err error, format string, args ...any) error {
	return &failure{exitUsage, fmt.Errorf(format+": %w", append(args, err)...), hintOf(err)}
}

// codeOf gives the exit code of an error.
func codeOf(err error) int {
	var (
		f      *failure
		column *partscsv.ColumnError
	)
	switch {
	case err == nil:
		return exitDone
	case errors.As(err, &f):
		return f.code
	case errors.As(err, &column), errors.Is(err, tabular.ErrHeaderLine), // what a flag names the file does not have
		errors.Is(err, tabular.ErrEncoding), errors.Is(err, tabular.ErrDelimiter), errors.Is(err, tabular.ErrSheet):
		return exitUsage
	}
	return exitFailed
}

// hintOf gives the mend that an error names; empty where it names none.
func hintOf(err error) string {
	var (
		hinted interface{ Hint() string }
		value  *catalog.ValueError
		parse  *quantity.ParseError
		file   *tabular.Error
		column *partscsv.ColumnError
		fitted *match.FittedError
		need   *match.NeedError
		log    *trial.Error
		sound  *recording.Error
		device *devicefile.Error
	)
	switch {
	case errors.As(err, &device):
		return "" // each of its problems names its own
	case errors.As(err, &hinted):
		return hinted.Hint()
	case errors.As(err, &value):
		return value.Hint
	case errors.As(err, &parse):
		return parse.Hint
	case errors.As(err, &file):
		return file.Hint
	case errors.As(err, &column):
		return column.Hint
	case errors.As(err, &fitted):
		return fitted.Hint
	case errors.As(err, &need):
		return need.Hint
	case errors.As(err, &log):
		return log.Hint
	case errors.As(err, &sound):
		return sound.Hint
	}
	return ""
}
