package match

import (
	"cmp"
	"context"
	"math"
	"slices"
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// contender is a candidate worked out anew, to be put into words.
type contender struct {
	evaluation
	mark
	named
	cols      *catalog.Columns // that hold it
	at        int              // its row there
	planLevel Level
	price     float64
	currency  string
}

// named is a row with its names, for a total order.
type named struct {
	row         int
	maker, part string
}

// compare orders by maker and part, case folded and then exactly, and row.
func (n *named) compare(m *named) int {
	return cmp.Or(
		cmp.Compare(strings.ToLower(n.maker), strings.ToLower(m.maker)), cmp.Compare(n.maker, m.maker),
		cmp.Compare(strings.ToLower(n.part), strings.ToLower(m.part)), cmp.Compare(n.part, m.part),
		cmp.Compare(n.row, m.row),
	)
}

// contenders works marks out anew and puts them in order: that of the marks, then
// price, then names.
func (p *problem) contenders(ctx context.Context, marks []mark) ([]contender, error) {
	all := make([]contender, len(marks))
	err := p.rated(ctx, marks, func(n int, cols *catalog.Columns, i int, r *rated) {
		c, m := &all[n], marks[n]
		c.mark, c.cols, c.at, c.named.row, c.evaluation.rated = m, cols, i, int(m.row), *r
		if m.fitted() {
			c.named.row = p.req.Path.Row
		}
		p.ask(&c.evaluation, m.fitted())
		c.planLevel = p.planLevel(&c.evaluation)
		c.maker, c.part = cols.Text(catalog.FieldMaker, i), cols.Text(catalog.FieldPart, i)
		c.price, c.currency = cols.Number(catalog.FieldPrice, i), cols.Text(catalog.FieldCurrency, i)
	})
	slices.SortFunc(all, func(a, b contender) int { return a.compare(&b) })
	return all, err
}

// rated passes the fans of marks, each with the columns that hold it and its row
// there.
func (p *problem) rated(ctx context.Context, marks []mark, pass func(n int, cols *catalog.Columns, i int, r *rated)) error {
	var rows []int
	for _, m := range marks {
		if !m.fitted() {
			rows = append(rows, int(m.row))
		}
	}
	g, err := p.known.ground.at(ctx, rows...)
	if err != nil {
		return err
	}
	i := 0
	for n, m := range marks {
		if m.fitted() {
			pass(n, catalog.ColumnsOf(p.req.Path.Fitted), 0, &p.known.fitted)
			continue
		}
		var r rated
		g.rate(i, &r)
		pass(n, g.columns, i, &r)
		i++
	}
	return nil
}

func (c *contender) compare(d *contender) int {
	if n := cmp.Or(compareMarks(&c.mark, &d.mark), comparePrice(c, d)); n != 0 {
		return n
	}
	return c.named.compare(&d.named)
}

// comparePrice puts known prices first, by currency and amount: amounts of two
// currencies have no order, but the list has to have one.
func comparePrice(a, b *contender) int {
	switch unknownA, unknownB := math.IsNaN(a.price), math.IsNaN(b.price); {
	case unknownA && unknownB:
		return 0
	case unknownA:
		return 1
	case unknownB:
		return -1
	}
	return cmp.Or(cmp.Compare(a.currency, b.currency), cmp.Compare(a.price, b.price))
}

// fewWeak is how many of the fans that are too weak are named where nobody says.
const fewWeak = 10

// weakNamed is how many of them this request wants named.
func (p *problem) weakNamed() int { return cmp.Or(p.req.Weak, fewWeak) }

// tooWeak gives those nearest to enough, in order; names tell those apart that
// fall short alike.
func (p *problem) tooWeak(ctx context.Context, marks []mark) ([]Weak, error) {
	nearest := make([]Weak, len(marks))
	err := p.rated(ctx, marks, func(n int, cols *catalog.Columns, i int, r *rated) {
		m := &marks[n]
		w := Weak{Row: int(m.row), Fitted: m.fitted(), Q: m.flow, Shortfall: 1 - m.flow/p.task.need}
		if m.fitted() {
			w.Row = p.req.Path.Row
		}
		w.named = named{w.Row, cols.Text(catalog.FieldMaker, i), cols.Text(catalog.FieldPart, i)}
		e := evaluation{rated: *r}
		p.ask(&e, m.fitted())
		w.Shares = p.task.shares(&e)
		nearest[n] = w
	})
	slices.SortFunc(nearest, func(a, b Weak) int {
		return cmp.Or(cmp.Compare(a.Shortfall, b.Shortfall), a.named.compare(&b.named))
	})
	return nearest[:min(len(nearest), p.weakNamed())], err
}

// tie says whether c cannot be told from the first by ear: little apart, or both
// too quiet to matter.
func tie(first, c *contender, room quantity.Known[quantity.SoundPressureLevel]) bool {
	if least := leastHeard(room); first.planLevel.DB <= least && c.planLevel.DB <= least {
		return true
	}
	limit := tieOneKind
	if first.rated.kind != c.rated.kind || first.rated.estimated.has(catalog.FieldKind) || c.rated.estimated.has(catalog.FieldKind) {
		limit = tieAcrossKind
	}
	return math.Abs(first.planLevel.DB-c.planLevel.DB) <= limit
}
