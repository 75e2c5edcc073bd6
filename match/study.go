package match

import (
	"cmp"
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
	found, err := s.p.look(ctx)
	if err != nil {
		return err
	}
	s.found = found
	marks := firstOf(found.fine, most, compareMarks, every)
	marks = append(marks, firstOf(found.fine, ample, compareMarks, func(m *mark) bool { return m.margin >= margin })...)
	if fitted := found.fine.of(fittedRow); fitted != nil {
		marks = append(marks, found.equals(fitted)...)
	}
	byRow := func(a, b mark) int { return cmp.Compare(a.row, b.row) }
	slices.SortFunc(marks, byRow)
	marks = slices.CompactFunc(marks, func(a, b mark) bool { return a.row == b.row })
	if s.fine, err = s.p.contenders(ctx, marks); err != nil {
		return err
	}
	s.weak, err = s.p.tooWeak(ctx, found.weak)
	return err
}

// ranking gives the answer in its order with everything taken as it was given.
func (s *Study) ranking() (*Ranking, error) {
	r, err := s.RankingOf(nil, s.p.req.Top)
	if err == nil && r.Fitted != nil {
		r.Fitted.Rank = s.rankOf(fittedRow)
	}
	return r, err
}

// rankOf gives the place from 1 of a row that is among the contenders with all that
// stand where it does; 0 where it is not.
func (s *Study) rankOf(row int32) int {
	i := slices.IndexFunc(s.fine, func(c contender) bool { return c.mark.row == row })
	if i < 0 {
		return 0
	}
	equal := i
	for equal > 0 && compareMarks(&s.fine[equal-1].mark, &s.fine[i].mark) == 0 {
		equal--
	}
	return s.found.before(&s.fine[i].mark) + i - equal + 1
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
