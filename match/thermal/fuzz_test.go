package thermal

import (
	"encoding/binary"
	"errors"
	"math"
	"testing"
)

// FuzzPredict feeds any log: nothing panics, what is refused is refused by name,
// and nothing is believed that is not a number or breaks a condition.
func FuzzPredict(f *testing.F) {
	two := response{22, []part{{20, 4 * minutes}, {12, 35 * minutes}}}
	for _, log := range [][]Reading{
		probe{every: 30, length: 3600, step: 0.1}.log(oneStep.at),
		probe{every: 30, length: 600, step: 0.1}.log(two.at),
		probe{every: 60, length: 3600}.log(func(float64) float64 { return 47 }),
		probe{every: 60, length: 3600}.log(func(t float64) float64 { return 50 + math.Sin(t) }),
		{{0, 20}, {0, 30}, {1, 40}, {1, 50}, {1, 50}, {1e9, 50}},
		{{0, math.NaN()}, {math.Inf(1), 0}, {-5, 2}, {1, 1}, {2, 2}},
	} {
		f.Add(encodeLog(log))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		log := decodeLog(data)
		for _, rule := range Rules() {
			if _, _, err := rule.Settled(log); err != nil && !named(err) {
				t.Fatalf("%s: %v", rule.Name, err)
			}
		}
		p, err := Predict(log)
		if err != nil {
			if !named(err) || p != (Prediction{}) {
				t.Fatalf("Predict = %+v, %v", p, err)
			}
			return
		}
		if p.Why() == "" || (p.Doubt == NoDoubt) != (p.Verdict == Predicts) {
			t.Fatalf("%+v: %q", p, p.Why())
		}
		if celsius, ok := p.AtLeast(); ok && !finite(celsius) {
			t.Fatalf("at least %g °C (%+v)", celsius, p)
		}
		celsius, sd, ok := p.End()
		if !ok {
			return
		}
		if !finite(celsius) || !(sd >= 0 && sd <= mostSD) || !finite(p.Whole.Tau) || !(p.Hidden >= 0 && p.Hidden <= mostHidden) {
			t.Fatalf("believed: %g ± %g °C (%+v)", celsius, sd, p)
		}
		if p.Length < leastLengths*p.Whole.Tau || math.Abs(p.Whole.End-p.Last.End) > mostApart {
			t.Fatalf("believed against its conditions: %+v", p)
		}
	})
}

func named(err error) bool {
	var few *FewReadingsError
	var order *OrderError
	var reading *ReadingError
	var input *InputError
	return errors.As(err, &few) || errors.As(err, &order) || errors.As(err, &reading) || errors.As(err, &input)
}

// encodeLog and decodeLog turn a log into bytes and back, up to 120 readings, in
// steps of time and hundredths of a degree, so that most of what is drawn is a
// log; a step of 0xffff stands for a time that is no number, another for one
// that goes back.
func encodeLog(log []Reading) (data []byte) {
	last := 0.0
	for _, r := range log[:min(len(log), 120)] {
		step := r.Time - last
		code := uint16(0xffff)
		switch {
		case step < 0:
			code = 0xfffe
		case finite(step):
			code = uint16(min(step*10, 0xfff0))
		}
		data = binary.LittleEndian.AppendUint16(data, code)
		data = binary.LittleEndian.AppendUint16(data, uint16(int16(r.Celsius*100)))
		last = r.Time
	}
	return data
}

func decodeLog(data []byte) (log []Reading) {
	now := 0.0
	for len(data) >= 4 && len(log) < 120 {
		switch step := binary.LittleEndian.Uint16(data); {
		case step == 0xffff:
			now = math.NaN()
		case step == 0xfffe:
			now--
		case step > 0xf000: // a leap, up to millennia
			now += math.Pow(10, float64(step-0xf000)/300)
		default:
			now += float64(step) / 10
		}
		log = append(log, Reading{now, float64(int16(binary.LittleEndian.Uint16(data[2:]))) / 100})
		data = data[4:]
	}
	return log
}
