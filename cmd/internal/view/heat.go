package view

import (
	"fmt"
	"io"
	"math"
	"slices"

	"lowsone/match/thermal"
	"lowsone/match/trial"
)

// Heat is what a temperature log says of its end.
type Heat struct {
	File   string
	Log    *trial.Log
	Probes []HeatProbe
	Rules  []thermal.Rule // shown in full

	Device    string // device file; empty: none
	Carried   bool   // every end is carried to the worst of that file, which has one path
	Unchecked []HeatSpot
}

// HeatSpot is a spot of a device file of which the log has no probe.
type HeatSpot struct {
	Name  string
	Limit trial.Limit
}

// HeatProbe is the log of one probe, judged.
type HeatProbe struct {
	*trial.Probe
	Prediction thermal.Prediction
	Worst      trial.Worst
	Limit      trial.Limit
	Judgement  trial.Judgement
	Rules      []HeatRule // all
}

// HeatRule is a settling rule with what it says of a probe.
type HeatRule struct {
	Rule    thermal.Rule
	Settled bool
	Detail  string
}

// last gives the last reading in °C.
func (p *HeatProbe) last() float64 { return p.Readings[len(p.Readings)-1].Celsius }

// length gives the length of the log in s.
func (p *HeatProbe) length() float64 { return p.Readings[len(p.Readings)-1].Time - p.Readings[0].Time }

// atWorst gives the end at the worst in °C; NaN where it is not known.
func (p *HeatProbe) atWorst() float64 {
	end, _, ok := p.Prediction.End()
	if !ok || !p.Worst.Known {
		return math.NaN()
	}
	return p.Worst.At(end)
}

// Text writes the log's account for people.
func (d *Heat) Text(w io.Writer, s Style) error {
	p := &printer{w: w, style: s.within(proseWidth)}
	var head facts
	head.add("log", fmt.Sprintf("%s: %s over %s", d.File, count(d.Log.Rows, "row"), minutesText(d.longest())))
	for _, skipped := range d.Log.Skipped {
		head.add("skipped", fmt.Sprintf("%q %s", skipped.Header, skipped.Why))
	}
	for _, note := range d.Log.Notes {
		head.add("note", note)
	}
	p.facts(head)
	p.line("")
	p.table(d.table())
	p.facts(d.why())
	for _, rule := range d.Rules {
		p.line("")
		p.wrapped("", p.style.Bold(Clean(rule.Name+": "+rule.Asks)))
		p.facts(d.ruleFacts(rule))
	}
	p.caution()
	return p.err
}

func (d *Heat) longest() float64 {
	most := 0.0
	for i := range d.Probes {
		most = max(most, d.Probes[i].length())
	}
	return most
}

func minutesText(s float64) string { return Digits(s/60, 3) + " min" }

func (d *Heat) table() *Table {
	t := &Table{Whole: "json", Columns: []Column{
		{Title: "probe", Wrap: true},
		{Title: "from", Unit: "°C", Number: true, Spare: 3},
		{Title: "last", Unit: "°C", Number: true, Spare: 1},
		{Title: "log"},
		{Title: "ends at", Unit: "°C"},
		{Title: "time const.", Unit: "min", Number: true, Optional: true, Spare: 2},
		{Title: "at the worst", Unit: "°C", Number: true, Optional: true},
		{Title: "limit", Unit: "°C", Number: true, Optional: true},
		{Title: "allowed", Unit: "°C", Number: true, Optional: true},
		{Title: "verdict", Optional: true},
	}}
	for i := range d.Probes {
		p := &d.Probes[i]
		limit, allowed, judged := Unknown, Unknown, ""
		if p.Limit.Known {
			limit, allowed, judged = Trim(Fixed(p.Limit.Limit, 1)), Trim(Fixed(p.Limit.Allowed(), 1)), p.Judgement.String()
		}
		t.Add(p.Name, Fixed(p.Readings[0].Celsius, 1), Fixed(p.last(), 1), p.verdict(), endCell(p.Prediction),
			constantCell(p.Prediction), Fixed(p.atWorst(), 1), limit, allowed, judged)
	}
	return t
}

// endCell writes the end, its error, or a lower bound of it.
func endCell(p thermal.Prediction) string {
	if end, sd, ok := p.End(); ok {
		return fmt.Sprintf("%s ±%s", Fixed(end, 1), Digits(sd, 1))
	}
	if least, ok := p.AtLeast(); ok {
		return "above " + Fixed(least, 1)
	}
	return Unknown
}

// constantCell writes the time constant of a fit that may be believed.
func constantCell(p thermal.Prediction) string {
	if p.Verdict != thermal.Predicts {
		return Unknown
	}
	return Digits(p.Whole.Tau/60, 2)
}

// why gives the reasons, and which settling rules are kept.
func (d *Heat) why() facts {
	var f facts
	if said := d.unchecked(); said != "" {
		f.add("limits", said)
	}
	for i := range d.Probes {
		p := &d.Probes[i]
		f.add("why", p.Name+": "+p.why())
		if p.Missing > 0 {
			f.add("note", fmt.Sprintf("%s: %s without a reading", p.Name, count(p.Missing, "row")))
		}
	}
	for i := range d.Probes {
		p := &d.Probes[i]
		f.add("rules", p.Name+": "+p.ruled())
	}
	f.add("", d.footnote())
	return f
}

// footnote says what the columns mean.
func (d *Heat) footnote() string {
	said := "±: one standard error; a rule kept is an agreement, no proof"
	if slices.ContainsFunc(d.Probes, func(p HeatProbe) bool { return p.Limit.Known }) {
		said += "; allowed: the limit less the margin, judged with two standard errors"
	}
	if len(d.Rules) > 0 {
		said += "; what a rule asks was read where test engineers quote its standard, not in the standard: --format json says where"
	}
	return said + d.worstWords()
}

// worstWords says what the column of the worst case stands for.
func (d *Heat) worstWords() string {
	said, hotter := "", false
	for i := range d.Probes {
		if w := d.Probes[i].Worst; !math.IsNaN(d.Probes[i].atWorst()) {
			said = fmt.Sprintf("; at the worst: a room of %s °C instead of %s °C", Trim(Fixed(w.WorstRoom, 1)), Trim(Fixed(w.Room, 1)))
			hotter = hotter || w.HeatRatio != 1
		}
	}
	switch {
	case said == "":
		return ""
	case hotter:
		return said + " and the most heat of the device file, at the same flow"
	}
	return said + ", at the same flow"
}

// ruled counts the rules that are kept.
func (p *HeatProbe) ruled() string {
	kept := 0
	for _, r := range p.Rules {
		if r.Settled {
			kept++
		}
	}
	if kept == 0 {
		return fmt.Sprintf("steady by none of %d rules (--rule all)", len(p.Rules))
	}
	return fmt.Sprintf("steady by %d of %d rules (--rule all)", kept, len(p.Rules))
}

func (d *Heat) ruleFacts(rule thermal.Rule) facts {
	var f facts
	for i := range d.Probes {
		p := &d.Probes[i]
		for _, r := range p.Rules {
			if r.Rule.Name != rule.Name {
				continue
			}
			said := "not steady: "
			if r.Settled {
				said = "steady: "
			}
			said += r.Detail
			if hides, ok := rule.Hides(p.Prediction.Whole.Tau); ok && p.Prediction.Verdict == thermal.Predicts {
				said += fmt.Sprintf("; with its time constant the rule lets up to %s K pass", Digits(hides, 2))
			}
			f.add(p.Name, said)
		}
	}
	return f
}
