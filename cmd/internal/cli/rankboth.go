package cli

import (
	"context"
	"slices"

	"lowsone/catalog"
	"lowsone/cmd/internal/view"
	"lowsone/match"
)

// mostPaired is how many candidates of each path are paired.
const mostPaired = 40

// rankBoth ranks the exchange of two fans together.
func rankBoth(ctx context.Context, o *rankOptions) error {
	shown := o.choice.top
	if shown == 0 && o.session.forPeople() {
		shown = rankRows
	}
	o.choice.top, o.choice.nominal = mostPaired, true
	p, err := pose(ctx, o.session, &o.device, &o.choice)
	if err != nil {
		return err
	}
	defer p.cat.Close()
	other, err := p.device.partner(o.device.file)
	if err != nil {
		return err
	}
	doc, err := p.pairs(ctx, &o.choice, other)
	if err != nil {
		return err
	}
	if shown > 0 {
		doc.Pairs = doc.Pairs[:min(shown, len(doc.Pairs))]
	}
	if err := o.session.print(doc); err != nil {
		return err
	}
	if len(doc.Pairs) == 0 {
		return nothingf("rank each path alone with --path to see why", "no two fans fit and move enough air")
	}
	return nil
}

// partner gives the loudest path beside the one asked about, the first where
// none is heard.
func (dev *described) partner(name string) (int, error) {
	if len(dev.file.Paths) < 2 {
		return 0, usagef("leave --both out", "%s has one path only", name)
	}
	rest := slices.DeleteFunc(slices.Clone(dev.heard), func(h match.Heard) bool { return h.Path == dev.at })
	if other, ok := loudest(rest); ok {
		return other, nil
	}
	if dev.at == 0 {
		return 1, nil
	}
	return 0, nil
}

// pairs ranks both paths and pairs their candidates. A need given by flags is
// that of the path asked about.
func (p *problem) pairs(ctx context.Context, c *choiceFlags, other int) (*view.Pairs, error) {
	first, err := p.rank(ctx)
	if err != nil {
		return nil, err
	}
	second := *p
	second.device.at, second.device.path = other, p.device.file.Paths[other]
	second.req = second.device.request(second.device.path, other, c)
	second.req.Need = match.Need{}
	two, err := second.rank(ctx)
	if err != nil {
		return nil, err
	}
	doc := &view.Pairs{
		First: first, Second: two, Other: other, Around: p.around(),
		Pairs: match.Pairs(first.Ranking, two.Ranking, p.device.rest(p.device.at, other), mostPaired),
	}
	doc.Output = sharedOutput(&p.device.path, &second.device.path)
	return doc, nil
}

// rest is what is heard beside the fans of two paths.
func (dev *described) rest(a, b int) []match.Noise {
	var rest []match.Noise
	for _, h := range dev.heard {
		if h.Path != a && h.Path != b {
			rest = append(rest, h.Noise)
		}
	}
	return rest
}

// sharedOutput names the output of the device that drives the fans of both
// paths; empty where there is none.
func sharedOutput(a, b *match.Path) string {
	if a.Seat.Output != "" && catalog.FoldKey(a.Seat.Output) == catalog.FoldKey(b.Seat.Output) {
		return a.Seat.Output
	}
	return ""
}
