package cli

import (
	"cmp"
	"context"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"lowsone/catalog/store"
	"lowsone/cmd/internal/view"
)

// showOptions are what show is asked for.
type showOptions struct {
	session *session
	name    string
	source  string
}

const showLong = `Show prints everything the catalogue knows of one fan, with units, and says of
each value where it comes from: from a cell of the parts list unless marked. A
fan that several sources list is shown as the one imported last has it, or
--source, and where they disagree it is told who says what, with the line. An
order code that one fan alone has will do for PART.`

const showExample = `  lowsone show NW60-25/12-30T
  lowsone show Nordwehe/NW60-25/12-30T --format json`

func newShowCmd(s *session, run func(context.Context, *showOptions) error) *cobra.Command {
	o := &showOptions{session: s}
	cmd := &cobra.Command{
		Use:     "show PART",
		Short:   "print all that is known of one fan",
		Long:    showLong,
		Example: showExample,
		Args:    exactly(1, "name one fan: PART, or MAKER/PART; quote names with blanks"),
		RunE: func(cmd *cobra.Command, args []string) error {
			o.name = args[0]
			return run(cmd.Context(), o)
		},
	}
	cmd.Flags().StringVar(&o.source, "source", "", "`name` of the source to take the fan from (else the one imported last)")
	return cmd
}

func runShow(ctx context.Context, o *showOptions) error {
	c, err := o.session.openCatalog(ctx)
	if err != nil {
		return err
	}
	defer c.Close()
	found, elsewhere, err := o.lookup(ctx, c)
	if err == nil && len(found)+len(elsewhere) == 0 {
		found, elsewhere, err = o.lookupOrderCode(ctx, c)
	}
	if err != nil {
		return err
	}
	switch len(found) {
	case 0:
		return o.missing(ctx, c, elsewhere)
	case 1:
		return o.session.print(&view.Show{Fan: found[0].fan, Others: found[0].others})
	}
	slices.SortStableFunc(found, func(a, b namesake) int {
		return cmp.Or(cmp.Compare(a.fan.Maker, b.fan.Maker), cmp.Compare(a.fan.Part, b.fan.Part))
	})
	return usagef("write one of\n"+strings.Join(ways(found), "\n"), "%q stands for %d fans", o.name, len(found))
}

// lookup finds the fans that the name stands for; with a source, those that it
// has, as it has them, and those that only other sources have.
func (o *showOptions) lookup(ctx context.Context, c *store.Catalogue) (found, elsewhere []namesake, err error) {
	if o.source != "" {
		if err := c.Prefer(o.source); err != nil {
			return nil, nil, asUnknownSource(err)
		}
	}
	rows, err := c.Lookup(o.name)
	if err != nil {
		return nil, nil, err
	}
	fans, err := c.Fans(ctx, rows)
	if err != nil {
		return nil, nil, err
	}
	for _, n := range namesakes(c, rows, fans) {
		if o.source != "" && n.fan.Source.Name != c.Preferred() {
			elsewhere = append(elsewhere, n)
		} else {
			found = append(found, n)
		}
	}
	return found, elsewhere, nil
}

// ways lists the command lines that tell fans of one name apart.
func ways(found []namesake) []string {
	var lines []string
	for _, n := range found {
		line := "  lowsone show " + quoted(partName(n.fan))
		if n.fan.Maker == "" {
			line += " --source " + quoted(n.fan.Source.Name)
		}
		lines = append(lines, line)
	}
	return lines
}

// missing says that there is no such fan, and which other sources have it, or which
// come near.
func (o *showOptions) missing(ctx context.Context, c *store.Catalogue, elsewhere []namesake) error {
	if len(elsewhere) > 0 {
		var sources []string
		for _, n := range elsewhere {
			sources = append(sources, n.fan.Source.Name)
		}
		slices.Sort(sources)
		if err := o.session.print(&view.Show{}); err != nil {
			return err
		}
		return nothingf("it stands in "+strings.Join(slices.Compact(sources), ", "), "no fan %q in source %q", o.name, o.source)
	}
	nearest, err := nearestParts(ctx, c, o.name)
	if err != nil {
		return err
	}
	if err := o.session.print(&view.Show{Nearest: nearest}); err != nil {
		return err
	}
	hint := "lowsone search finds parts by words and values, such as lowsone search --frame 60 --voltage 12"
	if len(nearest) > 0 {
		hint = "did you mean " + strings.Join(nearest, " or ") + "? " + hint
	}
	if o.source != "" {
		return nothingf(hint, "no fan %q in source %q", o.name, o.source)
	}
	return nothingf(hint, "no fan %q in the catalogue", o.name)
}
