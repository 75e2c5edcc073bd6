package resistance

import "math"

// How far off the number that a way starts from may be, about from 10 to 90 %
// (all common practice).
const (
	HeatBand     = 0.20 // of the flow: heat through the case, and an outlet that is not mixed
	FlowBand     = 0.10 // of the flow: a traverse done with care
	PressureBand = 0.10 // of the pressure, together with how well a curve is known; at least GaugeBand
	GaugeBand    = 2.0  // Pa, what a cheap gauge may be off near zero
	ShareBand    = 0.15 // of the free delivery; the default's reaches from LowShare to HighShare
	PointsBand   = 0.10 // of the pressure: how well fan curves are known
	GeometryBand = 0.30 // of the loss from drawings: screens and sharp edges depend on detail
)

// PressureOff returns how far off in Pa a measured pressure p in Pa may be.
func PressureOff(p float64) float64 { return math.Max(GaugeBand, PressureBand*p) }
