package cli

import (
	"regexp"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"lowsone/cmd/internal/view"
)

// commands lists the constructors of all commands, in the order help shows
// them.
func commands(s *session) []*cobra.Command {
	return []*cobra.Command{
		newImportCmd(s, runImport),
		newSearchCmd(s, runSearch),
		newShowCmd(s, runShow),
		newCatalogCmd(s, runCatalog),
		newSystemCmd(s, runSystem),
		newRankCmd(s, runRank),
		newShortlistCmd(s, runShortlist),
		newSlowCmd(s, runSlow),
		newDeviceCmd(s, runDeviceCheck),
		newHeatCmd(s, runHeat),
		newListenCmd(s, runListen),
		newLoudnessCmd(s, runLoudness),
		newTonesCmd(s, runTones),
		newDemoCmd(s, runDemo),
	}
}

const rootLong = `lowsone finds the fan that makes a noisy fan-cooled device quieter and still
keeps it cool: it reads parts lists (CSV or .xlsx), finds out how much air the
device really needs, and ranks fans by how loud each is at that flow.`

func newRootCmd(s *session) *cobra.Command {
	root := &cobra.Command{
		Use:           "lowsone COMMAND",
		Short:         "find the fan that makes a device quieter and still keeps it cool",
		Long:          rootLong,
		Version:       version(),
		SilenceErrors: true,
		SilenceUsage:  true,
		Args:          knownCommand,
		RunE:          func(cmd *cobra.Command, _ []string) error { return cmd.Help() },

		PersistentPreRunE: s.checkFlags,
		CompletionOptions: cobra.CompletionOptions{HiddenDefaultCmd: true},
	}
	flags := root.PersistentFlags()
	flags.StringVar(&s.catalog, "catalog", "", "`folder` of the catalogue (else LOWSONE_CATALOG, else the data folder)")
	flags.Var(newChoice(&s.format, view.Formats), "format", "`form` of the result: table, csv or json")
	flags.BoolVarP(&s.quiet, "quiet", "q", false, "print results and errors only")
	flags.BoolVarP(&s.verbose, "verbose", "v", false, "say more about what is done")
	flags.BoolP("help", "h", false, "show this help")
	root.Flags().Bool("version", false, "show the version")
	root.SetVersionTemplate("lowsone {{.Version}}\n")
	root.SetIn(s.env.Stdin)
	root.SetOut(s.out)
	root.SetErr(s.env.Stderr)
	root.SetFlagErrorFunc(flagError)
	below := commands(s)
	root.AddCommand(below...)
	root.SetHelpFunc(func(cmd *cobra.Command, _ []string) { s.showHelp(cmd, below) })
	root.SetHelpCommand(newHelpCmd())
	return root
}

// noList marks commands whose result has no csv form.
const noList = "no-list"

// checkFlags refuses a flag that was given nothing, as an unset variable of a
// script gives it, and a format that the command does not have, before any work.
func (s *session) checkFlags(cmd *cobra.Command, _ []string) error {
	var empty error
	cmd.Flags().Visit(func(f *pflag.Flag) {
		if empty == nil && givenNothing(f) {
			empty = usagef(flagUsage(f), "--%s needs a value", f.Name)
		}
	})
	if empty != nil {
		return empty
	}
	if bare := bareDecibels(cmd.Flags()); bare != "" {
		s.say("%s: dB is taken for dB(A)", bare)
	}
	if s.format == view.FormatCSV && cmd.Annotations[noList] != "" {
		return usagef("use --format table or --format json", "%s has no csv form", cmd.Name())
	}
	return nil
}

// givenNothing says whether a flag that was given got an empty text.
func givenNothing(f *pflag.Flag) bool {
	if list, ok := f.Value.(pflag.SliceValue); ok {
		return slices.Contains(list.GetSlice(), "")
	}
	return f.Value.String() == ""
}

// bareLevel is a level without its weighting.
var bareLevel = regexp.MustCompile(`(?i)^\s*[-+0-9.,]+\s*db\s*$`)

// bareDecibels lists the flags of levels in dB(A) that were given in dB.
func bareDecibels(flags *pflag.FlagSet) string {
	var bare []string
	flags.Visit(func(f *pflag.Flag) {
		if strings.Contains(f.Usage, "dB(A)") && bareLevel.MatchString(f.Value.String()) {
			bare = append(bare, "--"+f.Name+" "+f.Value.String())
		}
	})
	return strings.Join(bare, ", ")
}

// noListForm is the annotation of a command whose result has no csv form.
func noListForm() map[string]string { return map[string]string{noList: "yes"} }

// knownCommand refuses arguments of the program itself: they are commands
// that do not exist.
func knownCommand(root *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	var names []string
	for _, c := range root.Commands() {
		if c.IsAvailableCommand() || c.Name() == "help" {
			names = append(names, c.Name())
		}
	}
	return usagef(suggest(args[0], names), "there is no command %q", args[0])
}
