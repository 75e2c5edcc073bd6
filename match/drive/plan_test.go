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
