package cli

import (
	"context"
	"slices"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"lowsone/catalog"
	"lowsone/catalog/store"
	"lowsone/cmd/internal/order"
	"lowsone/cmd/internal/view"
	"lowsone/match"
)

const shortlistLong = `Make an order list: the first of the ranking, or the parts you name, with
price, order code and the reason for each.

The device is described by a device file or by flags, as for lowsone rank. With
parts and a described device, each part says how it ranks. -o writes the list as
CSV, whole or not at all; a file that is no order list is never replaced.`

const shortlistExample = `  lowsone shortlist --replace OMB-625B56B3 --flow 30m3/h --top 2 -o order.csv
  lowsone shortlist OMB-625B47B3 --quantity 4`

// shortlistRows is how many candidates are listed unless told.
const shortlistRows = 3

// shortlistOptions are what shortlist is asked for.
type shortlistOptions struct {
	session  *session
	device   deviceFlags
	choice   choiceFlags
	parts    []string
	quantity int
	output   string
}

func newShortlistCmd(s *session, run func(context.Context, *shortlistOptions) error) *cobra.Command {
	o := &shortlistOptions{session: s}
	cmd := &cobra.Command{
		Use:     "shortlist [PART]... [DEVICE.yaml] [flags]",
		Short:   "make an order list of the first in the ranking, or of named parts",
		Long:    shortlistLong,
		Example: shortlistExample,
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := o.name(args); err != nil {
				return err
			}
			if err := o.check(cmd.LocalNonPersistentFlags()); err != nil {
				return err
			}
			return run(cmd.Context(), o)
		},
	}
	flags := cmd.Flags()
	flags.SortFlags = false
	flags.StringVarP(&o.output, "output", "o", "", "`FILE` to write the list to as CSV; - is standard output")
	flags.Var(readInto(&o.quantity, readPieces), "quantity", "`N` pieces of each (else 1, or as many as the device has of the fan)")
	o.choice.register(flags, shortlistRows, "how many of the ranking to list (else 3)")
	o.choice.registerSure(flags)
	o.device.register(flags)
	return cmd
}

// mostPieces is the most that is ordered of one part: above, it is a slip of the
// pen, and a total would lose its cents.
const mostPieces = 100000

func readPieces(text string) (int, error) {
	n, err := readCount(text)
	if err == nil && n > mostPieces {
		err = usagef("", "%d pieces at most", mostPieces)
	}
	return n, err
}

// name tells parts from a device file.
func (o *shortlistOptions) name(args []string) error {
	for _, arg := range args {
		switch {
		case !isDeviceFile(arg):
			o.parts = append(o.parts, arg)
		case o.device.file != "":
			return usagef("", "shortlist takes one device file, not %q and %q", o.device.file, arg)
		default:
			o.device.file = arg
		}
	}
	return nil
}

// withoutDevice are the flags that mean something without a described device.
var withoutDevice = map[string]bool{"output": true, "quantity": true}

func (o *shortlistOptions) check(flags *pflag.FlagSet) error {
	if o.output == "-" && o.session.format == view.FormatJSON {
		return usagef("leave one of them out", "-o - writes CSV, --format json asks for JSON")
	}
	if len(o.parts) > 0 && flags.Lookup("top").Changed {
		return usagef("name the parts, or let the ranking choose", "--top and named parts contradict each other")
	}
	if err := o.choice.checkSure(); err != nil {
		return err
	}
	if o.device.given() {
		return o.device.check()
	}
	if len(o.parts) == 0 {
		return usagef("name parts, a device file, or the fitted fan with --replace PART and a way such as --heat 90W --air-rise 9K", "what is to be listed?")
	}
	var lonely error
	flags.VisitAll(func(f *pflag.Flag) {
		if f.Changed && !withoutDevice[f.Name] && lonely == nil {
			lonely = usagef("name the fitted fan", "--%s needs --replace or --fitted", f.Name)
		}
	})
	return lonely
}

func runShortlist(ctx context.Context, o *shortlistOptions) error {
	if err := o.checkOutput(); err != nil {
		return err
	}
	lines, err := o.lines(ctx)
	if err != nil {
		return err
	}
	doc := &view.Orders{Lines: lines}
	if len(lines) == 0 {
		if err := o.session.print(doc); err != nil {
			return err
		}
		return nothingf("lowsone rank says why", "no fan of the catalogue fits and moves enough air; nothing is written")
	}
	return o.deliver(doc)
}

// lines makes the lines, each warned of where the stock is too small.
func (o *shortlistOptions) lines(ctx context.Context) ([]order.Line, error) {
	if !o.device.given() {
		return o.named(ctx)
	}
	o.keepFitted()
	p, err := pose(ctx, o.session, &o.device, &o.choice)
	if err != nil {
		return nil, err
	}
	defer p.cat.Close()
	o.asManyAs(p.req.Path.Fans)
	doc, err := p.rank(ctx)
	if err != nil {
		return nil, err
	}
	if len(o.parts) > 0 {
		return o.namedOf(ctx, p, doc)
	}
	var lines []order.Line
	var listed []*match.Candidate
	for i := range doc.Ranking.Candidates {
		c := &doc.Ranking.Candidates[i]
		if c.Fitted || len(lines) == o.choice.top-1 {
			continue
		}
		lines, listed = append(lines, o.line(doc.Fans[c.Row], doc.Why(c))), append(listed, c)
	}
	if said := doc.Doubtful(listed); said != "" {
		o.session.say("%s: lowsone rank tells more", said)
	}
	return lines, nil
}

// asManyAs sets how many pieces are ordered where nobody said: as many as the
// path has fans.
func (o *shortlistOptions) asManyAs(fans int) {
	if o.quantity > 0 || fans < 2 {
		return
	}
	o.quantity = fans
	o.session.say("%d pieces of each, as the path has %d equal fans; --quantity says otherwise", fans, fans)
}

// keepFitted asks for one more than listed, as the fitted fan may be among the
// first and is not ordered; all where parts are named.
func (o *shortlistOptions) keepFitted() {
	o.choice.top++
	if len(o.parts) > 0 {
		o.choice.top = 0
	}
}

// named lists parts of which nothing more is known.
func (o *shortlistOptions) named(ctx context.Context) ([]order.Line, error) {
	cat, err := o.session.openCatalog(ctx)
	if err != nil {
		return nil, err
	}
	defer cat.Close()
	_, fans, err := o.pick(ctx, cat)
	var lines []order.Line
	for _, fan := range fans {
		lines = append(lines, o.line(fan, view.LabelWhy(fan)))
	}
	return lines, err
}

// pick finds the named parts. One that is named twice is refused: it would be
// ordered twice.
func (o *shortlistOptions) pick(ctx context.Context, cat *store.Catalogue) (rows []int, fans []*catalog.Fan, err error) {
	for _, name := range o.parts {
		row, fan, err := onePart(ctx, cat, "shortlist", name)
		if err != nil {
			return nil, nil, err
		}
		if slices.Contains(rows, row) {
			return nil, nil, usagef("more pieces of each: --quantity N", "shortlist: %s is named twice", fan.Name())
		}
		o.session.sayListedTwice(fan)
		rows, fans = append(rows, row), append(fans, fan)
	}
	return rows, fans, nil
}

// namedOf lists named parts with their place in a ranking.
func (o *shortlistOptions) namedOf(ctx context.Context, p *problem, doc *view.Ranking) ([]order.Line, error) {
	rows, fans, err := o.pick(ctx, p.cat)
	if err != nil {
		return nil, err
	}
	var lines []order.Line
	for i, fan := range fans {
		row := rows[i]
		why, ok := placeOf(doc, row)
		if !ok {
			explained, err := p.explain(ctx, row)
			if err != nil {
				return nil, err
			}
			why = view.LeftOutWhy(explained.Outcome)
			o.session.say("%s is listed because you named it, but it was %s", fan.Name(), explained.Outcome)
		}
		lines = append(lines, o.line(fan, why))
	}
	return lines, nil
}

func placeOf(doc *view.Ranking, row int) (why string, ok bool) {
	for i := range doc.Ranking.Candidates {
		if c := &doc.Ranking.Candidates[i]; c.Row == row {
			return doc.Why(c), true
		}
	}
	return "", false
}

func (o *shortlistOptions) line(fan *catalog.Fan, why string) order.Line {
	pieces := max(1, o.quantity)
	if stock, ok := fan.Stock.Get(); ok && stock < float64(pieces) {
		o.session.say("%s: %.0f in stock, %d wanted", fan.Name(), stock, pieces)
	}
	return order.NewLine(fan, pieces, why)
}
