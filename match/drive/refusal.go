package drive

import "fmt"

// Reason names why a way of slowing a fan is refused.
type Reason uint8

// The reasons; the zero Reason is none of them.
const (
	NoReason        Reason = iota
	MainsFan               // AC: nothing that slows a DC fan slows it
	SupplyNotKnown         // AC or DC is not known
	OwnControl             // the fan regulates its own speed
	PulsedSupply           // the device pulses this supply
	Missing                // a figure of fan or supply is not known, or is none
	NotSlower              // the wanted voltage is above the fan's nominal one
	NothingToDrop          // the supply is no higher than what is wanted
	StartUnknown           // under 60 % of nominal without a known starting voltage
	BelowStart             // under the starting voltage
	NothingMeasured        // under the least voltage at which a speed was measured
	NoHeadRoom             // a regulator or converter needs more over its output
	TooMuchCurrent         // for a linear regulator
	TooManyDiodes
	NoPWMInput
	DutyTooLow   // under 30 %
	OffSupply    // a fan with a PWM input wants its 12 V
	FalseTach    // a chopped supply: the tach lies
	HiddenFault  // a tach tied low or made up: a stopped fan is not noticed
	MainsVoltage // parts at mains voltage
)

// Refusal is a way that is not offered, and why. It is an error.
type Refusal struct {
	Reason Reason
	Text   string // for the person with the fan in hand
}

func (r *Refusal) Error() string { return r.Text }

func refuse(reason Reason, format string, args ...any) *Refusal {
	return &Refusal{Reason: reason, Text: fmt.Sprintf(format, args...)}
}

// Trick is a way to slow a fan, or to hide that it is slowed, that is known in
// the trade and never offered.
type Trick uint8

// The tricks.
const (
	ChopSupply      Trick = iota // switching a fan's supply on and off quickly
	TieTachLow                   // joining the device's tach or alarm input to ground
	SimulateTach                 // a circuit that feigns tach pulses
	SeriesCapacitor              // before an AC fan
	MainsDimmer                  // phase control of an AC fan
	MainsResistor                // before an AC fan
)

// Refuse says why a trick is not offered.
func Refuse(trick Trick) *Refusal {
	switch trick {
	case ChopSupply:
		return refuse(FalseTach, "chopping the supply of a fan falsifies its tach, since the chip that makes the pulses loses power with every pause, and at low frequency it ticks and hums; lower the voltage instead, or use a fan with a PWM input")
	case TieTachLow:
		return refuse(HiddenFault, "with the tach or alarm input tied low the device no longer notices a fan that has stopped, and overheats without a warning; choose a fan and a speed that keep the alarm silent by themselves")
	case SimulateTach:
		return refuse(HiddenFault, "made-up tach pulses go on when the fan has stopped, so that the device overheats without a warning; choose a fan and a speed that keep the alarm silent by themselves")
	case SeriesCapacitor:
		return refuse(MainsVoltage, "a capacitor in series with an AC fan is a part at mains voltage that has to be made for it, its right size differs from motor to motor, and with it the fan may not start; choose a slower fan")
	case MainsDimmer:
		return refuse(MainsVoltage, "phase control makes the motor of a small AC fan hum and heat, and it may not start at a low setting; choose a slower fan")
	}
	return refuse(MainsVoltage, "a resistor in series with an AC fan is a part at mains voltage that gets hot, and with it the fan may not start; choose a slower fan")
}
