package drive

import (
	"math"
	"strings"
	"testing"
)

func TestPWMPlan(t *testing.T) {
	l := twelve(0.2)
	l.PWM = true
	p, r := PWMPlan(l, Rail{Low: 11.4, High: 12.6}, 0.5)
	if r != nil || p.Means != PWMInput || p.Duty != 0.5 || p.Start != Unknown || p.HeatSink || !math.IsNaN(p.Heat) {
		t.Fatalf("%+v, %v", p, r)
	}
	check(t, "slowest", p.Speed.Low, 0.475, 1e-12, "5 % less than the duty")
	check(t, "fastest", p.Speed.High, 0.525, 1e-12, "5 % more than the duty")
	high := l
	high.NominalVoltage = 24
	for _, test := range []struct {
		name  string
		load  Load
		rail  Rail
		share float64
		want  Reason
	}{
		{"at the least duty", l, steady(12), 0.30, NoReason},
		{"full speed", l, steady(12), 1, NoReason},
		{"24 V fan", high, steady(24), 0.5, NoReason},
		{"under the least duty", l, steady(12), 0.29, DutyTooLow},
		{"faster", l, steady(12), 1.01, NotSlower},
		{"not a number", l, steady(12), nan, NotSlower},
		{"supply too low", l, Rail{Low: 11.3, High: 12}, 0.5, OffSupply},
		{"supply too high", l, Rail{Low: 12, High: 12.7}, 0.5, OffSupply},
		{"supply unknown", l, Rail{Low: nan, High: nan}, 0.5, OffSupply},
		{"pulsed supply", l, Rail{12, 12, true}, 0.5, PulsedSupply},
		{"no input", twelve(0.2), steady(12), 0.5, NoPWMInput},
		{"AC", Load{Fan: Fan{Supply: AC, PWM: true}}, steady(12), 0.5, MainsFan},
		{"supply kind unknown", Load{Fan: Fan{PWM: true}}, steady(12), 0.5, SupplyNotKnown},
		{"regulates itself", Load{Fan: Fan{Supply: DC, PWM: true}, SelfRegulated: true}, steady(12), 0.5, OwnControl},
	} {
		_, r := PWMPlan(test.load, test.rail, test.share)
		if test.want == NoReason != (r == nil) || r != nil && r.Reason != test.want {
			t.Errorf("%s: %+v, want reason %d", test.name, r, test.want)
		}
	}
}

func TestPWMSourceFaults(t *testing.T) {
	good := PWMSource{Frequency: 25e3, Low: 0.4, High: nan, Sink: 8e-3}
	for _, test := range []struct {
		name   string
		change func(s *PWMSource)
		inputs int
		text   string // of the one fault; "" for none
	}{
		{"good", func(s *PWMSource) {}, 1, ""},
		{"unknown", func(s *PWMSource) { *s = PWMSource{nan, nan, nan, nan, false} }, 3, ""},
		{"slowest", func(s *PWMSource) { s.Frequency = 21e3 }, 1, ""},
		{"fastest", func(s *PWMSource) { s.Frequency = 28e3 }, 1, ""},
		{"too slow", func(s *PWMSource) { s.Frequency = 490 }, 1, "0.49 kHz is outside 21 to 28 kHz"},
		{"too fast", func(s *PWMSource) { s.Frequency = 28.1e3 }, 1, "28.1 kHz"},
		{"weak low", func(s *PWMSource) { s.Low = 0.9 }, 1, "low at 0.9 V"},
		{"drives high", func(s *PWMSource) { s.High = 12 }, 1, "high at 12 V is above 5.25 V"},
		{"two inputs", func(s *PWMSource) {}, 2, "2 inputs give up to 10 mA, the output takes 8 mA, enough for 1"},
		{"two inputs, strong", func(s *PWMSource) { s.Sink = 10e-3 }, 2, ""},
		{"no sink", func(s *PWMSource) { s.Sink = 0 }, 1, "enough for 0"},
		{"inverted", func(s *PWMSource) { s.Inverted = true }, 1, "inverted"},
	} {
		s := good
		test.change(&s)
		got := s.Faults(test.inputs)
		if test.text == "" && len(got) != 0 || test.text != "" && (len(got) != 1 || !strings.Contains(got[0], test.text)) {
			t.Errorf("%s: %q, want %q", test.name, got, test.text)
		}
	}
	if got := InputsPerOutput(inf); got != 1e6 {
		t.Errorf("inputs on any current: %d", got)
	}
}

func TestMirror(t *testing.T) {
	pwm := func(current float64) Load { l := twelve(current); l.PWM = true; return l }
	fans := []Load{pwm(0.3), pwm(0.2), twelve(0.1)}
	m := Mirror(fans, 1.5, 10e-3)
	check(t, "current", m.Current, 0.6, 1e-12, "the sum")
	check(t, "current while all start", m.StartCurrent, 1.2, 1e-12, "twice the sum")
	check(t, "current of the inputs", m.InputCurrent, 0.010, 1e-12, "5 mA each of two")
	if m.Supply != Passes || m.Inputs != Passes {
		t.Errorf("%+v, want both to pass", m)
	}
	for _, test := range []struct {
		current, sink  float64
		supply, inputs Verdict
	}{
		{1.2, 8e-3, Passes, Fails}, {0.6, nan, Doubtful, Unknown}, {1.1, nan, Doubtful, Unknown}, {0.5, 0, Fails, Unknown}, {nan, 15e-3, Unknown, Passes},
	} {
		if m := Mirror(fans, test.current, test.sink); m.Supply != test.supply || m.Inputs != test.inputs {
			t.Errorf("Mirror on %g A and %g A: %+v, want %v and %v", test.current, test.sink, m, test.supply, test.inputs)
		}
	}
	if m := Mirror(append(fans, pwm(nan)), 5, 1); m.Supply != Unknown || !math.IsNaN(m.Current) || !math.IsNaN(m.StartCurrent) {
		t.Errorf("one current unknown: %+v", m)
	}
	if m := Mirror([]Load{pwm(nan), pwm(0.2)}, 5, 1); !math.IsNaN(m.Current) {
		t.Errorf("the first current unknown: %+v", m)
	}
	for _, test := range []struct {
		current float64
		want    Verdict
	}{{1.1, Passes}, {1.2, Doubtful}, {1.5, Doubtful}, {1.6, Fails}, {nan, Unknown}} {
		if got := WithinPWM(twelve(test.current)); got != test.want {
			t.Errorf("WithinPWM of %g A: %v, want %v", test.current, got, test.want)
		}
	}
}

func TestTach(t *testing.T) {
	l := twelve(0.2)
	l.PulsesPerTurn = 2 // 100 Hz at 50 turns
	hertz, ok := TachFrequency(l, Range{0.6, 0.7})
	if !ok {
		t.Fatal("no frequency")
	}
	check(t, "slowest tach", hertz.Low, 54, 1e-9, "100·0.6·0.9")
	check(t, "fastest tach", hertz.High, 77, 1e-9, "100·0.7·1.1")
	for _, test := range []struct {
		name   string
		load   Load
		share  Range
		lowest float64
		want   Verdict
	}{
		{"above", l, Range{0.6, 0.7}, 53.9, Passes}, {"at the slowest", l, Range{0.6, 0.7}, hertz.Low, Passes}, {"just at the fastest", l, Range{0.6, 0.7}, hertz.High, Doubtful}, {"between", l, Range{0.6, 0.7}, 60, Doubtful}, {"at the fastest", l, Range{0.6, 0.7}, 76.9, Doubtful},
		{"below", l, Range{0.6, 0.7}, 77.1, Fails}, {"threshold unknown", l, Range{0.6, 0.7}, nan, Unknown},
		{"slowest speed unknown", l, Range{nan, 0.7}, 60, Doubtful}, {"slowest speed unknown, too slow", l, Range{nan, 0.7}, 80, Fails},
		{"speeds unknown", l, Range{nan, nan}, 60, Unknown}, {"no pulses", twelve(0.2), Range{0.6, 0.7}, 60, Unknown},
		{"speed unknown", Load{PulsesPerTurn: 2}, Range{0.6, 0.7}, 60, Unknown},
	} {
		if got := TachHolds(test.load, test.share, test.lowest); got != test.want {
			t.Errorf("%s: %v, want %v", test.name, got, test.want)
		}
	}
}

func TestNames(t *testing.T) {
	seen := map[string]bool{}
	for m := NoMeans; m <= SeriesResistor; m++ {
		seen[m.String()] = true
	}
	for v := Unknown; v <= Fails; v++ {
		seen[v.String()] = true
	}
	if len(seen) != 11 || seen[""] || Means(99).String() != "none" || Verdict(99).String() != "unknown" {
		t.Errorf("names %v", seen)
	}
}
