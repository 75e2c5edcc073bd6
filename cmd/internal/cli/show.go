package cli

import (
	"cmp"
	"context"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"lowsone/catalog"
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
each value where it comes from: from a cell of the parts list unless marked.`

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
	cmd.Flags().StringVar(&o.source, "source", "", "`name` of the source to take the fan from, where several have it")
	return cmd
}

func runShow(ctx context.Context, o *showOptions) error {
	c, err := o.session.openCatalog(ctx)
	if err != nil {
		return err
	}
	defer c.Close()
	fans, err := o.lookup(ctx, c)
	if err != nil {
		return err
	}
	switch len(fans) {
	case 0:
		return o.missing(ctx, c)
	case 1:
		return o.session.print(&view.Show{Fan: fans[0]})
	}
	slices.SortStableFunc(fans, func(a, b *catalog.Fan) int {
		return cmp.Or(cmp.Compare(a.Maker, b.Maker), cmp.Compare(a.Part, b.Part), cmp.Compare(a.Source.Name, b.Source.Name))
	})
	return usagef("write one of\n"+strings.Join(ways(fans), "\n"), "%q stands for %d fans", o.name, len(fans))
}

// lookup reads the fans that the name stands for.
func (o *showOptions) lookup(ctx context.Context, c *store.Catalogue) ([]*catalog.Fan, error) {
	rows, err := c.Lookup(o.name)
	if err != nil {
		return nil, err
	}
	fans, err := c.Fans(ctx, rows)
	if err != nil || o.source == "" {
		return fans, err
	}
	var chosen []*catalog.Fan
	for _, f := range fans {
		if f.Source.Name == o.source {
			chosen = append(chosen, f)
		}
	}
	return chosen, nil
}

// ways lists the command lines that tell fans of one name apart.
func ways(fans []*catalog.Fan) []string {
	sameKey := map[string]int{}
	for _, f := range fans {
		sameKey[f.Key()]++
	}
	var lines []string
	for _, f := range fans {
		line := "  lowsone show " + quoted(partName(f))
		if sameKey[f.Key()] > 1 || f.Maker == "" {
			line += " --source " + quoted(f.Source.Name)
		}
		lines = append(lines, line)
	}
	return lines
}

// missing says that there is no such fan, and which come near.
func (o *showOptions) missing(ctx context.Context, c *store.Catalogue) error {
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
