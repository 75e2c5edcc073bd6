package view

import (
	"fmt"
	"math"

	"lowsone/match"
	"lowsone/match/sample"
)

// verdict says in a few sentences what the ranking comes to.
func (d *Ranking) verdict() []string {
	r := d.Ranking
	if len(r.Candidates) == 0 {
		return nil
	}
	first, unsure := &r.Candidates[0], d.quieterButUnsure()
	switch {
	case first.Fitted && unsure != "":
		return []string{"No other fan here does better than the fitted one so surely. " + unsure, d.waysOut(first)}
	case first.Fitted:
		return []string{"No other fan here does better than the fitted one. " + d.waysOut(first)}
	case d.difference(first) >= 0 && unsure != "":
		return []string{d.firstWords(first), "That is no quieter than the fitted fan now. " + unsure, d.waysOut(first)}
	case d.difference(first) >= 0:
		return []string{d.firstWords(first), fmt.Sprintf("That is no quieter than the fitted fan now. %s", d.waysOut(first))}
	}
	said := []string{d.firstWords(first)}
	switch ears := d.toTheEar(first); {
	case -d.difference(first) < leastGain:
		said = append(said, "So little less is not heard: an exchange for its noise is not worth it.")
	case ears != "":
		said = append(said, ears)
	}
	return said
}

// leastGain is the difference in dB below which two like noises are one to the ear
// (common practice).
const leastGain = 1.0

// quieterButUnsure tells of the fan that would be quieter than the fitted one now,
// but does not move the needed flow as surely as was asked; empty where there is
// none. Of several it is the surest.
func (d *Ranking) quieterButUnsure() string {
	best := -1
	for i := range d.Ranking.Candidates {
		c, s := &d.Ranking.Candidates[i], d.sureOf(i)
		if c.Fitted || s == nil || !(d.difference(c) <= -leastGain) || s.Kept >= d.Sure.Confidence {
			continue
		}
		if best < 0 || s.Kept > d.sureOf(best).Kept {
			best = i
		}
	}
	if best < 0 {
		return ""
	}
	c, kept := &d.Ranking.Candidates[best], d.sureOf(best).Kept
	said := fmt.Sprintf("%s would be %s dB below it, but moves the needed flow in only %s of the cases drawn, where %s are asked: ",
		d.fan(c.Row).Name(), Fixed(-d.difference(c), 1), percent(kept), d.confidence())
	if enough := math.Floor(20*kept) / 20; enough >= sample.LeastConfidence {
		said += fmt.Sprintf("--confidence %s%% takes that for enough, and ", Fixed(100*enough, 0))
	}
	return said + "what to measure next, below, says what would tell."
}

// firstWords tells the first of the ranking.
func (d *Ranking) firstWords(c *match.Candidate) string {
	said := fmt.Sprintf("First: %s, %s at %s m and %s %% of its speed", d.fan(c.Row).Name(), levelText(c.Planned.Level), Trim(Fixed(d.Ranking.Listener, 2)), Fixed(100*c.Planned.Ratio, 0))
	switch diff := d.difference(c); {
	case diff < 0:
		said += fmt.Sprintf(", %s dB below the fitted fan now", Fixed(-diff, 1))
	case diff > 0:
		said += fmt.Sprintf(", %s dB above the fitted fan now", Fixed(diff, 1))
	}
	s := d.sureOf(0)
	switch {
	case s == nil:
	case math.IsInf(s.Level, 1):
		said += fmt.Sprintf("; but in only %s of the cases drawn does it move the needed flow at all", percent(s.Kept))
	default:
		said += fmt.Sprintf("; in %s of the cases drawn it moves the needed flow with %s dB(A) or less", d.confidence(), Fixed(s.Level, 1))
	}
	return said + "."
}

// toTheEar tells the first against the fitted fan now as ears hear it.
func (d *Ranking) toTheEar(c *match.Candidate) string {
	now := &d.Ranking.Baseline.Loud
	if !(now.Sone > 0) || now.Spectrum == "" || math.IsNaN(c.Loud.Sone) {
		return ""
	}
	about := "about "
	if c.Loud.Measured && now.Measured {
		about = ""
	}
	said := fmt.Sprintf("To the ear it is %s%s as loud: %s sone against %s", about, percent(c.Loud.Sone/now.Sone), soneCell(&c.Loud), soneCell(now))
	if !math.IsNaN(c.Loud.Added) {
		said += fmt.Sprintf("; it adds %s sone to the noise of the room", Digits(c.Loud.Added, 2))
	}
	return said + "."
}

// waysOut says what may help where no fan is quieter.
func (d *Ranking) waysOut(c *match.Candidate) string {
	r := d.Ranking
	out := "Ways out: a larger or deeper fan, if there is room"
	if r.System.Located && r.Need > 1.02*r.System.Q {
		return fmt.Sprintf("The need is %s, %s are moved now. %s; less resistance (filter, grille, dirt); less heat, or a cooler room.", flowText(r.Need), flowText(r.System.Q), out)
	}
	if c.Fitted && c.Planned.Ratio < r.System.Ratio {
		return fmt.Sprintf("It would do with %s %% of its speed: lowsone slow shows how. %s.", Fixed(100*c.Planned.Ratio, 0), out)
	}
	return out + ", or less flow if the device needs less: --need."
}
