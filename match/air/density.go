package air

import "math"

// StandardDensity is the density of air in kg/m³ that fan data are stated for
// where the sheet is silent (common practice; about 20 °C, 50 % humidity, sea
// level).
const StandardDensity = 1.2

// GasConstant is that of dry air in J/(kg·K): 8314.32 / 28.9644, the universal
// constant and the molar mass of [USSA], 287.053. [CIPM] has 287.048 at 400 ppm of
// carbon dioxide.
const GasConstant = universalGas / molarMass

const (
	universalGas = 8314.32 // J/(kmol·K) [USSA, table 2]
	molarMass    = 28.9644 // kg/kmol, air at sea level [USSA, table 2]
	freezing     = 273.15  // 0 °C in K
)

// Density returns the density of dry air in kg/m³:
//
//	ρ = p / (R·(t + 273.15))
//
// with t in °C and the absolute pressure p in Pa, not negative. At or below
// absolute zero, and for a negative pressure, it returns NaN. Checked for 0 to
// 50 °C and 0.6 to 1 atmosphere against [CIPM].
func Density(celsius, pascal float64) float64 {
	kelvin := celsius + freezing
	if !(kelvin > 0) || !(pascal >= 0) {
		return math.NaN()
	}
	return pascal / (GasConstant * kelvin)
}
