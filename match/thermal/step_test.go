package thermal

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// The standard errors of a first-order log are what they say: of 600 logs about
// 95 in 100 lie within two of them.
func TestStandardErrors(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(8, 8))
	const logs = 600
	var end, tau int
	for range logs {
		d := drawOne(r)
		c := d.parts[0].tau
		log := probe{every: c / 20, length: between(r, 2, 4) * c, scatter: between(r, 0.05, 0.5), random: r}.log(d.at)
		s := fitStep(log, math.Inf(1))
		if math.Abs(s.End-d.end()) < 2*s.EndSD {
			end++
		}
		if math.Abs(s.Tau-c) < 2*s.TauSD {
			tau++
		}
	}
	t.Logf("within two errors: End %d, Tau %d of %d", end, tau, logs)
	for name, n := range map[string]int{"End": end, "Tau": tau} {
		if share := float64(n) / logs; share < 0.90 || share > 0.99 {
			t.Errorf("%s: %d of %d within two standard errors, want 90 to 99 %%", name, n, logs)
		}
	}
}

// A shift of time or temperature shifts the fit, a scale scales it, a mirror
// mirrors it.
func TestFitKeepsUnits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 1))
		d := drawOne(r)
		log := probe{every: 30, length: between(r, 1.5, 5) * d.parts[0].tau, scatter: 0.2, random: r}.log(d.at)
		a := fitStep(log, math.Inf(1))
		seconds := rapid.Float64Range(0.01, 100).Draw(t, "seconds")
		since := rapid.Float64Range(-1e6, 1e6).Draw(t, "since")
		kelvin := rapid.Float64Range(0.2, 3).Draw(t, "kelvin") * rapid.SampledFrom([]float64{-1, 1}).Draw(t, "mirror")
		other := slices.Clone(log)
		for i, l := range log {
			other[i] = Reading{since + seconds*l.Time, 7 + kelvin*l.Celsius}
		}
		b := fitStep(other, math.Inf(1))
		near := func(name string, got, want, tol float64) {
			if math.Abs(got-want) > tol {
				t.Fatalf("%s = %g, want %g (%+v, then %+v)", name, got, want, a, b)
			}
		}
		near("Tau", b.Tau, seconds*a.Tau, 1e-4*seconds*a.Tau)
		near("End", b.End, 7+kelvin*a.End, 1e-3*math.Abs(kelvin)*(1+a.EndSD))
		near("Start", b.Start, 7+kelvin*a.Start, 1e-3*math.Abs(kelvin)*(1+a.EndSD))
		near("EndSD", b.EndSD, math.Abs(kelvin)*a.EndSD, 1e-2*math.Abs(kelvin)*a.EndSD)
		near("TauSD", b.TauSD, seconds*a.TauSD, 1e-2*seconds*a.TauSD)
	})
}

// No other curve of first order lies nearer to the readings.
func TestFitIsTheLeast(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 2))
		d := drawTwo(r)
		log := probe{every: 60, length: 3600, scatter: 0.3, random: r}.log(d.at)
		f := &stepFit{log: log, weight: ones(len(log)), off: make([]float64, len(log))}
		low, high := f.reach(math.Inf(1))
		squares := func(x float64) float64 { _, _, s := f.solve(math.Exp(x)); return s }
		x := lowest(low, high, stepGrid, stepRounds, squares)
		least := squares(x)
		end, amplitude, _ := f.solve(math.Exp(x))
		tau := math.Exp(x) * math.Exp(rapid.Float64Range(-2, 2).Draw(t, "ln tau"))
		end += rapid.Float64Range(-3, 3).Draw(t, "end")
		amplitude += rapid.Float64Range(-3, 3).Draw(t, "amplitude")
		other := 0.0
		for _, l := range log {
			off := l.Celsius - end - amplitude*math.Exp(-l.Time/tau)
			other += off * off
		}
		if other < least*(1-1e-9) {
			t.Fatalf("%g K² with end %g, amplitude %g, tau %g, the fit has %g K²", other, end, amplitude, tau, least)
		}
	})
}

// The resolution is found, and the scatter of readings not taken for a bend.
func TestNoise(t *testing.T) {
	for _, step := range []float64{1, 0.5, 0.25, 0.2, 0.1, 0.05, 0.02, 0.01, 0} {
		log := probe{every: 20, length: 3600, step: step}.log(oneStep.at)
		if got := resolution(log); got != step {
			t.Errorf("resolution of a log in steps of %g K = %g", step, got)
		}
	}
	r := rand.New(rand.NewPCG(9, 9))
	for _, scatter := range []float64{0.05, 0.2, 1} {
		log := probe{every: 20, length: 3600, scatter: scatter, random: r}.log(oneStep.at)
		check(t, "noise", noise(log), scatter, 0.25*scatter, "as drawn")
	}
	log := probe{every: 1, length: 5000, scatter: 0.3, random: r}.log(oneStep.at)
	if thin := thinned(log); len(thin) > mostReadings || math.Abs(thin[200].Celsius-oneStep.at(thin[200].Time)) > 0.5 {
		t.Errorf("thinned to %d readings, one of them %+v", len(thin), thin[200])
	}
}
