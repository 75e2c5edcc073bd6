package thermal

import (
	"math"

	"lowsone/match/air"
)

// Seen says which air a spot is cooled by.
type Seen uint8

// The air a spot sees.
const (
	OutletAir Seen = iota // the air at the outlet: it has taken up all heat
	MeanAir               // the mean of inlet and outlet: half the rise
)

// AirShare returns f_air = ΔT_air/ΔT₁ of a spot ΔT₁ in K over the inlet, from
// the rise of the mixed air from inlet to outlet in K; half of it for a spot that
// sees the mean. A share above 1 is an *AirRiseError.
func AirShare(airRise, spotRise float64, seen Seen) (Share, error) {
	if !finite(airRise) || airRise < 0 {
		return Share{}, &InputError{"rise of the air in K", airRise, "zero or above"}
	}
	if !finite(spotRise) || spotRise <= 0 {
		return Share{}, &InputError{"rise of the spot in K", spotRise, "above zero"}
	}
	if seen == MeanAir {
		airRise /= 2
	}
	if airRise > spotRise {
		return Share{}, &AirRiseError{Air: airRise, Spot: spotRise}
	}
	return Exactly(airRise / spotRise), nil
}

// AirShareOfHeat is AirShare with the rise of the air from a heat balance,
// P/(ṁ₁·c_p): P in W into this air path, ṁ₁ in kg/s when the spot was found.
func AirShareOfHeat(heat, massFlow, spotRise float64, seen Seen) (Share, error) {
	if err := positive("heat in W", heat); err != nil {
		return Share{}, err
	}
	if err := positive("mass flow in kg/s", massFlow); err != nil {
		return Share{}, err
	}
	return AirShare(OutletRise(heat, massFlow), spotRise, seen)
}

// OutletRise returns the rise in K of the air over the whole path,
//
//	ΔT = P/(ṁ·c_p)
//
// with P in W and ṁ in kg/s. Heat below zero and a flow that is not above zero
// give NaN.
func OutletRise(heat, massFlow float64) float64 {
	if !(heat >= 0) || !(massFlow > 0) {
		return math.NaN()
	}
	return heat / (massFlow * air.SpecificHeat)
}

// OutletTemperature returns the temperature in °C of the air a fan in the outlet
// breathes, that of the inlet in °C plus OutletRise; NaN as there.
func OutletTemperature(inlet, heat, massFlow float64) float64 {
	return inlet + OutletRise(heat, massFlow)
}

// FlowAtFan returns the volume flow in m³/s at the fan that a need asks for:
//
//	Q = μ·Q₁·ρ₁/ρ
//
// with μ the needed mass flow over the present one, Q₁ in m³/s the present flow
// in air of ρ₁ kg/m³ at the fan, and ρ the density there in the worst case:
// altitude and warmth make it more volume. A ratio of +Inf (no flow is enough)
// gives +Inf. Anything below zero, no density, and NaN give NaN.
func FlowAtFan(ratio, flow, density, worstDensity float64) float64 {
	if !(ratio >= 0) || !(flow > 0) || !(density > 0) || !(worstDensity > 0) {
		return math.NaN()
	}
	return ratio * flow * density / worstDensity
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

func positive(what string, v float64) error {
	if !finite(v) || v <= 0 {
		return &InputError{what, v, "above zero"}
	}
	return nil
}
