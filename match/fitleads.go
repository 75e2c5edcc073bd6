package match

import (
	"math"

	"lowsone/catalog"
	"lowsone/match/drive"
)

// tach checks the third lead: what the device watches against what the fan
// gives. Whether the speed stays above the alarm is judged in alarm, at the
// planned speed.
func (f *fit) tach(c *catalog.Columns, i int) (catalog.Verdict, note) {
	leads, pulses := c.Number(catalog.FieldLeads, i), c.Number(catalog.FieldTachPerRev, i)
	without := pulses == 0 || math.IsNaN(pulses) && leads <= 2
	switch f.seat.Watches {
	case Unwatched:
		return catalog.Pass, note{}
	case WatchTach:
		switch {
		case without:
			return catalog.Fail, note{format: "the device watches a tach, this fan has none"}
		case math.IsNaN(pulses):
			return catalog.Unclear, note{format: "tach pulses not stated: the third lead may be an alarm"}
		}
		return f.alarmAtFull(c, i, pulses)
	case WatchAlarm:
		switch {
		case pulses > 0:
			return catalog.Fail, note{format: "the device expects a locked-rotor signal, this fan gives pulses"}
		case leads <= 2:
			return catalog.Fail, note{format: "the device expects a locked-rotor signal, this fan has two leads"}
		}
		return catalog.Unclear, note{format: "whether it gives a locked-rotor signal is not stated"}
	}
	return f.thirdLead(leads, pulses, without)
}

// alarmAtFull checks that the fan stays above the alarm at full speed.
func (f *fit) alarmAtFull(c *catalog.Columns, i int, pulses float64) (catalog.Verdict, note) {
	turns := c.Number(catalog.FieldSpeed, i)
	lowest := f.lowestTurns(pulses)
	switch {
	case math.IsNaN(lowest):
		return catalog.Pass, note{format: "the speed below which the device alarms is not known", asks: AskAlarm}
	case math.IsNaN(turns):
		return catalog.Unclear, note{format: "speed not stated, the device alarms below # rpm", a: f.alarmTurns * 60}
	case turns < lowest:
		return catalog.Fail, note{format: "# rpm at full speed, # rpm needed to keep the alarm quiet", a: turns * 60, b: lowest * 60}
	}
	return catalog.Pass, note{}
}

// speedTolerance is the share of its rated speed a fan may fall short by
// (common practice: ±10 %).
const speedTolerance = 0.9

// lowestTurns gives the rated speed ·r below which the device alarms, in 1/s,
// for a fan of so many pulses per turn: alarm/(0.9·pulses/pulses of device).
func (f *fit) lowestTurns(pulses float64) float64 {
	counted := f.alarmPulses
	if math.IsNaN(counted) {
		counted = pulses
	}
	return f.alarmTurns / speedTolerance * counted / pulses
}

// thirdLead judges where it is not known what the device watches.
func (f *fit) thirdLead(leads, pulses float64, without bool) (catalog.Verdict, note) {
	fittedHas := f.fittedTach > 0 || f.fittedLeads >= 3
	fittedHasNot := f.fittedTach == 0 || f.fittedLeads <= 2
	switch {
	case !fittedHas && fittedHasNot:
		return catalog.Pass, note{format: "the fitted fan has no third lead either"}
	case fittedHas && without && leads >= 3:
		return catalog.Warn, note{format: "its third lead gives no pulses: does the device watch that of the fitted fan?", asks: AskWatches}
	case fittedHas && without:
		return catalog.Warn, note{format: "the fitted fan has a third lead, this one has none: does the device watch it?", asks: AskWatches}
	case fittedHas && f.fittedTach > 0 && pulses > 0 && f.fittedTach != pulses:
		return catalog.Warn, note{format: "# pulses per turn, the fitted fan gives #: the device would read a wrong speed", a: pulses, b: f.fittedTach, asks: AskWatches}
	case fittedHas && f.fittedTach > 0 && pulses > 0:
		return catalog.Pass, note{}
	case !math.IsNaN(leads) && fittedHas:
		return catalog.Unclear, note{format: "what the third lead gives is not stated", asks: AskWatches}
	}
	return catalog.Unclear, note{format: "third lead not stated", asks: AskWatches}
}

// alarm judges the speed the fan would really turn at, and that at full speed,
// in 1/s, where the device may watch it. Pass where there is nothing to say.
func (f *fit) alarm(planned, full, pulses float64) (catalog.Verdict, note) {
	watched := f.seat.Watches == WatchTach || f.seat.Watches == WatchUnknown && (f.fittedTach > 0 || f.fittedLeads >= 3)
	switch {
	case !watched || math.IsNaN(planned):
		return catalog.Pass, note{}
	case !math.IsNaN(f.alarmTurns):
		return f.alarmAtUsual(planned, full, pulses)
	case planned < 0.8*f.fittedTurns:
		return catalog.Warn, note{format: "would turn at # rpm, the fitted fan is rated # rpm: below 80 % a watching device may alarm", a: planned * 60, b: f.fittedTurns * 60, asks: AskAlarm}
	}
	return catalog.Pass, note{}
}

// UsualPulses is how many pulses a turn the tach of a fan gives that does not say
// it (common practice; it is what fans with a PWM input are specified to).
const UsualPulses = drive.PWMTachPulses

// alarmAtUsual holds the speed of a fan that does not state its pulses against
// the alarm as if it gave the usual ones. That warns and takes no fan out: the
// pulses are a guess. A fan that states them is planned above the alarm.
func (f *fit) alarmAtUsual(planned, full, pulses float64) (catalog.Verdict, note) {
	if f.seat.Watches != WatchTach || !math.IsNaN(pulses) {
		return catalog.Pass, note{}
	}
	rated := f.lowestTurns(UsualPulses) // with the tolerance of speed
	if !(planned < rated) {
		return catalog.Pass, note{}
	}
	trips := func(turns float64) string {
		if turns < rated*speedTolerance {
			return "would"
		}
		return "may"
	}
	atFull := ""
	if full < rated {
		atFull = " (full speed " + trips(full) + ", too)"
	}
	return catalog.Warn, note{format: "alarm at # rpm: its # rpm ¤ trip it at # pulses a turn¤; tach_per_rev of its row settles it",
		a: f.alarmTurns * 60, b: planned * 60, c: UsualPulses, s: trips(planned), t: atFull}
}

func (f *fit) pwm(c *catalog.Columns, i int) (catalog.Verdict, note) {
	code, leads := c.Code(catalog.FieldPWM, i), c.Number(catalog.FieldLeads, i)
	without := code == codeNo || code == 0 && leads <= 3
	driven := f.seat.SlowBy == SlowPWM
	switch {
	case code == codeYes:
		return catalog.Pass, note{}
	case driven && without:
		return catalog.Fail, note{format: "the device drives a PWM input, this fan has none"}
	case driven:
		return catalog.Unclear, note{format: "PWM input not stated"}
	case f.fittedPWM && without:
		return catalog.Warn, note{format: "the fitted fan has a PWM input, this one has none: does the device drive it?"}
	case f.fittedPWM:
		return catalog.Unclear, note{format: "PWM input not stated"}
	}
	return catalog.Pass, note{}
}

// Codes of a yes-or-no field in Columns.
const (
	codeNo  = 1
	codeYes = 2
)

func (f *fit) leadCount(c *catalog.Columns, i int) (catalog.Verdict, note) {
	leads := c.Number(catalog.FieldLeads, i)
	switch {
	case math.IsNaN(leads):
		return catalog.Unclear, note{format: "leads not stated"}
	case math.IsNaN(f.leads):
		return catalog.Unclear, note{format: "leads in the device not known", asks: AskLeads}
	case leads < f.leads:
		return catalog.Warn, note{format: "# leads, the seat has #", a: leads, b: f.leads}
	case leads > f.leads:
		return catalog.Pass, note{format: "# leads, the seat has #: what is over stays open", a: leads, b: f.leads}
	}
	return catalog.Pass, note{}
}
