package cli

import (
	"math"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/cmd/internal/view"
	"lowsone/match"
	"lowsone/match/drive"
)

// watch is the tach alarm of a device, held against one fan. What is not known is
// NaN.
type watch struct {
	turns   float64 // 1/s, below which the device alarms
	counted float64 // pulses a turn that it counts with
	fan     float64 // pulses a turn of the fan; 0 where it gives none
}

// watched gives the alarm as flags say it of a fan that sits in no described
// device, which counts the pulses of that fan where nothing else is said.
func (f *seatFlags) watched(fan *catalog.Fan) watch {
	return watchOf(f.alarmSpeed, or(f.alarmPulses, fan.TachPerRev))
}

// watched gives the alarm of a path's device.
func (p *problem) watched() watch {
	seat, fitted := &p.req.Path.Seat, p.req.Path.Fitted
	if seat.Watches != match.WatchTach {
		return watchOf(quantity.Known[quantity.Speed]{}, quantity.Known[float64]{})
	}
	turns := seat.AlarmSpeed
	share, ofFan := seat.AlarmShare.Get()
	if rated, ok := fitted.Speed.Get(); ok && ofFan && !turns.Known() {
		turns = quantity.Stated(quantity.Speed(share) * rated)
	}
	return watchOf(turns, or(seat.AlarmPulses, fitted.TachPerRev))
}

func watchOf(turns quantity.Known[quantity.Speed], counted quantity.Known[float64]) watch {
	w := watch{turns: math.NaN(), counted: math.NaN(), fan: math.NaN()}
	if v, ok := turns.Get(); ok {
		w.turns = float64(v)
	}
	if v, ok := counted.Get(); ok && v > 0 {
		w.counted = v
	}
	return w
}

// of holds the alarm against a fan. One of two leads gives no pulses.
func (w watch) of(l drive.Load) watch {
	w.fan = l.PulsesPerTurn
	if math.IsNaN(w.fan) && l.Leads > 0 && l.Leads < 3 {
		w.fan = 0
	}
	return w
}

// about says what is known of the alarm.
func (w watch) about() view.SlowAlarm {
	return view.SlowAlarm{Turns: w.turns, Counted: w.counted, Fan: w.fan, Usual: match.UsualPulses}
}

// judge holds the tach at a range of speeds against the alarm. Where pulses are
// not known the verdict is that at the usual ones, and assumed.
func (w watch) judge(l drive.Load, speed drive.Range) (e view.SlowEffect) {
	if math.IsNaN(w.turns) {
		e.Tach, _ = drive.TachFrequency(l, speed)
		return e
	}
	if w.fan == 0 {
		e.Alarm = drive.Fails
		return e
	}
	usual := func(pulses float64) float64 {
		if math.IsNaN(pulses) {
			e.AlarmAssumed = true
			return match.UsualPulses
		}
		return pulses
	}
	l.PulsesPerTurn = usual(w.fan)
	e.Tach, _ = drive.TachFrequency(l, speed)
	e.Alarm = drive.TachHolds(l, speed, w.turns*usual(w.counted))
	return e
}
