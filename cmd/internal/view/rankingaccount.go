package view

import (
	"fmt"
	"strings"

	"lowsone/match"
	"lowsone/match/resistance"
)

// account says what became of all fans looked at, and what holds for all.
func (d *Ranking) account() facts {
	var f facts
	r := d.Ranking
	f.add("looked at", d.looked())
	if d.Sure != nil {
		if d.Sure.Asked < r.Total {
			f.add("drawn", fmt.Sprintf("%d of the %d, the best nominal ones and those with ample flow; the others stand behind them in their nominal order", d.Sure.Asked, r.Total))
		}
		if said := outside(r.System.Q, d.Sure.Now); said != "" && r.System.Located {
			f.add("doubt", said)
		}
	}
	if said := d.threeShares(); said != "" {
		f.add("shares", said)
	}
	if said := d.leftOut(); said != "" {
		f.add("left out", said)
	}
	for _, u := range r.Unrankable {
		f.add("not rankable", fmt.Sprintf("%d: %s", u.Count, u.Why))
	}
	if said := d.tooWeak(); said != "" {
		f.add("too weak", said)
	}
	f.add("default", d.system().defaults())
	for _, note := range r.Notes {
		if note == r.Seat.Note() {
			continue // said of the fitted fan
		}
		f.add("note", note)
	}
	return f
}

func (d *Ranking) looked() string {
	r := d.Ranking
	said := fmt.Sprintf("%s; fit and move enough air: %d", count(r.Looked, "fan"), r.Total)
	if more := r.Total - len(r.Candidates); more > 0 {
		said += fmt.Sprintf("; %d more not shown (--top %d shows all)", more, r.Total)
	}
	return said
}

// threeShares gives the verdict over the shares that were tried where no way
// was given.
func (d *Ranking) threeShares() string {
	if !d.Assumed || len(d.Ranking.Candidates) == 0 {
		return ""
	}
	hold := len(d.ranks(func(c *match.Candidate) bool { return c.Shares == match.SharesHold }))
	depend := len(d.ranks(func(c *match.Candidate) bool { return c.Shares == match.SharesDepends }))
	return fmt.Sprintf("of the %d shown %d hold at %.0f, %.0f and %.0f %% of free delivery alike, %d depend on the share",
		len(d.Ranking.Candidates), hold, 100*resistance.LowShare, 100*resistance.DefaultShare, 100*resistance.HighShare, depend)
}

// leftOut counts the reasons in the order of the checks.
func (d *Ranking) leftOut() string {
	var said []string
	for _, name := range match.RejectNames {
		if n := d.Ranking.Rejected[name]; n > 0 {
			said = append(said, fmt.Sprintf("%s %d", strings.ReplaceAll(string(name), "_", " "), n))
		}
	}
	return strings.Join(said, ", ")
}

// tooWeak names the nearest of the too weak.
func (d *Ranking) tooWeak() string {
	var said []string
	for _, weak := range d.nearest() {
		line := fmt.Sprintf("%s moves %s, %s %% short", d.fan(weak.Row).Name(), flowText(weak.Q), Digits(100*weak.Shortfall, 2))
		if weak.Shares == match.SharesDepends {
			line += " (enough at another share)"
		}
		said = append(said, line)
	}
	if len(said) == 0 {
		return ""
	}
	return "nearest: " + strings.Join(said, "; ")
}
