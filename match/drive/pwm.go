package drive

import (
	"fmt"
	"math"
)

// The published specification of fans with a PWM input, 12 V. [PWM]
const (
	PWMFrequency     = 25e3 // Hz
	PWMFrequencyLow  = 21e3 // Hz, the least accepted
	PWMFrequencyHigh = 28e3 // Hz, the most accepted
	PWMLowLevel      = 0.8  // V, the most for low
	PWMOpenVoltage   = 5.25 // V, the most at an open input; its pull-up is in the fan
	PWMInputCurrent  = 5e-3 // A that one input may give while it is held low
	PWMSinkWanted    = 8e-3 // A an output should sink; 5 mA are required
	PWMSteady        = 1.5  // A a fan may draw
	PWMStart         = 2.2  // A it may draw while it starts, for 1 s at most
	PWMStartTime     = 1.0  // s
	PWMTachPulses    = 2.0  // per turn
	pwmNominal       = 12.0 // V
	pwmSupply        = 0.05 // share the supply may be off
)

// PWMPlan returns the plan by the fan's own PWM input for a share of its full
// speed, taken as the duty; the speed follows it to about ±5 % (common practice).
// It is refused for AC, for a fan that regulates itself, on a pulsed supply,
// without such an input, under 30 %, where fans may hold a least speed, stop or
// not start, and for a 12 V fan on another supply than 12 V ± 5 %.
func PWMPlan(l Load, rail Rail, share float64) (Plan, *Refusal) {
	if r := checkKind(l, rail); r != nil {
		return Plan{}, r
	}
	switch {
	case !l.PWM:
		return Plan{}, refuse(NoPWMInput, "the fan is not known to have a PWM input")
	case !(share <= 1):
		return Plan{}, refuse(NotSlower, "%.3g of full speed is not slower", share)
	case share < DefaultByPWM:
		return Plan{}, refuse(DutyTooLow, "%.3g %% duty is under 30 %%: below its least duty a fan may keep its least speed, stop, or not start, by its type", 100*share)
	case l.NominalVoltage == pwmNominal && !onPWMSupply(rail):
		return Plan{}, refuse(OffSupply, "a fan with a PWM input wants 12 V ± 5 %%, and the supply is %.3g to %.3g V", rail.Low, rail.High)
	}
	return Plan{
		Means: PWMInput, Duty: share, Volts: Range{rail.Low, rail.High}, Heat: math.NaN(), StartVolts: rail.Low,
		Speed: Range{share * (1 - SpeedBand), share * (1 + SpeedBand)},
	}, nil
}

// PWMSource is what drives the PWM inputs of fans. A figure that is NaN is not
// known and not judged.
type PWMSource struct {
	Frequency float64 // Hz
	Low, High float64 // V it drives to; High NaN for an open collector
	Sink      float64 // A it can take while low
	Inverted  bool    // 100 % means stop
}

// Faults returns what is against driving a number of inputs with the source,
// each in a sentence.
func (s PWMSource) Faults(inputs int) (faults []string) {
	say := func(format string, args ...any) { faults = append(faults, fmt.Sprintf(format, args...)) }
	if s.Frequency < PWMFrequencyLow || s.Frequency > PWMFrequencyHigh {
		say("%.3g kHz is outside 21 to 28 kHz: the fan may tick or misread it", s.Frequency/1e3)
	}
	if s.Low > PWMLowLevel {
		say("low at %.3g V is above 0.8 V: the fan may not see it", s.Low)
	}
	if s.High > PWMOpenVoltage {
		say("high at %.3g V is above 5.25 V: it may damage the input", s.High)
	}
	if most := InputsPerOutput(s.Sink); s.Sink >= 0 && inputs > most {
		say("%d inputs give up to %.3g mA, the output takes %.3g mA, enough for %d", inputs, 5*float64(inputs), 1e3*s.Sink, most)
	}
	if s.Inverted {
		say("the signal is inverted: 100 %% has to mean full speed")
	}
	return faults
}

// onPWMSupply tells whether a rail is 12 V ± 5 % throughout.
func onPWMSupply(rail Rail) bool {
	return rail.Low >= pwmNominal*(1-pwmSupply) && rail.High <= pwmNominal*(1+pwmSupply)
}

// InputsPerOutput returns how many PWM inputs an output can hold low that sinks a
// current in A: each gives up to 5 mA. The 5 mA that the specification requires
// of an output are enough for one, its 8 mA wanted as well. An unknown sink (NaN)
// gives 0.
func InputsPerOutput(sink float64) int {
	const rounding = 1e-9
	if !(sink > 0) {
		return 0
	}
	return int(min(sink/PWMInputCurrent+rounding, 1e6))
}
