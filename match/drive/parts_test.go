package drive

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

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

// Between the currents at which a drop was read it lies on the straight line.
func TestDrops(t *testing.T) {
	check(t, "dropAt(common, 0.65)", dropAt(commonDrop, 0.65), 1.875, 1e-12, "half way between 1.75 and 2 V [Dropout]")
	check(t, "dropAt(low, 0.65)", dropAt(lowDrop, 0.65), 0.35, 1e-12, "half way between 0.2 and 0.5 V [Dropout]")
	check(t, "dropAt(low, 0.1)", dropAt(lowDrop, 0.1), 0.2, 0, "that at 0.3 A [Dropout]")
}

// Figures that overflow are refused, not looked up.
func TestNoResistorIsThatLarge(t *testing.T) {
	if _, r := ResistorPlans(twelve(0.1), steady(1e308), 9, math.NaN()); r == nil || r.Reason != Missing {
		t.Errorf("a supply of 1e308 V: %+v", r)
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
	check(t, "power of 100 Ω on 12 V at most", constantPower(12, 0.2, 100), 1.44, 1e-12, "V²/R, less than I²·R")
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
