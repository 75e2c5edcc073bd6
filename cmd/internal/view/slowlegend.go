package view

import (
	"fmt"
	"strings"

	"lowsone/match/drive"
)

// slowMark is a sign in the last column, explained under the table.
type slowMark struct {
	sign  string
	bears func(m *SlowMeans, plan int) bool
	means string
}

var slowMarks = []slowMark{
	{"*", func(m *SlowMeans, i int) bool { return len(m.Plans) > 1 && i == m.Nearest }, "the resistor to try first: with the fewest faults (start, temperatures, alarm), then nearest to the target"},
	{"S", func(m *SlowMeans, i int) bool { return m.Plans[i].HeatSink }, "a part sheds over 1 W: a heat sink, or a place in the air stream"},
	{"A", func(m *SlowMeans, i int) bool { return m.Effects[i].alarms(drive.Fails, false) }, "the device alarms at this speed"},
	{"a", func(m *SlowMeans, i int) bool { return m.Effects[i].alarms(drive.Doubtful, false) }, "whether the device alarms hangs on the tolerances"},
	{"A?", func(m *SlowMeans, i int) bool { return m.Effects[i].alarms(drive.Fails, true) }, "the device alarms at this speed if the pulses are as taken"},
	{"a?", func(m *SlowMeans, i int) bool { return m.Effects[i].alarms(drive.Doubtful, true) }, "if the pulses are as taken, whether the device alarms hangs on the tolerances"},
	{"m", func(m *SlowMeans, i int) bool { return m.Effects[i].EatsMargin() }, "a watched spot may use up some of its margin at the slow end: aim a little faster (--speed, --to) to keep it"},
	{"T", func(m *SlowMeans, i int) bool { return m.Effects[i].marginGone() }, "a watched spot is in its margin at the fast end already"},
	{"X", func(m *SlowMeans, i int) bool { return m.Effects[i].TooHot() }, "a watched spot may get above its limit at the slow end: too hot"},
	{"s", func(m *SlowMeans, i int) bool { return m.Effects[i].stalled() }, "in or near stall at one end"},
}

func (e *SlowEffect) alarms(v drive.Verdict, assumed bool) bool {
	return e.Alarm == v && e.AlarmAssumed == assumed
}

// TooHot says whether a watched spot may get above its limit at the slow end.
func (e *SlowEffect) TooHot() bool { return e.Low.At != nil && !allWithin(e.Low.At.Spots) }

// EatsMargin says whether a watched spot may come into its margin at the slow end
// and is out of it at the fast one.
func (e *SlowEffect) EatsMargin() bool {
	return !e.TooHot() && !e.marginGone() && e.Low.At != nil && !allKept(e.Low.At.Spots)
}

// marginGone says whether a watched spot is in its margin even at the fast end;
// the margin is there for the tolerances between the two ends.
func (e *SlowEffect) marginGone() bool {
	return !e.TooHot() && e.High.At != nil && !allKept(e.High.At.Spots)
}

func (e *SlowEffect) stalled() bool {
	return e.Low.At != nil && e.Low.At.Stalled || e.High.At != nil && e.High.At.Stalled
}

func (d *Slow) marks(m *SlowMeans, plan int) string {
	signs := ""
	for _, mark := range slowMarks {
		if mark.bears(m, plan) {
			signs += mark.sign
		}
	}
	return signs
}

// slowColumns explains the columns that are not plain by their names.
const slowColumns = "ranges: over the supply's range, the fan's unknown current and ±5 % of speed; heat: in the parts at the worst; " +
	"starts: at twice its rated current, ? its starting voltage is not known"

func (d *Slow) legend() facts {
	var f facts
	said := slowColumns
	if d.Device == nil || !d.Device.HasLevels {
		said += "; change: of the level, against the bare supply, by the speed law"
	}
	if d.Device == nil {
		said += "; flow goes with the speed, share for share, in a device of mainly quadratic resistance"
	}
	if hot := d.watched(); hot != "" {
		said += "; hottest: at the worst and at the slow end, of " + hot
	}
	if d.assumes() {
		said += "; tach: " + EstimateMark + " at " + Trim(Digits(d.Alarm.Usual, 3)) + " pulses a turn, which the fan does not state"
	}
	f.add("", said)
	for _, mark := range slowMarks {
		if d.bears(mark) {
			f.add(mark.sign, mark.means)
		}
	}
	for i := range d.Means {
		if m := &d.Means[i]; m.Offer.Means == drive.SeriesResistor && m.Refused == nil {
			f.add("Ω", fmt.Sprintf("a fan whose current falls with its voltage wants %s Ω, one whose current stays %s Ω: the truth lies between, measure; ratings are twice the heat or more", Digits(m.Ohmic, 3), Digits(m.Constant, 3)))
		}
	}
	for _, note := range d.Notes {
		f.add("note", note)
	}
	return f
}

func (d *Slow) bears(mark slowMark) bool {
	for i := range d.Means {
		for plan := range d.Means[i].Plans {
			if mark.bears(&d.Means[i], plan) {
				return true
			}
		}
	}
	return false
}

// assumes says whether the alarm is judged by pulses that are not known.
func (d *Slow) assumes() bool {
	for i := range d.Means {
		for j := range d.Means[i].Effects {
			if d.Means[i].Effects[j].AlarmAssumed {
				return true
			}
		}
	}
	return false
}

// watched names the spot of the column of temperatures with what it may have;
// it is the same in all lines where one spot alone is nearest to its limit.
func (d *Slow) watched() string {
	var names []string
	for i := range d.Means {
		for j := range d.Means[i].Effects {
			if at := d.Means[i].Effects[j].Low.At; at != nil {
				if hot, ok := hottest(at.Spots); ok {
					names = appendNew(names, hot.Name+", which may have "+mayHave(&hot))
				}
			}
		}
	}
	return strings.Join(names, " or ")
}

func appendNew(to []string, name string) []string {
	for _, have := range to {
		if have == name {
			return to
		}
	}
	return append(to, name)
}

// refusals say what is not offered, and why: the same words once.
func (d *Slow) refusals() facts {
	var f facts
	var why []string
	means := map[string][]string{}
	for _, m := range d.Means {
		if m.Refused != nil {
			text := refusalWords(m.Refused)
			why = appendNew(why, text)
			means[text] = append(means[text], m.Offer.Means.String())
		}
	}
	for _, text := range why {
		f.add("refused", strings.Join(means[text], ", ")+": "+text)
	}
	for _, r := range d.Never {
		f.add("never", r.Text)
	}
	if d.Refused() {
		for _, note := range d.Notes {
			f.add("note", note)
		}
	}
	return f
}

// refusalWords say why a means is refused, and how a measurement that mends it is
// given.
func refusalWords(r *drive.Refusal) string {
	if r.Reason == drive.StartUnknown {
		return r.Text + ", then --with start_voltage_v=…"
	}
	return r.Text
}
