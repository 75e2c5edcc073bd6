package thermal

import "math"

// CapacitorLife returns the life of an electrolytic capacitor at a temperature
// as a share of its life at another:
//
//	L/L₁ = 2^((T₁ − T)/10)
//
// with T₁ and T in °C the temperature of the capacitor itself, not of the room
// or the air. 0.5 means half as long. It is a rule between about 40 and 105 °C
// [CapLife]; a ratio is all it gives: hours would need the part's own data.
// Temperatures that are not finite give NaN.
func CapacitorLife(from, to float64) float64 { return lifeRatio(2, from, to) }

// BearingLife returns the life of a fan's bearings as a share of that at another
// temperature of the air at the fan, both in °C:
//
//	L/L₁ = 1.5^((T₁ − T)/10)   [FanLife]
//
// The air at the fan is that of the outlet where the fan sits there. A slower fan
// gets no credit. Temperatures that are not finite give NaN.
func BearingLife(from, to float64) float64 { return lifeRatio(1.5, from, to) }

func lifeRatio(perTen, from, to float64) float64 {
	if !finite(from) || !finite(to) {
		return math.NaN()
	}
	return math.Pow(perTen, (from-to)/10)
}
