package air

import (
	"fmt"
	"math"
)

// The troposphere of [USSA, table 2, table 4].
const (
	seaLevelPressure    = 101325.0  // Pa
	seaLevelTemperature = 288.15    // K
	lapse               = -0.0065   // K/m of geopotential altitude
	gravity             = 9.80665   // m/s²
	earthRadius         = 6356766.0 // m, the one that makes gravity fall with height as it does at 45°
	lowest, highest     = -5000.0, 11000.0
)

// AltitudeError reports an altitude in m outside the range of the formula.
type AltitudeError struct{ Altitude float64 }

func (e *AltitudeError) Error() string {
	return fmt.Sprintf("altitude of %.6g m: the standard atmosphere is known here from %.0f m to %.0f m", e.Altitude, lowest, highest)
}

// PressureAtAltitude returns the pressure of the standard atmosphere in Pa at
// a geometric altitude z in m, −5000 to 11000:
//
//	H = r·z / (r + z)                              geopotential altitude
//	p = 101325·(288.15 / (288.15 − 0.0065·H))^(g/(R·(−0.0065)))
//
// Outside that range the error is an *AltitudeError. The weather moves the
// real pressure by about ±3 % around this.
func PressureAtAltitude(z float64) (float64, error) {
	if !(z >= lowest && z <= highest) {
		return 0, &AltitudeError{Altitude: z}
	}
	exponent := gravity / (GasConstant * lapse)
	return seaLevelPressure * math.Pow(seaLevelTemperature/standardTemperature(z), exponent), nil // eq. (33a) [USSA]
}

// standardTemperature returns the temperature in K at the geometric altitude z
// in m within the troposphere.
func standardTemperature(z float64) float64 {
	geopotential := earthRadius * z / (earthRadius + z) // eq. (18) [USSA]
	return seaLevelTemperature + lapse*geopotential     // eq. (23) [USSA]
}
