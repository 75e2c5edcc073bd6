package match

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"

	"lowsone/catalog"
	"lowsone/match/thermal"
)

// rankingOf puts what was found into the answer, in the order of the places given,
// the first top of them in words; 0: all.
func (s *Study) rankingOf(order []int, top int) (*Ranking, error) {
	p, f := s.p, s.found
	r := &Ranking{
		Baseline: p.baseline(), System: p.known.system,
		Need: p.task.need, NeedFrom: p.needFrom, Listener: float64(p.req.Listener),
		Candidates: []Candidate{}, Rejected: f.rejected, TooWeak: s.weak,
		Seat: p.seat, Looked: f.looked, NotAsked: f.unclear, Total: f.total,
	}
	shown := len(order)
	if top > 0 {
		shown = min(shown, top)
	}
	var list []*contender
	var ranks []int
	for i, at := range order {
		if c := &s.fine[at]; i < shown || c.fitted() {
			list, ranks = append(list, c), append(ranks, i+1)
		}
	}
	for i, c := range list {
		out, err := p.candidate(c)
		if err != nil {
			return nil, err
		}
		out.Rank, out.Pareto = ranks[i], f.front.holds(&c.mark)
		if i == shown {
			r.Fitted = &out
			break
		}
		out.Tie = i > 0 && tie(list[0], c, p.req.Room)
		r.Candidates = append(r.Candidates, out)
	}
	for _, why := range slices.Sorted(maps.Keys(f.lacking)) {
		r.Unrankable = append(r.Unrankable, Reason{string(why), f.lacking[why]})
	}
	slices.SortStableFunc(r.Unrankable, func(a, b Reason) int { return cmp.Compare(b.Count, a.Count) })
	if p.cooling != nil {
		r.Heat = &p.cooling.need
	}
	r.Notes = p.notes(r)
	return r, nil
}

// candidate puts one contender into words.
func (p *problem) candidate(c *contender) (Candidate, error) {
	e := &c.evaluation
	out := Candidate{
		Row: c.named.row, Fitted: c.fitted(), QOverQ0: e.q(), Limit: e.limit,
		Estimated: e.rated.estimated.list(), TwoEnded: e.rated.twoEnded, Stalled: e.stall(),
		Marginal: !c.fitted() && e.match.Ratio > speedTolerance*e.top,
		Shares:   p.task.shares(e), Price: c.price, Currency: c.currency, Margin: c.margin,
	}
	out.Full, out.Matched, out.Planned = p.task.points(e)
	out.Loud = p.loudnessOf(c)
	out.Tone = p.toneOf(c)
	if c.fitted() {
		out.Checks = sitsThere()
	} else {
		out.Checks = p.checks(c)
	}
	caution(&out, e)
	for _, note := range []string{out.Tone.Note(), bandsNote(c)} {
		if note != "" {
			out.Cautions = append(out.Cautions, note)
		}
	}
	return out, p.heat(&out)
}

// heat sets how hot the watched spots and the fan's air get.
func (p *problem) heat(c *Candidate) (err error) {
	c.FanAir, c.FanLife = math.NaN(), math.NaN()
	if p.cooling == nil {
		return nil
	}
	planned := c.Planned.Q * p.task.density
	c.FanAir = p.cooling.fanAir(planned)
	c.FanLife = thermal.BearingLife(p.cooling.fanAir(p.cooling.mass), c.FanAir)
	c.Spots, err = p.cooling.temperatures(c.Full.Q*p.task.density, planned)
	return err
}

// checks are the checks in words, the tach one with the planned speed in view.
func (p *problem) checks(c *contender) []Check {
	out := p.task.fit.report(c.cols, c.at)
	v, why := p.task.fit.alarm(c.planned*c.rated.turns, c.top*c.rated.turns, c.rated.pulses)
	for i := range out {
		if out[i].Name == CheckTach && v == catalog.Warn && out[i].Verdict != catalog.Fail {
			out[i].Verdict, out[i].Note = v, joinNotes(out[i].Note, why.String())
			if out[i].Asks == AskNothing {
				out[i].Asks = why.asks
			}
		}
	}
	return out
}

func joinNotes(a, b string) string {
	if a == "" {
		return b
	}
	return a + "; " + b
}

// caution puts into words what a person has to know of a working point.
func caution(c *Candidate, e *evaluation) {
	switch c.Stalled {
	case StallProbable:
		c.StallNote = fmt.Sprintf("works at %s %% of its free delivery: an axial fan is probably stalled there, get its full curve", Plain(100*c.QOverQ0))
	case StallNear:
		c.StallNote = fmt.Sprintf("works at %s %% of its free delivery, in or near the dip of its curve: stalled, rough and louder", Plain(100*c.QOverQ0))
	}
	if c.Marginal {
		c.MarginNote = fmt.Sprintf("needs %s %% of its full speed: marginal, the tolerance of speed is ±10 %%", Plain(100*c.Matched.Ratio/c.Full.Ratio))
	}
	c.Cautions = []string{}
	say := func(applies bool, text string) {
		if applies {
			c.Cautions = append(c.Cautions, text)
		}
	}
	say(!e.match.Stable, "passes the needed flow only on its way to another point: it may move less")
	say(e.matches > 1 || e.fullOf > 1, "its curve meets the device at several points: the safest one is shown")
	say(c.Planned.Ratio < 0.5, "below half speed bearing and motor noise take over: its level there is an estimate")
	if e.rated.mains.done {
		say(true, mainsNote(e.rated.mains))
	}
}

// Warnings are all cautions of the candidate, those of stall and margin first.
func (c *Candidate) Warnings() []string {
	out := []string{}
	for _, note := range append([]string{c.StallNote, c.MarginNote}, c.Cautions...) {
		if note != "" {
			out = append(out, note)
		}
	}
	return out
}

func mainsNote(m mainsChange) string {
	hz := func(v float64) string {
		if v != v {
			return "an unknown mains frequency"
		}
		return Plain(v) + " Hz"
	}
	return fmt.Sprintf("values of %s used for %s: flow × %s, level %+.1f dB (common practice)", hz(m.from), hz(m.to), Plain(m.flow), m.level)
}

// notes are what holds for the whole answer.
func (p *problem) notes(r *Ranking) []string {
	out := []string{}
	if n := p.known.system.Warnings; len(n) > 0 {
		out = append(out, n...)
	}
	if p.known.hasAir && p.known.fitted.estimated.has(catalog.FieldKind) {
		out = append(out, "the kind of the fitted fan is not stated: it is taken as axial, and much hangs on it; say it (kind=axial, centrifugal or mixed)")
	}
	if n := p.req.Path.Fans; n > 1 {
		out = append(out, fmt.Sprintf("%d equal fans share this path, %s: flow and level are of all together, speed, current and price of one", n, p.req.Path.arrangement()))
	}
	if p.req.Path.Way.Assumed {
		out = append(out, "no way to the device's resistance was given: 55 % of free delivery is assumed, and every verdict is also tried at 40 % and 70 %")
	}
	if p.cooling != nil {
		for _, text := range p.cooling.need.Assumed {
			out = append(out, "assumed: "+text)
		}
		if text := unsteady(p.cooling.spots); text != "" {
			out = append(out, text)
		}
		if p.cooling.need.OneOnly {
			out = append(out, "one watched spot alone asks for under 70 % of the present flow: other parts are unwatched and may get hotter")
		}
	}
	if text := p.seat.Note(); text != "" {
		out = append(out, text)
	}
	if r.NotAsked > 0 {
		out = append(out, fmt.Sprintf("%d fans do not state what the choice asks for and were left out", r.NotAsked))
	}
	if p.req.Path.Row == NotInCatalogue && p.known.noLevel {
		out = append(out, "the fitted fan's level is not known: no difference to it can be told")
	}
	return out
}

// arrangement says how several fans share a path.
func (p *Path) arrangement() string {
	switch {
	case p.Series:
		return "one behind the other"
	case p.Arranged:
		return "side by side"
	}
	return "assumed side by side, since the arrangement is not stated"
}

// Names gives the field names of a list of fields, as JSON and people see
// them.
func Names(ids []catalog.FieldID) []string {
	out := make([]string, len(ids))
	for i, id := range ids {
		out[i] = catalog.Fields[id].Name
	}
	return out
}
