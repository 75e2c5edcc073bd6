package cli

import (
	"errors"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"lowsone/catalog"
)

// suggest names the valid word nearest to the given one, if one is near, and
// all valid ones.
func suggest(given string, valid []string) string {
	all := "valid are " + strings.Join(valid, ", ")
	if near := catalog.Nearest(given, valid); near != "" {
		return near + " " + all
	}
	return all
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
		return usagef(suggest(name, flagNames(cmd)), "%s has no flag %s", cmd.CommandPath(), name)
	case errors.As(err, &missing):
		return usagef(suggest("-", flagNames(cmd)), "%s has no flag -%s", cmd.CommandPath(), missing.GetSpecifiedName())
	case errors.As(err, &value):
		return usagef(flagUsage(value.GetFlag()), "--%s needs a value", value.GetFlag().Name)
	case errors.As(err, &invalid):
		return asUsage(invalid.Unwrap(), "--%s", invalid.GetFlag().Name)
	}
	return asUsage(err, "%s", cmd.CommandPath())
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
	return "write --" + f.Name + " " + kind + ": " + usage
}
