package drive

import "math"

// e12 are the values of a decade of the series of ±10 % resistors (IEC 60063).
var e12 = [...]float64{1.0, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2}

// e12At returns value i of the series, value 0 being 1 Ω.
func e12At(i int) float64 {
	decade := int(math.Floor(float64(i) / float64(len(e12))))
	v := e12[i-decade*len(e12)]
	if decade < 0 {
		return v / math.Pow10(-decade) // exact where ·10^−n is not
	}
	return v * math.Pow10(decade)
}

// nextE12 returns the places of the values next to ohms, at or below and at or
// above it, within rounding the same one.
func nextE12(ohms float64) (down, up int) {
	const rounding = 1e-9
	down = int(math.Floor(math.Log10(ohms)*float64(len(e12)))) - 2
	for e12At(down+1) <= ohms*(1+rounding) {
		down++
	}
	if e12At(down) >= ohms*(1-rounding) {
		return down, down
	}
	return down, down + 1
}

// mostOhms is far above what any fan takes in series.
const mostOhms = 1e9

// ratings are the powers in W that resistors are commonly made for (common
// practice).
var ratings = [...]float64{0.25, 0.5, 1, 2, 3, 5, 7, 10, 17, 25, 50}

// ratingFor returns the next common rating at or above a power in W; above the
// largest the power itself.
func ratingFor(power float64) float64 {
	for _, r := range ratings {
		if r >= power {
			return r
		}
	}
	return power
}

// FilmDerating returns the share of its rating that a film resistor bears in air
// of a temperature in °C: all of it to 70 °C, none at 155 °C, a straight line
// between. From MEMORY of resistor data sheets. NaN gives 1.
func FilmDerating(celsius float64) float64 {
	const full, none = 70.0, 155.0
	if !(celsius > full) {
		return 1
	}
	return max((none-celsius)/(none-full), 0)
}

// ResistorChoice is a series resistor by both bounds of how a fan draws current.
type ResistorChoice struct {
	// Ohmic is right for a fan whose current falls with its voltage, Constant for
	// one whose current stays; fans lie between. Ω
	Ohmic, Constant float64
	// Plans are those with the E12 values from the next at or below the smaller of
	// the two to the next at or above the larger, by rising resistance.
	Plans   []Plan
	Nearest int // the plan whose middle comes nearest to the wanted voltage
}

// ResistorPlans returns the plans with a series resistor. From the middle V of the
// supply,
//
//	R_ohmic = R_fan·(V − V_fan)/V_fan, R_fan = V_nominal/I;  R_constant = (V − V_fan)/I
//
// with the rated current I. For each value the voltage at the fan and the power
// are those of both bounds over the whole supply; the rating is twice the power
// or more, more still in air above 70 °C (FilmDerating of celsius; NaN: below).
// While the fan starts it has V_min − 2·I·R. A potentiometer is no resistor of
// this kind: see PotentiometerPower.
func ResistorPlans(l Load, rail Rail, volts, celsius float64) (ResistorChoice, *Refusal) {
	if r := Check(l, rail, volts); r != nil {
		return ResistorChoice{}, r
	}
	derating := FilmDerating(celsius)
	if derating == 0 {
		return ResistorChoice{}, refuse(Missing, "at %.3g °C a film resistor bears no power at all", celsius)
	}
	drop := rail.middle() - volts
	if drop <= 0 {
		return ResistorChoice{}, refuse(NothingToDrop, "%.3g V is not less than the middle of the supply, %.3g V", volts, rail.middle())
	}
	c := ResistorChoice{
		Ohmic:    l.NominalVoltage / l.RatedCurrent * drop / volts,
		Constant: drop / l.RatedCurrent,
	}
	if most := max(c.Ohmic, c.Constant); !(most < mostOhms) {
		return ResistorChoice{}, refuse(Missing, "it would take %.3g Ω: supply and current are no figures of one fan", most)
	}
	first, _ := nextE12(min(c.Ohmic, c.Constant))
	_, last := nextE12(max(c.Ohmic, c.Constant))
	for i := first; i <= last; i++ {
		c.Plans = append(c.Plans, withResistor(l, rail, e12At(i), derating))
	}
	for i, p := range c.Plans {
		if p.off(volts) < c.Plans[c.Nearest].off(volts) {
			c.Nearest = i
		}
	}
	return c, nil
}

// off returns how far the middle of a plan's voltages is from the wanted one.
func (p Plan) off(volts float64) float64 { return math.Abs((p.Volts.Low+p.Volts.High)/2 - volts) }

// withResistor returns the plan with a resistor of R ohms.
func withResistor(l Load, rail Rail, ohms, derating float64) Plan {
	fan := l.NominalVoltage / l.RatedCurrent
	i := l.RatedCurrent
	heat := max(ohmicPower(rail.High, fan, ohms), constantPower(rail.High, i, ohms))
	p := Plan{
		Means: SeriesResistor, Ohms: ohms, Heat: heat, Rating: ratingFor(2 * heat / derating),
		Volts: Range{
			min(ohmicVolts(rail.Low, fan, ohms), constantVolts(rail.Low, i, ohms)),
			max(ohmicVolts(rail.High, fan, ohms), constantVolts(rail.High, i, ohms)),
		},
		StartVolts: constantVolts(rail.Low, startTimes*i, ohms),
	}
	return p.finish(l, heat)
}

// ohmicVolts returns what a resistor leaves of a supply for a fan that draws
// current in proportion to its voltage.
func ohmicVolts(supply, fan, ohms float64) float64 { return supply * fan / (fan + ohms) }

// ohmicPower returns the power in the resistor then.
func ohmicPower(supply, fan, ohms float64) float64 {
	i := supply / (fan + ohms)
	return i * i * ohms
}

// constantVolts returns what is left for a fan that draws the current i whatever
// its voltage, at least nothing.
func constantVolts(supply, i, ohms float64) float64 { return max(supply-i*ohms, 0) }

// constantPower returns the power in the resistor then, which is never more than
// the whole supply across it.
func constantPower(supply, i, ohms float64) float64 {
	return min(i*i*ohms, supply*supply/ohms)
}

// PotentiometerPower returns the most power in W in a variable resistor before an
// ohmic fan of the given nominal voltage and rated current, where it is turned to
// the fan's own resistance R: V²/(4·R), and all of it in part of the track.
func PotentiometerPower(supply, nominal, current float64) float64 {
	return supply * supply / (4 * nominal / current)
}
