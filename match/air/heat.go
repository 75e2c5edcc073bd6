package air

import "math"

// SpecificHeat is that of dry air at constant pressure in J/(kg·K), between 0
// and 50 °C within 0.2 % (common practice; textbooks have 1004 to 1007).
const SpecificHeat = 1005.0

// FlowForHeat returns the volume flow in m³/s that carries the heat P in W
// away with the given rise ΔT in K:
//
//	Q = P / (ρ·c_p·ΔT)
//
// where density is ρ in kg/m³ of the air at the place where the volume flow is
// wanted. Heat of zero needs no flow. For heat below zero, and for a rise or a
// density that is not above zero, it returns NaN.
func FlowForHeat(watt, rise, density float64) float64 {
	if !(watt >= 0) || !(rise > 0) || !(density > 0) {
		return math.NaN()
	}
	return watt / (density * SpecificHeat * rise)
}

// RiseForHeat returns the rise in K of a volume flow Q in m³/s of the given
// density in kg/m³ that takes up the heat P in W:
//
//	ΔT = P / (ρ·c_p·Q)
//
// No flow at all gives +Inf for any heat. For heat below zero, a negative flow,
// no heat into no flow, and a density that is not above zero, it returns NaN.
func RiseForHeat(watt, flow, density float64) float64 {
	if !(watt >= 0) || !(flow >= 0) || !(density > 0) {
		return math.NaN()
	}
	return watt / (density * SpecificHeat * flow)
}
