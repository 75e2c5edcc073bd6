package view

import (
	"fmt"
	"math"
	"strings"

	"lowsone/catalog"
	"lowsone/match"
	"lowsone/match/sample"
)

// Why says in one line why a candidate is on the order list. It stands in a
// CSV that spreadsheets open, so it keeps to plain characters.
func (d *Ranking) Why(c *match.Candidate) string {
	r := d.Ranking
	said := []string{fmt.Sprintf("rank %d of %d: %s at %s m moving %s m3/h at %s %% of its speed",
		c.Rank, r.Total, plainLevel(c.Planned.Level), Trim(Fixed(r.Listener, 2)), flowNumber(c.Planned.Q), Fixed(100*c.Planned.Ratio, 0))}
	if diff := d.difference(c); diff < 0 {
		said[0] += ", " + Fixed(-diff, 1) + " dB below the fitted fan"
	} else if diff >= 0 {
		said[0] += ", no quieter than the fitted fan"
	}
	if s := d.sureOf(c.Rank - 1); s != nil {
		said = append(said, d.sureWhy(s))
	}
	for _, v := range []struct {
		verdict catalog.Verdict
		lead    string
	}{{catalog.Warn, "check "}, {catalog.Unclear, "not known: "}} {
		if names := checksThat(c.Checks, v.verdict); len(names) > 0 {
			said = append(said, v.lead+strings.Join(names, ", "))
		}
	}
	if len(c.Estimated) > 0 {
		said = append(said, "estimated: "+strings.Join(titles(c.Estimated), ", "))
	}
	return strings.Join(append(said, doubts(c)...), "; ")
}

// Doubtful says how many of the candidates that are to be ordered are no better than
// the fitted fan; empty where all are.
func (d *Ranking) Doubtful(listed []*match.Candidate) string {
	louder, unsure := 0, 0
	for _, c := range listed {
		switch s := d.sureOf(c.Rank - 1); {
		case d.difference(c) >= 0:
			louder++
		case s != nil && s.Kept < d.Sure.Confidence:
			unsure++
		}
	}
	var said []string
	if louder > 0 {
		said = append(said, fmt.Sprintf("%s no quieter than the fitted fan now", areOf(louder, len(listed))))
	}
	if unsure > 0 {
		said = append(said, fmt.Sprintf("%s quieter, but less sure to move the needed flow than was asked (%s)", areOf(unsure, len(listed)), d.confidence()))
	}
	return strings.Join(said, "; ")
}

// areOf words a number of all: "2 of 3 fans listed are".
func areOf(n, all int) string {
	switch {
	case all == 1:
		return "the fan listed is"
	case n == 1:
		return fmt.Sprintf("1 of %d fans listed is", all)
	}
	return fmt.Sprintf("%d of %d fans listed are", n, all)
}

// sureWhy says how sure a candidate is.
func (d *Ranking) sureWhy(s *sample.Sure) string {
	if math.IsInf(s.Level, 1) {
		return fmt.Sprintf("moves that flow in only %s of the cases drawn", percent(s.Kept))
	}
	return fmt.Sprintf("at most %s dB(A) in %s of the cases drawn", Fixed(s.Level, 1), d.confidence())
}

// doubts are what may make a candidate the wrong choice.
func doubts(c *match.Candidate) []string {
	var said []string
	switch c.Stalled {
	case match.StallNear:
		said = append(said, "stalled")
	case match.StallProbable:
		said = append(said, "probably stalled")
	}
	if c.Marginal {
		said = append(said, "marginal")
	}
	if c.Shares == match.SharesDepends {
		said = append(said, "enough air only at some shares")
	}
	return said
}

func plainLevel(l match.Level) string {
	if l.Under {
		return "at most " + Fixed(l.DB, 1) + " dB(A)"
	}
	return Fixed(l.DB, 1) + " dB(A)"
}

func checksThat(checks []match.Check, verdict catalog.Verdict) []string {
	var names []string
	for _, c := range checks {
		if c.Verdict == verdict {
			names = append(names, string(c.Name))
		}
	}
	return names
}

// LabelWhy says what a fan that was named is, by its label.
func LabelWhy(f *catalog.Fan) string {
	said := []string{"named"}
	if size := sizeCell(f); size != Unknown {
		said = append(said, strings.ReplaceAll(size, "×", "x")+" mm")
	}
	for _, v := range []struct {
		id   catalog.FieldID
		unit string
	}{{catalog.FieldVoltage, "V"}, {catalog.FieldAirflow, "m3/h"}, {catalog.FieldNoise, "dB(A)"}} {
		if text := cell(f, v.id); text != Unknown {
			said = append(said, text+" "+v.unit)
		}
	}
	if f.NoiseKind.Or(0) == catalog.NoisePower {
		said = append(said, "a sound power level")
	}
	return strings.Join(said, ", ")
}

// LeftOutWhy says why a fan that was named is no candidate.
func LeftOutWhy(outcome string) string {
	return "named, but " + strings.ReplaceAll(outcome, "³", "3")
}
