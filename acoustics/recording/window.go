package recording

import (
	"math"

	"gonum.org/v1/gonum/dsp/fourier"

	"lowsone/acoustics"
	"lowsone/catalog/quantity"
)

// windowLength gives how many samples are transformed at once: the least power
// of two that resolves 1 Hz, 1 to 2 s of sound.
func windowLength(rate quantity.Frequency) int {
	n := 1
	for float64(n) < float64(rate) {
		n *= 2
	}
	return n
}

// windows turns the samples of all channels into what is measured, half a window
// at a time. One transform of each window serves both ways: the power spectrum
// takes it tapered by Hann's window, the meter weighted by A and turned back.
type windows struct {
	n        int
	plan     *fourier.FFT
	weights  []float64   // A-weighting of amplitudes, by bin
	samples  [][]float64 // of each channel the last n
	bins     []complex128
	weighted []float64

	power   []float64 // by bin, of all channels and windows
	weight  float64   // of the windows taken, 1 for each whole one
	energy  []float64 // A-weighted squares of the new samples, of all channels
	lanes   []float64 // A-weighted energy of each channel alone
	lasting int       // samples the lanes have taken
}

func newWindows(rate quantity.Frequency, channels int) *windows {
	n := windowLength(rate)
	w := &windows{
		n: n, plan: fourier.NewFFT(n), weights: make([]float64, n/2+1),
		bins: make([]complex128, n/2+1), weighted: make([]float64, n),
		power: make([]float64, n/2+1), energy: make([]float64, n/2), lanes: make([]float64, channels),
	}
	for range channels {
		w.samples = append(w.samples, make([]float64, n))
	}
	step := float64(rate) / float64(n)
	for k := range w.weights { // for a constant offset, k = 0, the weight is 0
		f := quantity.Frequency(float64(k) * step)
		// The inverse transform multiplies by n.
		w.weights[k] = math.Sqrt(ratio(float64(acoustics.AWeighting(f)))*audible(f)) / float64(n)
	}
	return w
}

// Where what the ear hears ends: the upper edge of the third octave of 20 kHz,
// reached from 20 kHz on by half a cosine, so that the weighting rings little.
const (
	audibleWhole = 20000.0
	audibleEnd   = 22387.2
)

// audible gives the share of the energy at f that is counted. Switched supplies
// are heard by some microphones and by nobody.
func audible(f quantity.Frequency) float64 {
	x := (float64(f) - audibleWhole) / (audibleEnd - audibleWhole)
	switch {
	case x <= 0:
		return 1
	case x >= 1:
		return 0
	}
	return (1 + math.Cos(math.Pi*x)) / 2
}

// add moves the window on to end with the next samples of each channel.
func (w *windows) add(next [][]float64) {
	for c, s := range w.samples {
		copy(s, s[len(next[c]):])
		copy(s[w.n-len(next[c]):], next[c])
	}
}

// take analyses the window whose last samples are new, at most half a window of
// them or all of the first. It returns the A-weighted squares of as many
// samples, summed over the channels: those in the middle of the window, a
// quarter window ago, for there the weighting has all it needs on both sides. At
// a quarter window its response has died to 1e-8.
func (w *windows) take(samples int) []float64 {
	count := min(samples, w.n/2)
	energy := w.energy[:count]
	clear(energy)
	share := float64(count) / float64(w.n/2)
	for c, s := range w.samples {
		w.plan.Coefficients(w.bins, s)
		w.addPower(share)
		for k, a := range w.weights {
			w.bins[k] = complex(a*real(w.bins[k]), a*imag(w.bins[k]))
		}
		w.plan.Sequence(w.weighted, w.bins)
		sum := 0.0
		for i, v := range w.weighted[3*w.n/4-count : 3*w.n/4] {
			energy[i] += v * v
			sum += v * v
		}
		w.lanes[c] += sum
	}
	w.weight += share
	w.lasting += count
	return energy
}

// addPower adds the power of the transformed window, tapered by Hann's window:
// in the spectrum that is Y(k) = X(k)/2 − (X(k−1) + X(k+1))/4.
func (w *windows) addPower(share float64) {
	last := len(w.bins) - 1
	for k, x := range w.bins {
		below, above := x, x
		switch k {
		case 0:
			above = w.bins[1]
			below = complex(real(above), -imag(above))
		case last:
			below = w.bins[last-1]
			above = complex(real(below), -imag(below))
		default:
			below, above = w.bins[k-1], w.bins[k+1]
		}
		re := real(x)/2 - (real(below)+real(above))/4
		im := imag(x)/2 - (imag(below)+imag(above))/4
		w.power[k] += share * (re*re + im*im)
	}
}

// hannPower is the mean square of Hann's window.
const hannPower = 3.0 / 8

// spectrum gives the mean square in each bin, averaged over the windows and
// summed over the channels. Its sum over the bins of a sound is the sound's mean
// square.
func (w *windows) spectrum() []float64 {
	scale := 2 / (hannPower * float64(w.n) * float64(w.n) * w.weight)
	power := make([]float64, len(w.power))
	for k, p := range w.power {
		power[k] = p * scale
	}
	return power
}
