package drive

import "math"

// Means is a part, or an input of the fan, that slows it.
type Means uint8

// The means, in the order they are offered; the zero Means is none of them.
const (
	NoMeans          Means = iota
	PWMInput               // the fan's own input
	Regulator              // a common linear regulator
	LowDropRegulator       // a linear regulator of low drop
	BuckConverter          // a switching step-down converter
	SeriesDiodes           // silicon diodes
	SeriesResistor
)

var meansNames = [...]string{"none", "PWM input", "linear regulator", "low-drop regulator", "buck converter", "series diodes", "series resistor"}

func (m Means) String() string {
	if int(m) < len(meansNames) {
		return meansNames[m]
	}
	return meansNames[NoMeans]
}

// Plan is one way to run a fan slower.
type Plan struct {
	Means Means
	Volts Range // at the fan, over the supply's range and what is not known of the fan
	// Speed at Volts, or at Duty, as a share of nominal speed, ±5 % included
	// (SpeedBand); an end is NaN where nothing was measured.
	Speed    Range
	Heat     float64 // W at most, in all parts together; NaN for PWMInput, where there is none outside the fan
	HeatSink bool    // a part has to shed over 1 W: a heat sink, or a place in the stream
	Ohms     float64 // of SeriesResistor, else 0
	Rating   float64 // W a SeriesResistor has to be made for, A the diodes; else 0
	Count    int     // of SeriesDiodes, else 0
	Duty     float64 // of PWMInput, else 0
	// StartVolts is what is left for the fan while it starts, at twice its rated
	// current; Start holds it against the starting voltage. Whether a fan starts at a
	// duty of its PWM input only its sheet or a trial tells.
	StartVolts float64
	Start      Verdict
}

const (
	coolAlone  = 1.0 // W a small part sheds by itself (common practice)
	startTimes = 2.0 // rated currents a fan draws while it starts (common practice)
)

// finish fills in what follows from the voltages and the hottest part of a plan.
func (p Plan) finish(l Load, hottest float64) Plan {
	p.Speed = speedsAt(l, p.Volts)
	p.HeatSink = hottest > coolAlone
	p.Start = startsAt(l, p.StartVolts)
	return p
}

// startsAt holds a voltage against the fan's starting voltage.
func startsAt(l Load, volts float64) Verdict {
	switch {
	case !known(l.StartVoltage):
		return Unknown
	case volts >= l.StartVoltage:
		return Passes
	}
	return Fails
}

// speedsAt returns the speeds at the ends of a range of voltages, with the band
// of the law.
func speedsAt(l Load, volts Range) Range {
	at := func(v, band float64) float64 {
		r, err := SpeedAtVoltage(v / l.NominalVoltage)
		if err != nil {
			return math.NaN()
		}
		return r * band
	}
	return Range{at(volts.Low, 1-SpeedBand), at(volts.High, 1+SpeedBand)}
}

// Offer is what one means can do: plans, or why it is refused.
type Offer struct {
	Means   Means
	Plans   []Plan   // several for SeriesResistor, by rising resistance
	Refused *Refusal // nil where there are plans
}

// Offers returns every means of running a DC fan from the rail at a lower voltage
// in V; celsius is the air around the parts, NaN where it is not known. The error
// is a *Refusal where none is possible at all (Check). The PWM input is not among
// them: it goes by speed (PWMPlan).
func Offers(l Load, rail Rail, volts, celsius float64) ([]Offer, error) {
	if r := Check(l, rail, volts); r != nil {
		return nil, r
	}
	single := func(m Means, p Plan, err *Refusal) Offer {
		if err != nil {
			return Offer{Means: m, Refused: err}
		}
		return Offer{Means: m, Plans: []Plan{p}}
	}
	linear, refused := RegulatorPlan(l, rail, volts, false)
	offers := []Offer{single(Regulator, linear, refused)}
	linear, refused = RegulatorPlan(l, rail, volts, true)
	offers = append(offers, single(LowDropRegulator, linear, refused))
	buck, refused := BuckPlan(l, rail, volts, BuckEfficiency)
	offers = append(offers, single(BuckConverter, buck, refused))
	diodes, refused := DiodePlan(l, rail, volts)
	offers = append(offers, single(SeriesDiodes, diodes, refused))
	choice, refused := ResistorPlans(l, rail, volts, celsius)
	return append(offers, Offer{Means: SeriesResistor, Plans: choice.Plans, Refused: refused}), nil
}
