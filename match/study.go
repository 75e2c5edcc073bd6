package match

import (
	"context"
	"fmt"
	"slices"

	"lowsone/catalog"
	"lowsone/match/resistance"
)

// Study is a request looked at once, ready to be asked again with other values
// of what is not certain.
type Study struct {
	p     *problem
	found *field
	fine  []contender // the first of the fans found, in order
	weak  []Weak      // the nearest to enough
}

// NewStudy makes the device of a request ready. Errors are those of Rank.
func NewStudy(ctx context.Context, fans catalog.Fans, req Request) (*Study, error) {
	p, err := prepare(ctx, fans, req)
	if err != nil {
		return nil, err
	}
	return &Study{p: p, found: &field{}}, nil
}

// Look goes through the catalogue and ranks what it finds; before, there are no
// contenders. Afterwards there are the first ones, as many as most says, the first
// ample ones of those whose flow margin is margin or more, and the fitted fan, where
// it is one. Errors are those of the fans, or the context's.
func (s *Study) Look(ctx context.Context, most, ample int, margin float64) error {
	found, err := s.p.look(ctx, wanted{first: most, ample: ample, margin: margin, weak: s.p.weakNamed()})
	if err != nil {
		return err
	}
	s.found = found
	if s.fine, err = s.p.contenders(ctx, found.marks()); err != nil {
		return err
	}
	s.weak, err = s.p.tooWeak(ctx, found.weak.marks())
	return err
}

// ranking gives the answer in its order with everything taken as it was given.
func (s *Study) ranking() (*Ranking, error) {
	r, err := s.RankingOf(nil, s.p.req.Top)
	if err == nil && r.Fitted != nil {
		r.Fitted.Rank = s.rankAround()
	}
	return r, err
}

// rankAround gives the place from 1 of the fan whose place was asked for. All that
// stand where it does are among the contenders.
func (s *Study) rankAround() int {
	at := slices.IndexFunc(s.fine, func(c contender) bool { return c.mark.row == s.found.around.row })
	first := slices.IndexFunc(s.fine, func(c contender) bool { return compareMarks(&c.mark, s.found.around) == 0 })
	return s.found.before + at - first + 1
}

// RankingOf gives the answer with everything taken as it was given, its first
// candidates the contenders named by their places, in that order; the others
// follow as they were ranked. The first top are put into words; 0: all.
func (s *Study) RankingOf(first []int, top int) (*Ranking, error) {
	named := make([]bool, len(s.fine))
	order := slices.Clone(first)
	for _, i := range first {
		named[i] = true
	}
	for i := range named {
		if !named[i] {
			order = append(order, i)
		}
	}
	return s.rankingOf(order, top)
}

// Score gives the whole decibels that a level at the listener is ranked by.
func (s *Study) Score(level float64) int { return scoreOf(Level{DB: level}, s.p.req.Room) }

// Need gives the needed flow in m³/s with everything taken as it was given.
func (s *Study) Need() float64 { return s.p.task.need }

// Apart says in words which two ways to the resistance lie farthest apart; empty
// where there is only one.
func (s *Study) Apart() string {
	system := &s.p.known.system
	if len(system.Apart) == 0 {
		return ""
	}
	all := append([]resistance.Estimate{system.Estimate}, system.Others...)
	worst := system.Apart[0]
	a, b := all[worst.A], all[worst.B]
	return fmt.Sprintf("%s by %s, %s by %s", flow(a.Q), a.Method, flow(b.Q), b.Method)
}

// Contender is a fan that fits and moves enough air when everything is taken as
// it was given.
type Contender struct {
	Row    int // in the catalogue; NotInCatalogue for a fitted fan that is described only
	Fitted bool
	Part   string
	Maker  string
	Score  int     // whole decibels it is ranked by
	Margin float64 // full-speed flow over the need, less 1
	FanUnknowns
}

// Contenders lists the fans in the order of the ranking; those too weak are not
// among them.
func (s *Study) Contenders() []Contender {
	out := make([]Contender, len(s.fine))
	for i := range s.fine {
		c := &s.fine[i]
		out[i] = Contender{c.named.row, c.fitted(), c.part, c.maker, int(c.score), c.margin, s.p.known.ground.unknowns(&c.rated)}
	}
	return out
}
