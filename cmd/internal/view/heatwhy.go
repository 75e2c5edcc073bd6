package view

import (
	"fmt"
	"strconv"
	"strings"

	"lowsone/match/thermal"
)

// hardlyMoved says whether the log of a probe holds no change to speak of.
func (p *HeatProbe) hardlyMoved() bool { return p.Prediction.Doubt == thermal.Flat }

// verdict says what the log tells of its end.
func (p *HeatProbe) verdict() string {
	if p.hardlyMoved() {
		return "hardly moved"
	}
	return p.Prediction.Verdict.String()
}

// why says what the verdict comes from. A probe that hardly moved may hang in the
// room, whose temperature is asked for as a flag.
func (p *HeatProbe) why() string {
	if !p.hardlyMoved() {
		return p.Prediction.Why()
	}
	ambient := ""
	if !p.Worst.Known {
		ambient = fmt.Sprintf(" (--ambient %sC)", Trim(Fixed(p.last(), 0)))
	}
	return fmt.Sprintf("%s K in %s: is it the room%s, or was it warm before?", Digits(p.Prediction.Change, 2), minutesText(p.length()), ambient)
}

// unchecked says which limits of the device file are not held against the log, and
// how its probes come by them; empty where all are.
func (d *Heat) unchecked() string {
	if len(d.Unchecked) == 0 {
		return ""
	}
	var spots, probes []string
	for _, s := range d.Unchecked {
		spots = append(spots, fmt.Sprintf("%q (%s °C less %s K)", s.Name, Trim(Fixed(s.Limit.Limit, 1)), Trim(Fixed(s.Limit.Margin, 1))))
	}
	for i := range d.Probes {
		if p := &d.Probes[i]; !p.Limit.Known && !p.hardlyMoved() {
			probes = append(probes, p.Name)
		}
	}
	said := fmt.Sprintf("not checked: %s of %s, the log has no probe of that name", strings.Join(spots, ", "), d.Device)
	if len(probes) == 0 {
		return said
	}
	said += fmt.Sprintf("; is it %s? then give that column the spot's name", joinOr(probes))
	if d.Carried {
		said += fmt.Sprintf(", or --limit '%s=%sC'", probes[0], Trim(Fixed(d.Unchecked[0].Limit.Limit, 1)))
	}
	return said
}

// joinOr joins quoted names: "a", "b" or "c".
func joinOr(names []string) string {
	said := ""
	for i, name := range names {
		switch {
		case i > 0 && i == len(names)-1:
			said += " or "
		case i > 0:
			said += ", "
		}
		said += strconv.Quote(name)
	}
	return said
}
