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

// Allowed is what the probe may have: the limit less the margin.
func (l Limit) Allowed() float64 { return l.Limit - l.Margin }

// Judgement holds a prediction against a limit.
type Judgement uint8

// The judgements. NotKnown is never more than that: a log that does not predict
// its end keeps no limit.
const (
	NotKnown    Judgement = iota
	Within                // the limit less the margin, also with twice the standard error
	InDoubt               // whether the margin is kept hangs on the standard error
	InTheMargin           // between the limit less the margin and the limit
	TooHot                // above the limit itself
	AtLeastIn             // the margin, by what a log that has not settled has reached: it may end too hot
)

var judgementNames = [...]string{"not known", "within", "in doubt", "in the margin", "too hot", "in the margin or too hot"}

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
// limit and its margin. A log that does not predict its end keeps none: it can
// only be known to have come into the margin, or above the limit.
func Judge(p thermal.Prediction, w Worst, l Limit) Judgement {
	if !l.Known {
		return NotKnown
	}
	end, sd, ok := p.End()
	if !ok {
		return reached(p, w, l)
	}
	off := sure * sd * max(w.HeatRatio, 1)
	switch at := w.At(end); {
	case at+off <= l.Allowed():
		return Within
	case at-off <= l.Allowed():
		return InDoubt
	case at <= l.Limit:
		return InTheMargin
	}
	return TooHot
}

// reached judges by what a log has reached: at the worst where it rises, and as
// it was read.
func reached(p thermal.Prediction, w Worst, l Limit) Judgement {
	most := p.Highest.Celsius // −Inf where there is none
	if least, rises := p.AtLeast(); rises {
		most = max(most, w.At(least))
	}
	switch {
	case math.IsInf(most, 0) || most <= l.Allowed():
		return NotKnown
	case most <= l.Limit:
		return AtLeastIn
	}
	return TooHot
}
