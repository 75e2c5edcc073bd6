package cli

import (
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"lowsone/cmd/internal/view"
)

func newHelpCmd() *cobra.Command {
	return &cobra.Command{
		Use:   "help [COMMAND]",
		Short: "show the help of a command",
		Long:  "Help shows the help of a command, or of the program.",
		RunE: func(cmd *cobra.Command, args []string) error {
			about, rest, err := cmd.Root().Find(args)
			if err != nil || len(rest) > 0 {
				return knownCommand(cmd.Root(), args)
			}
			return about.Help()
		},
	}
}

// showHelp prints the help of a command; below are the commands of the
// program itself, in the order to show.
func (s *session) showHelp(cmd *cobra.Command, below []*cobra.Command) {
	h := &view.Help{Long: cmd.Long, Usage: cmd.UseLine(), Examples: cmd.Example}
	if !cmd.HasParent() || cmd.HasSubCommands() {
		if cmd.HasParent() {
			below = cmd.Commands()
		}
		list := view.HelpList{Title: "commands"}
		for _, c := range below {
			list.Entries = append(list.Entries, view.HelpEntry{Name: c.Name(), Says: c.Short})
		}
		h.Lists = append(h.Lists, list)
	}
	h.Lists = append(h.Lists,
		view.HelpList{Title: "flags", Entries: flagEntries(cmd.LocalFlags())},
		view.HelpList{Title: "flags of every command", Entries: flagEntries(cmd.InheritedFlags())})
	_ = h.Text(s.out, s.style) // what a stream refuses comes back when it is flushed
}

func flagEntries(flags *pflag.FlagSet) []view.HelpEntry {
	var entries []view.HelpEntry
	flags.VisitAll(func(f *pflag.Flag) {
		if f.Hidden {
			return
		}
		kind, usage := pflag.UnquoteUsage(f)
		name := "    --" + f.Name
		if f.Shorthand != "" {
			name = "-" + f.Shorthand + ", --" + f.Name
		}
		entries = append(entries, view.HelpEntry{Name: strings.TrimRight(name+" "+kind, " "), Says: usage})
	})
	return entries
}
