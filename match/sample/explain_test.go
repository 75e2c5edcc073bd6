package sample

import (
	"context"
	"math"
	"strings"
	"testing"

	"lowsone/catalog"
	"lowsone/match"
)

// An explanation ends at the place the ranking gives, and its ranges are those of
// the ranking.
func TestExplainAgreesWithRank(t *testing.T) {
	req := withSpot(t, 76)
	fans := []*catalog.Fan{fanOf(t, calm), fanOf(t, strong)}
	r := rankOf(t, req, Options{Confidence: 0.9}, fans...)
	at, s := r.of(t, 1)
	e, err := Explain(context.Background(), catalog.ColumnsOf(fans...), req, 1, Options{Confidence: 0.9})
	if err != nil {
		t.Fatal(err)
	}
	want := map[match.Topic]string{
		match.TopicPresent: flowBand(r.Now), match.TopicNeed: flowBand(r.Air.Need), match.TopicResistance: inWords(r.Loss, "Pa"),
		match.TopicLevel: inWords(s.Needed.Level, "dB(A)"), match.TopicHeat: inWords(s.Planned.Spots[0], "°C"),
		match.TopicSpeed: inWords(scaled(s.Needed.Ratio, 100), "%") + ", held between its lowest and its full speed",
	}
	seen := map[match.Topic]bool{}
	for _, step := range e.Steps {
		seen[step.About] = true
		if band, ok := want[step.About]; ok && step.Band != band {
			t.Errorf("%s: range %q, want %q", step.Title, step.Band, band)
		}
		if step.About == match.TopicOrder && !strings.HasPrefix(step.Result, "rank "+string(rune('1'+at))+";") {
			t.Errorf("last step %q, want place %d", step.Result, at+1)
		}
	}
	for topic := range want {
		if !seen[topic] {
			t.Errorf("no step tells topic %d", topic)
		}
	}
	if !strings.HasPrefix(e.Outcome, "ranked "+string(rune('1'+at))+" with 90 % confidence, nominally ") {
		t.Errorf("outcome %q", e.Outcome)
	}
}

func TestInWords(t *testing.T) {
	inf, nan := math.Inf(1), math.NaN()
	for _, r := range []struct {
		of   Band
		want string
	}{
		{Band{1, 2, 4}, "1 to 4 Pa, middle 2"},
		{Band{nan, nan, nan}, ""},
		{Band{1, 2, inf}, "1 Pa and more, in some draws no flow is enough, middle 2"},
		{Band{1, inf, inf}, "no flow is enough in half of the draws or more"},
	} {
		if got := inWords(r.of, "Pa"); got != r.want {
			t.Errorf("inWords(%v) = %q, want %q", r.of, got, r.want)
		}
	}
}

// The device alone has the ranges that a ranking has of it.
func TestDeviceAgreesWithRank(t *testing.T) {
	req := withSpot(t, 76)
	r := rankOf(t, req, Options{}, fanOf(t, strong))
	s, err := Device(context.Background(), catalog.ColumnsOf(fanOf(t, strong)), req, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if s.Air != r.Air || s.Draws != r.Draws || s.Dropped != r.Dropped {
		t.Errorf("the device alone %+v of %d draws, ranked %+v of %d", s.Air, s.Draws, r.Air, r.Draws)
	}
	// As it was found the spot has 58 °C in a room of 24; at the worst 64, in 30.
	check(t, "middle of the hottest spot over 76 °C", s.Over.Middle, 64-76, 0.5, "its rise of 34 K over 30 °C")
	check(t, "middle of the level", s.Level.Middle, r.Baseline.Level.DB, 0.6, "drawn about what was given")
	if len(s.Causes) == 0 || len(s.Advice) == 0 {
		t.Errorf("causes %+v, advice %+v", s.Causes, s.Advice)
	}
}
