package cli

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"lowsone/catalog"
	"lowsone/catalog/store"
	"lowsone/cmd/internal/view"
)

// searchOptions are what search is asked for.
type searchOptions struct {
	session    *session
	text       string
	filter     catalog.Filter
	source     sourceChoice
	sort       *catalog.Field // nil: best first where there is text, else by maker and part
	descending bool
	limit      int // 0: all
	few        int // hits that are read by themselves

	from, to int // rows of the source; to 0: of all

	scores []float32 // by row: how well the words found it; higher is better

	strangeMaker string // what to say of a maker that the catalogue does not have
	loosened     string // what to say where nothing was found
}

const searchLong = `Search lists the fans of the catalogue that match words and values. Words are
looked for in part, maker, description and the columns that were kept as they
are; a part may be cut short or hold one typing error. Fans whose part number
the words are stand first, then those whose part number begins so, then the
others, each by part.

A fan that does not state an asked value is left out, and counted. A part that
several sources list is found by the words of any, and shown once, as the source
imported last has it; --source chooses another.

A field, for --sort here and --fitted, --with or --column elsewhere, is named in
full or without its unit. The fields are:
`

const searchExample = `  lowsone search --frame 60 --depth-max 25 --voltage 12 --noise-max 30
  lowsone search wirbelhof 60 --sort noise_dba --limit 5`

func newSearchCmd(s *session, run func(context.Context, *searchOptions) error) *cobra.Command {
	o := &searchOptions{session: s, few: fewHits}
	cmd := &cobra.Command{
		Use:     "search [TEXT]",
		Short:   "list fans by words and values",
		Long:    searchLong + fieldList(),
		Example: searchExample,
		RunE: func(cmd *cobra.Command, args []string) error {
			o.text = strings.TrimSpace(strings.Join(args, " "))
			if !cmd.Flags().Changed("limit") && !s.forPeople() {
				o.limit = 0
			}
			return run(cmd.Context(), o)
		},
	}
	flags := cmd.Flags()
	flags.SortFlags = false
	addFilterFlags(flags, &o.filter)
	flags.StringVar((*string)(&o.source), "source", "", "only fans of the source of this `name`, as it has them")
	flags.Var(newParsed("field", o.setSort), "sort", "order by a `field`, such as noise_dba; -noise_dba for the highest first")
	o.limit = tableLimit
	flags.Var(readInto(&o.limit, wholeNumber), "limit", "`number` of fans to list, 0 for all (default 20 in a table, else all)")
	return cmd
}

// tableLimit is how many fans a table lists unless said otherwise.
const tableLimit = 20

// setSort reads the field to sort by.
func (o *searchOptions) setSort(text string) error {
	name, descending := strings.CutPrefix(text, "-")
	d, err := fieldNamed(name, sortable())
	if err != nil {
		return err
	}
	o.sort, o.descending = d, descending
	return nil
}

// sortable lists the fields that have an order.
func sortable() []string {
	var names []string
	for i := range catalog.Fields {
		if d := &catalog.Fields[i]; d.Columned() && d.Form != catalog.Points && d.Form != catalog.Bands {
			names = append(names, d.Name)
		}
	}
	return names
}

func runSearch(ctx context.Context, o *searchOptions) error {
	s := o.session
	c, err := s.openCatalog(ctx)
	if err != nil {
		return err
	}
	defer c.Close()
	found, err := o.find(ctx, c)
	if err != nil {
		return err
	}
	if err := s.print(found); err != nil {
		return err
	}
	if found.Total == 0 {
		return nothingf(cmp.Or(o.strangeMaker, o.loosened, strings.Join(found.Remarks(), "; ")), "no fan found")
	}
	for _, line := range found.Remarks() {
		s.say("%s", line)
	}
	s.sayListed(found.Listed, o.source)
	return nil
}

// find selects, orders and reads the fans.
func (o *searchOptions) find(ctx context.Context, c *store.Catalogue) (*view.Search, error) {
	var err error
	if o.from, o.to, err = o.source.apply(c); err != nil {
		return nil, err
	}
	twins, err := c.Twins(ctx)
	if err != nil {
		return nil, err
	}
	among, err := o.among(ctx, c, twins)
	if err != nil {
		return nil, err
	}
	rows, found := o.choose(among.columns, among.candidates)
	if len(rows) == 0 {
		if o.filter.Maker != "" {
			if o.strangeMaker, err = strangeMaker(ctx, c, o.filter.Maker); err != nil {
				return nil, err
			}
		}
		o.loosened = o.loosen(among, found)
	}
	o.order(among.columns, rows)
	if o.limit > 0 && len(rows) > o.limit {
		rows = rows[:o.limit]
	}
	rows = among.inCatalogue(rows)
	found.Fans, err = c.Fans(ctx, rows)
	if err == nil {
		found.Listed = listedOf(c, twins, rows, found.Fans)
	}
	return found, err
}

// fields lists what is looked at: what is asked for and what orders.
func (o *searchOptions) fields() []catalog.FieldID {
	fields := []catalog.FieldID{catalog.FieldPart, catalog.FieldMaker}
	for _, q := range asked(&o.filter) {
		fields = append(append(fields, q.field), q.also...)
	}
	if o.sort != nil {
		fields = append(fields, o.sort.ID)
	}
	return fields
}

// choose keeps the candidates that pass the filter, and counts those that do
// not say.
func (o *searchOptions) choose(columns *catalog.Columns, candidates []int) ([]int, *view.Search) {
	found := &view.Search{}
	questions := asked(&o.filter)
	rows := make([]int, 0, len(candidates))
	if len(questions) == 0 && columns.Aside == nil {
		rows, candidates = candidates, nil // all
	}
	lacks := make([]int, len(questions))
	for _, row := range candidates {
		switch o.filter.Match(columns, row) {
		case catalog.Pass:
			rows = append(rows, row)
		case catalog.Unclear:
			found.Unclear++
			for i := range questions {
				if questions[i].filter.Match(columns, row) == catalog.Unclear {
					lacks[i]++
				}
			}
		}
	}
	found.Total = len(rows)
	for i, n := range lacks {
		if n > 0 {
			found.Lacks = append(found.Lacks, view.Lack{Field: questions[i].field, Fans: n})
		}
	}
	return rows, found
}

// loosen says what stands in the way of finding a fan: the words, or a flag
// without which there are some.
func (o *searchOptions) loosen(from *among, found *view.Search) string {
	switch {
	case len(from.candidates) > 0:
	case from.elsewhere == 1:
		return "1 fan has these words, in another source: leave out --source"
	case from.elsewhere > 1:
		return fmt.Sprintf("%d fans have these words, in other sources: leave out --source", from.elsewhere)
	default:
		return "no fan has these words: take fewer, or the beginning of a part number; sizes are looked for with --frame and --depth-max"
	}
	questions := asked(&o.filter)
	var said []string
	for left := range questions {
		switch n := o.without(from.columns, from.candidates, questions, left); {
		case n == 1:
			said = append(said, "1 fan without "+questions[left].flag)
		case n > 1:
			said = append(said, fmt.Sprintf("%d fans without %s", n, questions[left].flag))
		}
	}
	said = append(said, found.Remarks()...)
	if len(said) == 0 {
		return "no single flag stands in the way: leave out several, or ask for less"
	}
	return strings.Join(said, "; ")
}

// without counts the fans among the candidates that pass every question but one.
func (o *searchOptions) without(columns *catalog.Columns, candidates []int, questions []question, left int) int {
	n := 0
	for _, row := range candidates {
		passes := !columns.IsAside(row)
		for i := range questions {
			passes = passes && (i == left || questions[i].filter.Match(columns, row) == catalog.Pass)
		}
		if passes {
			n++
		}
	}
	return n
}

// order puts the rows that are shown first, in their order: that of the words,
// equally good ones by part, unless another is asked for.
func (o *searchOptions) order(columns *catalog.Columns, rows []int) {
	switch {
	case o.sort != nil:
		slices.Sort(rows)
		columns.Sort(rows, o.sort, o.descending)
	case o.text == "":
		columns.Sort(rows, &catalog.Fields[catalog.FieldMaker], false)
	default:
		leading(rows, o.limit, func(i, j int) int {
			if n := cmp.Compare(o.scores[j], o.scores[i]); n != 0 {
				return n
			}
			if n := comparePart(columns, i, j); n != 0 {
				return n
			}
			return columns.CompareNames(i, j)
		})
	}
}
