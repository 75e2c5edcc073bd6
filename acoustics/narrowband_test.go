package acoustics

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/dsp/fourier"

	"lowsone/catalog/quantity"
)

const sampling = 48000.0 // Hz

// A sine is a tone of a test signal.
type sine struct{ frequency, rms float64 }

// signal makes tones in white noise.
func signal(seconds, noise float64, seed uint64, tones ...sine) []float64 {
	random := rand.New(rand.NewPCG(seed, 1))
	x := make([]float64, int(seconds*sampling))
	for i := range x {
		x[i] = noise * random.NormFloat64()
		for _, t := range tones {
			x[i] += math.Sqrt2 * t.rms * math.Sin(2*math.Pi*t.frequency*float64(i)/sampling)
		}
	}
	return x
}

// narrowBand makes the mean power spectrum of windows by Hann that overlap by
// half, as power a line.
func narrowBand(x []float64, step float64) NarrowBand {
	n := int(sampling / step)
	fft, power, windows := fourier.NewFFT(n), make([]float64, n/2+1), 0
	squares := 0.0
	hann := make([]float64, n)
	for i := range hann {
		hann[i] = 0.5 - 0.5*math.Cos(2*math.Pi*float64(i)/float64(n))
		squares += hann[i] * hann[i]
	}
	frame := make([]float64, n)
	for from := 0; from+n <= len(x); from += n / 2 {
		for i := range frame {
			frame[i] = x[from+i] * hann[i]
		}
		for i, c := range fft.Coefficients(nil, frame) {
			power[i] += real(c)*real(c) + imag(c)*imag(c)
		}
		windows++
	}
	for i := range power {
		power[i] *= 2 / (squares * float64(n) * float64(windows))
	}
	return NarrowBand{Step: quantity.Frequency(sampling / float64(n)), Power: power}
}

func tonesOf(t *testing.T, n NarrowBand) []Tone {
	t.Helper()
	tones, err := n.Tones()
	if err != nil {
		t.Fatal(err)
	}
	return tones
}

// A tone of known power in white noise of known density, at several steps, on a
// line and between two.
func TestToneInNoise(t *testing.T) {
	row := recordOf(t, records(t, "sound_tones.csv"), "T11")
	want, tol, source := number(t, row["expected"]), number(t, row["tolerance"]), "T11, "+row["status"]+", "+row["source"]
	x := signal(10, 0.05, 1, sine{1000, 0.1})
	for _, step := range []float64{0.5, 1, 2, 3} {
		tones := tonesOf(t, narrowBand(x, step))
		if len(tones) != 1 || !tones[0].Prominent {
			t.Fatalf("tones at a step of %v Hz: %+v, want one at 1 kHz, prominent (%s)", step, tones, source)
		}
		check(t, "frequency", float64(tones[0].Frequency), 1000, 0.05*step, "as made")
		check(t, "level", float64(tones[0].Level), -20, 0.1, "20·lg 0.1, as made")
		check(t, "TNR", float64(tones[0].TNR), want, tol, source)
	}
}

// The ratios against what the signal was made of: noise of one density in all
// bands, so that TNR and PR follow from the bands' widths alone.
func TestToneRatios(t *testing.T) {
	const noise = 0.05
	for _, f := range []float64{95.3, 160, 171.9, 499.7, 800.25, 2345.6, 5000, 11000} {
		tones := tonesOf(t, narrowBand(signal(8, noise, 2, sine{f, 0.03}), 1))
		if len(tones) != 1 {
			t.Errorf("a tone at %v Hz: found %+v, want it alone", f, tones)
			continue
		}
		density, power := noise*noise/(sampling/2), 0.03*0.03
		low, high := criticalBand(f)
		width := high - low
		lower, upper := low-bandBelow(f), bandAbove(f)-high
		if f <= lowerMeets20 {
			lower = 100
		}
		pr := decibel((power + density*width) / (density * (lower + upper) / 2))
		check(t, "frequency", float64(tones[0].Frequency), f, 0.05, "as made")
		check(t, "TNR", float64(tones[0].TNR), decibel(power/(density*width)), 0.5, "as made; noise of 8 s")
		check(t, "PR", float64(tones[0].PR), pr, 0.5, "as made; noise of 8 s")
	}
}

// In noise alone there is no tone, whether of one window or of many, white or
// falling.
func TestNoToneInNoise(t *testing.T) {
	for _, seconds := range []float64{1, 2, 5} {
		for _, step := range []float64{1, 4} {
			for seed := range uint64(2) {
				n := narrowBand(signal(seconds, 0.05, seed+10), step)
				for _, fall := range []float64{0, 2, 5} { // power as f^-fall
					red := NarrowBand{Step: n.Step, Power: make([]float64, len(n.Power))}
					for i, p := range n.Power {
						red.Power[i] = p * math.Pow(float64(i+1), -fall)
					}
					if tones := tonesOf(t, red); len(tones) > 0 {
						t.Errorf("%v s of noise falling as f^-%v, step %v Hz: found %+v, want none", seconds, fall, step, tones)
					}
				}
			}
		}
	}
}

// A band of noise 24 dB above the rest is no tone, from a fifth of the critical
// band on.
func TestNoToneInNarrowNoise(t *testing.T) {
	for _, seconds := range []float64{2, 8} {
		for _, width := range []float64{40, 80, 200} {
			n := narrowBand(signal(seconds, 0.05, 3), 1)
			for i := range n.Power {
				if math.Abs(float64(i)-1000) < width/2 {
					n.Power[i] *= 250
				}
			}
			for _, tone := range tonesOf(t, n) {
				t.Errorf("%v s with a band of noise %v Hz wide: found %+v, want none", seconds, width, tone)
			}
		}
	}
}

// Harmonics are found one by one; the weaker of two close tones does not count
// as noise, and counts with the stronger.
func TestSeveralTones(t *testing.T) {
	made := []sine{{175, 0.02}, {350, 0.01}, {525, 0.02}, {560, 0.01}, {3000, 0.004}}
	tones := tonesOf(t, narrowBand(signal(10, 0.02, 4, made...), 1))
	if len(tones) != len(made) {
		t.Fatalf("found %+v, want %d tones", tones, len(made))
	}
	for i, m := range made {
		check(t, "frequency", float64(tones[i].Frequency), m.frequency, 0.1, "as made")
		check(t, "level", float64(tones[i].Level), 20*math.Log10(m.rms), 0.3, "as made")
	}
	density := 0.02 * 0.02 / (sampling / 2)
	width := float64(CriticalBandwidth(525))
	check(t, "TNR of 525 Hz with 560 Hz", float64(tones[2].TNR), decibel((0.02*0.02+0.01*0.01)/(density*width)), 0.4, "both tones count: ECMA-418-1 clause 11.6")
	check(t, "TNR of 560 Hz", float64(tones[3].TNR), decibel(0.01*0.01/(density*float64(CriticalBandwidth(560)))), 0.4, "the stronger one is no noise")
}

// The unit of the power counts for the level alone. Without noise a tone is
// found with endless ratios.
func TestToneUnits(t *testing.T) {
	n := narrowBand(signal(10, 0.05, 5, sine{700, 0.02}), 1)
	before := tonesOf(t, n)
	for i := range n.Power {
		n.Power[i] *= 1e6
	}
	after := tonesOf(t, n)
	check(t, "level", float64(after[0].Level-before[0].Level), 60, 1e-9, "a million times the power")
	check(t, "TNR", float64(after[0].TNR), float64(before[0].TNR), 1e-9, "no unit")
	check(t, "PR", float64(after[0].PR), float64(before[0].PR), 1e-9, "no unit")
	alone := NarrowBand{Step: 1, Power: make([]float64, 12000)}
	alone.Power[500] = 1
	if tones := tonesOf(t, alone); len(tones) != 1 || !math.IsInf(float64(tones[0].TNR), 1) || !tones[0].Prominent {
		t.Errorf("a line alone: %+v, want one tone with an endless ratio", tones)
	}
	if tones := tonesOf(t, NarrowBand{Step: 1, Power: make([]float64, 12000)}); len(tones) != 0 {
		t.Errorf("silence: %+v, want no tone", tones)
	}
}

// Tones outside the range are left out; where the lines end below the bands
// beside a tone its ratios are not known.
func TestToneRange(t *testing.T) {
	n := narrowBand(signal(10, 0.01, 6, sine{60, 0.1}, sine{11500, 0.1}, sine{7000, 0.1}), 1)
	if tones := tonesOf(t, n); len(tones) != 1 || math.Abs(float64(tones[0].Frequency)-7000) > 0.1 {
		t.Errorf("tones at 60, 7000, 11500 Hz: %+v, want that at 7000 alone", tones)
	}
	n.Power = n.Power[:8000]
	if tones := tonesOf(t, n); len(tones) != 1 || math.IsNaN(float64(tones[0].TNR)) || !math.IsNaN(float64(tones[0].PR)) || !tones[0].Prominent {
		t.Errorf("7 kHz in lines up to 8 kHz: %+v, want TNR alone, prominent", tones)
	}
	n.Power = n.Power[:7200]
	if tones := tonesOf(t, n); len(tones) != 1 || !math.IsNaN(float64(tones[0].TNR)) || tones[0].Prominent {
		t.Errorf("7 kHz in lines up to 7.2 kHz: %+v, want no ratio", tones)
	}
}

// A line reaches half a step to both sides, and its power is spread over that.
func TestEnergyOfLines(t *testing.T) {
	s := newSpectrum(NarrowBand{Step: 2, Power: []float64{1, 4, 2, 0, 8}})
	for _, r := range []struct{ low, high, want float64 }{
		{1, 3, 4}, {2, 3, 2}, {1, 5, 6}, {0, 1, 0.5}, {-9, 99, 15}, {7.5, 8, 2}, {9, 12, 0},
	} {
		check(t, "energy", s.energy(r.low, r.high), r.want, 1e-12, "shares of lines 2 Hz apart")
	}
}

// A tone at the very ends of the range and of the lines.
func TestToneAtTheEnds(t *testing.T) {
	x := signal(5, 0.01, 8, sine{88.7, 0.05}, sine{600, 0.05})
	n := narrowBand(x, 1)
	n.Power = n.Power[:604]
	if tones := tonesOf(t, n); len(tones) != 1 || math.Abs(float64(tones[0].Frequency)-600) > 0.1 || !math.IsNaN(float64(tones[0].TNR)) {
		t.Errorf("tones at 88.7 and 600 Hz in lines up to 603 Hz: %+v, want 600 Hz alone, no ratio", tones)
	}
}

func TestTonesRefuses(t *testing.T) {
	lines := func(bad float64) []float64 {
		p := make([]float64, 300)
		p[123] = bad
		return p
	}
	for _, r := range []struct {
		n    NarrowBand
		want string
	}{
		{NarrowBand{0, lines(1)}, `find tones: the lines stand "0" Hz apart, above 0 and at most 4 Hz are needed`},
		{NarrowBand{5, lines(1)}, `find tones: the lines stand "5" Hz apart, above 0 and at most 4 Hz are needed`},
		{NarrowBand{quantity.Frequency(math.NaN()), lines(1)}, `find tones: the lines stand "NaN" Hz apart, above 0 and at most 4 Hz are needed`},
		{NarrowBand{1, nil}, `find tones: the lines end at "0" Hz, below the 140 Hz that the lowest tone needs`},
		{NarrowBand{0.1, lines(1)}, `find tones: the lines end at "29.95" Hz, below the 140 Hz that the lowest tone needs`},
		{NarrowBand{1, lines(-1)}, `find tones: the power at "123" Hz is "-1", not a power`},
		{NarrowBand{1, lines(math.NaN())}, `find tones: the power at "123" Hz is "NaN", not a power`},
		{NarrowBand{1, lines(math.Inf(1))}, `find tones: the power at "123" Hz is "+Inf", not a power`},
	} {
		if _, err := r.n.Tones(); err == nil || err.Error() != r.want {
			t.Errorf("Tones() error = %v, want %s", err, r.want)
		}
	}
}

// No lines make it panic, and what is found is within the range.
func FuzzTones(f *testing.F) {
	f.Add(1.0, []byte{1, 2, 3, 200, 3, 2, 1}, 60)
	f.Add(4.0, []byte{0, 0, 255}, 300)
	f.Add(0.3, []byte{}, 5)
	f.Fuzz(func(t *testing.T, step float64, pattern []byte, repeats int) {
		n := NarrowBand{Step: quantity.Frequency(step)}
		for range min(max(repeats, 0), 500) {
			for _, b := range pattern[:min(len(pattern), 100)] {
				n.Power = append(n.Power, math.Exp(float64(b)/10-10)*float64(b&1))
			}
		}
		tones, err := n.Tones()
		for _, tone := range tones {
			if err != nil || tone.Frequency < LeastTone || tone.Frequency > MostTone || math.IsNaN(float64(tone.Level)) {
				t.Fatalf("Tones() = %+v, %v", tones, err)
			}
		}
	})
}
