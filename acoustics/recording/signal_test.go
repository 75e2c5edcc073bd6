package recording

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/dsp/fourier"
)

// white is noise of the given rms, the same for one seed.
func white(rate int, seconds, rms float64, seed uint64) []float64 {
	random := rand.New(rand.NewPCG(seed, 1))
	out := make([]float64, int(float64(rate)*seconds))
	for i := range out {
		out[i] = rms * random.NormFloat64()
	}
	return out
}

// pink is noise whose third octaves from 25 Hz to 12.5 kHz all have the mean
// square of rms², and that has as much in each third octave from 20 Hz to half
// the sampling rate.
func pink(rate int, seconds, rms float64, seed uint64) []float64 {
	random := rand.New(rand.NewPCG(seed, 2))
	n := 1
	for n < int(float64(rate)*seconds) {
		n *= 2
	}
	bins := make([]complex128, n/2+1)
	step := float64(rate) / float64(n)
	scale := rms / math.Sqrt(math.Ln10/10) / 2
	for k := range bins {
		if f := float64(k) * step; f > 17.8 {
			// A power of rms²/ln(10^0.1)/f a Hz, over a bin, in the two of ±f.
			amplitude := scale * math.Sqrt(step/f)
			bins[k] = complex(amplitude*random.NormFloat64(), amplitude*random.NormFloat64())
		}
	}
	return fourier.NewFFT(n).Sequence(nil, bins)[:int(float64(rate)*seconds)]
}

// sine has the given rms.
func sine(rate int, seconds, hz, rms float64) []float64 {
	out := make([]float64, int(float64(rate)*seconds))
	for i := range out {
		out[i] = rms * math.Sqrt2 * math.Sin(2*math.Pi*hz*float64(i)/float64(rate))
	}
	return out
}

// mixed adds signals; the shortest counts.
func mixed(signals ...[]float64) []float64 {
	n := len(signals[0])
	for _, s := range signals {
		n = min(n, len(s))
	}
	out := make([]float64, n)
	for _, s := range signals {
		for i := range out {
			out[i] += s[i]
		}
	}
	return out
}

// db gives the level of an rms.
func db(rms float64) float64 { return 20 * math.Log10(rms) }
