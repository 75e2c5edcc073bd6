package view

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"lowsone/match/sample"
)

// rows that a ranking's draws add to what people see.

// sureOf gives how sure candidate i is; nil where it was not drawn.
func (d *Ranking) sureOf(i int) *sample.Sure {
	if d.Sure == nil || i < 0 || i >= len(d.Sure.Sure) {
		return nil
	}
	return d.Sure.Sure[i]
}

// sureOfFitted gives how sure the fitted fan is where it is not among the first;
// nil where it was not drawn.
func (d *Ranking) sureOfFitted() *sample.Sure {
	if d.Sure == nil {
		return nil
	}
	return d.Sure.Fitted
}

// keptCell gives the level a candidate keeps with the confidence.
func keptCell(s *sample.Sure) string {
	switch {
	case s == nil:
		return ""
	case math.IsInf(s.Level, 1):
		return Unknown
	}
	return Fixed(s.Level, 1)
}

// bandCell gives the range of the level at the needed flow.
func bandCell(s *sample.Sure) string {
	if s == nil {
		return ""
	}
	return rangeText(s.Needed.Level, 0)
}

func rangeText(b sample.Band, decimals int) string {
	low, high := Fixed(b.Low, decimals), Fixed(b.High, decimals)
	if low == high {
		return low
	}
	return low + "–" + high
}

// newGroup says whether candidate i begins a group that can be told from the one
// before.
func (d *Ranking) newGroup(i int) bool {
	s, before := d.sureOf(i), d.sureOf(i-1)
	return s != nil && before != nil && s.Group != before.Group
}

// confidence gives the confidence of the ranking in percent.
func (d *Ranking) confidence() string { return Trim(Fixed(100*d.Sure.Confidence, 1)) + " %" }

// surely is the share of draws from which on a thing is called sure.
const surely = 0.95

// sureFacts tells what the draws say of the list.
func (d *Ranking) sureFacts() facts {
	var f facts
	if d.Sure == nil || len(d.Ranking.Candidates) == 0 {
		return f
	}
	if said := d.unsureFlow(); said != "" {
		f.add("flow", said)
	}
	if said := d.unsureLimits(); said != "" {
		f.add("limit", said)
	}
	return f
}

// nextFacts tells what the first hangs on, and what to measure next.
func (d *Ranking) nextFacts() facts {
	var f facts
	if d.Sure == nil || len(d.Ranking.Candidates) == 0 {
		return f
	}
	if said := causesText(d.Sure.Causes, "the first"); said != "" {
		f.add("hangs on", said)
	}
	return append(f, adviceFacts(d.Sure.Advice, "the level of the first")...)
}

// keptMeans explains the columns that the draws add.
func (d *Ranking) keptMeans(shown func(string) bool) string {
	said := fmt.Sprintf("kept: at the needed flow it is this loud or quieter in %s of %d cases like yours, drawn from what is not certain", d.confidence(), d.Sure.Draws)
	if d.Sure.Dropped > 0 {
		said += fmt.Sprintf(" (%d more contradict what was measured)", d.Sure.Dropped)
	}
	if d.anyNotKept() {
		said += "; –: the flow itself is not kept so surely"
	}
	if shown("range") {
		said += "; range: 8 of 10 cases lie in it"
	}
	switch {
	case d.groups() > 1:
		said += "; a line parts fans that can be told apart so surely"
	case len(d.Ranking.Candidates) > 1:
		said += "; none of these can be told from the first so surely"
	}
	return said
}

// anyNotKept says whether a candidate does not keep the needed flow with the
// confidence.
func (d *Ranking) anyNotKept() bool {
	return slices.ContainsFunc(d.Sure.Sure, func(s *sample.Sure) bool { return s != nil && math.IsInf(s.Level, 1) })
}

func (d *Ranking) groups() int {
	n := 0
	for _, s := range d.Sure.Sure {
		if s != nil {
			n = max(n, s.Group)
		}
	}
	return n
}

// unsureFlow names those that may not move the needed flow even at full speed.
func (d *Ranking) unsureFlow() string {
	return d.unsure("moves the needed flow in only", func(s *sample.Sure) float64 { return s.Kept })
}

// unsureLimits names those that may pass a limit at the speed planned.
func (d *Ranking) unsureLimits() string {
	return d.unsure("at the planned speed, before it is measured and mended, keeps every limit in only", func(s *sample.Sure) float64 { return s.Limit })
}

func (d *Ranking) unsure(what string, share func(*sample.Sure) float64) string {
	var said []string
	for i := range d.Ranking.Candidates {
		if s := d.sureOf(i); s != nil && share(s) < surely {
			said = append(said, fmt.Sprintf("%s (%d)", percent(share(s)), d.Ranking.Candidates[i].Rank))
		}
	}
	if len(said) == 0 {
		return ""
	}
	return what + " " + strings.Join(said, ", ") + " of the draws"
}

func percent(share float64) string { return Fixed(100*share, 0) + " %" }

// mostCauses is how many causes people are told.
const mostCauses = 3

// leastCause is the share of variance below which a cause is not worth a word.
const leastCause = 0.05

// causesText names what level and temperature of a fan hang on most.
func causesText(causes []sample.Cause, whose string) string {
	var level, heat []string
	for _, c := range causes {
		if c.Level >= leastCause && len(level) < mostCauses {
			level = append(level, c.Name+" "+percent(c.Level))
		}
	}
	for _, c := range sample.ByHeat(causes) {
		if c.Heat >= leastCause && len(heat) < mostCauses {
			heat = append(heat, c.Name+" "+percent(c.Heat))
		}
	}
	var said []string
	if len(level) > 0 {
		said = append(said, "how loud "+whose+" is: "+strings.Join(level, ", "))
	}
	if len(heat) > 0 {
		said = append(said, "how hot it gets: "+strings.Join(heat, ", "))
	}
	if len(said) == 0 {
		return ""
	}
	return strings.Join(said, "; ") + " (shares of the variance)"
}

// narrower is the share of a band that is left when narrowing it is worth a word.
const narrower = 0.97

// adviceFacts tells what to measure next, and what it would be worth.
func adviceFacts(all []sample.Advice, level string) facts {
	var f facts
	for i := range all {
		a := &all[i]
		var said []string
		if a.LevelThen < narrower*a.Level {
			said = append(said, fmt.Sprintf("%s from ±%s to ±%s dB", level, Fixed(a.Level, 1), Fixed(a.LevelThen, 1)))
		}
		if a.HeatThen < narrower*a.Heat {
			said = append(said, fmt.Sprintf("the temperature from ±%s to ±%s K", Fixed(a.Heat, 1), Fixed(a.HeatThen, 1)))
		}
		if len(said) > 0 {
			f.add("next", a.Measure+" ("+strings.Join(said, ", ")+")")
		}
	}
	return f
}
