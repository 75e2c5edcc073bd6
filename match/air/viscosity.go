package air

import "math"

// Sutherland's law for air [USSA, table 3].
const (
	sutherlandBeta = 1.458e-6 // kg/(m·s·√K)
	sutherlandTemp = 110.4    // K, this effective temperature
)

// Viscosity returns the dynamic viscosity of dry air in Pa·s by Sutherland's
// law:
//
//	μ = β·T^1.5 / (T + S),   β = 1.458e-6 kg/(m·s·√K), S = 110.4 K
//
// with T = t + 273.15 in K and t in °C; pressure does not matter. At or below
// absolute zero it returns NaN. Good for the temperatures of the troposphere
// and of any fan, to about 1 %; checked from −11 to 15 °C against [USSA].
func Viscosity(celsius float64) float64 {
	kelvin := celsius + freezing
	if !(kelvin > 0) {
		return math.NaN()
	}
	return sutherlandBeta * kelvin * math.Sqrt(kelvin) / (kelvin + sutherlandTemp) // eq. (51) [USSA]
}
