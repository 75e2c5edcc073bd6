package drive

import "math"

// Load is a fan as the supply that feeds it sees it.
type Load struct {
	Fan
	RatedCurrent  float64 // A at nominal voltage; not above 0: unknown
	SelfRegulated bool    // by a thermistor or a controller of its own
	Leads         int     // 0: unknown
	PulsesPerTurn float64 // of its tach; not above 0: none, or unknown
}

// Rail is a supply as measured at the plug with the fan running.
type Rail struct {
	Low, High float64 // V, the least and the most of it; equal where it is steady
	Pulsed    bool    // the device switches or pulses it
}

func (r Rail) middle() float64 { return r.Low + (r.High-r.Low)/2 }

// Range is a least and a most value.
type Range struct{ Low, High float64 }

// Verdict is the answer to a check.
type Verdict uint8

// The verdicts.
const (
	Unknown  Verdict = iota // something needed for it is not known
	Passes                  // also with the tolerances against it
	Doubtful                // it hangs on the tolerances
	Fails
)

var verdictNames = [...]string{"unknown", "passes", "doubtful", "fails"}

func (v Verdict) String() string {
	if int(v) < len(verdictNames) {
		return verdictNames[v]
	}
	return verdictNames[Unknown]
}

// leastShare is the share of nominal voltage below which no plan is made without a
// known starting voltage (common practice); DefaultByVoltage is the speed there.
const leastShare = 0.60

// VoltageFor gives the voltage at which the fan has a share of its nominal speed
// (VoltageForSpeed). The error is a *RangeError, or a *Refusal where the nominal
// voltage is not known.
func (f Fan) VoltageFor(share float64) (float64, error) {
	if !known(f.NominalVoltage) {
		return 0, refuse(Missing, "the nominal voltage of the fan is not known")
	}
	v, err := VoltageForSpeed(share)
	return v * f.NominalVoltage, err
}

// Check says whether a plan can be made at all to run the fan from the rail at a
// lower voltage in V, or which of the reasons forbids it: an AC fan, one that
// regulates itself, a pulsed supply, a figure that is not known, a voltage it
// would not start at, or at which nothing was measured. A nil Refusal says yes.
func Check(l Load, rail Rail, volts float64) *Refusal {
	if r := checkKind(l, rail); r != nil {
		return r
	}
	if r := checkFigures(l, rail, volts); r != nil {
		return r
	}
	return checkVoltage(l, rail, volts)
}

func checkKind(l Load, rail Rail) *Refusal {
	switch {
	case l.Supply == AC:
		return refuse(MainsFan, "an AC fan follows the mains frequency: no regulator, resistor, diode or PWM for DC fans slows it; choose a slower fan")
	case l.Supply != DC:
		return refuse(SupplyNotKnown, "it is not known whether the fan runs on DC or AC")
	case l.SelfRegulated:
		return refuse(OwnControl, "the fan regulates its own speed: on less voltage it holds its speed, hunts or stops; use its own control")
	case rail.Pulsed:
		return refuse(PulsedSupply, "the device pulses this supply: what a meter shows is no steady voltage, and parts behind it do not work as reckoned here; find out first what drives it")
	}
	return nil
}

func checkFigures(l Load, rail Rail, volts float64) *Refusal {
	switch {
	case !known(l.NominalVoltage):
		return refuse(Missing, "the nominal voltage of the fan is not known")
	case !known(l.RatedCurrent):
		return refuse(Missing, "the rated current of the fan is not known")
	case !known(rail.Low) || !known(rail.High) || rail.Low > rail.High:
		return refuse(Missing, "the supply is given as %.3g to %.3g V: measure it at the plug, least and most", rail.Low, rail.High)
	case !known(volts):
		return refuse(Missing, "the wanted voltage is given as %.3g V", volts)
	}
	return nil
}

func checkVoltage(l Load, rail Rail, volts float64) *Refusal {
	nominal := l.NominalVoltage
	switch {
	case volts > nominal:
		return refuse(NotSlower, "%.3g V is more than the %.3g V the fan is made for", volts, nominal)
	case volts >= rail.High:
		return refuse(NothingToDrop, "%.3g V is not less than the supply of %.3g V", volts, rail.High)
	case known(l.StartVoltage) && volts < l.StartVoltage:
		return refuse(BelowStart, "at %.3g V the fan may run on but does not start: it needs %.3g V", volts, l.StartVoltage)
	case !known(l.StartVoltage) && volts < leastShare*nominal:
		return refuse(StartUnknown, "%.3g V is under 60 %% of %.3g V and the starting voltage of the fan is not known: measure it first, cold, eight starts in a row", volts, nominal)
	case volts < LowestVoltage*nominal:
		return refuse(NothingMeasured, "%.3g V is under %.3g V, below which no speed was measured", volts, LowestVoltage*nominal)
	}
	return nil
}

// known tells whether a figure is a finite number above zero.
func known(x float64) bool { return x > 0 && !math.IsInf(x, 1) }
