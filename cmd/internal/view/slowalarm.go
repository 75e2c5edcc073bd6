package view

import (
	"fmt"
	"math"
)

// SlowAlarm is the tach alarm of a device. What is not known is NaN.
type SlowAlarm struct {
	Turns   float64 // 1/s, below which the device alarms
	Counted float64 // pulses a turn that it counts with
	Fan     float64 // pulses a turn of the fan; 0: it gives none
	Usual   float64 // pulses a turn that are taken where they are not known
}

// Known says whether the device is known to alarm below a speed.
func (a SlowAlarm) Known() bool { return a.Turns > 0 }

// Lowest gives the lowest tach frequency the device accepts in Hz; NaN where it
// is not known.
func (a SlowAlarm) Lowest() float64 { return a.Turns * a.Counted }

// words tell of the alarm, and what its verdicts rest on; empty where none is
// known.
func (a SlowAlarm) words() string {
	if !a.Known() {
		return ""
	}
	usual := Trim(Digits(a.Usual, 3))
	said := fmt.Sprintf("below %s rpm", Trim(Digits(a.Turns*60, 4)))
	if lowest := a.Lowest(); !math.IsNaN(lowest) {
		said += fmt.Sprintf(" at %s pulses a turn, a tach of %s Hz", Trim(Digits(a.Counted, 3)), Digits(lowest, 3))
	} else {
		said += ", counted with unknown pulses: " + usual + " a turn are taken, --alarm-pulses settles it"
	}
	switch {
	case a.Fan == 0:
		said += "; this fan gives no pulses: it alarms at any speed"
	case math.IsNaN(a.Fan):
		said += "; the pulses of this fan are not known: " + usual + " a turn are taken, --with tach_per_rev=… settles it"
	}
	return said
}
