package sample

import (
	"math"

	"lowsone/acoustics"
	"lowsone/match"
	"lowsone/match/curve"
	"lowsone/match/resistance"
)

// Half widths of 10–90 % ranges, see the package doc.
const (
	levelOff     = 2.0  // dB of a stated level
	meterOff     = 1.5  // dB
	foundOff     = 1.0  // K
	suppliedOff  = 0.05 // of a speed known from the supply
	measuredOff  = 0.01 // of a measured speed
	mostLaminar  = 0.20 // of the loss
	slowestFound = 0.85 // of its label: a fitted fan whose speed was not measured
)

// normal gives the quantile u of the normal distribution whose 10–90 % range is
// −1 to 1.
func normal(u float64) float64 { return math.Erfinv(2*u-1) * toHalfWidths }

// toHalfWidths is √2 over the 90 % quantile of the standard normal distribution.
const toHalfWidths = math.Sqrt2 / 1.2815515655446004

// evenly gives the place u between low and high.
func evenly(u, low, high float64) float64 { return low + u*(high-low) }

// factor gives a factor about 1 that is never below zero.
func factor(u, half float64) float64 { return math.Exp(math.Log1p(half) * normal(u)) }

// cause is what makes an input uncertain, for the question which of them
// matters.
type cause uint8

const (
	byWay cause = iota
	byBend
	bySpeedNow
	byFitted
	byFittedNoise
	byLaw
	byMeter
	bySpots
	byCurve
	byFull
	byLabel
	byOffBest
	numCauses
)

// input is one axis of the device's draws: u from 0 to 1 sets its value.
type input struct {
	cause cause
	set   func(x *match.Draw, u float64)
}

// deviceInputs lists what of the device is drawn.
func deviceInputs(u match.Unknowns) []input {
	inputs := []input{{byWay, way(u)}, {byLaw, func(x *match.Draw, v float64) {
		x.Exponent = evenly(v, acoustics.SpeedExponentLow, acoustics.SpeedExponentHigh)
	}}}
	if u.Method != resistance.ByPoints && u.Method != resistance.ByGeometry {
		inputs = append(inputs, input{byBend, func(x *match.Draw, v float64) { x.Bend = evenly(v, 0, mostLaminar) }})
	}
	if u.HasFitted {
		inputs = append(inputs, input{bySpeedNow, speedNow(u)})
		for _, one := range fanInputs(u.Fitted) {
			inputs = append(inputs, input{ofFitted[one.cause], func(x *match.Draw, v float64) { one.set(&x.Fitted, v) }})
		}
	}
	if u.SeatMeasured {
		inputs = append(inputs, input{byMeter, func(x *match.Draw, v float64) { x.Meter = meterOff * normal(v) }})
	}
	for i := range u.Spots {
		inputs = append(inputs, spotInputs(i, &u.Spots[i])...)
	}
	return inputs
}

func way(u match.Unknowns) func(*match.Draw, float64) {
	if u.Assumed {
		return func(x *match.Draw, v float64) { x.Way = evenly(v, -1, 1) }
	}
	return func(x *match.Draw, v float64) { x.Way = normal(v) }
}

func speedNow(u match.Unknowns) func(*match.Draw, float64) {
	off := suppliedOff
	switch {
	case u.SpeedMeasured:
		off = measuredOff
	case !u.SpeedGiven:
		return func(x *match.Draw, v float64) { x.SpeedNow = evenly(v, slowestFound, 1) }
	}
	return func(x *match.Draw, v float64) { x.SpeedNow = factor(v, off) }
}

func spotInputs(i int, u *match.SpotUnknowns) []input {
	inputs := []input{{bySpots, func(x *match.Draw, v float64) { x.Spots[i].Found = foundOff * normal(v) }}}
	add := func(exact bool, at func(*match.SpotDraw) *float64) {
		if !exact {
			inputs = append(inputs, input{bySpots, func(x *match.Draw, v float64) { *at(&x.Spots[i]) = v }})
		}
	}
	add(u.Air, func(s *match.SpotDraw) *float64 { return &s.Air })
	add(u.Solid, func(s *match.SpotDraw) *float64 { return &s.Solid })
	add(u.Film, func(s *match.SpotDraw) *float64 { return &s.Film })
	return inputs
}

// ofFitted gives the cause of what is not certain of the fitted fan.
var ofFitted = map[cause]cause{byCurve: byFitted, byFull: bySpeedNow, byLabel: byFittedNoise, byOffBest: byFittedNoise}

// fanInput is one axis of a fan's draws.
type fanInput struct {
	cause cause
	set   func(x *match.FanDraw, u float64)
}

// mostAxes is how many axes a fan has at most.
const mostAxes = 6

// fanInputs lists what of a fan is drawn, those that every fan has first.
func fanInputs(u match.FanUnknowns) []fanInput {
	level, flow := math.Max(levelOff, float64(u.Level)), math.Max(curve.FlowTolerance, u.Flow)
	inputs := []fanInput{
		{byLabel, func(x *match.FanDraw, v float64) { x.Level = level * normal(v) }},
		{byOffBest, func(x *match.FanDraw, v float64) { x.OffBest = normal(v) }},
		{byFull, func(x *match.FanDraw, v float64) { x.Speed = evenly(v, 1-curve.SpeedTolerance, 1+curve.SpeedTolerance) }},
		{byCurve, func(x *match.FanDraw, v float64) { x.Flow = factor(v, flow) }},
	}
	if u.TwoEnded {
		inputs = append(inputs, fanInput{byCurve, func(x *match.FanDraw, v float64) { x.Shape = v }})
	}
	if u.Pressure > 0 {
		inputs = append(inputs, fanInput{byCurve, func(x *match.FanDraw, v float64) { x.Pressure = factor(v, u.Pressure) }})
	}
	return inputs
}
