package match

import (
	"cmp"
	"context"
	"math"
	"slices"
	"sync"

	"lowsone/catalog"
)

// wanted is what is to be kept of the fans looked at.
type wanted struct {
	first  int     // contenders in their order
	ample  int     // contenders in their order of those with that margin
	margin float64 // of those
	weak   int     // nearest to enough
	around *mark   // whose place is asked for, and all that stand there; nil: the fitted fan's
}

// field holds what came of all fans looked at. Of each that will do a mark is made,
// and kept if it is wanted: what is shown is worked out again.
type field struct {
	looked   int
	unclear  int // left out because they do not say what the choice asks
	total    int // that fit and move enough
	rejected Rejected
	lacking  map[lack]int

	first, ample leading
	weak         leading
	front        front
	around       *mark // nil: nobody's place is asked for
	before       int   // marks that stand before that one
	beside       []mark
	margin       float64
}

func newField(w *wanted) *field {
	return &field{
		rejected: Rejected{}, lacking: map[lack]int{},
		first: leading{n: w.first}, ample: leading{n: w.ample}, weak: leading{n: w.weak, byFlow: true},
		around: w.around, margin: w.margin,
	}
}

// look evaluates every fan.
func (p *problem) look(ctx context.Context, w wanted) (*field, error) {
	f := newField(&w)
	p.lookAtFitted(f)
	w.around = f.around
	var mu sync.Mutex
	err := p.known.ground.source.Scan(ctx, p.reads(), func(c *catalog.Columns, begin, end int) error {
		part := newField(&w)
		mu.Lock()
		part.bound(f)
		mu.Unlock()
		if err := p.lookAt(ctx, part, c, begin, end); err != nil {
			return err
		}
		mu.Lock()
		defer mu.Unlock()
		f.join(part)
		return nil
	})
	return f, err
}

// bound has a field that is to be joined to another keep nothing that the other
// would not.
func (f *field) bound(other *field) {
	f.first.bound(&other.first)
	f.ample.bound(&other.ample)
	f.weak.bound(&other.weak)
}

// take takes the mark of a fan that will do.
func (f *field) take(m *mark) {
	f.total++
	f.first.add(m)
	if m.margin >= f.margin {
		f.ample.add(m)
	}
	f.front.add(frontPoint{m.level, m.flow})
	if f.around == nil {
		if !m.fitted() {
			return
		}
		fitted := *m
		f.around = &fitted
	}
	switch n := compareMarks(m, f.around); {
	case n < 0:
		f.before++
	case n == 0:
		f.beside = append(f.beside, *m)
	}
}

// join adds what came of other fans.
func (f *field) join(other *field) {
	f.looked += other.looked
	f.unclear += other.unclear
	f.total += other.total
	for name, n := range other.rejected {
		f.rejected[name] += n
	}
	for why, n := range other.lacking {
		f.lacking[why] += n
	}
	f.first.join(&other.first)
	f.ample.join(&other.ample)
	f.weak.join(&other.weak)
	f.front.join(other.front)
	f.before += other.before
	f.beside = append(f.beside, other.beside...)
}

// marks lists the contenders that were wanted, each once, by row.
func (f *field) marks() []mark {
	all := slices.Concat(f.first.marks(), f.ample.marks(), f.beside)
	slices.SortFunc(all, func(a, b mark) int { return cmp.Compare(a.row, b.row) })
	return slices.CompactFunc(all, func(a, b mark) bool { return a.row == b.row })
}

// lookAt evaluates the fans of a stretch.
func (p *problem) lookAt(ctx context.Context, f *field, c *catalog.Columns, begin, end int) error {
	g, choice := p.known.ground.on(c), &p.req.Choice
	asks := len(choice.Fields()) > 0
	var e evaluation
	for i := begin; i < end; i++ {
		if c.First+i == p.req.Path.Row || p.excluded(c, i) || !choice.Among(c, i) {
			continue
		}
		if asks {
			switch choice.Match(c, i) {
			case catalog.Fail:
				continue
			case catalog.Unclear:
				f.unclear++
				continue
			}
		}
		f.looked++
		if name, ok := p.task.fit.firstFail(c, i); !ok {
			f.rejected[name]++
			continue
		}
		if err := g.prepare(ctx, i); err != nil {
			return err
		}
		why := g.rate(i, &e.rated)
		p.enter(f, c, i, &e, why, false)
	}
	return nil
}

func (p *problem) excluded(cols *catalog.Columns, i int) bool {
	return len(p.exclude) > 0 && p.exclude[catalog.FoldKey(cols.Text(catalog.FieldPart, i))]
}

// lookAtFitted enters the fitted fan as a candidate of its own.
func (p *problem) lookAtFitted(f *field) {
	fan := p.req.Path.Fitted
	if !p.known.hasAir || p.exclude[catalog.FoldKey(fan.Part)] {
		return
	}
	f.looked++
	why := lack("")
	if p.known.noLevel {
		why = lackLevel
	}
	e := evaluation{rated: p.known.fitted}
	p.enter(f, nil, fittedRow, &e, why, true)
}

// enter evaluates a rated fan and files it where it belongs.
func (p *problem) enter(f *field, cols *catalog.Columns, i int, e *evaluation, why lack, fitted bool) {
	if why != "" {
		f.lack(why)
		return
	}
	row := i
	if !fitted {
		row += cols.First
	}
	o, why := p.ask(e, fitted)
	switch o {
	case unrankable:
		f.lack(why)
	case alarmed:
		f.rejected[CheckTach]++
	case weak:
		f.rejected[TooWeak]++
		f.weak.add(&mark{row: int32(row), flow: e.full.Q})
	default:
		if !fitted && p.tooHot(cols, i, e) {
			f.rejected[CheckTemperature]++
			return
		}
		m := p.mark(row, e)
		f.take(&m)
	}
}

// ask evaluates a rated fan in the device.
func (p *problem) ask(e *evaluation, fitted bool) (outcome, lack) {
	found, at := math.NaN(), math.NaN()
	if fitted {
		found, at = p.known.system.Ratio, p.known.system.Q
	}
	return p.task.evaluate(e, found, at)
}

// mark gives what a fan that fits and moves enough is ordered by.
func (p *problem) mark(row int, e *evaluation) mark {
	m := mark{row: int32(row), doubts: int16(e.rated.estimated.count()), flow: e.full.Q, margin: e.full.Q/p.task.need - 1}
	level := p.planLevel(e)
	m.level, m.score = level.DB, int16(scoreOf(level, p.req.Room))
	if e.stall() == StallProbable {
		m.doubts++
	}
	if math.Abs(m.margin) < 1e-9 {
		m.margin = 0 // rounding
	}
	return m
}

func (p *problem) planLevel(e *evaluation) Level {
	return e.rated.levelAt(e.planned, e.x, p.task.density, p.task.offset)
}

// tooHot says whether the air that meets the fan at its own planned point is
// hotter than it is made for. In the outlet that hangs on its own flow.
func (p *problem) tooHot(cols *catalog.Columns, i int, e *evaluation) bool {
	if p.cooling == nil || !p.cooling.outlet {
		return false
	}
	return p.cooling.fanAir(e.point.Q*p.task.density) > cols.Number(catalog.FieldTempMax, i)
}

func (f *field) lack(why lack) {
	f.rejected[NotRankable]++
	f.lacking[why]++
}
