package drive

// Lowest speeds to plan with where nothing better is known, as shares of nominal
// speed. Both are common practice without a source.
const (
	DefaultByVoltage = 0.68 // DC by its voltage: the speed at 60 % of nominal
	DefaultByPWM     = 0.30 // by the PWM input
)

// tachMargin is the share of its rated speed that a fan may fall short of it:
// an alarm must stay silent then too. Common practice, data sheets give ±10 %.
const tachMargin = 0.9

// Supply is what a fan runs on; the zero value is unknown.
type Supply uint8

// The supplies.
const (
	DC Supply = iota + 1
	AC
)

// Way is how the device can slow its fan. The zero value is any way the fan
// allows.
type Way uint8

// The ways.
const (
	Any       Way = iota
	NoWay         // full speed only
	ByVoltage     // less supply voltage
	ByPWM         // the device drives a PWM input
)

// Fan is what the lowest speed depends on. A number that is not above 0, NaN
// included, is unknown.
type Fan struct {
	Supply         Supply
	PWM            bool    // known to have a PWM input
	StartVoltage   float64 // V: the least it starts at
	NominalVoltage float64 // V
	RatedSpeed     float64 // 1/s, at nominal voltage
	Top            float64 // share of its rated speed straight on the device's supply; unknown: 1
}

// Limit names what keeps a fan from running slower.
type Limit uint8

// The limits.
const (
	NoLimit       Limit = iota
	Start               // it must start: at its known starting voltage
	StartAssumed        // the same, at 60 % of nominal voltage, as the starting voltage is unknown
	Unmeasured          // it starts lower, but no speed is known below 5/12 of nominal voltage
	Control             // how far a PWM input goes down, or that the device has no way to slow this fan
	Tach                // the device's alarm would trip
	Mains               // AC: not slowed
	SupplyUnknown       // AC or DC is not known, so it is not slowed
)

var limitNames = [...]string{"none", "start", "start (assumed)", "start (unmeasured below)", "control", "tach", "mains", "supply unknown"}

// String gives the limit as it is shown.
func (l Limit) String() string {
	if int(l) < len(limitNames) {
		return limitNames[l]
	}
	return limitNames[NoLimit]
}

// LowestSpeed gives the least share of its rated speed that a fan may be planned
// at, and what limits it: the largest of what applies of
//
//   - the speed at its starting voltage (SpeedAtVoltage), DC by voltage; 0.68
//     where that voltage or the nominal one is unknown; not under 0.467, the
//     least that was measured;
//   - 0.30 by its PWM input;
//   - Top for AC, for an unknown supply, and where the device cannot slow it;
//   - alarm/(0.9·rated): the device's alarm threshold in 1/s, counted in turns of
//     this fan, where it and the rated speed are known. This may exceed Top: the
//     alarm then cannot be kept silent with this fan.
//
// With Any a fan with a PWM input uses that, the lower of its two ways. An unknown
// alarm threshold or rated speed limits nothing here: the caller has to warn.
func LowestSpeed(fan Fan, way Way, alarm float64) (float64, Limit) {
	r, limit := lowestByWay(fan, way)
	if alarm > 0 && fan.RatedSpeed > 0 {
		if a := alarm / (tachMargin * fan.RatedSpeed); a > r {
			return a, Tach
		}
	}
	return r, limit
}

func lowestByWay(fan Fan, way Way) (float64, Limit) {
	top := 1.0
	if fan.Top > 0 {
		top = fan.Top
	}
	switch {
	case way == NoWay:
		return top, Control
	case fan.Supply == AC:
		return top, Mains
	case fan.Supply != DC:
		return top, SupplyUnknown
	case way == ByPWM && !fan.PWM:
		return top, Control
	case fan.PWM && way != ByVoltage: // goes lower than any voltage that was measured
		return DefaultByPWM, Control
	}
	return lowestByVoltage(fan)
}

func lowestByVoltage(fan Fan) (float64, Limit) {
	if !(fan.StartVoltage > 0) || !(fan.NominalVoltage > 0) {
		return DefaultByVoltage, StartAssumed
	}
	r, err := SpeedAtVoltage(fan.StartVoltage / fan.NominalVoltage)
	if err != nil {
		return LowestMeasured, Unmeasured
	}
	return r, Start
}
