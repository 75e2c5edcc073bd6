package sample

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lowsone/catalog"
	"lowsone/match"
)

// someFans draws fans that fit, complete ones, so that no estimate hangs on the
// others.
func someFans(t *rapid.T) []*catalog.Fan {
	fans := make([]*catalog.Fan, rapid.IntRange(2, 8).Draw(t, "fans"))
	for i := range fans {
		fans[i] = fanOf(t, fmt.Sprintf("part=P%d airflow_m3h=%.1f static_pressure_pa=%.1f noise_dba=%.1f speed_rpm=%.0f pwm=yes", i,
			rapid.Float64Range(40, 90).Draw(t, "flow"), rapid.Float64Range(90, 250).Draw(t, "pressure"),
			rapid.Float64Range(25, 50).Draw(t, "level"), rapid.Float64Range(3000, 8000).Draw(t, "rpm"))+frame60)
	}
	return fans
}

func TestSameInputSameBytes(t *testing.T) {
	fans := []*catalog.Fan{fanOf(t, calm), fanOf(t, strong)}
	once, again := rankOf(t, requestFor(t, byHeat()), Options{}, fans...), rankOf(t, requestFor(t, byHeat()), Options{}, fans...)
	if text(once) != text(again) {
		t.Errorf("two answers to one question:\n%s\n%s", text(once), text(again))
	}
	if other := rankOf(t, requestFor(t, byHeat()), Options{Seed: 1}, fans...); text(other) == text(once) {
		t.Error("another seed draws the same")
	}
}

// What is said of a fan, and which of two fans stands before the other, hangs on
// neither the other fans nor the order of the rows.
func TestOtherFansDoNotCount(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		fans := someFans(t)
		req := requestFor(t, byHeat())
		all := answerOf(t, req, fans)
		seed := rapid.Uint64().Draw(t, "seed")
		some := slices.Clone(fans)
		rand.New(rand.NewPCG(seed, 1)).Shuffle(len(some), func(i, j int) { some[i], some[j] = some[j], some[i] })
		some = some[:rapid.IntRange(1, len(some)).Draw(t, "kept")]
		few := answerOf(t, req, some)
		place := -1
		for i := range few.Candidates {
			name, at := nameOf(few, i, some), 0
			for nameOf(all, at, fans) != name {
				at++
			}
			if at <= place {
				t.Fatalf("%s stands at %d among all, behind one it stands before without the others", name, at)
			}
			place = at
			a, b := *all.Sure[at], *few.Sure[i]
			a.Group, a.BeatsRow, b.Group, b.BeatsRow = 0, 0, 0, 0 // these are about others
			if got, want := fmt.Sprintf("%+v", b), fmt.Sprintf("%+v", a); got != want {
				t.Fatalf("%s alone\n%s\namong all\n%s", name, got, want)
			}
		}
	})
}

func answerOf(t *rapid.T, req match.Request, fans []*catalog.Fan) *Ranking {
	r, err := Rank(context.Background(), catalog.ColumnsOf(fans...), req, Options{Draws: fewDraws})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// fewDraws are enough where only what always holds is asked.
const fewDraws = 64

func nameOf(r *Ranking, i int, fans []*catalog.Fan) string {
	if row := r.Candidates[i].Row; row != match.NotInCatalogue {
		return fans[row].Part
	}
	return "the fitted fan"
}

// Chance does not order equal fans: they keep one level to the last bit, and either
// is quieter in about half of the draws, since what two labels are off by does not
// go together.
func TestEqualFansKeepEqualLevels(t *testing.T) {
	r := rankOf(t, requestFor(t, byHeat()), Options{}, fanOf(t, strong), fanOf(t, strings.Replace(strong, "STRONG", "TWIN", 1)))
	i, a := r.of(t, 0)
	k, b := r.of(t, 1)
	if a.Level != b.Level || a.Kept != b.Kept || a.Needed != b.Needed || i+1 != k {
		t.Errorf("equal fans: %+v at %d, %+v at %d", a, i, b, k)
	}
	if a.Group != b.Group {
		t.Errorf("equal fans in groups %d and %d", a.Group, b.Group)
	}
	if !(a.BeatsRow > 0.4 && a.BeatsRow < 0.6) {
		t.Errorf("one of two equal fans is quieter in %v of the draws, want about a half", a.BeatsRow)
	}
}

// Where two fans are compared, each is drawn at places of its own, fixed by its
// name: equal ones then differ in nearly every draw.
func TestAskedApart(t *testing.T) {
	study, d := studyOf(t, requestFor(t, byHeat()), fanOf(t, strong), fanOf(t, strings.Replace(strong, "STRONG", "TWIN", 1)))
	o, _ := Options{}.filled()
	fans, err := askFans(t.Context(), study, d, o)
	if err != nil {
		t.Fatal(err)
	}
	fans = slices.DeleteFunc(fans, func(f fan) bool { return f.contender.Fitted })
	for i := range fans {
		fans[i].askApart(d, 0)
	}
	equal, again := 0, fans[0]
	again.askApart(d, 0)
	for k := range d.drawn {
		if fans[0].apart[k].Level == fans[1].apart[k].Level {
			equal++
		}
		if again.apart[k] != fans[0].apart[k] {
			t.Fatalf("draw %d: %+v, asked again %+v", k, fans[0].apart[k], again.apart[k])
		}
	}
	if equal > len(d.drawn)/10 {
		t.Errorf("two fans are drawn alike in %d of %d draws", equal, len(d.drawn))
	}
}

func TestMoreConfidenceKeepsNoLowerLevel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		fans := someFans(t)
		a, b := rapid.Float64Range(LeastConfidence, MostConfidence).Draw(t, "a"), rapid.Float64Range(LeastConfidence, MostConfidence).Draw(t, "b")
		less, more := map[int]float64{}, map[int]float64{}
		for into, confidence := range map[*map[int]float64]float64{&less: min(a, b), &more: max(a, b)} {
			r, err := Rank(context.Background(), catalog.ColumnsOf(fans...), requestFor(t, byHeat()), Options{Confidence: confidence, Draws: fewDraws})
			if err != nil {
				t.Fatal(err)
			}
			for i, c := range r.Candidates {
				(*into)[c.Row] = r.Sure[i].Level
			}
		}
		for row, level := range less {
			if !(more[row] >= level) {
				t.Fatalf("row %d keeps %v dB(A) with less confidence, %v with more", row, level, more[row])
			}
		}
	})
}

// Where everything is drawn about what was given, that lies in the ranges.
func TestRangesHoldTheNominal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		req := requestFor(t, byFlow(rapid.Float64Range(20, 34).Draw(t, "flow")))
		r := answerOf(t, req, someFans(t))
		holds := func(what string, b Band, v float64) {
			if !(b.Low <= b.Middle && b.Middle <= b.High) || !(b.Low <= v*(1+1e-9) && v <= b.High*(1+1e-9)) {
				t.Fatalf("%s: %v is not in %+v", what, v, b)
			}
		}
		holds("present flow", r.Now, r.Baseline.Q)
		holds("need", r.Air.Need, r.Ranking.Need)
		holds("loss", r.Loss, r.System.System.Loss(r.Ranking.Need))
		for i := range r.Candidates {
			c, s := &r.Candidates[i], r.Sure[i]
			holds("flow as planned", s.Planned.Flow, c.Planned.Q)
			holds("level as planned", s.Planned.Level, c.Planned.Level.DB)
			holds("speed as needed", s.Needed.Ratio, c.Planned.Ratio)
			if s.Kept < 0 || s.Kept > 1 || !(s.Quieter >= 0 && s.Quieter <= 1) {
				t.Fatalf("shares %+v", s)
			}
		}
	})
}

func TestConfidence(t *testing.T) {
	fans := catalog.ColumnsOf(fanOf(t, strong))
	for _, c := range []float64{0.499, 0.991, -0.8, 1, 80, math.NaN(), math.Inf(1)} {
		var refused *ConfidenceError
		_, err := Rank(context.Background(), fans, requestFor(t, byHeat()), Options{Confidence: c})
		if !errors.As(err, &refused) || !strings.Contains(err.Error(), "50 to 99 %") {
			t.Errorf("confidence %v: error %v, want a *ConfidenceError that names the bounds", c, err)
		}
		if _, err = Explain(context.Background(), fans, requestFor(t, byHeat()), 0, Options{Confidence: c}); !errors.As(err, &refused) {
			t.Errorf("Explain with confidence %v: error %v, want a *ConfidenceError", c, err)
		}
	}
	for _, c := range []float64{0.5, 0.99} {
		if r := rankOf(t, requestFor(t, byHeat()), Options{Confidence: c}, fanOf(t, strong)); r.Confidence != c {
			t.Errorf("confidence %v, want %v", r.Confidence, c)
		}
	}
	if r := rankOf(t, requestFor(t, byHeat()), Options{}, fanOf(t, strong)); r.Confidence != 0.8 || r.Draws+r.Dropped != 256 {
		t.Errorf("by default %v of %d draws, want 0.8 of 256", r.Confidence, r.Draws+r.Dropped)
	}
}

func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	fans := catalog.ColumnsOf(fanOf(t, strong))
	if _, err := Rank(ctx, fans, requestFor(t, byHeat()), Options{}); !errors.Is(err, context.Canceled) {
		t.Errorf("Rank: error %v", err)
	}
	if _, err := Explain(ctx, fans, requestFor(t, byHeat()), 0, Options{}); !errors.Is(err, context.Canceled) {
		t.Errorf("Explain: error %v", err)
	}
	if _, err := Device(ctx, fans, requestFor(t, byHeat()), Options{}); !errors.Is(err, context.Canceled) {
		t.Errorf("Device: error %v", err)
	}
	study, d := studyOf(t, requestFor(t, byHeat()), fanOf(t, strong))
	o, _ := Options{}.filled()
	if _, err := askFans(ctx, study, d, o); !errors.Is(err, context.Canceled) {
		t.Errorf("while fans are asked: error %v", err)
	}
}

// Beyond the best of the nominal ranking fans are not drawn; the fitted fan
// always is.
func TestMost(t *testing.T) {
	var fans []*catalog.Fan
	for i := range 6 {
		fans = append(fans, fanOf(t, strings.Replace(strong, "STRONG", fmt.Sprintf("S%d", i), 1)))
	}
	r := rankOf(t, requestFor(t, byHeat()), Options{Most: 2}, fans...)
	drawn, fitted := 0, false
	for i, s := range r.Sure {
		if s != nil {
			drawn++
			fitted = fitted || r.Candidates[i].Fitted
		}
	}
	if len(r.Candidates) != 7 || drawn > 3 || !fitted {
		t.Errorf("%d candidates, %d drawn, the fitted one %v; want 7, 2 and the fitted one", len(r.Candidates), drawn, fitted)
	}
}
