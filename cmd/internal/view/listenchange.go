package view

import (
	"fmt"
	"math"
	"slices"

	"lowsone/acoustics"
	"lowsone/acoustics/recording"
	"lowsone/match"
)

// changeText tells what changed from the first recording to the second.
func (d *Listen) changeText(p *printer) {
	before, after := &d.Recordings[0], &d.Recordings[1]
	var f facts
	f.add("before", before.what())
	f.add("after", after.what())
	f.add("scale", d.scales())
	f.add("holds", d.Change.Basis.Premise())
	for _, doubt := range d.Change.Doubts {
		f.add("!", doubt)
	}
	f = append(f, d.limits()...)
	f.add("change", d.changeWords())
	if said := d.loudnessChange(); said != "" {
		f.add("loudness", said)
	}
	p.facts(f)
	p.line("")
	p.noted(d.levelsTable())
	p.line("")
	p.noted(d.bandsTable())
	p.line("")
	if len(d.Change.Tones) == 0 {
		p.wrapped("", "No tone is prominent before or after.")
	} else {
		p.noted(d.tonesTable())
	}
	p.line("")
	p.facts(append(d.whose(before), d.afterTones(before)...))
}

// limits tell what limits the two recordings; what makes a level doubtful is told
// as a doubt of the comparison.
func (d *Listen) limits() facts {
	var f facts
	for i := range d.Recordings {
		for _, finding := range d.Recordings[i].Analysis.Findings {
			if !finding.Kind.Doubtful() {
				f.add("note", d.Recordings[i].Analysis.Name+": "+finding.Text)
			}
		}
	}
	return f
}

// scales says what sets the scale of two recordings.
func (d *Listen) scales() string {
	said := ""
	for i, name := range []string{"before", "after"} {
		if shown, ok := d.Recordings[i].Shown.Get(); ok {
			said += fmt.Sprintf("%s: by a meter that showed %s %s; ", name, Trim(Fixed(shown.DB, 1)), weightUnits[shown.Weight])
		}
	}
	switch d.Change.Basis {
	case recording.OwnCalibrations:
		return said[:len(said)-2]
	case recording.OneCalibration:
		return said + "the other by the same gain"
	}
	return "none, levels are re full scale: differences mean something if both have one gain. For dB(A) and sone give what a meter showed: --level 52dBA with --same-gain or --level-after"
}

func (d *Listen) changeWords() string {
	before, after := &d.Recordings[0], &d.Recordings[1]
	change := d.Change.Level
	said := fmt.Sprintf("%s dB(A): from %s to %s dB(A)%s", signed(float64(change.By)), Fixed(before.db(before.Analysis.Level.Equivalent), 1),
		Fixed(after.db(after.Analysis.Level.Equivalent), 1), before.reference())
	if spread := float64(change.Spread); !math.IsNaN(spread) {
		said += "; chance alone makes " + chanceText(2*spread)
	}
	if byChance(change) {
		said += ", so it may be nothing"
	}
	if d.Meter != 0 {
		said += fmt.Sprintf("; by the meter (%v, in the same place) ±%s dB", d.Meter, Fixed(float64(d.Meter.ChangeHalfWidth()), 0))
	}
	return said
}

// chanceText writes what chance may do to a level, in dB.
func chanceText(db float64) string {
	if text := Fixed(db, 1); text != "0.0" {
		return "±" + text + " dB"
	}
	return "less than ±0.1 dB"
}

// byChance says whether a difference is less than twice its standard deviation.
func byChance(c recording.Difference) bool { return math.Abs(float64(c.By)) < 2*float64(c.Spread) }

// Shares of loudness that are called half, or double.
const (
	aboutHalf   = 0.05
	aboutDouble = 0.2
)

func (d *Listen) loudnessChange() string {
	change, ok := d.Change.Loudness.Get()
	if !ok {
		return ""
	}
	said := fmt.Sprintf("from %s to %s sone", Digits(change.Before, 2), Digits(change.After, 2))
	ratio := change.Ratio()
	switch {
	case math.IsNaN(ratio):
		return said
	case math.Abs(ratio-0.5) <= aboutHalf:
		said += ": about half as loud"
	case math.Abs(ratio-2) <= aboutDouble:
		said += ": about twice as loud"
	default:
		said += fmt.Sprintf(": %s times as loud", Digits(ratio, 2))
	}
	return said + fmt.Sprintf(" (ISO 532-1, %s field)", d.Field)
}

// levelsTable puts the single numbers side by side.
func (d *Listen) levelsTable() *Table {
	before, after := &d.Recordings[0], &d.Recordings[1]
	t := &Table{Columns: []Column{
		{Title: ""}, {Title: "before", Number: true}, {Title: "after", Number: true}, {Title: "change", Number: true}, {Title: "unit"},
	}}
	add := func(name, unit string, b, a float64) { t.Add(name, Fixed(b, 1), Fixed(a, 1), signed(a-b), unit) }
	b, a := before.Analysis, after.Analysis
	ref := before.reference()
	add("L_eq", "dB(A)"+ref, before.db(b.Level.Equivalent), after.db(a.Level.Equivalent))
	add("L10", "dB(A)"+ref, before.db(b.Level.L10), after.db(a.Level.L10))
	add("L90", "dB(A)"+ref, before.db(b.Level.L90), after.db(a.Level.L90))
	add("max, fast", "dB(A)"+ref, before.db(b.Level.Max), after.db(a.Level.Max))
	add("C", "dB(C)"+ref, before.db(b.C), after.db(a.C))
	add("unweighted", "dB"+ref, before.db(b.Overall), after.db(a.Overall))
	if before.Loudness != nil && after.Loudness != nil {
		t.Add("loudness", Digits(before.Loudness.Sone, 2), Digits(after.Loudness.Sone, 2), Digits(after.Loudness.Sone-before.Loudness.Sone, 2), "sone")
		add("", "phon", before.Loudness.Phon, after.Loudness.Phon)
	}
	for i := range min(len(before.Ratings), len(after.Ratings)) {
		t.Add(before.Ratings[i].Name, ratingValue(before.Ratings[i]), ratingValue(after.Ratings[i]), "", "")
	}
	return t
}

// ratingValue is the value of a rating alone.
func ratingValue(r Rating) string {
	if r.Err != nil {
		return Unknown
	}
	value := Fixed(r.Value, 0)
	switch r.Limit {
	case acoustics.Under:
		return "<" + value
	case acoustics.Over:
		return ">" + value
	}
	return value
}

func (d *Listen) bandsTable() *Table {
	before, after := &d.Recordings[0], &d.Recordings[1]
	t := &Table{Columns: []Column{
		{Title: "third oct.", Unit: "Hz", Number: true},
		{Title: "before", Unit: "dB", Number: true},
		{Title: "after", Unit: "dB", Number: true},
		{Title: "change", Unit: "dB", Number: true},
		{Title: "by chance", Unit: "± dB", Number: true, Spare: 1},
		{Title: ""},
	}}
	chance, unknown := false, false
	for i, c := range d.Change.Thirds {
		mark := ""
		if byChance(c) {
			mark, chance = "≈", true
		}
		unknown = unknown || math.IsNaN(float64(c.By))
		t.Add(Trim(Fixed(acoustics.ThirdNominal[i], 1)), levelCell(before.db(before.Analysis.Thirds[i])), levelCell(after.db(after.Analysis.Thirds[i])),
			signed(float64(c.By)), Fixed(2*float64(c.Spread), 1), mark)
	}
	t.Notes = append(t.Notes, "levels unweighted"+before.reference())
	if chance {
		t.Notes = append(t.Notes, "≈ may be chance alone")
	}
	if unknown {
		t.Notes = append(t.Notes, Unknown+" not known, a sampling rate does not reach so far")
	}
	return t
}

func (d *Listen) tonesTable() *Table {
	t := &Table{Columns: []Column{
		{Title: "tone"},
		{Title: "before", Unit: "Hz", Number: true},
		{Title: "after", Unit: "Hz", Number: true},
		{Title: "change", Unit: "dB", Number: true},
		{Title: "over noise", Unit: "dB"},
		{Title: "made by", Wrap: true, Optional: true},
	}}
	for _, c := range d.Change.Tones[:min(mostTones, len(d.Change.Tones))] {
		t.Add(c.Fate.String(), toneCell(c.Before), toneCell(c.After), signed(float64(c.By)), overNoise(c), d.maker(c))
	}
	if more := len(d.Change.Tones) - mostTones; more > 0 {
		t.Notes = append(t.Notes, fmt.Sprintf("%d more: --format json has all", more))
	}
	t.Notes = append(t.Notes, "tones that are prominent (!) before or after; over noise: tone-to-noise ratio (ECMA-418-1)")
	if slices.ContainsFunc(d.Change.Tones, func(c recording.ToneChange) bool { return c.Fate == recording.Gone }) {
		t.Notes = append(t.Notes, "gone: prominent no longer; a slower fan's tone may be there, lower and weaker: listen to the second alone")
	}
	return t
}

func toneCell(t recording.Tone) string {
	if t.Frequency == 0 {
		return ""
	}
	return frequency(t.Frequency)
}

// overNoise writes the tone-to-noise ratios before and after, those of prominent
// tones marked.
func overNoise(c recording.ToneChange) string {
	one := func(t recording.Tone) string {
		if t.Frequency == 0 {
			return ""
		}
		text := Fixed(float64(t.TNR), 1)
		if t.Prominent {
			text += "!"
		}
		return text
	}
	before, after := one(c.Before), one(c.After)
	switch {
	case before == "":
		return "new: " + after
	case after == "":
		return before + " before"
	}
	return before + " to " + after
}

// maker names what makes a tone of the first recording, and the speed it has in
// the second.
func (d *Listen) maker(c recording.ToneChange) string {
	if c.Fate == recording.New {
		return ""
	}
	r := &d.Recordings[0]
	for _, s := range r.Series {
		for n, i := range s.Tones {
			if r.Analysis.Tones[i].Frequency != c.Before.Frequency {
				continue
			}
			switch {
			case s.Maker == match.MadeByMains:
				return "mains"
			case s.Maker != match.MadeByFan:
				return ""
			}
			said := d.Device.Fans[s.Fan].Name
			if c.Fate == recording.Moved {
				said += ", now at " + rpm(float64(c.After.Frequency)/s.Blades/float64(s.Orders[n]))
			}
			return said
		}
	}
	return ""
}
