package drive

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"lowsone/testdata/sources"
)

// rows reads a file of published values, without its header.
func rows(t *testing.T, name string) [][]string {
	t.Helper()
	return sources.Rows(t, name)[1:]
}

// twelve returns an invented 12 V fan that draws the current and starts at 5 V.
func twelve(current float64) Load {
	return Load{Fan: Fan{Supply: DC, NominalVoltage: 12, StartVoltage: 5, RatedSpeed: 50}, RatedCurrent: current}
}

// steady returns a rail of one voltage.
func steady(volts float64) Rail { return Rail{Low: volts, High: volts} }

// sizing holds what each row of drive_supply_sizing.csv is held against, by
// method and given.
var sizing = map[[2]string]func(t *testing.T, source string){
	{"series resistor, fan as ohmic load", "2 W 12 V fan, want 9 V from 12 V"}: func(t *testing.T, source string) {
		c, refused := ResistorPlans(twelve(2.0/12), steady(12), 9, math.NaN())
		if refused != nil {
			t.Fatal(refused)
		}
		check(t, "R for an ohmic fan", c.Ohmic, 24, 0.5, source)
		if got := c.Plans[c.Nearest].Ohms; got != 22 {
			t.Errorf("nearest resistor %g Ω, want 22 (%s)", got, source)
		}
		check(t, "ohmicVolts(12, 72, 22)", ohmicVolts(12, 72, 22), 9.191, 0.0005, source)
		check(t, "current at 22 Ω", ohmicVolts(12, 72, 22)/72, 0.1277, 0.00005, source)
		check(t, "ohmicPower(12, 72, 22)", ohmicPower(12, 72, 22), 0.359, 0.0005, source)
		check(t, "ratingFor(2 · 0.41)", ratingFor(2*0.41), 1, 0, source)
		// Trap: 0.41 W takes 3 V across 22 Ω, which the fan does not leave it.
		if math.Abs(ohmicPower(12, 72, 22)-0.41) < 0.02 {
			t.Error("power of 0.41 W at 22 Ω: that is 3 V across it, not what is left")
		}
	},
	{"series resistor, fan as ohmic load", "2 W 12 V fan, want 7 V from 12 V"}: func(t *testing.T, source string) {
		c, refused := ResistorPlans(twelve(2.0/12), steady(12), 7, math.NaN())
		if refused != nil {
			t.Fatal(refused)
		}
		check(t, "R for an ohmic fan", c.Ohmic, 51.4, 0.05, source)
		check(t, "ohmicVolts(12, 72, 51)", ohmicVolts(12, 72, 51), 7.024, 0.0005, source)
		check(t, "ohmicPower(12, 72, 51)", ohmicPower(12, 72, 51), 0.485, 0.0005, source)
	},
	{"series resistor, ohmic", "12 V 0.27 A fan to 6 V"}: func(t *testing.T, source string) {
		c, refused := ResistorPlans(twelve(0.27), steady(12), 6, math.NaN())
		if refused != nil {
			t.Fatal(refused)
		}
		check(t, "R for an ohmic fan", c.Ohmic, 44.4, 0.05, source)
		check(t, "ohmicPower", ohmicPower(12, 12/0.27, c.Ohmic), 0.810, 0.0005, source)
	},
	{"series resistor overload trap", "12 V 2.5 A fan + 10 ohm 1 W"}: func(t *testing.T, source string) {
		check(t, "current", ohmicVolts(12, 4.8, 10)/4.8, 0.8108, 0.00005, source)
		check(t, "ohmicPower", ohmicPower(12, 4.8, 10), 6.574, 0.0005, source)
		check(t, "ohmicVolts", ohmicVolts(12, 4.8, 10), 3.892, 0.0005, source)
		check(t, "voltage across it", 12-ohmicVolts(12, 4.8, 10), 8.1, 0.05, source)
		p := withResistor(twelve(2.5), steady(12), 10, 1)
		if p.Rating < 2*6.574 || !p.HeatSink || p.Start != Fails || p.StartVolts != 0 {
			t.Errorf("10 Ω before 2.5 A: %+v; want over 13 W, hot, and no start (%s)", p, source)
		}
	},
	{"potentiometer worst case", "12 V, fan 34.3 ohm, pot 0-1 k"}: func(t *testing.T, source string) {
		got := PotentiometerPower(12, 12, 12/34.3)
		check(t, "PotentiometerPower", got, 1.050, 0.0005, source)
		for _, ohms := range []float64{5, 20, 30, 34.3, 40, 100, 1000} {
			if p := ohmicPower(12, 34.3, ohms); p > got*(1+1e-12) {
				t.Errorf("%g W at %g Ω, more than at the fan's own resistance", p, ohms)
			}
		}
	},
	{"series diode", "silicon of the common 1 A type"}: func(t *testing.T, source string) {
		one, refused := DiodePlan(twelve(0.1), steady(12), 11.3)
		if refused != nil {
			t.Fatal(refused)
		}
		check(t, "heat of a diode at 0.1 A", one.Heat, 0.075, 0.0005, source)
		check(t, "voltage behind it", one.Volts.Low, 12-0.75, 0.005, source)
		many, refused := DiodePlan(twelve(1), steady(12), 9)
		if refused != nil {
			t.Fatal(refused)
		}
		check(t, "heat of each diode at 1 A", many.Heat/float64(many.Count), 1, 0.5, source+", about 1 W")
	},
	// Trap: speed in proportion to what the motor sees, 55 or 58 % at 7 V. It was
	// measured to be 66 %.
	{"diode inside fan", "reverse-polarity diode about 0.75 V + switch about 0.25 V"}: func(t *testing.T, source string) {
		r := speed(t, 7.0/12)
		if r < 0.60 {
			t.Errorf("SpeedAtVoltage(7/12) = %g, want what was measured and no proportion (%s)", r, source)
		}
	},
	{"linear regulator dropout", "common adjustable type"}: func(t *testing.T, source string) {
		for _, x := range []struct {
			drop       [2]dropPoint
			i, v, half float64
		}{{commonDrop, 0.3, 1.75, 0.005}, {commonDrop, 1, 2, 0.05}, {lowDrop, 0.3, 0.2, 0.05}, {lowDrop, 1, 0.5, 0.05}} {
			check(t, "dropAt", dropAt(x.drop, x.i), x.v, x.half, source)
		}
	},
	{"linear regulator loss", "24 V to 12 V, 0.16 A"}: func(t *testing.T, source string) {
		p, refused := RegulatorPlan(twelve(0.16), steady(24), 12, false)
		if refused != nil || !p.HeatSink {
			t.Fatalf("%+v, %v; want a heat sink", p, refused)
		}
		check(t, "heat of 24 V to 12 V", p.Heat, 1.92, 0.005, source)
		p, refused = RegulatorPlan(twelve(0.1), steady(12), 7, false)
		if refused != nil || p.HeatSink {
			t.Fatalf("%+v, %v; want no heat sink", p, refused)
		}
		check(t, "heat of 12 V to 7 V", p.Heat, 0.50, 0.005, source)
	},
	{"buck converter loss", "24 V to 12 V, 0.16 A, 90 %"}: func(t *testing.T, source string) {
		p, refused := BuckPlan(twelve(0.16), steady(24), 12, 0.90)
		if refused != nil {
			t.Fatal(refused)
		}
		check(t, "heat of a buck converter", p.Heat, 0.213, 0.0005, source)
	},
	{"RC smoothing of pulsed supply", "10 ohm 1 W + 220 uF on a 65 Hz pulsed 24 V fan"}: func(t *testing.T, source string) {
		check(t, "lost in 10 Ω at 0.1 A", 24-constantVolts(24, 0.1, 10), 1, 0.5, source)
	},
	{"AC fan, series capacitor", "230 V 80-120 mm shaded pole"}: refusesAC,
	{"AC fan, series capacitor", "115 V 60 Hz small fan"}:       refusesAC,
	{"resistor hot-air derating", "full power to 70 C, linear to 0 at about 155 C (film) or 275-350 C (wirewound)"}: func(t *testing.T, source string) {
		check(t, "FilmDerating(100)", FilmDerating(100), 0.65, 0.005, "from MEMORY: "+source)
		check(t, "FilmDerating(70)", FilmDerating(70), 1, 0, "from MEMORY: "+source)
		check(t, "FilmDerating(155)", FilmDerating(155), 0, 0, "from MEMORY: "+source)
	},
}

// refusesAC: the rows have advice that must not be repeated.
func refusesAC(t *testing.T, source string) {
	if r := Refuse(SeriesCapacitor); r.Reason != MainsVoltage || !strings.Contains(r.Text, "mains voltage") {
		t.Errorf("a series capacitor: %+v (%s)", r, source)
	}
	l := twelve(0.1)
	l.Supply, l.NominalVoltage, l.StartVoltage = AC, 230, math.NaN()
	if offers, err := Offers(l, steady(230), 180, math.NaN()); offers != nil || err == nil {
		t.Errorf("an AC fan is offered %+v (%s)", offers, source)
	}
}

func TestSupplySizing(t *testing.T) {
	seen := 0
	for _, r := range rows(t, "drive_supply_sizing.csv") {
		hold, ok := sizing[[2]string{r[0], r[1]}]
		if !ok {
			t.Errorf("row %q, %q is not tested", r[0], r[1])
			continue
		}
		seen++
		t.Run(r[0], func(t *testing.T) { hold(t, r[5]+" "+r[4]) })
	}
	if seen != len(sizing) {
		t.Errorf("%d rows held against, want %d", seen, len(sizing))
	}
}

// Source: fit_pwm_input.csv, the numbers of the published specification, and
// what follows from them.
func TestPublishedPWM(t *testing.T) {
	numbers := map[string][]float64{
		"supply voltage": {pwmNominal, 100 * pwmSupply},
		"steady current max (12.6 V, free stream)":                        {PWMSteady},
		"start-up current spike allowed above 1.0 A up to":                {PWMStart},
		"start-up spike longest duration":                                 {PWMStartTime},
		"tach pulses per revolution":                                      {PWMTachPulses},
		"tach pull-up (on the host)":                                      {pwmNominal, pwmNominal * (1 + pwmSupply)},
		"PWM frequency target":                                            {PWMFrequency / 1e3},
		"PWM frequency acceptable":                                        {PWMFrequencyLow / 1e3, PWMFrequencyHigh / 1e3},
		"PWM logic low max VIL":                                           {PWMLowLevel},
		"PWM pin source current max (shorted)":                            {PWMInputCurrent * 1e3},
		"PWM pin open-circuit voltage max":                                {PWMOpenVoltage},
		"PWM pull-up is inside the fan; 3.3 V encouraged for new designs": nil, // no number of a check
		"minimum operating duty":                                          {100 * DefaultByPWM, 20},
		"full-speed tolerance at 100 % duty":                              {100 * (1 - tachMargin)},
	}
	seen := 0
	for _, r := range rows(t, "fit_pwm_input.csv") {
		want, ok := numbers[r[0]]
		if !ok {
			continue // words, held against below
		}
		seen++
		got := numbersIn(r[1])
		for i, x := range want {
			if i >= len(got) || math.Abs(got[i]-x) > 1e-9 {
				t.Errorf("%s: %v, here %v (%s)", r[0], got, want, r[4])
			}
		}
	}
	if seen != len(numbers) {
		t.Errorf("%d of %d numbers found", seen, len(numbers))
	}
}

// numbersIn returns the numbers in a text, in order.
func numbersIn(text string) (numbers []float64) {
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r != '.' && (r < '0' || r > '9') }) {
		if v, err := strconv.ParseFloat(word, 64); err == nil {
			numbers = append(numbers, v)
		}
	}
	return numbers
}

// Source: the same, the host's output: an open collector that sinks 5 mA, better
// 8, is enough for one input; not inverted; and the pins.
func TestPublishedPWMOutput(t *testing.T) {
	for _, r := range rows(t, "fit_pwm_input.csv") {
		switch r[0] {
		case "host PWM output":
			n := numbersIn(r[1])
			check(t, "sink wanted in mA", PWMSinkWanted*1e3, n[1], 0, r[4])
			if InputsPerOutput(n[0]/1e3) != 1 || InputsPerOutput(PWMSinkWanted) != 1 {
				t.Errorf("inputs on %g and %g mA: %d and %d, want 1", n[0], n[1], InputsPerOutput(n[0]/1e3), InputsPerOutput(n[1]/1e3))
			}
			if f := (PWMSource{Frequency: PWMFrequency, Low: n[2], High: math.NaN(), Sink: n[0] / 1e3}).Faults(1); f != nil {
				t.Errorf("an output as published has faults: %q", f)
			}
		case "pin 1", "pin 4", "pins 2 and 3":
			for _, x := range []struct{ pin, in, ours string }{{"pin 1", "ground", "supply negative"}, {"pin 4", "PWM", "PWM input"}} {
				if n := int(numbersIn(x.pin)[0]); r[0] == x.pin && (!strings.Contains(r[1], x.in) || Leads(4)[n-1].Function != x.ours) {
					t.Errorf("%s is %q, here %q (%s)", x.pin, r[1], Leads(4)[n-1].Function, r[4])
				}
			}
		}
	}
}

// Source: fit_leads.csv: every colour reported for a lead is among its hints, and
// most colours stand for several functions.
func TestLeads(t *testing.T) {
	seen := 0
	for _, r := range rows(t, "fit_leads.csv") {
		n, err := strconv.Atoi(r[0])
		if err != nil {
			continue
		}
		seen++
		l := Leads(4)[n-1]
		for _, word := range strings.FieldsFunc(r[2], func(r rune) bool { return strings.ContainsRune(" ,;()", r) }) {
			if isColour(word) && !slices.Contains(l.Colours, word) {
				t.Errorf("lead %d was reported %s: not among %v (%s)", n, word, l.Colours, r[3])
			}
		}
	}
	if seen != 4 {
		t.Errorf("%d leads, want 4", seen)
	}
	if got := FunctionsOf(" Yellow "); !slices.Equal(got, []string{"supply positive", "tach or locked-rotor alarm"}) {
		t.Errorf("yellow: %q", got)
	}
	if got := FunctionsOf("blue"); len(got) != 3 {
		t.Errorf("blue: %q, want three functions", got)
	}
	if Leads(1) != nil || Leads(5) != nil || len(Leads(2)) != 2 || FunctionsOf("pink") != nil {
		t.Error("leads or colours that are none")
	}
	Leads(2)[0].Colours[0] = "pink"
	if Leads(2)[0].Colours[0] != "black" {
		t.Error("the table was changed through its copy")
	}
	if !strings.Contains(LeadCaution, "measurement") {
		t.Error("the caution does not ask for a measurement (fit_leads.csv, tool rule)")
	}
}

func isColour(word string) bool {
	return slices.Contains([]string{"black", "blue", "red", "yellow", "white", "green", "brown"}, word)
}
