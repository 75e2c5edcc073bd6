package view

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"lowsone/acoustics"
	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/cmd/internal/order"
	"lowsone/match"
	"lowsone/match/sample"
)

// Ranking is the answer to a request for quieter fans.
type Ranking struct {
	Ranking *match.Ranking
	Sure    *sample.Ranking // how sure it is, candidates in the same order; nil: nominal
	Assumed bool            // no way to the device's resistance was given
	// Fans are the records of the candidates and of the nearest too weak ones,
	// by row; the fitted fan need not be there.
	Fans   map[int]*catalog.Fan
	Around *Around  // nil: no device file
	Warm   bool     // the fan sits in the warm air
	Listed []Listed // candidates that several sources list
}

// Nearest is how many of the too weak fans are shown.
const Nearest = 3

func (d *Ranking) system() *System {
	return &System{System: d.Ranking.System, Baseline: d.Ranking.Baseline, Assumed: d.Assumed, Distance: d.Ranking.Listener}
}

// fan gives the record of a row; rows that were not fetched are the fitted fan.
func (d *Ranking) fan(row int) *catalog.Fan {
	if f, ok := d.Fans[row]; ok {
		return f
	}
	return d.Ranking.Baseline.Fan
}

// nearest gives the too weak fans that come nearest to the need.
func (d *Ranking) nearest() []match.Weak {
	return d.Ranking.TooWeak[:min(len(d.Ranking.TooWeak), Nearest)]
}

// Text writes the ranking for people.
func (d *Ranking) Text(w io.Writer, s Style) error {
	wide := s
	if wide.Width == 0 {
		wide = wide.within(proseWidth)
	}
	p := &printer{w: w, style: s.within(proseWidth)}
	for _, said := range d.verdict() {
		p.wrapped("", Clean(said))
	}
	if len(d.Ranking.Candidates) > 0 {
		p.line("")
		table := d.table()
		if p.err == nil {
			p.err = table.Write(w, wide)
		}
		p.facts(slices.Concat(d.found(), d.sureFacts(), d.nextFacts()))
		p.line("")
		p.facts(d.legend(table.shows(wide)))
		p.line("")
	}
	p.facts(d.head())
	p.line("")
	p.facts(d.account())
	p.caution()
	return p.err
}

// head tells of the device and of what it needs.
func (d *Ranking) head() facts {
	var f facts
	if d.Around != nil {
		f.add("path", d.Around.path())
	}
	f = append(f, d.system().facts()...)
	if note := d.Ranking.Seat.Note(); note != "" {
		f.add("seat", note)
	}
	f.add("needed", d.need())
	if d.Around != nil {
		f = append(f, d.Around.facts()...)
	}
	return f
}

// table writes a table.
func (p *printer) table(t *Table) {
	if p.err == nil {
		p.err = t.Write(p.w, p.style)
	}
}

func (d *Ranking) need() string {
	r := d.Ranking
	return fmt.Sprintf("%s (%s); levels at %s m without walls (free field), in a small room up to %s dB more",
		flowText(r.Need), r.NeedFrom, Trim(Fixed(r.Listener, 2)), Fixed(roomAdds(r.Listener), 0))
}

// roomAdds gives how much more than in a free field a fan may be at the listener
// in a small room, in dB.
func roomAdds(listener float64) float64 {
	low, high := acoustics.RoomBand(quantity.PressureLevel(0), acoustics.LabelDistance, quantity.Length(listener), acoustics.SmallRoom)
	return float64(high.Above(low))
}

// table holds one line for each candidate.
func (d *Ranking) table() *Table {
	currency := d.currency()
	t := &Table{Columns: []Column{
		{Title: "rank", Number: true},
		{Title: "part", Wrap: true},
		{Title: "maker", Wrap: true, Optional: true, Spare: 7},
		{Title: "level", Unit: "dB(A)", Number: true},
		{Title: "kept", Unit: "dB(A)", Number: true, Optional: true},
		{Title: "range", Unit: "dB(A)", Number: true, Optional: true, Spare: 8},
		{Title: "change", Unit: "dB", Number: true, Optional: true, Spare: 1},
		{Title: "in all", Unit: "dB(A)", Number: true, Optional: true, Spare: 3},
		{Title: "sone", Number: true, Spare: 3},
		{Title: "speed", Unit: "%", Number: true},
		{Title: "flow", Unit: "m³/h", Number: true, Spare: 4},
		{Title: "spare", Unit: "%", Number: true},
		{Title: "hottest", Unit: "°C", Number: true, Optional: true},
		{Title: "life", Unit: "×", Number: true, Optional: true, Spare: 5},
		{Title: "fit"},
		{Title: "price", Unit: Clean(currency), Number: true, Optional: true, Spare: 2},
		{Title: "marks", Optional: true},
	}}
	for i := range d.Ranking.Candidates {
		if d.newGroup(i) {
			t.Part()
		}
		t.Add(d.row(&d.Ranking.Candidates[i], d.sureOf(i), currency)...)
	}
	if c := d.Ranking.Fitted; c != nil {
		t.Part()
		t.Add(d.row(c, d.sureOfFitted(), currency)...)
	}
	return t
}

func (d *Ranking) row(c *match.Candidate, s *sample.Sure, currency string) []string {
	fan := d.fan(c.Row)
	return []string{
		strconv.Itoa(c.Rank), fan.Part, fan.Maker,
		levelNumber(c.Planned.Level), keptCell(s), bandCell(s), signed(d.difference(c)), Fixed(d.total(c), 1), soneCell(&c.Loud),
		Fixed(100*c.Planned.Ratio, 0), flowNumber(c.Planned.Q), Fixed(100*c.Margin, 0),
		hotCell(c.Spots), Digits(life(c, d.Warm), 2),
		fitCounts(c.Checks), priceText(c, currency), d.marks(c),
	}
}

// currency gives the one currency of all prices shown, empty where there are
// several.
func (d *Ranking) currency() string {
	found := ""
	for _, c := range d.Ranking.Candidates {
		switch {
		case math.IsNaN(c.Price):
		case found == "":
			found = c.Currency
		case found != c.Currency:
			return ""
		}
	}
	return found
}

func priceText(c *match.Candidate, heading string) string {
	switch {
	case math.IsNaN(c.Price):
		return Unknown
	case heading == "":
		return strings.TrimSpace(order.Amount(c.Price) + " " + c.Currency)
	}
	return order.Amount(c.Price)
}

// signed writes a difference in dB with its sign.
func signed(v float64) string {
	text := Fixed(v, 1)
	if v > 0 && text != "0.0" && text != Unknown {
		return "+" + text
	}
	return text
}

// fitCounts counts the checks to be looked at and those that are not known.
func fitCounts(checks []match.Check) string {
	var said []string
	for _, v := range []struct {
		verdict catalog.Verdict
		sign    string
	}{{catalog.Warn, "!"}, {catalog.Unclear, "?"}} {
		if n := len(checksThat(checks, v.verdict)); n > 0 {
			said = append(said, strconv.Itoa(n)+v.sign)
		}
	}
	if len(said) == 0 {
		return "ok"
	}
	return strings.Join(said, " ")
}
