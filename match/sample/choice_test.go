package sample_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"lowsone/catalog/quantity"
)

// A choice is how the fans that a rule chose do in truth.
type choice struct {
	n     int
	level float64 // sum of dB(A) at the needed flow
	short int     // cannot move the needed flow
}

// add counts a choice. A fan that cannot move the needed flow is taken at the
// speed at which it would.
func (c *choice) add(t truth) {
	c.n++
	if t.enough {
		c.level += t.level
		return
	}
	c.level += t.pure
	c.short++
}

func (c *choice) mean() float64 { return c.level / float64(c.n) }

func (c *choice) shortShare() float64 { return float64(c.short) / float64(c.n) }

// byLabel chooses as people do: of the fans whose label airflow exceeds the old
// fan's the one with the least noise on its label; nil where there is none.
func (w *world) byLabel() *made {
	old, ok := w.fitted.label.Airflow.Get()
	if !ok {
		return nil
	}
	var best *made
	least := quantity.Decibel(math.Inf(1))
	for _, f := range w.fans {
		flow, stated := f.label.Airflow.Get()
		noise, rated := f.label.Noise.Get()
		if stated && rated && flow > old && noise < least {
			best, least = f, noise
		}
	}
	return best
}

// choices simulates until n worlds have a choice by both rules.
func choices(t testing.TB, n int) (ours, theirs choice) {
	t.Helper()
	axial := axialShapes(t)
	for seed := uint64(0); ours.n < n; seed++ {
		if seed > uint64(10*n) {
			t.Fatalf("of %d worlds only %d have a choice", seed, ours.n)
		}
		w := newWorld(draws{rand.New(rand.NewPCG(seed, 6))}, axial)
		label := w.byLabel()
		if label == nil {
			continue
		}
		r, err := w.rank(seed)
		if err != nil || len(r.Candidates) == 0 {
			continue
		}
		first := w.fitted
		if c := &r.Candidates[0]; !c.Fitted {
			first = w.fans[c.Row]
		}
		top := w.top()
		ours.add(w.tell(first, top, top))
		theirs.add(w.tell(label, top, top))
	}
	return ours, theirs
}

// What is ranked first (the fitted fan where it is) against what people do today.
func TestChoiceBeatsLabels(t *testing.T) {
	ours, theirs := choices(t, cases(t))
	t.Logf("in %d devices: %.1f dB(A) at the needed flow and short of it in %.1f %%; by label %.1f dB(A) and %.1f %%",
		ours.n, ours.mean(), 100*ours.shortShare(), theirs.mean(), 100*theirs.shortShare())
	if !(ours.mean() < theirs.mean()) {
		t.Errorf("the choice makes %.2f dB(A) at the needed flow, that by label %.2f", ours.mean(), theirs.mean())
	}
	if !(ours.shortShare() < theirs.shortShare()) {
		t.Errorf("the choice cannot move the needed flow in %.3f of the cases, that by label in %.3f", ours.shortShare(), theirs.shortShare())
	}
}

// BenchmarkChoice prints how both choices do, over 500 devices.
func BenchmarkChoice(b *testing.B) {
	var ours, theirs choice
	for b.Loop() {
		ours, theirs = choices(b, 500)
	}
	b.ReportMetric(ours.mean(), "dB(A)")
	b.ReportMetric(theirs.mean(), "by-label-dB(A)")
	b.ReportMetric(100*ours.shortShare(), "%short")
	b.ReportMetric(100*theirs.shortShare(), "by-label-%short")
}
