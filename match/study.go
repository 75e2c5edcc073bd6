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
}

// NewStudy makes the device of a request ready. Errors are those of Rank.
func NewStudy(ctx context.Context, cols *catalog.Columns, req Request) (*Study, error) {
	p, err := prepare(ctx, cols, req)
	if err != nil {
		return nil, err
	}
	return &Study{p: p, found: &field{}}, nil
}

// Look goes through the catalogue and ranks what it finds; before, there are no
// contenders. The error is that of the context.
func (s *Study) Look(ctx context.Context) error {
	found, err := s.p.look(ctx)
	if err != nil {
		return err
	}
	found.order()
	s.found = found
	return nil
}

// RankingOf gives the answer with everything taken as it was given, its first
// candidates the contenders named by their places, in that order; the others
// follow as they were ranked. The first top are put into words; 0: all.
func (s *Study) RankingOf(first []int, top int) (*Ranking, error) {
	named := make([]bool, len(s.found.fine))
	order := slices.Clone(first)
	for _, i := range first {
		named[i] = true
	}
	for i := range named {
		if !named[i] {
			order = append(order, i)
		}
	}
	return s.p.rankingOf(s.found, order, top)
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
	out := make([]Contender, len(s.found.fine))
	for i := range s.found.fine {
		c := &s.found.fine[i]
		out[i] = Contender{c.row, c.fitted, c.part, c.maker, c.score, c.margin, s.p.known.ground.unknowns(&c.rated)}
	}
	return out
}
