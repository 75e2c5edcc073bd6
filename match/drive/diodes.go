package drive

import "math"

// A silicon diode at the current of a fan drops 0.7 V (common practice) to
// 0.75 V [Diodes].
const (
	diodeLow, diodeHigh = 0.70, 0.75
	mostDiodes          = 8 // in a row; beyond them a regulator is smaller and steadier (common practice)
)

// DiodePlan returns the plan with silicon diodes in series, of the number that
// comes nearest to the wanted voltage from the middle of the supply:
//
//	V_fan = V_supply − n·(0.7 … 0.75 V), heat = 0.75 V·I in each
//
// at the rated current I. They are to be made for twice that current, which the
// fan draws while it starts.
func DiodePlan(l Load, rail Rail, volts float64) (Plan, *Refusal) {
	if r := Check(l, rail, volts); r != nil {
		return Plan{}, r
	}
	n := max(math.Round((rail.middle()-volts)/((diodeLow+diodeHigh)/2)), 1)
	if n > mostDiodes {
		return Plan{}, refuse(TooManyDiodes, "it would take %.0f diodes in series: a regulator or a buck converter does it better", n)
	}
	each := diodeHigh * l.RatedCurrent
	p := Plan{
		Means: SeriesDiodes, Count: int(n), Volts: Range{max(rail.Low-n*diodeHigh, 0), rail.High - n*diodeLow},
		Heat: n * each, Rating: startTimes * l.RatedCurrent, StartVolts: max(rail.Low-n*diodeHigh, 0),
	}
	return p.finish(l, each), nil
}
