package trial

import (
	"math"

	"lowsone/match/thermal"
)

// Worst says how the worst case differs from the time of a log: the flow is the
// same. Its zero value is the time of the log itself.
type Worst struct {
	Known     bool
	Room      float64 // °C while it was logged
	WorstRoom float64 // °C
	HeatRatio float64 // heat at the worst over heat while it was logged
}

// At carries a temperature in °C to the worst case:
//
//	T = T_worst + (T_log − T_room)·P_worst/P_log
//
// with the flow of the log. Its own rise goes with the heat.
func (w Worst) At(celsius float64) float64 {
	if !w.Known {
		return celsius
	}
	return w.WorstRoom + (celsius-w.Room)*w.HeatRatio
}

// Limit is what a probe may have.
type Limit struct {
	Known  bool
	Limit  float64 // °C
	Margin float64 // K below it
}

// Judgement holds a prediction against a limit.
type Judgement uint8

// The judgements. NotKnown is never more than that: a log that does not predict
// its end keeps no limit.
const (
	NotKnown Judgement = iota
	Keeps              // also with twice the standard error
	InDoubt            // it hangs on the standard error
	Passes             // the limit less the margin, surely
)

var judgementNames = [...]string{"not known", "keeps it", "in doubt", "passes it"}

// String gives the judgement as it is shown.
func (j Judgement) String() string {
	if int(j) < len(judgementNames) {
		return judgementNames[j]
	}
	return judgementNames[NotKnown]
}

// sure is how many standard errors are kept from the limit.
const sure = 2

// Judge holds what a log says of its end, carried to the worst case, against a
// limit less its margin. A log that does not predict its end can only pass a
// limit: by what it has reached.
func Judge(p thermal.Prediction, w Worst, l Limit) Judgement {
	if !l.Known {
		return NotKnown
	}
	may := l.Limit - l.Margin
	end, sd, ok := p.End()
	if !ok {
		least, settles := p.AtLeast()
		if reached := w.At(least); settles && reached > may || p.Highest.Celsius > may && !math.IsInf(p.Highest.Celsius, 0) {
			return Passes
		}
		return NotKnown
	}
	reach := sure * sd * max(w.HeatRatio, 1)
	switch at := w.At(end); {
	case at+reach <= may:
		return Keeps
	case at-reach > may:
		return Passes
	}
	return InDoubt
}
