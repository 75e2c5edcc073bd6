// Package air holds the properties of the air a fan moves: its density by
// temperature and pressure, its viscosity by temperature, its pressure by
// altitude, and the heat it carries.
//
// Everything is plain SI float64 (Pa, kg/m³, W, K, m³/s, m), temperatures in
// °C. Air is dry and ideal: that is within 0.1 % of the full equation of state
// [CIPM] for dry air between 0 and 50 °C. Moist air is lighter: at 50 %
// humidity by 0.4 % at 20 °C and 2.3 % at 50 °C and sea level, far inside what
// is known of any device.
//
// # References
//
//   - [USSA] U.S. Standard Atmosphere, 1976, NOAA-S/T 76-1562: constants,
//     eqs. (18), (23), (33a), (42), (51); ISO 2533 has the same troposphere.
//   - [CIPM] Picard, Davis, Gläser, Fujii: Revised formula for the density of
//     moist air (CIPM-2007), Metrologia 45 (2008) 149–155: the check on
//     Density, and the molar mass that differs from [USSA] by 0.004 %.
package air
