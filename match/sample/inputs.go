package sample

import (
	"math"
	"slices"

	"lowsone/acoustics"
	"lowsone/catalog/quantity"
	"lowsone/match"
	"lowsone/match/curve"
	"lowsone/match/drive"
	"lowsone/match/resistance"
)

// Half widths of 10–90 % ranges, see the package doc.
const (
	levelOff     = 2.0  // dB of a stated level
	meterOff     = 1.5  // dB of a level measured with a meter of which nothing is said
	phoneOff     = 5.0  // dB, and with one that nobody tested at such levels
	foundOff     = 1.0  // K
	measuredOff  = 0.01 // of a measured speed
	mostLaminar  = 0.20 // of the loss
	slowestFound = 0.85 // of its label: a fitted fan whose speed was not measured
)

// normal gives the quantile u of the normal distribution whose 10–90 % range is
// −1 to 1.
func normal(u float64) float64 { return math.Erfinv(2*u-1) * toHalfWidths }

// toHalfWidths is √2 over the 90 % quantile of the standard normal distribution.
const toHalfWidths = math.Sqrt2 / quantile90

const quantile90 = 1.2815515655446004

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
	way := input{byWay, func(x *match.Draw, v float64) { x.Way = normal(v) }}
	if u.Others > 0 {
		way.set = func(x *match.Draw, v float64) { x.Way = aside(v) / quantile90 }
	}
	inputs := []input{
		way,
		{byLaw, func(x *match.Draw, v float64) {
			x.Exponent = evenly(v, acoustics.SpeedExponentLow, acoustics.SpeedExponentHigh)
		}},
	}
	if u.Method != resistance.ByPoints && u.Method != resistance.ByGeometry {
		inputs = append(inputs, input{byBend, func(x *match.Draw, v float64) { x.Bend = evenly(v, 0, mostLaminar) }})
	}
	if u.HasFitted {
		inputs = append(inputs, fittedInputs(u)...)
	}
	if u.SeatMeasured {
		off := meterHalf(u.MeterOff)
		inputs = append(inputs, input{byMeter, func(x *match.Draw, v float64) { x.Meter = off * normal(v) }})
	}
	for i := range u.Spots {
		inputs = append(inputs, spotInputs(i, &u.Spots[i])...)
	}
	return inputs
}

// meterHalf gives the half width of a level by what is known of the meter. What a
// class lets a meter be off is its outer limit: two standard deviations.
func meterHalf(off quantity.Decibel) float64 {
	switch {
	case off == 0:
		return meterOff
	case math.IsNaN(float64(off)):
		return phoneOff
	}
	return float64(off) / 2 * quantile90
}

// fittedInputs lists what of the fitted fan is drawn. Its full speed and that it
// was found at are one where it was not measured.
func fittedInputs(u match.Unknowns) []input {
	inputs := ofFitted(byFittedNoise, noiseInputs(u.Fitted))
	inputs = append(inputs, ofFitted(byFitted, curveInputs(u.Fitted))...)
	if !u.SpeedGiven {
		return append(inputs, input{bySpeedNow, func(x *match.Draw, v float64) {
			x.SpeedNow = evenly(v, slowestFound, 1)
			x.Fitted.Speed = x.SpeedNow
		}})
	}
	if u.SpeedMeasured {
		inputs = append(inputs, ofFitted(byFull, speedInputs())...)
		return append(inputs, input{bySpeedNow, func(x *match.Draw, v float64) { x.SpeedNow = factor(v, measuredOff) }})
	}
	inputs = append(inputs, ofFitted(bySpeedNow, speedInputs())...)
	for i := range inputs {
		set := inputs[i].set
		inputs[i].set = func(x *match.Draw, v float64) {
			set(x, v)
			x.SpeedNow = x.Fitted.Speed * x.Fitted.Slowed
		}
	}
	return inputs
}

// ofFitted makes axes of the fitted fan from those of a fan.
func ofFitted(c cause, of []fanInput) []input {
	inputs := make([]input, len(of))
	for i, one := range of {
		inputs[i] = input{c, func(x *match.Draw, v float64) { one.set(&x.Fitted, v) }}
	}
	return inputs
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

// fanInput is one axis of a fan's draws.
type fanInput struct {
	cause cause
	set   func(x *match.FanDraw, u float64)
}

// mostAxes is how many axes a fan has at most.
const mostAxes = 7

// fanInputs lists what of a fan is drawn, those that every fan has first.
func fanInputs(u match.FanUnknowns) []fanInput {
	return slices.Concat(noiseInputs(u), speedInputs(), curveInputs(u))
}

func noiseInputs(u match.FanUnknowns) []fanInput {
	level := math.Hypot(levelOff, float64(u.Level))
	return []fanInput{
		{byLabel, func(x *match.FanDraw, v float64) { x.Level += level * normal(v) }},
		{byOffBest, func(x *match.FanDraw, v float64) { x.OffBest = normal(v) }},
	}
}

func speedInputs() []fanInput {
	return []fanInput{
		{byFull, func(x *match.FanDraw, v float64) { x.Speed = evenly(v, 1-curve.SpeedTolerance, 1+curve.SpeedTolerance) }},
		{byFull, func(x *match.FanDraw, v float64) { x.Slowed = factor(v, drive.SpeedBand) }},
	}
}

// curveInputs lists what of a curve is drawn. Its tolerance is one of flow along
// any system, so its pressure goes with the square. A level that was estimated
// from an estimated end moves with it.
func curveInputs(u match.FanUnknowns) []fanInput {
	inputs := []fanInput{{byCurve, func(x *match.FanDraw, v float64) {
		by := factor(v, curve.FlowTolerance)
		x.Flow *= by
		x.Pressure *= by * by
	}}}
	if u.TwoEnded {
		inputs = append(inputs, fanInput{byCurve, func(x *match.FanDraw, v float64) { x.Shape = v }})
	}
	ends := []struct {
		half, level float64
		at          func(*match.FanDraw) *float64
	}{
		{u.Flow, 10, func(x *match.FanDraw) *float64 { return &x.Flow }},
		{u.Pressure, 20, func(x *match.FanDraw) *float64 { return &x.Pressure }},
	}
	for _, end := range ends {
		if !(end.half > 0) {
			continue
		}
		inputs = append(inputs, fanInput{byCurve, func(x *match.FanDraw, v float64) {
			by := factor(v, end.half)
			*end.at(x) *= by
			if u.Level > 0 {
				x.Level += end.level * math.Log10(by)
			}
		}})
	}
	return inputs
}
