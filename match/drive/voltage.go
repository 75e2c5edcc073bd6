package drive

import "fmt"

// SpeedBand is the half width of the band of SpeedAtVoltage, as a share of its
// result.
const SpeedBand = 0.05

// aboveNominal is the slope of speed share against voltage share above nominal
// voltage: that of the last measured piece, (1 − 2310/2850)/(1 − 9/12) = 0.758.
const aboveNominal = 0.76

// measured holds voltage and speed as shares of those at 12 V, by rising
// voltage: 1330, 2310 and 2850 rpm at 5, 9 and 12 V. The speed at 7 V is handed
// down to two digits only, without its rpm.
var measured = [...]struct{ volt, speed float64 }{
	{LowestVoltage, LowestMeasured},
	{7.0 / 12, 0.66},
	{9.0 / 12, 2310.0 / 2850},
	{1, 1},
}

// LowestVoltage is the least share of nominal voltage at which a speed was
// measured, LowestMeasured the share of nominal speed there.
const (
	LowestVoltage  = 5.0 / 12
	LowestMeasured = 1330.0 / 2850
)

// RangeError reports a share of nominal voltage or speed that is below the least
// that was measured, or no number.
type RangeError struct {
	What       string // "voltage" or "speed"
	Share, Low float64
}

// Error names the share and the least that was measured.
func (e *RangeError) Error() string {
	return fmt.Sprintf("%s share %q: nothing was measured below %.3g of nominal", e.What, fmt.Sprintf("%.3g", e.Share), e.Low)
}

// SpeedAtVoltage gives the speed of a DC fan at the share of its nominal
// voltage, as a share of its speed there: straight lines between the measured
// points (shares of voltage → speed)
//
//	5/12 → 0.467, 7/12 → 0.66, 9/12 → 0.811, 1 → 1
//
// and beyond 1 with the slope 0.76, which nobody measured. Speed falls less than
// voltage. The result is known to ±5 % (SpeedBand). Below 5/12 the error is a
// *RangeError: most fans stop somewhere there. [SPCR]
func SpeedAtVoltage(share float64) (float64, error) {
	if !(share >= LowestVoltage) {
		return 0, &RangeError{"voltage", share, LowestVoltage}
	}
	if share > 1 {
		return 1 + aboveNominal*(share-1), nil
	}
	i := 1
	for i < len(measured)-1 && share > measured[i].volt {
		i++
	}
	a, b := measured[i-1], measured[i]
	return between(share, a.volt, b.volt, a.speed, b.speed), nil
}

// VoltageForSpeed gives the share of its nominal voltage at which a DC fan has
// the share of its nominal speed, the inverse of SpeedAtVoltage. Below
// LowestMeasured (0.467) the error is a *RangeError.
func VoltageForSpeed(share float64) (float64, error) {
	if !(share >= LowestMeasured) {
		return 0, &RangeError{"speed", share, LowestMeasured}
	}
	if share > 1 {
		return 1 + (share-1)/aboveNominal, nil
	}
	i := 1
	for i < len(measured)-1 && share > measured[i].speed {
		i++
	}
	a, b := measured[i-1], measured[i]
	return between(share, a.speed, b.speed, a.volt, b.volt), nil
}

// between gives y at x on the straight line through (x0, y0) and (x1, y1), and
// exactly y1 at x1.
func between(x, x0, x1, y0, y1 float64) float64 {
	return y1 + (y0-y1)*(x1-x)/(x1-x0)
}

// regulatorDrop is what a linear regulator needs over its output, in volts, at
// the currents of fans. [Dropout]
const regulatorDrop = 2.0

// HeadRoom gives the greatest share of nominal voltage that a fan gets behind a
// linear regulator on the supply, both in volts: (V − 2)/V_nominal, at most 1,
// at least 0. Shares between it and that of the bare supply cannot be had: a fan
// is either behind the regulator or straight on the supply. A nominal voltage
// that is not above 0 gives 0.
func HeadRoom(supply, nominal float64) float64 {
	if !(nominal > 0) || !(supply > regulatorDrop) {
		return 0
	}
	return min((supply-regulatorDrop)/nominal, 1)
}
