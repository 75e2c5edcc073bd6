package thermal

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// Step is a first-order response fitted to a log,
//
//	T(t) = End + (Start − End)·exp(−(t − From)/Tau)
//
// with t in the time of the log. The standard errors follow from the
// scatter about the curve, widened where neighbouring readings stand off to the
// same side; they say nothing of a response that is not of first order.
type Step struct {
	From       float64 // s, where the fit begins
	Start, End float64 // °C there and at the end of time
	Tau        float64 // s
	EndSD      float64 // K, one standard error; +Inf where the log does not tell
	TauSD      float64 // s, likewise
	Scatter    float64 // K, standard deviation of the readings about the curve
}

// At returns the temperature of the curve in °C at a time of the log in s.
func (s Step) At(t float64) float64 {
	return s.End + (s.Start-s.End)*math.Exp(-(t-s.From)/s.Tau)
}

// stepFit is a fit at work.
type stepFit struct {
	log    []Reading
	weight []float64
	off    []float64 // residuals of the last solution
	floor  float64   // K, least scatter: the log's resolution
}

// fitStep fits a log that spans some time, with no time constant above most in s.
// The weights of [Huber] are found in a few rounds, each with its own search near
// the last.
func fitStep(log []Reading, most float64) Step {
	f := &stepFit{log: log, weight: ones(len(log)), off: make([]float64, len(log)), floor: rounded * resolution(log)}
	squares := func(x float64) float64 {
		_, _, s := f.solve(math.Exp(x))
		return s
	}
	low, high := f.reach(most)
	x := lowest(low, high, stepGrid, stepRounds, squares)
	near := 2 * (high - low) / stepGrid
	for range huberRounds {
		f.solve(math.Exp(x))
		if reweigh(f.weight, f.off, f.floor) == 0 {
			break
		}
		last := x
		x = golden(max(x-near, low), min(x+near, high), stepRounds, squares)
		if math.Abs(x-last) <= 1e-6 {
			break
		}
	}
	return f.finished(math.Exp(x))
}

const (
	stepUnknowns = 3 // End, Start, Tau
	stepGrid     = 40
	stepRounds   = 36 // finds ln τ to 1e-8
)

// longestTau is the longest time constant searched, in lengths of the log: beyond
// it the curve is a straight line.
const longestTau = 20.0

// reach returns the ends of ln τ that a log can tell, from a third of its
// shortest interval.
func (f *stepFit) reach(most float64) (low, high float64) {
	length := span(f.log)
	shortest := length
	for i := 1; i < len(f.log); i++ {
		if d := f.log[i].Time - f.log[i-1].Time; d > 0 {
			shortest = min(shortest, d)
		}
	}
	high = min(most, longestTau*length)
	return math.Log(min(max(shortest/3, length*1e-4), high)), math.Log(high)
}

// solve returns End, the amplitude Start − End, and the weighted sum of squares
// at a time constant: a straight line through T against exp(−(t−t₀)/τ) [Golub].
func (f *stepFit) solve(tau float64) (end, amplitude, squares float64) {
	var w, we, wt float64
	for i, r := range f.log {
		e := math.Exp(-(r.Time - f.log[0].Time) / tau)
		f.off[i] = e
		w += f.weight[i]
		we += f.weight[i] * e
		wt += f.weight[i] * r.Celsius
	}
	me, mt := we/w, wt/w
	var see, set float64
	for i, r := range f.log {
		d := f.off[i] - me
		see += f.weight[i] * d * d
		set += f.weight[i] * d * (r.Celsius - mt)
	}
	if see > 0 {
		amplitude = set / see
	}
	end = mt - amplitude*me
	for i, r := range f.log {
		f.off[i] = r.Celsius - end - amplitude*f.off[i]
		squares += f.weight[i] * f.off[i] * f.off[i]
	}
	return end, amplitude, squares
}

// finished puts the result together.
func (f *stepFit) finished(tau float64) Step {
	end, amplitude, _ := f.solve(tau)
	scatter := max(math.Sqrt(variance(f.weight, f.off, stepUnknowns)), f.floor)
	s := Step{From: f.log[0].Time, Start: end + amplitude, End: end, Tau: tau, Scatter: scatter}
	s.EndSD, s.TauSD = f.errors(tau, amplitude, scatter*math.Sqrt(together(f.weight, f.off)))
	return s
}

// errors returns the standard errors of End and Tau from the curvature of the
// sum of squares, σ²·(Jᵀ·W·J)⁻¹ with J the slopes by End, amplitude and ln τ;
// +Inf where that has no answer.
func (f *stepFit) errors(tau, amplitude, sigma float64) (end, tauSD float64) {
	normal := mat.NewSymDense(3, nil)
	for i, r := range f.log {
		x := (r.Time - f.log[0].Time) / tau
		e := math.Exp(-x)
		gather(normal, f.weight[i], 1, e, amplitude*e*x)
	}
	var chol mat.Cholesky
	var inverse mat.SymDense
	if !chol.Factorize(normal) || chol.InverseTo(&inverse) != nil {
		return math.Inf(1), math.Inf(1)
	}
	end, tauSD = sigma*math.Sqrt(inverse.At(0, 0)), sigma*math.Sqrt(inverse.At(2, 2))*tau
	if !finite(end) || !finite(tauSD) {
		return math.Inf(1), math.Inf(1)
	}
	return end, tauSD
}

// gather adds one reading's slopes to the normal matrix.
func gather(normal *mat.SymDense, weight float64, slopes ...float64) {
	for a, x := range slopes {
		for b := a; b < len(slopes); b++ {
			normal.SetSym(a, b, normal.At(a, b)+weight*x*slopes[b])
		}
	}
}
