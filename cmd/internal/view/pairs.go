package view

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"lowsone/cmd/internal/order"
	"lowsone/match"
	"lowsone/match/drive"
)

// Pairs ranks the exchange of two fans of one device together.
type Pairs struct {
	First, Second *Ranking // of the path shown, and of the other one
	Other         int      // of Device.Paths
	Around        *Around
	Pairs         []match.Pair
	Output        string // drives the fans of both paths; empty: none does
}

// now is the level of everything heard as found; NaN where something of it is
// not known.
func (d *Pairs) now() float64 {
	if len(d.Around.Missing) > 0 || len(d.Around.Heard) == 0 {
		return math.NaN()
	}
	return d.Around.budget().Total
}

// Text writes the pairs for people.
func (d *Pairs) Text(w io.Writer, s Style) error {
	p := &printer{w: w, style: s.within(proseWidth)}
	p.facts(d.head())
	p.line("")
	if len(d.Pairs) > 0 {
		p.table(d.table())
		p.facts(d.legend())
		p.line("")
	}
	p.facts(d.notes())
	p.caution()
	return p.err
}

func (d *Pairs) head() facts {
	var f facts
	f.add("paths", d.name(d.Around.Shown)+" and "+d.name(d.Other)+", exchanged together")
	f.add("order", "nominal, with everything taken as given: the ranking of one path counts how sure each fan is, and may order otherwise; look there before you order")
	f = append(f, d.Around.facts()...)
	for _, r := range []*Ranking{d.First, d.Second} {
		f.add("needed", fmt.Sprintf("%s: %s (%s)", d.name(r.Around.Shown), flowText(r.Ranking.Need), r.Ranking.NeedFrom))
	}
	return f
}

func (d *Pairs) name(path int) string { return d.Around.Device.PathName(path) }

func (d *Pairs) table() *Table {
	t := &Table{Whole: "json", Columns: []Column{
		{Title: "rank", Number: true},
		{Title: d.name(d.Around.Shown), Wrap: true},
		{Title: "level", Unit: "dB(A)", Number: true},
		{Title: "speed", Unit: "%", Number: true, Spare: 1},
		{Title: d.name(d.Other), Wrap: true},
		{Title: "level", Unit: "dB(A)", Number: true},
		{Title: "speed", Unit: "%", Number: true, Spare: 1},
		{Title: "in all", Unit: "dB(A)", Number: true},
		{Title: "change", Unit: "dB", Number: true, Optional: true},
		{Title: "price", Number: true, Optional: true},
		{Title: "marks", Optional: true},
	}}
	for i := range d.Pairs {
		pair := &d.Pairs[i]
		row := []string{strconv.Itoa(i + 1)}
		for _, side := range d.sides(pair) {
			c := side.candidate
			row = append(row, side.ranking.fan(c.Row).Part, levelNumber(c.Planned.Level), Fixed(100*c.Planned.Ratio, 0))
		}
		t.Add(append(row, Fixed(pair.Level, 1), signed(pair.Level-d.now()), pairPrice(pair), d.marks(pair))...)
	}
	return t
}

// side is one fan of a pair with the ranking it comes from.
type side struct {
	ranking   *Ranking
	candidate *match.Candidate
}

func (d *Pairs) sides(p *match.Pair) [2]side { return [2]side{{d.First, &p.A}, {d.Second, &p.B}} }

// pairPrice adds the prices where both are known and in one currency; a fitted
// fan costs nothing.
func pairPrice(p *match.Pair) string {
	price, currency, ok := p.Price()
	if !ok {
		return Unknown
	}
	return order.Amount(price) + " " + currency
}

// Marks of pairs.
const (
	pairFitted  = "F"
	pairHot     = "T"
	pairCurrent = "C"
	pairStart   = "c"
)

func (d *Pairs) marks(p *match.Pair) string {
	signs := ""
	if p.A.Fitted || p.B.Fitted {
		signs += pairFitted
	}
	if !allKept(p.A.Spots) || !allKept(p.B.Spots) {
		signs += pairHot
	}
	switch d.mirrored(p).Supply {
	case drive.Fails:
		signs += pairCurrent
	case drive.Doubtful:
		signs += pairStart
	}
	return signs
}

// mirrored is what a pair asks of the one output that drives both; nothing
// where there is none.
func (d *Pairs) mirrored(p *match.Pair) drive.Mirrored {
	if d.Output == "" {
		return drive.Mirrored{}
	}
	var loads []drive.Load
	most := math.NaN()
	for _, s := range d.sides(p) {
		path := &d.Around.Device.Paths[s.ranking.Around.Shown]
		if a, ok := path.Seat.CurrentMax.Get(); ok && !(most < float64(a)) {
			most = float64(a)
		}
		for range max(1, path.Fans) {
			loads = append(loads, match.LoadOf(s.ranking.fan(s.candidate.Row)))
		}
	}
	return drive.Mirror(loads, most, math.NaN())
}

func (d *Pairs) legend() facts {
	var f facts
	f.add("", "levels where people sit, as each would be run; in all: with everything else that is heard; change: against all of it now. "+
		"Order: whole dB of all together, then fewer estimates, the larger of the smaller spare flows")
	for _, m := range []struct{ sign, means string }{
		{pairFitted, "one of the two stays"},
		{pairHot, "a watched spot passes its limit less the margin"},
		{pairCurrent, "together they draw more than the output gives"},
		{pairStart, "starting together they draw more than the output gives"},
	} {
		for i := range d.Pairs {
			if strings.Contains(d.marks(&d.Pairs[i]), m.sign) {
				f.add(m.sign, m.means)
				break
			}
		}
	}
	return f
}

func (d *Pairs) notes() facts {
	var f facts
	if d.Output != "" {
		f.add("note", fmt.Sprintf("both hang on output %q: they run at one share of full speed, and of several tachs it reads one: a stopped fan among them is not noticed", d.Output))
	}
	for _, r := range []*Ranking{d.First, d.Second} {
		for _, note := range r.Ranking.Notes {
			f.add("note", d.name(r.Around.Shown)+": "+note)
		}
	}
	return f
}
