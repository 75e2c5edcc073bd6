package drive

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

var nan, inf = math.NaN(), math.Inf(1)

func TestCheck(t *testing.T) {
	with := func(change func(l *Load)) Load {
		l := twelve(0.2)
		change(&l)
		return l
	}
	unstarted := with(func(l *Load) { l.StartVoltage = nan })
	tests := []struct {
		name  string
		load  Load
		rail  Rail
		volts float64
		want  Reason
		text  string
	}{
		{"fine", twelve(0.2), steady(12), 9, NoReason, ""},
		{"at its starting voltage", twelve(0.2), steady(12), 5, NoReason, ""},
		{"nominal from a higher supply", twelve(0.2), steady(24), 12, NoReason, ""},
		{"start unknown, at 60 %", unstarted, steady(12), 7.2, NoReason, ""},
		{"start unknown, under 60 %", unstarted, steady(12), 7.1, StartUnknown, "7.1 V is under 60 % of 12 V"},
		{"start left out", with(func(l *Load) { l.StartVoltage = 0 }), steady(12), 7, StartUnknown, "eight starts"},
		{"under its starting voltage", twelve(0.2), steady(12), 4.9, BelowStart, "it needs 5 V"},
		{"starts low, but nothing measured", with(func(l *Load) { l.StartVoltage = 3 }), steady(12), 4.9, NothingMeasured, "4.9 V is under 5 V"},
		{"above nominal", twelve(0.2), steady(24), 12.1, NotSlower, "more than the 12 V"},
		{"as high as the supply", twelve(0.2), steady(9), 9, NothingToDrop, "not less than the supply of 9 V"},
		{"AC", with(func(l *Load) { l.Supply = AC }), steady(12), 9, MainsFan, "mains frequency"},
		{"supply unknown", with(func(l *Load) { l.Supply = 0 }), steady(12), 9, SupplyNotKnown, "DC or AC"},
		{"regulates itself", with(func(l *Load) { l.SelfRegulated = true }), steady(12), 9, OwnControl, "its own control"},
		{"pulsed supply", twelve(0.2), Rail{12, 12, true}, 9, PulsedSupply, "pulses this supply"},
		{"nominal unknown", with(func(l *Load) { l.NominalVoltage = nan }), steady(12), 9, Missing, "nominal voltage"},
		{"current unknown", with(func(l *Load) { l.RatedCurrent = nan }), steady(12), 9, Missing, "rated current"},
		{"current left out", with(func(l *Load) { l.RatedCurrent = 0 }), steady(12), 9, Missing, "rated current"},
		{"supply unknown in V", twelve(0.2), Rail{Low: nan, High: 12}, 9, Missing, "measure it at the plug"},
		{"supply upside down", twelve(0.2), Rail{Low: 13, High: 12}, 9, Missing, "13 to 12 V"},
		{"supply without end", twelve(0.2), Rail{Low: 12, High: inf}, 9, Missing, "measure it at the plug"},
		{"no voltage wanted", twelve(0.2), steady(12), 0, Missing, "wanted voltage"},
		{"voltage not a number", twelve(0.2), steady(12), nan, Missing, "wanted voltage"},
	}
	for _, test := range tests {
		got := Check(test.load, test.rail, test.volts)
		if test.want == NoReason {
			if got != nil {
				t.Errorf("%s: refused: %v", test.name, got)
			}
			continue
		}
		if got == nil || got.Reason != test.want || !strings.Contains(got.Error(), test.text) {
			t.Errorf("%s: %+v, want reason %d with %q", test.name, got, test.want, test.text)
		}
		offers, err := Offers(test.load, test.rail, test.volts, nan)
		var r *Refusal
		if offers != nil || !errors.As(err, &r) || r.Reason != test.want {
			t.Errorf("%s: Offers = %v, %v", test.name, offers, err)
		}
		for means, plan := range map[Means]func() *Refusal{
			Regulator:      func() *Refusal { _, r := RegulatorPlan(test.load, test.rail, test.volts, false); return r },
			BuckConverter:  func() *Refusal { _, r := BuckPlan(test.load, test.rail, test.volts, 0.9); return r },
			SeriesDiodes:   func() *Refusal { _, r := DiodePlan(test.load, test.rail, test.volts); return r },
			SeriesResistor: func() *Refusal { _, r := ResistorPlans(test.load, test.rail, test.volts, nan); return r },
		} {
			if r := plan(); r == nil || r.Reason != test.want {
				t.Errorf("%s by %v: %+v, want reason %d", test.name, means, r, test.want)
			}
		}
	}
}

func TestRefusedTricks(t *testing.T) {
	for _, test := range []struct {
		trick Trick
		want  Reason
		text  string
	}{
		{ChopSupply, FalseTach, "falsifies its tach"},
		{TieTachLow, HiddenFault, "no longer notices a fan that has stopped"},
		{SimulateTach, HiddenFault, "go on when the fan has stopped"},
		{SeriesCapacitor, MainsVoltage, "mains voltage"},
		{MainsDimmer, MainsVoltage, "hum and heat"},
		{MainsResistor, MainsVoltage, "gets hot"},
	} {
		if r := Refuse(test.trick); r.Reason != test.want || !strings.Contains(r.Text, test.text) || strings.HasSuffix(r.Text, ".") {
			t.Errorf("Refuse(%d) = %+v, want reason %d with %q", test.trick, r, test.want, test.text)
		}
	}
}

func TestVoltageFor(t *testing.T) {
	f := Fan{NominalVoltage: 24}
	v, err := f.VoltageFor(2310.0 / 2850)
	if err != nil {
		t.Fatal(err)
	}
	check(t, "VoltageFor(0.811)", v, 18, 1e-9, "[SPCR], 9 V of 12")
	var low *RangeError
	if _, err = f.VoltageFor(0.4); !errors.As(err, &low) {
		t.Errorf("VoltageFor(0.4): %v", err)
	}
	var r *Refusal
	if _, err = (Fan{}).VoltageFor(0.8); !errors.As(err, &r) || r.Reason != Missing {
		t.Errorf("VoltageFor without a nominal voltage: %v", err)
	}
}

func TestRegulatorPlan(t *testing.T) {
	p, r := RegulatorPlan(twelve(0.2), Rail{Low: 11.4, High: 12.6}, 9, false)
	if r != nil {
		t.Fatal(r)
	}
	check(t, "heat", p.Heat, (12.6-9)*0.2, 1e-12, "(V_max − V_fan)·I")
	check(t, "voltage while it starts", p.StartVolts, 9, 1e-12, "11.4 − 1.786 V at 0.4 A is more")
	check(t, "slowest", p.Speed.Low, 0.95*2310/2850, 1e-12, "[SPCR] less 5 %")
	check(t, "fastest", p.Speed.High, 1.05*2310/2850, 1e-12, "[SPCR] and 5 %")
	if p.Volts != (Range{9, 9}) || p.Means != Regulator || p.Start != Passes || p.HeatSink || p.Ohms != 0 || p.Count != 0 {
		t.Errorf("plan %+v", p)
	}
	p, r = RegulatorPlan(twelve(0.9), steady(11), 9.0, false)
	if r != nil || p.StartVolts >= 9 || p.Start != Passes || !p.HeatSink {
		t.Fatalf("tight: %+v, %v; want less than 9 V while it starts", p, r)
	}
	check(t, "voltage while it starts", p.StartVolts, 11-(1.75+0.25/0.7*1.5), 1e-12, "the drop at 1.8 A on the same line")

	for _, test := range []struct {
		current, supply, volts float64
		low                    bool
		want                   Reason
		text                   string
	}{
		{0.2, 10.7, 9, false, NoHeadRoom, "on 10.7 V gives at most 8.95 V"},
		{0.2, 9.3, 9, true, NoReason, ""},
		{0.2, 9.1, 9, true, NoHeadRoom, "low-drop regulator on 9.1 V gives at most 8.9 V"},
		{1.01, 24, 9, false, TooMuchCurrent, "take a buck converter"},
		{1, 24, 9, false, NoReason, ""},
	} {
		_, r := RegulatorPlan(twelve(test.current), steady(test.supply), test.volts, test.low)
		if test.want == NoReason != (r == nil) || r != nil && (r.Reason != test.want || !strings.Contains(r.Text, test.text)) {
			t.Errorf("%+v: %+v", test, r)
		}
	}
}

// What is just enough is enough.
func TestLimitsOfPlans(t *testing.T) {
	if p, r := RegulatorPlan(twelve(0.25), Rail{Low: 10.75, High: 13}, 9, false); r != nil || p.HeatSink {
		t.Errorf("just its drop and just 1 W: %+v, %v", p, r)
	}
	if _, r := RegulatorPlan(twelve(0.3), steady(9.2), 9, true); r != nil {
		t.Errorf("just a low drop: %v", r)
	}
	if _, r := BuckPlan(twelve(0.2), steady(10), 9, 0.9); r != nil {
		t.Errorf("just 1 V over a buck converter: %v", r)
	}
	if p, r := RegulatorPlan(twelve(0.2), steady(12), 5, false); r != nil || p.Start != Passes {
		t.Errorf("just its starting voltage: %+v, %v", p, r)
	}
	if _, r := DiodePlan(twelve(0.2), steady(12), 5.5); r == nil || !strings.Contains(r.Text, "9 diodes") {
		t.Errorf("9 diodes: %+v, want too many", r)
	}
	if _, r := ResistorPlans(twelve(0.2), Rail{Low: 8, High: 10}, 9, nan); r == nil || r.Reason != NothingToDrop {
		t.Errorf("wanted the middle of the supply: %+v", r)
	}
	// 8 V less 4 diodes leaves nothing of a supply that falls to 3 V.
	if p, r := DiodePlan(twelve(0.2), Rail{Low: 3, High: 13}, 5); r != nil || p.Volts.Low != 0 || p.StartVolts != 0 || !math.IsNaN(p.Speed.Low) {
		t.Errorf("a supply that falls to 3 V: %+v, %v", p, r)
	}
	offers, err := Offers(twelve(0.2), steady(24), 9, nan)
	if err != nil {
		t.Fatal(err)
	}
	check(t, "heat of the buck converter offered", offers[2].Plans[0].Heat, 9*0.2/9, 1e-12, "90 %, common practice")
}

func TestBuckPlan(t *testing.T) {
	p, r := BuckPlan(twelve(2), Rail{Low: 20, High: 30}, 9, 0.8)
	if r != nil || p.Volts != (Range{9, 9}) || p.StartVolts != 9 || p.Start != Passes || !p.HeatSink {
		t.Fatalf("%+v, %v", p, r)
	}
	check(t, "heat", p.Heat, 9*2*0.25, 1e-12, "V_fan·I·(1/η − 1)")
	for _, efficiency := range []float64{0, 1, -1, nan, 90} {
		if _, r := BuckPlan(twelve(0.2), steady(24), 9, efficiency); r == nil || r.Reason != Missing {
			t.Errorf("efficiency %g: %+v", efficiency, r)
		}
	}
	if _, r := BuckPlan(twelve(0.2), steady(9.9), 9, 0.9); r == nil || r.Reason != NoHeadRoom {
		t.Errorf("9 V from 9.9 V: %+v", r)
	}
}

func TestDiodePlan(t *testing.T) {
	p, r := DiodePlan(twelve(0.2), Rail{Low: 11, High: 13}, 9)
	if r != nil {
		t.Fatal(r)
	}
	// 3 V are 4.1 diodes of 0.725 V.
	if p.Count != 4 || p.Start != Passes || p.HeatSink {
		t.Errorf("plan %+v, want 4 diodes", p)
	}
	check(t, "least at the fan", p.Volts.Low, 11-4*0.75, 1e-12, "V_min − n·0.75")
	check(t, "most at the fan", p.Volts.High, 13-4*0.70, 1e-12, "V_max − n·0.70")
	check(t, "heat", p.Heat, 4*0.75*0.2, 1e-12, "n·0.75·I")
	check(t, "voltage while it starts", p.StartVolts, 11-4*0.75, 1e-12, "V_min − n·0.75")
	check(t, "rating in A", p.Rating, 0.4, 1e-12, "twice the rated current")
	if p, r = DiodePlan(twelve(0.2), steady(12), 11.9); r != nil || p.Count != 1 {
		t.Errorf("a tenth of a volt: %+v, %v; want one diode", p, r)
	}
	if p, r = DiodePlan(twelve(0.2), steady(12), 6.2); r != nil || p.Count != 8 {
		t.Errorf("5.8 V: %+v, %v; want 8 diodes", p, r)
	}
	if _, r = DiodePlan(twelve(0.2), steady(24), 9); r == nil || r.Reason != TooManyDiodes || !strings.Contains(r.Text, "21 diodes") {
		t.Errorf("15 V: %+v, want too many", r)
	}
	// Heat sink by the hottest of them, not by all.
	if p, _ = DiodePlan(twelve(1.3), steady(12), 9); p.HeatSink {
		t.Errorf("%+v: each sheds 0.975 W", p)
	}
	if p, _ = DiodePlan(twelve(1.4), steady(12), 11); !p.HeatSink {
		t.Errorf("%+v: it sheds 1.05 W", p)
	}
}

func TestResistorPlans(t *testing.T) {
	c, r := ResistorPlans(twelve(2.0/12), Rail{Low: 11, High: 13}, 9, nan)
	if r != nil {
		t.Fatal(r)
	}
	check(t, "R for a constant current", c.Constant, 18, 1e-9, "(12 − 9)/I")
	check(t, "R for an ohmic fan", c.Ohmic, 24, 1e-9, "72·(12 − 9)/9")
	var ohms []float64
	for _, p := range c.Plans {
		ohms = append(ohms, p.Ohms)
	}
	if len(ohms) != 3 || ohms[0] != 18 || ohms[1] != 22 || ohms[2] != 27 || c.Nearest != 0 {
		t.Fatalf("E12 values %v, nearest %d; want 18, 22 and 27 about 18 … 24", ohms, c.Nearest)
	}
	p := c.Plans[1]
	check(t, "least at the fan", p.Volts.Low, 11-22.0/6, 1e-9, "V_min − I·R is less than ohmic")
	check(t, "most at the fan", p.Volts.High, 13*72.0/94, 1e-9, "ohmic is more")
	check(t, "heat", p.Heat, 22.0/36, 1e-9, "I²·R is more than ohmic")
	check(t, "rating", p.Rating, 2, 0, "twice 0.61 W, the next common one")
	check(t, "voltage while it starts", p.StartVolts, 11-22.0/3, 1e-9, "V_min − 2·I·R")
	if p.Start != Fails || p.HeatSink || p.Means != SeriesResistor {
		t.Errorf("plan %+v, want a start that fails at 5 V", p)
	}
	if hot, _ := ResistorPlans(twelve(2.0/12), Rail{Low: 11, High: 13}, 9, 112.5); hot.Plans[1].Rating != 3 {
		t.Errorf("in air of 112.5 °C rated %g W, want 3 for 2.44", hot.Plans[1].Rating)
	}
	if _, r := ResistorPlans(twelve(0.2), steady(12), 9, 155); r == nil || r.Reason != Missing {
		t.Errorf("in air of 155 °C: %+v", r)
	}
	if _, r := ResistorPlans(twelve(0.2), Rail{Low: 8, High: 10}, 9.5, nan); r == nil || r.Reason != NothingToDrop {
		t.Errorf("wanted above the middle of the supply: %+v", r)
	}
	if p := withResistor(twelve(0.2), steady(12), 100, 1); p.Volts.Low != 0 || !math.IsNaN(p.Speed.Low) || p.StartVolts != 0 {
		t.Errorf("too much resistance: %+v, want nothing left and no speed known", p)
	}
}

// The values of the series bracket any resistance within a step of it, and stay
// what IEC 60063 lists.
func TestE12(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ohms := math.Pow(10, rapid.Float64Range(-2, 6).Draw(t, "exponent"))
		down, up := nextE12(ohms)
		low, high := e12At(down), e12At(up)
		if !(low <= ohms*(1+1e-9) && high >= ohms*(1-1e-9)) || up-down > 1 || high/low > 1.26 {
			t.Fatalf("nextE12(%g): %g and %g", ohms, low, high)
		}
	})
	for i, want := range map[int]float64{0: 1, 1: 1.2, 11: 8.2, 12: 10, 16: 22, 31: 390, -1: 0.82, -12: 0.1} {
		if got := e12At(i); math.Abs(got-want) > 1e-12*want {
			t.Errorf("e12At(%d) = %g, want %g (IEC 60063)", i, got, want)
		}
		if down, up := nextE12(want); down != i || up != i {
			t.Errorf("nextE12(%g) = %d, %d; want %d", want, down, up, i)
		}
	}
	for _, r := range []struct{ power, want float64 }{{0.1, 0.25}, {0.25, 0.25}, {0.26, 0.5}, {3.1, 5}, {5, 5}, {6, 7}, {8, 10}, {11, 17}, {18, 25}, {26, 50}, {50, 50}, {60, 60}} {
		check(t, "ratingFor", ratingFor(r.power), r.want, 0, "common practice")
	}
}

// drawn is a fan, a rail and a voltage at which some plan is possible.
func drawn(t *rapid.T) (Load, Rail, float64) {
	nominal := rapid.SampledFrom([]float64{5, 12, 24, 48}).Draw(t, "nominal")
	l := Load{RatedCurrent: rapid.Float64Range(0.02, 3).Draw(t, "current"), Fan: Fan{
		Supply: DC, NominalVoltage: nominal, StartVoltage: nominal * rapid.Float64Range(0.3, 0.6).Draw(t, "start")}}
	low := nominal * rapid.Float64Range(0.9, 2).Draw(t, "least of the supply")
	rail := Rail{Low: low, High: low * rapid.Float64Range(1, 1.1).Draw(t, "most of the supply")}
	return l, rail, nominal * rapid.Float64Range(0.6, 0.89).Draw(t, "wanted")
}

// Every plan leaves the fan no more than the supply, is rated for its heat, never
// starts better than it runs, and the energy adds up.
func TestPlansHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, rail, volts := drawn(t)
		offers, err := Offers(l, rail, volts, nan)
		if err != nil {
			t.Fatal(err)
		}
		for i, o := range offers {
			if (o.Refused == nil) != (len(o.Plans) > 0) || o.Means != Regulator+Means(i) {
				t.Fatalf("offer %d: %+v", i, o)
			}
			for _, p := range o.Plans {
				p.holds(t, l, rail, volts)
			}
		}
		c, _ := ResistorPlans(l, rail, volts, nan)
		for i, p := range c.Plans {
			if i > 0 && !(p.Ohms > c.Plans[i-1].Ohms && p.Volts.Low <= c.Plans[i-1].Volts.Low && p.Volts.High < c.Plans[i-1].Volts.High) {
				t.Fatalf("more resistance leaves more: %+v after %+v", p, c.Plans[i-1])
			}
			if p.off(volts) < c.Plans[c.Nearest].off(volts) {
				t.Fatalf("nearest is %d of %+v", c.Nearest, c.Plans)
			}
		}
		if first, last := c.Plans[0].Ohms, c.Plans[len(c.Plans)-1].Ohms; first > c.Constant*(1+1e-9) || last < c.Ohmic*(1-1e-9) {
			t.Fatalf("%g to %g Ω about %g to %g", first, last, c.Constant, c.Ohmic)
		}
	})
}

func (p Plan) holds(t *rapid.T, l Load, rail Rail, volts float64) {
	const slack = 1 + 1e-9
	if !(0 <= p.Volts.Low && p.Volts.Low <= p.Volts.High && p.Volts.High <= rail.High) {
		t.Fatalf("%+v on %+v", p, rail)
	}
	if p.StartVolts > p.Volts.Low*slack || (p.Start == Passes) != (p.StartVolts >= l.StartVoltage) || p.Start == Unknown {
		t.Fatalf("%+v of a fan that starts at %g V", p, l.StartVoltage)
	}
	if !(p.Heat > 0) || p.Heat*(1+1e-9) < p.leastHeat(l, rail) {
		t.Fatalf("%+v: less heat than %g W", p, p.leastHeat(l, rail))
	}
	if p.Means == SeriesResistor && p.Rating < 2*p.Heat {
		t.Fatalf("%+v: rated under twice its heat", p)
	}
	if !(p.Speed.High > p.Speed.Low || math.IsNaN(p.Speed.Low)) {
		t.Fatalf("%+v: speeds", p)
	}
}

// leastHeat is the heat that the energy balance of the highest supply leaves at
// the rated current, for the means that pass the fan's current on.
func (p Plan) leastHeat(l Load, rail Rail) float64 {
	switch p.Means {
	case Regulator, LowDropRegulator:
		return (rail.High - p.Volts.High) * l.RatedCurrent
	case SeriesResistor:
		v := ohmicVolts(rail.High, l.NominalVoltage/l.RatedCurrent, p.Ohms)
		return (rail.High - v) * v / (l.NominalVoltage / l.RatedCurrent)
	}
	return 0
}
