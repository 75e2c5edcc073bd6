package thermal

import (
	"math"
	"math/rand/v2"
	"testing"
)

// An exact log of two time constants has its end found, if the slower one is
// looked for; and with noise the furthest end lies beyond the true one.
func TestHiddenEnd(t *testing.T) {
	slow := 3600 / math.Pow(math.Sqrt2, 2) // one that is looked for
	d := response{22, []part{{20, 4 * minutes}, {12, slow}}}
	exact := probe{every: 20, length: 40 * minutes}.log(d.at)
	check(t, "hiddenEnd of an exact log", hiddenEnd(exact, 3600, 1), d.end(), 0.01, "end of the response")

	r := rand.New(rand.NewPCG(11, 11))
	beyond := 0
	const logs = 60
	for range logs {
		log := probe{every: 20, length: 40 * minutes, scatter: 0.2, random: r}.log(d.at)
		if hiddenEnd(log, 3600, 1) > d.end() {
			beyond++
		}
	}
	if beyond < logs*9/10 {
		t.Errorf("the furthest end lies beyond the true one in %d of %d logs, want 9 in 10", beyond, logs)
	}
}

// A fall is the mirror of a rise.
func TestHiddenEndOfAFall(t *testing.T) {
	log := probe{every: 30, length: 30 * minutes, scatter: 0.1, random: rand.New(rand.NewPCG(12, 12))}.log(oneStep.at)
	rising := hiddenEnd(log, 3600, 1)
	for i := range log {
		log[i].Celsius = 80 - log[i].Celsius
	}
	check(t, "hiddenEnd of the mirror", hiddenEnd(log, 3600, -1), 80-rising, 1e-3, "mirror")
}

// Too few readings tell nothing.
func TestHiddenEndOfFewReadings(t *testing.T) {
	log := probe{every: 600, length: 2400}.log(oneStep.at)
	if up, down := hiddenEnd(log, 3600, 1), hiddenEnd(log, 3600, -1); !math.IsInf(up, 1) || !math.IsInf(down, -1) {
		t.Errorf("five readings: %g and %g, want ±Inf", up, down)
	}
}

// Parts quicker than the readings are not looked for: they would take the first
// reading for themselves, noise and all.
func TestNoPartQuickerThanTheReadings(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 13))
	for range 20 {
		log := probe{every: 30, length: 20 * minutes, scatter: 0.5, random: r}.log(oneStep.at)
		n := len(log)
		f := &slowFit{log: log, length: span(log), quickest: interval(log), weight: ones(n),
			fast: make([]float64, n), slow: make([]float64, n), off: make([]float64, n)}
		pairs, _ := f.pairs(3600)
		for _, p := range pairs {
			if p.tau < 29.9 || p.tau > p.slowTau {
				t.Errorf("time constants %g and %g s of readings every 30 s", p.tau, p.slowTau)
			}
		}
	}
}
