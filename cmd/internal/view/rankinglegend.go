package view

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"lowsone/catalog"
	"lowsone/match"
)

// mark is a sign in the last column of a ranking, explained under the table
// where it is used.
type mark struct {
	sign  string
	bears func(*match.Candidate) bool
	means string
}

var marks = []mark{
	{"F", func(c *match.Candidate) bool { return c.Fitted }, "the fitted fan"},
	{tieMark, func(c *match.Candidate) bool { return c.Tie }, "a tie with the first: the difference cannot be heard"},
	{"P", func(c *match.Candidate) bool { return c.Pareto }, "no fan this quiet has more spare flow"},
	{EstimateMark, func(c *match.Candidate) bool { return len(c.Estimated) > 0 }, "rests on an estimate: no sheet gave it"},
	{"S", func(c *match.Candidate) bool { return c.Stalled == match.StallNear }, "in or near the dip of its curve: stalled, rough and louder"},
	{"s", func(c *match.Candidate) bool { return c.Stalled == match.StallProbable }, "probably stalled: get its full curve before ordering"},
	{"M", func(c *match.Candidate) bool { return c.Marginal }, "marginal: needs over 90 % of its full speed, whose tolerance is ±10 %"},
	{"D", func(c *match.Candidate) bool { return c.Shares == match.SharesDepends }, "enough air only at some of the three shares: measure before ordering"},
	{"T", func(c *match.Candidate) bool { return !allKept(c.Spots) && allWithin(c.Spots) }, "a watched spot may use up its margin at the planned speed"},
	{"X", func(c *match.Candidate) bool { return !allWithin(c.Spots) }, "a watched spot may pass its limit at the planned speed: too hot"},
	{"H", func(c *match.Candidate) bool { return c.Limit != match.LimitNone && c.Limit != match.LimitFull }, "held above the speed that would just do"},
}

// tieMark marks fans that sound like the first. One that can be told from it with
// the confidence, by what it keeps, does not bear it.
const tieMark = "="

// bears says whether a candidate bears a mark in this ranking.
func (d *Ranking) bears(m mark, c *match.Candidate) bool {
	if s := d.sureOf(c.Rank - 1); m.sign == tieMark && s != nil && s.Group > 1 {
		return false
	}
	return m.bears(c)
}

func (d *Ranking) marks(c *match.Candidate) string {
	var signs []string
	for _, m := range marks {
		if d.bears(m, c) {
			signs = append(signs, m.sign)
		}
	}
	return strings.Join(signs, "")
}

// columnsMean explains the columns of this ranking that are not plain by their
// names.
func (d *Ranking) columnsMean(shown func(string) bool) []string {
	said := []string{"each fan as it would be run; change: against the fitted fan now; spare: more flow at full speed; fit: checks to be looked at (!), not known (?)"}
	add := func(column, means string) {
		if shown(column) {
			said = append(said, means)
		}
	}
	add("sone", d.soneMeans())
	add("in all", "in all: with everything else that is heard")
	add("hottest", d.hottestMeans())
	add("life", "life: of "+d.lives()+" over that with the fitted fan as found, a ratio and no hours")
	if d.Sure != nil {
		return append(said, d.keptMeans(shown), "order: whole dB kept, all that is too quiet to matter alike; then how surely the needed flow is moved; then fewer estimates, more spare, lower price")
	}
	return append(said, "order: whole dB, all that is too quiet to matter alike; then fewer estimates, more spare, lower price")
}

func (d *Ranking) soneMeans() string {
	said := "sone: loudness as ears hear it, ISO 532-1, free field"
	if len(d.ranks(func(c *match.Candidate) bool { return !c.Loud.Measured })) > 0 || !d.Ranking.Baseline.Loud.Measured {
		said += "; " + EstimateMark + " by a typical spectrum of its kind, none was measured"
	}
	return said
}

func (d *Ranking) hottestMeans() string {
	var names []string
	for i := range d.Ranking.Candidates {
		if hot, ok := hottest(d.Ranking.Candidates[i].Spots); ok {
			names = appendNew(names, fmt.Sprintf("%s (%s °C less %s K)", hot.Name, Trim(Fixed(hot.Limit, 1)), Trim(Fixed(hot.Margin, 1))))
		}
	}
	return "hottest: " + strings.Join(names, " or ") + ", the spot nearest to its limit, at the worst, the warmest its unknown shares allow"
}

// lives names what the column of life is of.
func (d *Ranking) lives() string {
	var names []string
	for _, t := range d.Ranking.Candidates[0].Spots {
		if !math.IsNaN(t.Life) {
			names = append(names, t.Name)
		}
	}
	if d.Warm {
		names = append(names, "the fan's bearings")
	}
	return strings.Join(names, " or ")
}

// legend explains what the table uses: its columns and its signs.
func (d *Ranking) legend(shown func(string) bool) facts {
	var f facts
	for _, means := range d.columnsMean(shown) {
		f.add("", means)
	}
	for _, m := range marks {
		ranks := d.ranks(func(c *match.Candidate) bool { return d.bears(m, c) })
		if len(ranks) == 0 && (d.Ranking.Fitted == nil || !m.bears(d.Ranking.Fitted)) {
			continue
		}
		means := m.means
		switch m.sign {
		case EstimateMark:
			means += " (" + d.estimatedBy() + ")"
		case "H":
			means += " (" + d.heldBy() + ")"
		}
		f.add(m.sign, means)
	}
	if ranks := d.ranks(func(c *match.Candidate) bool { return c.TwoEnded }); len(ranks) > 0 {
		f.add("±", "curve drawn between the two ends of its label: flow known to ±20 %, ±10 % for centrifugal fans "+d.rankText(ranks))
	}
	return f
}

// found tells what the checks found, and what else is to be known before a fan is
// ordered.
func (d *Ranking) found() facts {
	var f facts
	told := map[match.Question]bool{} // each question once
	for _, v := range []struct {
		verdict catalog.Verdict
		sign    string
	}{{catalog.Warn, "!"}, {catalog.Unclear, "?"}} {
		for _, line := range d.foundOf(v.verdict, told) {
			f.add(v.sign, line)
		}
	}
	for _, line := range d.cautions() {
		f.add("!", line)
	}
	return f
}

// cautions gathers what candidates have to be told with, the same words once,
// but for what a mark says already.
func (d *Ranking) cautions() []string {
	var said []string
	for i := range d.Ranking.Candidates {
		for _, caution := range d.Ranking.Candidates[i].Cautions {
			if !slices.Contains(said, caution) {
				said = append(said, caution)
			}
		}
	}
	for i, caution := range said {
		ranks := d.ranks(func(c *match.Candidate) bool { return slices.Contains(c.Cautions, caution) })
		said[i] = caution + " " + d.rankText(ranks)
	}
	return said
}

// ranks lists the ranks of the candidates that are so.
func (d *Ranking) ranks(so func(*match.Candidate) bool) []int {
	var out []int
	for i := range d.Ranking.Candidates {
		if c := &d.Ranking.Candidates[i]; so(c) {
			out = append(out, c.Rank)
		}
	}
	return out
}

// estimatedBy says which values are estimated in which lines.
func (d *Ranking) estimatedBy() string {
	var said []string
	for id := range catalog.NumFields {
		ranks := d.ranks(func(c *match.Candidate) bool { return slices.Contains(c.Estimated, id) })
		if len(ranks) > 0 {
			said = append(said, catalog.Fields[id].Title+" "+d.rankText(ranks))
		}
	}
	return strings.Join(said, "; ")
}

// heldBy says what holds which lines.
func (d *Ranking) heldBy() string {
	var said []string
	for _, l := range []match.Limit{match.LimitStart, match.LimitControl, match.LimitTach, match.LimitHeadRoom} {
		if ranks := d.ranks(func(c *match.Candidate) bool { return c.Limit == l }); len(ranks) > 0 {
			said = append(said, limitWords[l]+" "+d.rankText(ranks))
		}
	}
	return strings.Join(said, "; ")
}

var limitWords = map[match.Limit]string{
	match.LimitStart:    "may not start slower",
	match.LimitControl:  "cannot be slowed further",
	match.LimitTach:     "the device alarms below",
	match.LimitHeadRoom: "no linear regulator voltage in between: lowsone slow shows other means",
}

// mostNotes is how many different notes of one check are told.
const mostNotes = 3

// foundOf gathers what the checks of one verdict say, check by check, the same
// words once with the ranks they hold for.
func (d *Ranking) foundOf(verdict catalog.Verdict, told map[match.Question]bool) []string {
	var lines []string
	for _, check := range checkNames(d.Ranking.Candidates) {
		notes, ranks := d.notesOf(check, verdict)
		var said []string
		for i, note := range notes[:min(len(notes), mostNotes)] {
			said = append(said, note+" "+d.rankText(ranks[i]))
		}
		if more := len(notes) - mostNotes; more > 0 {
			said = append(said, fmt.Sprintf("%d more: see --explain", more))
		}
		if len(said) > 0 {
			lines = append(lines, string(check)+": "+strings.Join(said, "; ")+settles(d.asks(check, verdict, told), d.Around != nil))
		}
	}
	return lines
}

// asks lists the questions about the device behind a check that were not told
// yet.
func (d *Ranking) asks(name match.CheckName, verdict catalog.Verdict, told map[match.Question]bool) []match.Question {
	var asks []match.Question
	for _, c := range d.Ranking.Candidates {
		for _, check := range c.Checks {
			if check.Name == name && check.Verdict == verdict && check.Asks != match.AskNothing && !told[check.Asks] {
				told[check.Asks] = true
				asks = append(asks, check.Asks)
			}
		}
	}
	return asks
}

// notesOf lists the different notes of a check with the ranks that have them.
func (d *Ranking) notesOf(name match.CheckName, verdict catalog.Verdict) (notes []string, ranks [][]int) {
	for _, c := range d.Ranking.Candidates {
		for _, check := range c.Checks {
			if check.Name != name || check.Verdict != verdict {
				continue
			}
			i := slices.Index(notes, check.Note)
			if i < 0 {
				i = len(notes)
				notes, ranks = append(notes, check.Note), append(ranks, nil)
			}
			ranks[i] = append(ranks[i], c.Rank)
		}
	}
	return notes, ranks
}

// checkNames lists the checks of all candidates in the order they are made.
func checkNames(all []match.Candidate) []match.CheckName {
	var names []match.CheckName
	for _, c := range all {
		for _, check := range c.Checks {
			if !slices.Contains(names, check.Name) {
				names = append(names, check.Name)
			}
		}
	}
	return names
}

// rankText writes ranks shortly: (1, 3–5), or (all).
func (d *Ranking) rankText(ranks []int) string {
	if len(ranks) > 1 && len(ranks) == len(d.Ranking.Candidates) {
		return "(all)"
	}
	var parts []string
	for i := 0; i < len(ranks); {
		j := i
		for j+1 < len(ranks) && ranks[j+1] == ranks[j]+1 {
			j++
		}
		switch part := strconv.Itoa(ranks[i]); {
		case j > i+1:
			parts = append(parts, part+"–"+strconv.Itoa(ranks[j]))
			i = j + 1
		default:
			parts = append(parts, part)
			i++
		}
	}
	return "(" + strings.Join(parts, ", ") + ")"
}
