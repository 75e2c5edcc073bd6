package air

// StandardDensity is the density of air in kg/m³ that fan data are stated for
// where the sheet is silent (common practice; about 20 °C, 50 % humidity, sea
// level).
const StandardDensity = 1.2

// SpecificHeat is that of air at constant pressure in J/(kg·K), near room
// temperature.
const SpecificHeat = 1005.0
