package trial

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"lowsone/match/thermal"
)

// step is a log of one time constant, cut at a time.
func step(start, end, tau, length float64) []thermal.Reading {
	var log []thermal.Reading
	for t := 0.0; t <= length; t += 30 {
		log = append(log, thermal.Reading{Time: t, Celsius: end + (start-end)*math.Exp(-t/tau)})
	}
	return log
}

func predict(t *testing.T, log []thermal.Reading) thermal.Prediction {
	t.Helper()
	p, err := thermal.Predict(log)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// A limit is kept only by a log that predicts its end; one that does not can
// only be in the margin, or above it.
func TestJudge(t *testing.T) {
	const tau = 900
	whole, cut := predict(t, step(24, 58, tau, 6*tau)), predict(t, step(24, 58, tau, tau))
	if whole.Verdict != thermal.Predicts || cut.Verdict != thermal.NotSettled {
		t.Fatalf("verdicts %v and %v, want a prediction and none", whole.Verdict, cut.Verdict)
	}
	hot := Worst{Known: true, Room: 24, WorstRoom: 30, HeatRatio: 1.1}
	for _, r := range []struct {
		name string
		log  thermal.Prediction
		at   Worst
		may  Limit
		want Judgement
	}{
		{"well below", whole, Worst{}, Limit{true, 80, 10}, Within},
		{"at it", whole, Worst{}, Limit{true, 68, 10}, InDoubt},
		{"above what is allowed", whole, Worst{}, Limit{true, 60, 10}, InTheMargin},
		{"above the limit", whole, Worst{}, Limit{true, 55, 10}, TooHot},
		{"above the limit, no margin", whole, Worst{}, Limit{true, 55, 0}, TooHot},
		{"below now, above at the worst", whole, hot, Limit{true, 75, 10}, InTheMargin},
		{"below now, above the limit at the worst", whole, hot, Limit{true, 65, 0}, TooHot},
		{"below at the worst", whole, hot, Limit{true, 85, 10}, Within},
		{"no limit", whole, Worst{}, Limit{}, NotKnown},
		{"cut early, far below: still not known", cut, Worst{}, Limit{true, 200, 10}, NotKnown},
		{"cut early, in the margin already", cut, Worst{}, Limit{true, 50, 10}, AtLeastIn},
		{"cut early, above the limit already", cut, Worst{}, Limit{true, 40, 10}, TooHot},
		{"cut early, above at the worst", cut, hot, Limit{true, 62, 10}, AtLeastIn},
	} {
		if got := Judge(r.log, r.at, r.may); got != r.want {
			t.Errorf("%s: %v, want %v", r.name, got, r.want)
		}
	}
	// 30 + (58 − 24)·1.1 = 67.4 °C: by hand.
	if got := hot.At(58); math.Abs(got-67.4) > 1e-9 {
		t.Errorf("At(58) = %v °C, want 67.4", got)
	}
}

// Property: whatever the log, no limit counts as kept unless its end is
// predicted; and a prediction far below it is kept.
func TestNeverKeepsWithoutAPrediction(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		slow, share := rapid.Float64Range(300, 6000).Draw(t, "slow"), rapid.Float64Range(0, 1).Draw(t, "share")
		length := rapid.Float64Range(120, 12000).Draw(t, "length")
		var log []thermal.Reading
		for i := range 60 {
			at := length * float64(i) / 59
			rise := 40 * (share*(1-math.Exp(-at/240)) + (1-share)*(1-math.Exp(-at/slow)))
			log = append(log, thermal.Reading{Time: at, Celsius: 24 + rise})
		}
		p, err := thermal.Predict(log)
		if err != nil {
			t.Fatal(err)
		}
		got := Judge(p, Worst{}, Limit{true, 500, 10})
		if want := p.Verdict == thermal.Predicts; (got == Within) != want {
			t.Fatalf("%v of a log that %v, want it kept only by a prediction", got, p.Verdict)
		}
	})
}
