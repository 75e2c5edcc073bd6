package thermal

import (
	"fmt"
	"math"
)

// Verdict is what a temperature log says of its end.
type Verdict uint8

// The verdicts.
const (
	NotSettled Verdict = iota // the end is not known: for a rising log the highest reading is a lower bound
	NotAStep                  // no approach to one steady state: nothing can be said of its end
	Predicts                  // the end is known
)

var verdictNames = [...]string{"not settled", "not a step", "predicts its end"}

// String gives the verdict as it is shown.
func (v Verdict) String() string {
	if int(v) < len(verdictNames) {
		return verdictNames[v]
	}
	return verdictNames[NotSettled]
}

// Doubt says why a log does not predict its end.
type Doubt uint8

// The doubts, in the order they are looked for.
const (
	NoDoubt    Doubt = iota
	Flat             // it does not change
	TurnsBack        // it goes against its own direction
	StartsAnew       // it slows down and gathers speed again
	TooShort         // under two fitted time constants long
	TooVague         // the end has a standard error above 2 K, or none
	LateFew          // too few readings in its last half
	HalvesPart       // the fit of the last half ends more than 2 K from that of the whole
	MayCreep         // a second, slower part may hide more than 2 K
)

// The conditions under which a log predicts its end.
const (
	shortestLog  = 1.0  // s
	finest       = 0.01 // K, what no probe tells apart
	leastLengths = 2.0  // fitted time constants
	mostSD       = 2.0  // K
	mostApart    = 2.0  // K
	mostHidden   = 2.0  // K
	slowHour     = 3600 // s: the slowest part looked for
	slowTimes    = 4.0  // and, if that is more, so many times the fitted time constant
	beginning    = 0.2  // of the log's length, left aside once
)

// Prediction is what a temperature log says.
type Prediction struct {
	Verdict Verdict
	Doubt   Doubt

	// Whole is the fit of the whole log and Last that of its last half, to look
	// at. Only End says what may be believed. Fitted tells whether there are any:
	// not for NotAStep, and Last not for LateFew.
	Whole, Last Step
	Fitted      bool

	// Hidden is how far, in K, the end may lie beyond the fits in the direction
	// of the log if a second part with a time constant of up to Slowest, in s,
	// hides in it (97.5 % to one side); +Inf where the log does not tell. Only for
	// MayCreep and Predicts.
	Hidden, Slowest float64

	Wild     int     // readings left out: single ones far off their neighbours
	Length   float64 // s, first to last reading
	Falling  bool
	Highest  Reading // the warmest that is not wild, the first of equal ones
	Turned   float64 // K, for TurnsBack
	AnewFrom float64 // s in the time of the log, for StartsAnew
	Change   float64 // K, from the coldest to the warmest tenth
}

// Predict says where the temperature in the log of one probe will end, if the
// log can tell:
//
//   - it is an approach to one steady state: it changes by 1 K or more, does not
//     go back, does not gather speed again (else NotAStep);
//   - it is at least two fitted time constants long;
//   - the standard error of its end is at most 2 K;
//   - the fit of the last half agrees within 2 K with that of the whole, with no
//     time constant above half the log's length;
//   - a second part with a time constant of up to an hour, or four fitted ones if
//     that is more, can hide no more than 2 K beyond them.
//
// The last condition is there since the others do not do. Of random logs with two
// time constants (2 to 8 and 20 to 60 minutes) that keep the others, every second
// one ends more than 2 K above its fit; with it one in two hundred, and with a
// third, quick part one in thirty. It looks at the whole log and at the log
// without its first fifth. A part slower than it looks for stays hidden: of one
// to three hours, every second time.
//
// Readings may be uneven, repeated, and with gaps; single wild ones are left out.
// The error is a *FewReadingsError, *OrderError, *ReadingError or *InputError.
func Predict(log []Reading) (Prediction, error) {
	if err := checkLog(log); err != nil {
		return Prediction{}, err
	}
	if len(log) < fewest {
		return Prediction{}, &FewReadingsError{len(log), fewest}
	}
	if span(log) < shortestLog {
		return Prediction{}, &InputError{"length of the log in s", span(log), "a second or more"}
	}
	scatter := noise(log)
	kept := tame(log, scatter)
	p := Prediction{Length: span(log), Wild: len(log) - len(kept), Highest: highest(kept, Step{}, math.Inf(1))}
	thin := thinned(kept)
	whole := fitStep(thin, math.Inf(1))
	// Either scatter alone is too much: noise takes sharp bends of a sparse log
	// for it, the fit whatever is not of first order.
	if p.shape(thin, min(noise(thin), whole.Scatter)) {
		return p, nil
	}
	p.Whole, p.Fitted = whole, true
	p.Highest = highest(kept, whole, wildFrom*max(whole.Scatter, scatter, finest))
	if p.Doubt = p.doubt(thin); p.Doubt == NoDoubt {
		p.Verdict = Predicts
	}
	return p, nil
}

// shape looks whether the log is a step at all, and says so if not.
func (p *Prediction) shape(log []Reading, scatter float64) (notAStep bool) {
	b := drawTogether(log, scatter)
	p.Falling, p.Change = b.direction() < 0, b.change()
	from, anew := b.startsAnew()
	switch back := b.turnsBack(); {
	case b.flat():
		p.Doubt = Flat
	case back > 0:
		p.Doubt, p.Turned = TurnsBack, back
	case anew:
		p.Doubt, p.AnewFrom = StartsAnew, from
	default:
		return false
	}
	p.Verdict = NotAStep
	return true
}

// doubt looks for the first reason not to believe the fit.
func (p *Prediction) doubt(log []Reading) Doubt {
	switch {
	case p.Length < leastLengths*p.Whole.Tau:
		return TooShort
	case !(p.Whole.EndSD <= mostSD):
		return TooVague
	}
	last := later(log, 0.5)
	if len(last) < fewest || !(span(last) > 0) {
		return LateFew
	}
	p.Last = fitStep(last, p.Length/leastLengths)
	if !(math.Abs(p.Last.End-p.Whole.End) <= mostApart) {
		return HalvesPart
	}
	p.Slowest = max(slowHour, slowTimes*p.Whole.Tau)
	p.Hidden = p.hides(log)
	if !(p.Hidden <= mostHidden) {
		return MayCreep
	}
	return NoDoubt
}

// hides returns how far beyond the fits the end may lie, from the whole log and
// from the log without its beginning: a third part, quick like that of a chip on
// its heat sink, uses up the one second constant that is looked for.
func (p *Prediction) hides(log []Reading) float64 {
	direction := 1.0
	if p.Falling {
		direction = -1
	}
	most := 0.0
	for _, part := range [][]Reading{log, later(log, beginning)} {
		most = max(most, direction*(hiddenEnd(part, p.Slowest, direction)-p.end()))
	}
	return most
}

// end returns the warmer of the two fits.
func (p Prediction) end() float64 { return max(p.Whole.End, p.Last.End) }

// End returns the predicted steady temperature in °C, the warmer of the two
// fits, and its standard error in K; false unless the log predicts it. The error
// is that of the fit, or what may hide over 1.96 if that is more.
func (p Prediction) End() (celsius, sd float64, ok bool) {
	if p.Verdict != Predicts {
		return 0, 0, false
	}
	return p.end(), max(p.Whole.EndSD, p.Hidden/oneSidedNormal), true
}

const oneSidedNormal = 1.96 // standard deviations at 97.5 % to one side

// AtLeast returns a lower bound of the steady temperature in °C: the highest
// reading of a log that rises and has not settled. Else it is false: a falling
// log ends lower than it stands, and one that is no step ends anywhere.
func (p Prediction) AtLeast() (celsius float64, ok bool) {
	if p.Verdict != NotSettled || p.Falling || !p.Fitted {
		return 0, false
	}
	return p.Highest.Celsius, true
}

// highest returns the warmest reading that lies within far of the curve.
func highest(log []Reading, curve Step, far float64) Reading {
	best := Reading{Celsius: math.Inf(-1)}
	for _, r := range log {
		if r.Celsius > best.Celsius && !(math.Abs(r.Celsius-curve.At(r.Time)) > far) {
			best = r
		}
	}
	return best
}

// Why says in words what the verdict comes from.
func (p Prediction) Why() string {
	switch p.Doubt {
	case Flat:
		return fmt.Sprintf("it changes by %.2g K in %s, too little beside its scatter to be a step: it was warm before, or nothing was heated", p.Change, inMinutes(p.Length))
	case TurnsBack:
		return fmt.Sprintf("it goes back by %.3g K: the load, the fan or the room changed", p.Turned)
	case StartsAnew:
		return fmt.Sprintf("it slows down and then, from %s, goes faster again: the load, the fan or the room changed; a log that begins there may do", inMinutes(p.AnewFrom))
	case TooShort:
		return fmt.Sprintf("it is %s long, its time constant %s: at least two of them are needed", inMinutes(p.Length), inMinutes(p.Whole.Tau))
	case TooVague:
		return fmt.Sprintf("its end is known to ±%.2g K only, not to 2 K: log longer", p.Whole.EndSD)
	case LateFew:
		return fmt.Sprintf("its last half has fewer than %d readings", fewest)
	case HalvesPart:
		return fmt.Sprintf("the whole log points to %.4g °C, its last half to %.4g °C, more than 2 K apart: log longer", p.Whole.End, p.Last.End)
	case MayCreep:
		return fmt.Sprintf("a slower part, of up to %s, may hide %s beyond %.4g °C: log longer", inMinutes(p.Slowest), hidden(p.Hidden), p.end())
	}
	return fmt.Sprintf("it is %s long, its time constant %s, its end %.4g °C; a slower part, of up to %s, may hide %.2g K",
		inMinutes(p.Length), inMinutes(p.Whole.Tau), p.end(), inMinutes(p.Slowest), p.Hidden)
}

func hidden(kelvin float64) string {
	if math.IsInf(kelvin, 1) {
		return "any amount"
	}
	return fmt.Sprintf("%.2g K", kelvin)
}
