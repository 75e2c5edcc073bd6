package cli

import (
	"errors"
	"strconv"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// suggest names the valid words nearest to the given one, and all valid ones.
func suggest(given string, valid []string) string {
	all := "valid are " + strings.Join(valid, ", ")
	if near := nearest(given, valid); near != "" {
		return near + " " + all
	}
	return all
}

// nearest asks for the valid words that hold the given one, or for the one
// that is spelled nearly so; empty where none is near.
func nearest(given string, valid []string) string {
	var holding []string
	for _, v := range valid {
		if bare := strings.TrimLeft(given, "-"); len(bare) > 1 && strings.Contains(v, bare) {
			holding = append(holding, v)
		}
	}
	if n := len(holding); n > 0 {
		return "did you mean " + strings.Join(holding, " or ") + "?"
	}
	return catalog.Nearest(given, valid)
}

// flagError turns an error of the flag library into a usage error that names
// the mend.
func flagError(cmd *cobra.Command, err error) error {
	var (
		missing *pflag.NotExistError
		value   *pflag.ValueRequiredError
		invalid *pflag.InvalidValueError
	)
	switch {
	case errors.As(err, &missing) && missing.GetSpecifiedShortnames() == "":
		name := "--" + missing.GetSpecifiedName()
		return usagef(suggest(name, flagNames(cmd)), "%s has no flag %s", cmd.Name(), name)
	case errors.As(err, &missing):
		return usagef(suggest("-", flagNames(cmd)), "%s has no flag -%s", cmd.Name(), missing.GetSpecifiedName())
	case errors.As(err, &value):
		return usagef(flagUsage(value.GetFlag()), "--%s needs a value", value.GetFlag().Name)
	case errors.As(err, &invalid):
		return valueError(invalid)
	}
	return asUsage(err, "%s", cmd.CommandPath())
}

// valueError says what is wrong with the value of a flag: once the flag and
// what was written, then the reason.
func valueError(invalid *pflag.InvalidValueError) error {
	err := invalid.Unwrap()
	reason := err.Error()
	var (
		value *catalog.ValueError
		parse *quantity.ParseError
	)
	switch {
	case errors.As(err, &value):
		reason = value.Reason
	case errors.As(err, &parse):
		reason = parse.Reason
	}
	name, text := invalid.GetFlag().Name, invalid.GetValue()
	if strings.Contains(reason, strconv.Quote(text)) {
		return usagef(hintOf(err), "--%s: %s", name, reason)
	}
	return usagef(hintOf(err), "--%s %q: %s", name, text, reason)
}

// flagNames lists the flags a command takes, as they are written.
func flagNames(cmd *cobra.Command) []string {
	var names []string
	cmd.Flags().VisitAll(func(f *pflag.Flag) {
		if !f.Hidden {
			names = append(names, "--"+f.Name)
		}
	})
	return names
}

// flagUsage is the line that help has for a flag.
func flagUsage(f *pflag.Flag) string {
	kind, usage := pflag.UnquoteUsage(f)
	return "--" + f.Name + " " + kind + ": " + usage
}
