package match

import (
	"cmp"
	"context"
	"math"
	"slices"
	"sync"

	"lowsone/catalog"
)

// field holds what came of all fans looked at. The contenders are marks, in no
// order: what is shown of them is worked out again.
type field struct {
	looked   int
	unclear  int // left out because they do not say what the choice asks
	fine     marks
	weak     marks
	rejected Rejected
	lacking  map[lack]int
}

// mark is what a fan is ordered by, but for price and name.
type mark struct {
	row    int32   // in the catalogue; of the fitted fan fittedRow
	score  int16   // whole decibels
	doubts int16   // estimates, and a probable stall
	flow   float64 // m³/s at full speed
	level  float64 // dB(A) at the listener as planned
	margin float64 // full-speed flow over the need, less 1
}

// marks are lists of them, as they were found.
type marks [][]mark

// add adds a mark to the last list.
func (l *marks) add(m mark) {
	if len(*l) == 0 {
		*l = marks{nil}
	}
	last := &(*l)[len(*l)-1]
	*last = append(*last, m)
}

func (l marks) len() (n int) {
	for _, list := range l {
		n += len(list)
	}
	return n
}

// all passes every mark.
func (l marks) all(yield func(*mark) bool) {
	for _, list := range l {
		for i := range list {
			if !yield(&list[i]) {
				return
			}
		}
	}
}

// fittedRow stands in a mark of the fitted fan, wherever its row may be.
const fittedRow = -1

func (m *mark) fitted() bool { return m.row == fittedRow }

// compareMarks orders by whole decibels, then fewer estimates, then larger margin.
func compareMarks(a, b *mark) int {
	if a.score != b.score { // nearly all; the loop over a million marks is felt
		return cmp.Compare(a.score, b.score)
	}
	return cmp.Or(cmp.Compare(a.doubts, b.doubts), cmp.Compare(b.margin, a.margin))
}

// compareWeak orders those too weak by what they fall short.
func compareWeak(a, b *mark) int { return cmp.Compare(b.flow, a.flow) }

// look evaluates every fan.
func (p *problem) look(ctx context.Context) (*field, error) {
	f := &field{rejected: Rejected{}, lacking: map[lack]int{}}
	p.lookAtFitted(f)
	var mu sync.Mutex
	err := p.known.ground.source.Scan(ctx, p.reads(), func(c *catalog.Columns, begin, end int) error {
		part := &field{rejected: Rejected{}, lacking: map[lack]int{}}
		if err := p.lookAt(ctx, part, c, begin, end); err != nil {
			return err
		}
		mu.Lock()
		defer mu.Unlock()
		f.add(part)
		return nil
	})
	return f, err
}

// add adds what came of other fans.
func (f *field) add(other *field) {
	f.looked += other.looked
	f.unclear += other.unclear
	f.fine, f.weak = append(f.fine, other.fine...), append(f.weak, other.weak...) // the lists, not what they hold
	for name, n := range other.rejected {
		f.rejected[name] += n
	}
	for why, n := range other.lacking {
		f.lacking[why] += n
	}
}

// lookAt evaluates the fans of a stretch.
func (p *problem) lookAt(ctx context.Context, f *field, c *catalog.Columns, begin, end int) error {
	g := p.known.ground.on(c)
	var e evaluation
	for i := begin; i < end; i++ {
		if c.First+i == p.req.Path.Row || p.excluded(c, i) {
			continue
		}
		switch p.req.Choice.Match(c, i) {
		case catalog.Fail:
			continue
		case catalog.Unclear:
			f.unclear++
			continue
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
		f.weak.add(mark{row: int32(row), flow: e.full.Q})
	default:
		if !fitted && p.tooHot(cols, i, e) {
			f.rejected[CheckTemperature]++
			return
		}
		f.fine.add(p.mark(row, e))
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

// before counts the marks that stand before m.
func (f *field) before(m *mark) (n int) {
	for other := range f.fine.all {
		if compareMarks(other, m) < 0 {
			n++
		}
	}
	return n
}

// of gives the mark of a row, nil where it has none.
func (l marks) of(row int32) *mark {
	for m := range l.all {
		if m.row == row {
			return m
		}
	}
	return nil
}

// equals lists the marks that stand where m does, m among them.
func (f *field) equals(m *mark) (list []mark) {
	for other := range f.fine.all {
		if compareMarks(other, m) == 0 {
			list = append(list, *other)
		}
	}
	return list
}

// firstOf lists the first n of the marks that count, and with them all that stand
// where the last of these does; all where there are no more. They are in no order.
func firstOf(marks marks, n int, compare func(a, b *mark) int, counts func(m *mark) bool) []mark {
	if n = min(n, marks.len()); n <= 0 {
		return nil
	}
	byPlace := func(a, b mark) int { return compare(&a, &b) }
	first := make([]mark, 0, 2*n)
	full := false // the n-th of first bounds what may come in
	for m := range marks.all {
		if !counts(m) || full && compare(m, &first[n-1]) >= 0 {
			continue
		}
		if first = append(first, *m); len(first) >= 2*n {
			slices.SortFunc(first, byPlace)
			first, full = first[:n], true
		}
	}
	if len(first) <= n && !full {
		return first
	}
	slices.SortFunc(first, byPlace)
	last := first[n-1]
	first = first[:0]
	for m := range marks.all {
		if counts(m) && compare(m, &last) <= 0 {
			first = append(first, *m)
		}
	}
	return first
}

func every(*mark) bool { return true }
