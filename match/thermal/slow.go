package thermal

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
)

// slowFit looks for a second, slower part in a log,
//
//	T(t) = start + A·(1 − exp(−t/τ)) + B·(1 − exp(−t/τ_slow))
//
// with τ searched for each of a row of τ_slow.
type slowFit struct {
	log        []Reading
	length     float64   // s
	weight     []float64 // of [Huber]
	quickest   float64   // s, least τ: a quicker part is one reading's noise
	fast, slow []float64 // (1 − exp(−t/τ)) over its value at the last reading
	off        []float64 // residuals of the last solution
}

// slowPair is the best pair with one τ_slow.
type slowPair struct {
	tau, slowTau float64
	end          float64 // °C
	squares      float64 // K², weighted
	spread       float64 // variance of end over that of one reading
}

// hiddenEnd returns how far in the direction (+1 rising, −1 falling) the end of a
// log may lie if it holds a second part with a time constant of up to slowest in
// s: the furthest end, at 97.5 % to one side, of all pairs of time constants that
// describe the log as well as the best one does. Too few readings to tell give
// ±Inf.
//
// A log that is a good first-order response to the eye allows much here while it
// is short or noisy: over ten minutes the first sixth of a one-hour response
// looks like the end of a quick one.
func hiddenEnd(log []Reading, slowest, direction float64) float64 {
	nothing := math.Inf(int(direction))
	free := len(log) - pairUnknowns
	if free < 1 {
		return nothing
	}
	n := len(log)
	f := &slowFit{log: log, length: span(log), weight: ones(n), quickest: interval(log),
		fast: make([]float64, n), slow: make([]float64, n), off: make([]float64, n)}
	floor := rounded * resolution(log)
	pairs, best := f.pairs(slowest)
	if len(pairs) == 0 {
		return nothing
	}
	f.settle(best)
	if f.weighDown(floor) {
		if pairs, best = f.pairs(slowest); len(pairs) == 0 {
			return nothing
		}
		f.settle(best)
	}
	one := max(variance(f.weight, f.off, pairUnknowns), floor*floor) * together(f.weight, f.off)
	t := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(free)}.Quantile(oneSided)
	return furthest(pairs, best.squares+t*t*one, direction)
}

const (
	pairUnknowns = 5 // start, A, B, τ, τ_slow
	oneSided     = 0.975
)

// furthest returns the furthest end of the pairs whose sum of squares stays
// within most.
func furthest(pairs []slowPair, most, direction float64) float64 {
	far := math.Inf(-1)
	for _, p := range pairs {
		if p.squares <= most {
			far = max(far, direction*p.end+math.Sqrt((most-p.squares)*p.spread))
		}
	}
	return direction * far
}

// pairs fits with time constants from slowest down in steps of √2, as long as
// they matter to the end, and returns them with the best one.
func (f *slowFit) pairs(slowest float64) (all []slowPair, best slowPair) {
	best.squares = math.Inf(1)
	for slow := slowest; slow > f.length/5 || slow == slowest; slow /= math.Sqrt2 {
		p, ok := f.with(slow)
		if !ok {
			continue
		}
		all = append(all, p)
		if p.squares < best.squares {
			best = p
		}
	}
	return all, best
}

// with returns the best pair with the slow time constant; false where the log
// cannot tell the two apart.
func (f *slowFit) with(slowTau float64) (slowPair, bool) {
	p := slowPair{slowTau: slowTau}
	f.shape(f.slow, slowTau)
	longest := min(slowTau/apart, f.length)
	low, high := math.Log(min(max(longest/300, f.quickest), longest)), math.Log(longest)
	p.tau = math.Exp(lowest(low, high, slowGrid, slowRounds, func(x float64) float64 {
		f.shape(f.fast, math.Exp(x))
		_, squares := f.solve()
		return squares
	}))
	coef, squares := f.settle(p)
	fast, slow := reached(f.length/p.tau), reached(f.length/slowTau)
	p.squares, p.end = squares, coef[0]+coef[1]/fast+coef[2]/slow
	var ok bool
	p.spread, ok = f.spread(p.tau, coef[1]/fast, [3]float64{1, 1 / fast, 1 / slow})
	return p, ok && finite(p.squares) && finite(p.end)
}

const (
	slowGrid   = 24
	slowRounds = 16 // finds ln τ to 1e-4, of no weight for the sum of squares
)

// weighDown sets the weights where wild readings would count much, and tells
// whether there are any.
func (f *slowFit) weighDown(floor float64) bool {
	reweigh(f.weight, f.off, floor)
	if !slices.ContainsFunc(f.weight, func(w float64) bool { return w < huberBend/wildFrom }) {
		f.weight = ones(len(f.log))
		return false
	}
	return true
}

// apart is the least ratio of two time constants taken for two.
const apart = 1.5

// reached returns 1 − exp(−x), the part of a step reached after x time constants.
func reached(x float64) float64 { return -math.Expm1(-x) }

func (f *slowFit) shape(column []float64, tau float64) {
	full := reached(f.length / tau)
	for i, r := range f.log {
		column[i] = reached((r.Time-f.log[0].Time)/tau) / full
	}
}

// settle solves at a pair and leaves its residuals in off.
func (f *slowFit) settle(p slowPair) (coef [3]float64, squares float64) {
	f.shape(f.fast, p.tau)
	f.shape(f.slow, p.slowTau)
	return f.solve()
}

// solve returns the weighted least-squares coefficients of 1, fast and slow, and
// the sum of squares, +Inf where fast and slow are the same.
func (f *slowFit) solve() (coef [3]float64, squares float64) {
	var w, mf, ms, mt float64
	for i, r := range f.log {
		w += f.weight[i]
		mf += f.weight[i] * f.fast[i]
		ms += f.weight[i] * f.slow[i]
		mt += f.weight[i] * r.Celsius
	}
	mf, ms, mt = mf/w, ms/w, mt/w
	var ff, fs, ss, ft, st float64
	for i, r := range f.log {
		x, y, z := f.fast[i]-mf, f.slow[i]-ms, r.Celsius-mt
		ff += f.weight[i] * x * x
		fs += f.weight[i] * x * y
		ss += f.weight[i] * y * y
		ft += f.weight[i] * x * z
		st += f.weight[i] * y * z
	}
	det := ff*ss - fs*fs
	if !(det > sameColumn*ff*ss) {
		return coef, math.Inf(1)
	}
	coef[1], coef[2] = (ft*ss-st*fs)/det, (st*ff-ft*fs)/det
	coef[0] = mt - coef[1]*mf - coef[2]*ms
	for i, r := range f.log {
		f.off[i] = r.Celsius - coef[0] - coef[1]*f.fast[i] - coef[2]*f.slow[i]
		squares += f.weight[i] * f.off[i] * f.off[i]
	}
	return coef, squares
}

// sameColumn is the share below which a determinant is rounding.
const sameColumn = 1e-12

// spread returns gᵀ·(Jᵀ·W·J)⁻¹·g, the variance of the end over that of a reading,
// with J the slopes by the three coefficients and ln τ. The end hangs on the
// first three alone, as amplitude is the whole rise A of the fast part.
func (f *slowFit) spread(tau, amplitude float64, g [3]float64) (float64, bool) {
	normal := mat.NewSymDense(4, nil)
	for i, r := range f.log {
		x := (r.Time - f.log[0].Time) / tau
		gather(normal, f.weight[i], 1, f.fast[i], f.slow[i], amplitude*x*math.Exp(-x))
	}
	var chol mat.Cholesky
	var v mat.VecDense
	slopes := mat.NewVecDense(4, []float64{g[0], g[1], g[2], 0})
	if !chol.Factorize(normal) || chol.SolveVecTo(&v, slopes) != nil {
		return 0, false
	}
	s := mat.Dot(slopes, &v)
	return s, s >= 0 && finite(s)
}
