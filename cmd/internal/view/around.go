package view

import (
	"fmt"
	"math"
	"strings"

	"lowsone/match"
)

// Around is what a device file says beside the path that is shown.
type Around struct {
	Device  *match.Device
	Shown   int  // of Device.Paths
	Loudest bool // shown because it is the loudest
	All     bool // the other paths are shown too
	Heard   []match.Heard
	Missing []string // what is not known of what is heard
}

// path names the path shown, and how to see the others.
func (a *Around) path() string {
	said := a.Device.PathName(a.Shown)
	if a.Device.Name != "" {
		said = a.Device.Name + ": " + said
	}
	n := len(a.Device.Paths)
	switch {
	case n == 1:
		return said
	case a.All:
		return said
	case a.Loudest:
		said += fmt.Sprintf(", the loudest of %d paths", n)
	default:
		said += fmt.Sprintf(", one of %d paths", n)
	}
	var others []string
	for i := range a.Device.Paths {
		if i != a.Shown {
			others = append(others, a.Device.PathName(i))
		}
	}
	return said + "; --path shows " + strings.Join(others, ", ")
}

// budget adds what is heard at the listener.
func (a *Around) budget() match.Budget { return match.NoiseBudget(match.Noises(a.Heard)) }

// rest is what is heard beside the fans of the path shown.
func (a *Around) rest() []match.Noise {
	var rest []match.Noise
	for _, h := range a.Heard {
		if h.Path != a.Shown {
			rest = append(rest, h.Noise)
		}
	}
	return rest
}

// total gives the level at the listener with a fan of so many dB(A) on the path
// shown; NaN where nothing else is heard.
func (a *Around) total(level float64) float64 {
	rest := a.rest()
	if len(rest) == 0 {
		return math.NaN()
	}
	return match.NoiseBudget(append(rest, match.Noise{Level: level})).Total
}

// facts tell the noise budget.
func (a *Around) facts() facts {
	var f facts
	if len(a.Heard) > 0 {
		f.add("heard", a.heardWords())
	}
	budget := a.budget()
	for _, share := range budget.Shares {
		if h := a.named(share.Name); h.Path != match.OtherSource && share.Next != "" {
			f.add("alone", fmt.Sprintf("replacing %s alone gains at most %s dB, then %s dominates", fanOfPath(share.Name), Fixed(share.Gain, 1), share.Next))
		}
	}
	for _, r := range a.Device.Readings {
		f.add("measured", a.wholeWords(&r))
	}
	if len(a.Missing) > 0 {
		f.add("not known", strings.Join(a.Missing, "; ")+": the budget is without it")
	}
	return f
}

// wholeWords holds a level of the whole device against what is heard of its parts.
func (a *Around) wholeWords(r *match.Reading) string {
	said := fmt.Sprintf("the whole device %s dB(A) at %s m", Fixed(r.Level.DB(), 1), Trim(Fixed(float64(r.Distance), 2)))
	total, listener := a.budget().Total, float64(a.Device.Listener.Or(1))
	if r.After || math.IsInf(total, 0) || len(a.Missing) > 0 {
		return said + ": not used in the ranking"
	}
	there := total + 20*math.Log10(listener/float64(r.Distance))
	return fmt.Sprintf("%s, against %s of its parts there, without walls: a check, not used in the ranking", said, Fixed(there, 1))
}

// fanOfPath speaks of the fan of a path.
func fanOfPath(name string) string {
	if strings.Contains(name, "fan") {
		return name
	}
	return "the fan of " + name
}

func (a *Around) heardWords() string {
	budget := a.budget()
	var parts []string
	for _, share := range budget.Shares {
		parts = append(parts, fmt.Sprintf("%s %s (%s)", share.Name, Fixed(share.Level, 1), match.HeardNames[a.named(share.Name).By]))
	}
	said := strings.Join(parts, ", ")
	if len(parts) == 1 {
		return said + " dB(A) where people sit, without walls (free field)"
	}
	return Fixed(budget.Total, 1) + " dB(A) in all where people sit, without walls (free field): " + said
}

// named finds what is heard by its name.
func (a *Around) named(name string) match.Heard {
	for _, h := range a.Heard {
		if h.Name == name {
			return h
		}
	}
	return match.Heard{Path: match.OtherSource}
}
