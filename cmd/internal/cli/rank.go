package cli

import (
	"context"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"lowsone/catalog"
	"lowsone/cmd/internal/view"
	"lowsone/match"
	"lowsone/match/sample"
	"lowsone/match/thermal"
)

const rankLong = `Rank the fans of the catalogue by how loud each is at the flow the device
needs, quietest first. Each is checked against the seat, run at the speed that
just gives the flow, and told with what is unknown about it.

The device is described by a device file or by flags, as for lowsone system;
flags overrule the file. Of several air paths the one that is loudest where
people sit is ranked, or --path. Where the file has watched spots, the needed
flow is what keeps them cool enough at the worst, unless --need says otherwise.
Only a check that fails takes a fan out.

--both ranks the exchange of two fans together: that of the path and the
loudest of the others.`

const rankExample = `  lowsone rank --replace OMB-625B56B3 --heat 90W --air-rise 9K --inlet 24C
  lowsone rank --replace OMB-625B56B3 --flow 30m3/h --need 80% --in-stock
  lowsone rank --replace OMB-625B56B3 --flow 30m3/h --explain W60A25-12.63-3`

// rankRows is how many candidates people see unless they ask for more.
const rankRows = 10

// rankOptions are what rank is asked for.
type rankOptions struct {
	session *session
	device  deviceFlags
	choice  choiceFlags
	explain string
	both    bool
	weak    int // how many of the too weak fans are named; 0: the nearest
}

func newRankCmd(s *session, run func(context.Context, *rankOptions) error) *cobra.Command {
	o := &rankOptions{session: s}
	cmd := &cobra.Command{
		Use:     "rank [DEVICE.yaml] [flags]",
		Short:   "rank fans by how loud they are at the flow the device needs",
		Long:    rankLong,
		Example: rankExample,
		Args:    atMostOne("rank takes one device file; the fitted fan: --replace PART"),
		RunE: func(cmd *cobra.Command, args []string) error {
			o.device.name(args)
			if err := o.check(); err != nil {
				return err
			}
			return run(cmd.Context(), o)
		},
	}
	cmd.Flags().SortFlags = false
	o.device.register(cmd.Flags())
	o.choice.register(cmd.Flags(), 0, "how many to show (else 10 in a table, all in csv and json)")
	o.choice.registerSure(cmd.Flags())
	cmd.Flags().BoolVar(&o.both, "both", false, "rank the exchange of two fans together (device file)")
	cmd.Flags().StringVar(&o.explain, "explain", "", "walk `PART` from its label to its place, formula by formula")
	return cmd
}

func (o *rankOptions) check() error {
	if o.explain != "" && o.session.format == view.FormatCSV {
		return usagef("use --format table or --format json", "--explain has no csv form")
	}
	if err := o.device.check(); err != nil {
		return err
	}
	if err := o.choice.checkSure(); err != nil {
		return err
	}
	switch {
	case o.both && o.choice.confidence > 0:
		return usagef("leave --confidence out", "--both ranks with everything taken as given")
	case o.both && o.device.file == "":
		return usagef("lowsone device new FILE makes one", "--both needs a device file")
	case o.both && o.explain != "":
		return usagef("give one of them", "--both and --explain contradict each other")
	case o.both && o.session.format == view.FormatCSV:
		return usagef("use --format table or --format json", "--both has no csv form")
	}
	return nil
}

func runRank(ctx context.Context, o *rankOptions) error {
	switch {
	case o.explain != "":
		return explain(ctx, o)
	case o.both:
		return rankBoth(ctx, o)
	}
	got, err := answer(ctx, o)
	if err != nil {
		return err
	}
	return o.show(got)
}

// answer ranks.
func answer(ctx context.Context, o *rankOptions) (*view.Ranking, error) {
	if o.choice.top == 0 && o.session.forPeople() {
		o.choice.top = rankRows
	}
	p, err := pose(ctx, o.session, &o.device, &o.choice)
	if err != nil {
		return nil, err
	}
	defer p.cat.Close()
	p.req.Weak = o.weak
	return p.rank(ctx)
}

// show prints the answer. That nothing fits is a failure of its own.
func (o *rankOptions) show(doc *view.Ranking) error {
	if err := o.session.print(doc); err != nil {
		return err
	}
	o.session.sayListed(doc.Listed, o.choice.source)
	if len(doc.Ranking.Candidates) == 0 {
		return nothingf(loosen(&o.choice, doc.Ranking), "no fan of the catalogue fits and moves enough air")
	}
	if doc.Ranking.Total == 1 && doc.Ranking.Candidates[0].Fitted {
		o.session.say("none but the fitted fan fits and moves enough air")
		o.session.say("hint: %s", loosen(&o.choice, doc.Ranking))
	}
	return nil
}

// rank ranks, and fetches the records of what is shown.
func (p *problem) rank(ctx context.Context) (*view.Ranking, error) {
	r, sure, err := p.ranking(ctx)
	if err != nil {
		return nil, err
	}
	doc := &view.Ranking{Ranking: r, Sure: sure, Assumed: p.req.Path.Way.Assumed, Fans: map[int]*catalog.Fan{}, Around: p.around(), Warm: p.req.Path.InWarmAir()}
	var rows []int
	for _, c := range r.Candidates {
		rows = append(rows, c.Row)
	}
	for _, weak := range r.TooWeak[:min(len(r.TooWeak), view.Nearest)] {
		rows = append(rows, weak.Row)
	}
	if err := p.fetch(ctx, rows, doc.Fans); err != nil {
		return nil, err
	}
	doc.Listed = p.listed(doc)
	return doc, nil
}

// listed lists the candidates that several sources list, but for the fitted fan,
// which is told of before.
func (p *problem) listed(doc *view.Ranking) []view.Listed {
	var rows []int
	var fans []*catalog.Fan
	for _, c := range doc.Ranking.Candidates {
		if fan := doc.Fans[c.Row]; fan != nil {
			rows, fans = append(rows, c.Row), append(fans, fan)
		}
	}
	return listedOf(p.cat, p.twins, rows, fans)
}

// ranking ranks by what each fan keeps, or nominally.
func (p *problem) ranking(ctx context.Context) (*match.Ranking, *sample.Ranking, error) {
	if p.sure == nil {
		r, err := match.Rank(ctx, p.fans, p.req)
		return r, nil, err
	}
	sure, err := sample.Rank(ctx, p.fans, p.req, *p.sure)
	if err != nil {
		return nil, nil, err
	}
	return sure.Ranking, sure, nil
}

// explain walks one fan to its place, with bands or nominally.
func (p *problem) explain(ctx context.Context, row int) (*match.Explanation, error) {
	if p.sure == nil {
		return match.Explain(ctx, p.fans, p.req, row)
	}
	return sample.Explain(ctx, p.fans, p.req, row, *p.sure)
}

// fetch reads records into fans by row, but for the fitted fan: what counts of
// it is what the person said.
func (p *problem) fetch(ctx context.Context, rows []int, fans map[int]*catalog.Fan) error {
	var wanted []int
	for _, row := range rows {
		if row != p.req.Path.Row {
			wanted = append(wanted, row)
		}
	}
	found, err := p.cat.Fans(ctx, wanted)
	if err != nil {
		return err
	}
	for i, row := range wanted {
		fans[row] = found[i]
	}
	return nil
}

// loosen names what most fans failed, and what to do about it.
func loosen(c *choiceFlags, r *match.Ranking) string {
	// Those that fit but are too weak, or cannot be ranked, came nearest.
	if n := r.Rejected[match.TooWeak]; n > 0 && r.Heat != nil && r.Need == r.Heat.Flow {
		return fmt.Sprintf("%d fit but are too weak to keep %q %s K below its limit, the margin of the device file or else %g K: less heat, a cooler room or a deeper fan; lowsone device check says which records would narrow the need", n, r.Heat.Spot, match.Plain(r.Heat.Margin), thermal.DefaultMargin)
	} else if n > 0 {
		return fmt.Sprintf("%d fit but are too weak: ask for less flow with --need, or make room for a deeper or larger fan", n)
	}
	if n := r.Rejected[match.NotRankable]; n > 0 {
		return fmt.Sprintf("%d fit but their sheets lack airflow, pressure or level", n)
	}
	most, count := match.CheckName(""), 0
	for _, name := range match.RejectNames {
		if n := r.Rejected[name]; n > count {
			most, count = name, n
		}
	}
	if most == "" {
		return c.noOther()
	}
	return "most failed the check of " + string(most) + ": see --explain PART"
}

// noOther says why no fan but the fitted one was looked at.
func (c *choiceFlags) noOther() string {
	var asked []string
	for _, f := range []struct {
		name  string
		given bool
	}{
		{"--maker", c.maker != ""}, {"--source", c.source != ""}, {"--price-max", c.priceMax > 0},
		{"--in-stock", c.inStock}, {"--exclude", len(c.exclude) > 0},
	} {
		if f.given {
			asked = append(asked, f.name)
		}
	}
	if len(asked) == 0 {
		return "the catalogue holds no other fan: lowsone import FILE"
	}
	return "the choice lets no fan through: see " + strings.Join(asked, ", ")
}

// explain walks one fan through the ranking.
func explain(ctx context.Context, o *rankOptions) error {
	p, err := pose(ctx, o.session, &o.device, &o.choice)
	if err != nil {
		return err
	}
	defer p.cat.Close()
	row, fan := match.NotInCatalogue, p.req.Path.Fitted
	if p.req.Path.Row != match.NotInCatalogue || catalog.FoldKey(o.explain) != catalog.FoldKey(fan.Part) {
		if row, fan, err = onePart(ctx, p.cat, "--explain", o.explain); err != nil {
			return err
		}
	}
	o.session.sayListedTwice(fan)
	why, err := p.explain(ctx, row)
	if err != nil {
		return err
	}
	return o.session.print(&view.Explanation{Fan: fan, Explanation: why, Slow: o.slowed(ctx, p)})
}

// slowed gives the means of running the explained fan at the needed flow, as
// slow tells them; nil where it runs at full speed, cannot be slowed or cannot be asked.
func (o *rankOptions) slowed(ctx context.Context, p *problem) *view.Slow {
	if p.req.Path.Seat.SlowBy == match.SlowNone {
		return nil
	}
	slow := slowOptions{session: o.session, part: o.explain, device: o.device, choice: o.choice}
	doc, err := slow.work(ctx)
	if err != nil || doc.Device == nil || doc.Device.Full == nil || !(doc.Target.Share < doc.Device.Full.Ratio*nearlyFull) {
		return nil
	}
	return doc
}

// nearlyFull is the share of full speed above which nobody slows a fan.
const nearlyFull = 0.98
