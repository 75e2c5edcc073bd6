package match

import (
	"cmp"
	"slices"
)

// mark is what a fan is ordered by, but for price and name.
type mark struct {
	row    int32   // in the catalogue; of the fitted fan fittedRow
	score  int16   // whole decibels
	doubts int16   // estimates, and a probable stall
	flow   float64 // m³/s at full speed
	level  float64 // dB(A) at the listener as planned
	margin float64 // full-speed flow over the need, less 1
}

// fittedRow stands in a mark of the fitted fan, wherever its row may be.
const fittedRow = -1

func (m *mark) fitted() bool { return m.row == fittedRow }

// compareMarks orders by whole decibels, then fewer estimates, then larger margin.
func compareMarks(a, b *mark) int {
	if a.score != b.score { // nearly all: a million are compared
		return cmp.Compare(a.score, b.score)
	}
	return cmp.Or(cmp.Compare(a.doubts, b.doubts), cmp.Compare(b.margin, a.margin))
}

// compareWeak orders those too weak by what they fall short.
func compareWeak(a, b *mark) int { return cmp.Compare(b.flow, a.flow) }

// leading keeps the first of the marks it is given: n of them, and all that stand
// where the last of these does. What it keeps does not depend on the order in
// which they come.
type leading struct {
	n      int
	byFlow bool   // ordered as those too weak are, else as contenders
	kept   []mark // those, and some more
	full   bool
	last   mark // the n-th; nothing behind it is kept any more
	room   int  // how many are kept until those behind are dropped
}

func (l *leading) compare(a, b *mark) int {
	if l.byFlow {
		return compareWeak(a, b)
	}
	return compareMarks(a, b)
}

func (l *leading) add(m *mark) {
	if l.n <= 0 || l.full && l.compare(m, &l.last) > 0 {
		return
	}
	if l.kept = append(l.kept, *m); len(l.kept) > l.n && len(l.kept) >= l.room {
		l.drop()
		l.room = 2 * len(l.kept)
	}
}

// drop drops what stands behind the n-th.
func (l *leading) drop() {
	slices.SortFunc(l.kept, func(a, b mark) int { return l.compare(&a, &b) })
	l.full, l.last = true, l.kept[l.n-1]
	end := l.n
	for end < len(l.kept) && l.compare(&l.kept[end], &l.last) == 0 {
		end++
	}
	l.kept = l.kept[:end]
}

// marks gives what is kept, in no order.
func (l *leading) marks() []mark {
	if len(l.kept) > l.n && l.n > 0 {
		l.drop()
	}
	return l.kept
}

// bound drops from now on what stands behind the n-th of another, with which this
// one will be joined.
func (l *leading) bound(other *leading) { l.full, l.last = other.full, other.last }

func (l *leading) join(other *leading) {
	for i := range other.kept {
		l.add(&other.kept[i])
	}
}

// front is the Pareto front of marks: those that no other beats in both full-speed
// flow and level. It keeps each point once, by rising level and rising flow.
type front []frontPoint

type frontPoint struct{ level, flow float64 }

// add adds a point, unless another is as quiet and moves as much.
func (f *front) add(p frontPoint) {
	all := *f
	at, found := all.find(p.level)
	if !found {
		at--
	}
	if at >= 0 && all[at].flow >= p.flow {
		return
	}
	begin := max(at, 0)
	if at >= 0 && all[at].level < p.level {
		begin++
	}
	end := begin
	for end < len(all) && all[end].flow <= p.flow {
		end++
	}
	*f = slices.Replace(all, begin, end, p)
}

func (f front) find(level float64) (int, bool) {
	return slices.BinarySearchFunc(f, level, func(p frontPoint, level float64) int { return cmp.Compare(p.level, level) })
}

func (f *front) join(other front) {
	for _, p := range other {
		f.add(p)
	}
}

// holds says whether a mark among those that were added is on the front.
func (f front) holds(m *mark) bool {
	at, found := f.find(m.level)
	return found && f[at].flow == m.flow
}
