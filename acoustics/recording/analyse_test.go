package recording

import (
	"context"
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"lowsone/acoustics"
	"lowsone/catalog/quantity"
	"lowsone/testdata/sources"
)

// near wants a level to a tolerance in dB.
func near(t *testing.T, what string, got, want, tol float64, source string) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.3f, want %.3f ± %.3g (%s)", what, got, want, tol, source)
	}
}

// A sine in the middle of a band has its own level, whatever the file.
func TestSineOfKnownLevel(t *testing.T) {
	for _, rate := range []int{16000, 22050, 44100, 48000, 96000, 192000} {
		for _, f := range []file{{bits: 16}, {bits: 24}, {bits: 32, float: true}} {
			if rate > 44100 && f.bits != 24 {
				continue
			}
			f.rate, f.channels = rate, [][]float64{sine(rate, 2.5, 1000, 0.1)}
			a := analysed(t, f)
			near(t, "A-weighted level of a sine of 1 kHz", a.Level.Equivalent.DB(), -20, 0.002, "its rms")
			near(t, "its maximum", a.Level.Max.DB(), -20, 0.01, "its rms")
			near(t, "its C-weighted level", a.C.DB(), -20, 0.002, "its rms")
			near(t, "its unweighted level", a.Overall.DB(), -20, 0.002, "its rms")
			near(t, "its band", a.Thirds[16].DB(), -20, 0.002, "its rms")
			for i, l := range a.Thirds {
				if i != 16 && l.DB() > -95 {
					t.Errorf("a sine of 1 kHz at %d Hz, %d bits: the band of %g Hz has %.1f dB, want under -95", rate, f.bits, acoustics.ThirdNominal[i], l.DB())
				}
			}
		}
	}
}

// The A- and C-weighting of sines at the bands' frequencies, through file and
// filter, against the standard's table.
func TestWeightingOfSines(t *testing.T) {
	for i, r := range sources.Records[map[string]string](t, "sound_weighting_iec61672.csv") {
		hz, want := value(t, r["exact_base10_hz"]), value(t, r["A_table_db"])
		if hz < 22.4 || i%2 == 1 {
			continue
		}
		a := analysed(t, file{rate: 44100, bits: 32, float: true, channels: [][]float64{sine(44100, 2.2, hz, 0.1)}})
		near(t, "A-weighting at "+r["nominal_hz"]+" Hz", a.Level.Equivalent.DB()+20, want, 0.06, "IEC 61672-1, table of weightings, to a tenth")
		if c := r["C_table_db"]; c != "" {
			near(t, "C-weighting at "+r["nominal_hz"]+" Hz", a.C.DB()+20, value(t, c), 0.06, "IEC 61672-1, table of weightings, to a tenth")
		}
	}
}

func value(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// White noise: a third octave holds its share of the power, and A-weighting by
// the filter in time and by the spectrum agree.
func TestWhiteNoise(t *testing.T) {
	for _, rate := range []int{16000, 44100, 48000, 96000} {
		const rms = 0.05
		a := analysed(t, mono(rate, white(rate, 10, rms, 1)))
		for i, l := range a.Thirds {
			want := db(rms) + 10*math.Log10(float64(thirdWidth(i))/(float64(rate)/2))
			if float64(acoustics.ThirdHz(i))*halfBand > float64(rate)/2 {
				if !math.IsNaN(l.DB()) {
					t.Errorf("white noise at %d Hz: the band of %g Hz = %v, want unknown", rate, acoustics.ThirdNominal[i], l.DB())
				}
				continue
			}
			near(t, "white noise, band "+strconv.Itoa(i), l.DB(), want, 4*float64(a.Spread(i))+0.02, "its width, within 4 standard deviations")
		}
		byBins := ofPower(weightedSum(a.power, a.step, acoustics.AWeighting)).DB()
		near(t, "A-weighted white noise by the filter", a.Level.Equivalent.DB(), byBins, 0.1, "by the spectrum")
		wantNoFindings(t, a, BandsMissing)
	}
}

// Pink noise: all bands are equal, and the A-weighted level is that of the bands.
func TestPinkNoise(t *testing.T) {
	for _, rate := range []int{44100, 48000} {
		const rms = 0.01
		a := analysed(t, mono(rate, pink(rate, 11, rms, 1)))
		for i, l := range a.Thirds {
			near(t, "pink noise, band "+strconv.Itoa(i), l.DB(), db(rms), 4*float64(a.Spread(i)), "it is the same in each, within 4 standard deviations")
		}
		near(t, "A-weighted pink noise", a.Level.Equivalent.DB(), pinkA(rms), 0.1, "sum of its bands")
		byBins := ofPower(weightedSum(a.power, a.step, acoustics.AWeighting)).DB()
		near(t, "A-weighted pink noise by the filter", a.Level.Equivalent.DB(), byBins, 0.1, "by the spectrum")
		wantNoFindings(t, a)
	}
}

// pinkA is the A-weighted level of pink noise with rms in each third octave. It
// goes on to 20 kHz, two bands above those of a spectrum.
func pinkA(rms float64) float64 {
	var thirds acoustics.Thirds
	for i := range thirds {
		thirds[i] = db(rms)
	}
	above := ratio(float64(acoustics.AWeighting(15849))) + ratio(float64(acoustics.AWeighting(19953)))
	return 10 * math.Log10(ratio(thirds.A().DB())+rms*rms*above)
}

// A sweep whose pitch rises evenly in octaves has the same energy in each band it
// goes through; slow enough, each band lasts several windows.
func TestSweep(t *testing.T) {
	const rate, rms, from, to, seconds = 16000, 0.1, 400.0, 2600.0, 40.0
	samples := make([]float64, int(rate*seconds))
	k := math.Log(to/from) / seconds
	for i := range samples {
		at := float64(i) / rate
		samples[i] = rms * math.Sqrt2 * math.Sin(2*math.Pi*from*math.Expm1(k*at)/k)
	}
	a := analysed(t, mono(rate, samples))
	want := db(rms) + 10*math.Log10(math.Ln10/10/math.Log(to/from))
	for i := 14; i <= 19; i++ { // 630 to 2000 Hz, the sweep beginning and ending outside
		near(t, "sweep, band "+strconv.Itoa(i), a.Thirds[i].DB(), want, 0.25, "equal times in equal intervals")
	}
	near(t, "sweep, unweighted", a.Overall.DB(), db(rms), 0.1, "its rms")
}

// A line between two bins near an edge goes to the right band, however the bins
// lie.
func TestBandEdges(t *testing.T) {
	power := make([]float64, 2001)
	for k := range power {
		power[k] = 2 // a Hz, for bins of 1 Hz
	}
	near(t, "between(100.25, 200.6)", between(power, 1, 100.25, 200.6), 2*100.35, 1e-9, "width by density")
	near(t, "between(100.1, 100.2)", between(power, 1, 100.1, 100.2), 0.2, 1e-9, "width by density")
	near(t, "between(99.4, 99.6)", between(power, 1, 99.4, 99.6), 0.4, 1e-9, "width by density")
	if got := between(power, 1, 1990, 2000.5); !math.IsNaN(got) {
		t.Errorf("beyond the end = %v, want NaN", got)
	}
	whole := 0.0
	for i := range acoustics.NumThirds - 10 {
		m := float64(acoustics.ThirdHz(i))
		whole += between(power, 1, m/halfBand, m*halfBand)
	}
	low, high := float64(acoustics.ThirdHz(0))/halfBand, float64(acoustics.ThirdHz(acoustics.NumThirds-11))*halfBand
	near(t, "all bands", whole, 2*(high-low), 1e-6, "they touch, and do not overlap")
}

// The filters for loudness let as much noise through as the bands hold, and some
// of a tone into the next band.
func TestFiltersForLoudness(t *testing.T) {
	power := make([]float64, 40001)
	for k := range power {
		power[k] = 1
	}
	exact, filtered := thirdsOf(power, 0.5), filteredThirds(power, 0.5)
	for i := range exact {
		near(t, "filtered white noise, band "+strconv.Itoa(i), filtered[i].DB(), exact[i].DB(), 0.06, "the band's width")
	}
	clear(power)
	power[2000] = 1
	tone := filteredThirds(power, 0.5)
	near(t, "tone of 1 kHz in its band", tone[16].DB(), 0, 0.01, "its level")
	for _, i := range []int{15, 17} {
		near(t, "tone of 1 kHz in the next band", tone[i].DB(), -20, 1, "ISO 532-1 clause 5.2: some 20 dB down")
	}
	for _, i := range []int{12, 20} {
		if tone[i].DB() > -42 {
			t.Errorf("tone of 1 kHz four bands away = %v dB, want under -42, which class 1 asks for three bands away (IEC 61260-1, from memory)", tone[i].DB())
		}
	}
}

func TestFindings(t *testing.T) {
	noise := func(seconds, rms float64, seed uint64) []float64 { return white(16000, seconds, rms, seed) }
	louder := func(s []float64, from, to, by float64) []float64 {
		out := append([]float64(nil), s...)
		for i := int(from * 16000); i < int(to*16000); i++ {
			out[i] *= by
		}
		return out
	}
	beat := mixed(sine(16000, 15, 300, 0.05), sine(16000, 15, 300.7, 0.04), noise(15, 0.001, 1))
	for _, r := range []struct {
		name string
		file file
		kind Kind
		text string
	}{
		{"too loud", file{bits: 16, channels: [][]float64{noise(12, 0.5, 1)}}, Clipped, "clipped"},
		{"right too loud", file{bits: 24, channels: [][]float64{noise(12, 0.4, 1), noise(12, 0.6, 2)}}, Clipped, "right channel"},
		{"too weak", file{bits: 16, channels: [][]float64{noise(12, 2e-5, 1)}}, Weak, "16 bits"},
		{"offset", file{bits: 16, channels: [][]float64{mixed(noise(12, 0.05, 1), constant(12*16000, -0.02))}}, Offset, "-2 %"},
		{"two channels", file{bits: 16, channels: [][]float64{noise(12, 0.05, 1), noise(12, 0.05, 2)}}, TwoChannels, "energy mean"},
		{"left silent", file{bits: 16, channels: [][]float64{constant(12*16000, 0), noise(12, 0.05, 2)}}, OneSilent, "left channel is silent"},
		{"right silent but for an offset", file{bits: 16, channels: [][]float64{noise(12, 0.05, 2), constant(12*16000, 0.1)}}, OneSilent, "right channel is silent"},
		{"right covered", file{bits: 16, channels: [][]float64{noise(12, 0.05, 1), noise(12, 0.005, 2)}}, Unequal, "the left one is 20 dB above the right"},
		{"low sampling rate", file{bits: 16, channels: [][]float64{noise(12, 0.05, 1)}}, BandsMissing, "from 8000 Hz up"},
		{"short", file{bits: 16, channels: [][]float64{noise(3, 0.05, 1)}}, Short, "only 3 s"},
		{"starts up", file{bits: 16, channels: [][]float64{louder(noise(12, 0.05, 1), 0, 5, 0.5)}}, Drifts, "rises by 6.0 dB"},
		{"runs down", file{bits: 16, channels: [][]float64{louder(noise(12, 0.05, 1), 8, 12, 0.7)}}, Drifts, "falls by 3.1 dB"},
		{"a knock", file{bits: 16, channels: [][]float64{louder(noise(12, 0.02, 1), 7, 7.1, 10)}}, Jumps, "at 7.1 s"},
		{"beating", file{bits: 16, channels: [][]float64{beat}}, Swings, "beat"},
	} {
		r.file.rate = 16000
		a := analysed(t, r.file)
		wantFinding(t, a, r.kind, r.text)
		wantNoFindings(t, a, r.kind, BandsMissing, TwoChannels)
	}
}

func constant(n int, v float64) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = v
	}
	return out
}

// An offset changes nothing else.
func TestOffsetIsNoSound(t *testing.T) {
	s := white(16000, 4, 0.01, 1)
	a := analysed(t, file{rate: 16000, bits: 64, float: true, channels: [][]float64{s}})
	b := analysed(t, file{rate: 16000, bits: 64, float: true, channels: [][]float64{mixed(s, constant(len(s), 0.5))}})
	near(t, "A-weighted level with an offset", b.Level.Equivalent.DB(), a.Level.Equivalent.DB(), 1e-6, "without")
	near(t, "largest level with an offset", b.Level.Max.DB(), a.Level.Max.DB(), 1e-6, "without")
	for i := range 25 {
		near(t, "band "+strconv.Itoa(i)+" with an offset", b.Thirds[i].DB(), a.Thirds[i].DB(), 1e-6, "without")
	}
	near(t, "offset", b.Channels[0].Offset, 0.5, 1e-3, "as made")
}

func TestClipping(t *testing.T) {
	s := make([]float64, 16000*3)
	for _, i := range []int{100, 200, 201, 300, 301, 302, 400, 401, 402, 403} {
		s[i] = 1
	}
	s[500], s[501], s[502] = 1, 1, -1 // no run: two ends
	s[len(s)-1], s[len(s)-2], s[len(s)-3] = -1, -1, -1
	c := analysed(t, mono(16000, s)).Channels[0]
	if c.Clipped.Runs != 3 || c.Clipped.Longest != 4 || math.Abs(c.Clipped.Share*48000-16) > 1e-9 {
		t.Errorf("clipped %+v, want 3 runs, the longest of 4, 16 of 48000 samples", c.Clipped)
	}
	// Floating point goes on beyond full scale, unless it comes from integers.
	loud := file{rate: 16000, bits: 32, float: true, channels: [][]float64{white(16000, 3, 2, 1)}}
	wantNoFindings(t, analysed(t, loud), Short, BandsMissing)
	for i, v := range loud.channels[0] {
		loud.channels[0][i] = max(-1+math.Exp2(-15), min(1-math.Exp2(-15), v))
	}
	wantFinding(t, analysed(t, loud), Clipped, "full scale")
	fine := sine(16000, 3, 440, 0.7)
	wantNoFindings(t, analysed(t, mono(16000, fine)), Short, BandsMissing)
}

// The mean over two channels is that of their energies; a silent one has no say.
func TestTwoChannels(t *testing.T) {
	left, right := sine(16000, 3, 1000, 0.1), sine(16000, 3, 1000, 0.2)
	a := analysed(t, file{rate: 16000, bits: 24, channels: [][]float64{left, right}})
	want := 10 * math.Log10((0.01+0.04)/2)
	near(t, "mean of two channels", a.Level.Equivalent.DB(), want, 0.002, "energies")
	near(t, "its maximum", a.Level.Max.DB(), want, 0.01, "energies")
	near(t, "its median", a.Level.L50.DB(), want, 0.11, "energies, to a class")
	near(t, "its band", a.Thirds[16].DB(), want, 0.002, "energies")
	near(t, "its second", a.Trace.Levels[1].DB(), want, 0.002, "energies")
	near(t, "left", a.Channels[0].Level.DB(), -20, 0.002, "its rms")
	near(t, "right", a.Channels[1].Level.DB(), db(0.2), 0.002, "its rms")
	near(t, "right, peak", a.Channels[1].Peak, 0.2*math.Sqrt2, 1e-3, "of a sine")
	b := analysed(t, file{rate: 16000, bits: 24, channels: [][]float64{left, constant(len(left), 0)}})
	near(t, "one of two channels", b.Level.Equivalent.DB(), -20, 0.002, "the other is silent")
	near(t, "its band", b.Thirds[16].DB(), -20, 0.002, "the other is silent")
	near(t, "its second", b.Trace.Levels[0].DB(), -20, 0.002, "the other is silent")
}

func TestSilence(t *testing.T) {
	for _, v := range []float64{0, 0.25} {
		e := refusal(t, file{rate: 16000, bits: 16, channels: [][]float64{constant(16000*3, v), constant(16000*3, v)}}.encode())
		if !errors.Is(e, ErrSilent) {
			t.Errorf("nothing but %v: error %v, want ErrSilent", v, e)
		}
	}
}

// A part is analysed as if it were all there is.
func TestPart(t *testing.T) {
	s := append(white(16000, 3, 0.2, 1), sine(16000, 5, 1000, 0.1)...)
	s = append(s, white(16000, 3, 0.2, 2)...)
	data := mono(16000, s).encode()
	part := func(from, to quantity.Time) (*Analysis, error) {
		return Analyse(context.Background(), opened(t, data), Options{From: from, To: to})
	}
	a, err := part(3, 8)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "level of the part", a.Level.Equivalent.DB(), -20, 0.002, "its rms")
	near(t, "its largest level", a.Level.Max.DB(), -20, 0.01, "its rms")
	near(t, "its length", float64(a.Duration), 5, 1e-9, "as chosen")
	wantFinding(t, a, Part, "5 s from 3 s")
	if b, err := part(8, 0); err != nil || b.Duration != 3 {
		t.Errorf("to the end: %v, %v, want 3 s", b, err)
	}
	for _, r := range []struct {
		from, to quantity.Time
		text     string
	}{
		{-1, 0, "from -1 s"}, {0, -3, "to -3 s"}, {quantity.Time(math.NaN()), 0, "NaN"}, {0, quantity.Time(math.Inf(1)), "+Inf"},
		{5, 6, "less than 2 s"}, {9.5, 0, "1.5 s are left"}, {20, 0, "0 s are left"}, {1e300, 0, "0 s are left"},
	} {
		if _, err := part(r.from, r.to); !errors.Is(err, ErrSpan) || !strings.Contains(err.Error(), r.text) {
			t.Errorf("from %v to %v: error %v, want %q", r.from, r.to, err, r.text)
		}
	}
}
