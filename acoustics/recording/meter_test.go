package recording

import (
	"context"
	"math"
	"strconv"
	"testing"
)

// bursts is silence with a tone of 4 kHz for some time.
func burst(rate int, before, on, after float64) []float64 {
	tone := sine(rate, before+on+after, 4000, 0.1)
	for i := range tone {
		if at := float64(i) / float64(rate); at < before || at >= before+on {
			tone[i] = 0
		}
	}
	return tone
}

// A meter on "fast" shows a burst of 4 kHz below the steady tone by what the
// standard lists.
func TestToneBursts(t *testing.T) {
	steady := analysed(t, mono(48000, sine(48000, 3, 4000, 0.1))).Level.Max.DB()
	for _, r := range []struct{ ms, want float64 }{
		{1000, 0}, {500, -0.1}, {200, -1.0}, {100, -2.6}, {50, -4.8}, {20, -8.3}, {10, -11.1}, {5, -14.1}, {2, -18.0},
	} {
		a := analysed(t, file{rate: 48000, bits: 24, channels: [][]float64{burst(48000, 1, r.ms/1000, 1)}})
		near(t, "burst of "+strconv.FormatFloat(r.ms, 'f', 0, 64)+" ms", a.Level.Max.DB()-steady, r.want, 0.06, "IEC 61672-1 table of tone bursts, from memory; as 10·lg(1 − e^(−t/125 ms))")
		near(t, "its time", float64(a.Level.MaxAt), 1+r.ms/1000, 0.02, "the end of the burst")
	}
}

// Times count from the beginning of the recording where a part was analysed.
func TestTimesOfAPart(t *testing.T) {
	data := file{rate: 48000, bits: 24, channels: [][]float64{burst(48000, 3, 0.1, 2)}}.encode()
	a, err := Analyse(context.Background(), opened(t, data), Options{From: 1.5})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "time of the largest level", float64(a.Level.MaxAt), 3.1, 0.02, "the end of the burst")
	near(t, "beginning of the trace", float64(a.Trace.Start), 1.5, 0.5, "where the part begins")
	if a.Trace.Start < 1.5 {
		t.Errorf("the trace begins at %v s, before the part", a.Trace.Start)
	}
}

// After a tone the level falls by 34.7 dB a second.
func TestDecayOfFast(t *testing.T) {
	m := newMeter(16000)
	m.take(constant(16000, 1))
	m.take(make([]float64, 8000))
	near(t, "half a second after a tone", 10*math.Log10(m.fast), -34.74/2, 0.01, "IEC 61672-1: 34.7 dB/s, from memory; 10·lg e over 125 ms")
}

// The fast average begins with the first of the sound, not at silence.
func TestFastBeginsAtOnce(t *testing.T) {
	m := newMeter(16000)
	m.take(constant(16000, 1e-4))
	near(t, "L99 of a second", m.exceeded(0.99), -40, 0.1, "steady")
}

// The last window counts by what is new in it.
func TestLastWindowCountsByItsShare(t *testing.T) {
	w := newWindows(16000, 1)
	loud := func(rms float64) [][]float64 { return [][]float64{sine(16000, float64(w.n)/16000, 1000, rms)} }
	w.add(loud(0.1))
	w.take(w.n)
	w.add(loud(0.2))
	w.take(w.n / 8) // a quarter of half a window
	got := ofPower(between(w.spectrum(), 16000/float64(w.n), 900, 1100)).DB()
	near(t, "mean of two windows", got, 10*math.Log10((0.01+0.04/4)/1.25), 0.01, "weighted mean of their squares")
}

func TestLevelsExceeded(t *testing.T) {
	m := newMeter(16000)
	m.take(constant(30*16000, 1e-4)) // -40 dB for 30 s
	m.take(constant(10*16000, 1e-2)) // -20 dB for 10 s
	m.finish()
	near(t, "L10", m.exceeded(0.10), -20, 0.1, "a quarter of the time")
	near(t, "L50", m.exceeded(0.50), -40, 0.1, "three quarters of the time")
	near(t, "L90", m.exceeded(0.90), -40, 0.1, "three quarters of the time")
	if len(m.second) != 40 || math.Abs(m.second[29]-1e-4) > 1e-12 || math.Abs(m.second[30]-1e-2) > 1e-12 {
		t.Errorf("seconds %v, want 30 of 1e-4 and 10 of 1e-2", m.second)
	}
	silent := newMeter(16000)
	silent.take(make([]float64, 16000))
	if got := silent.exceeded(0.1); !math.IsInf(got, -1) {
		t.Errorf("L10 of nothing = %v, want -Inf", got)
	}
}

// The trace gives each second, from a quarter window on.
func TestTrace(t *testing.T) {
	s := append(sine(16000, 4, 1000, 0.01), sine(16000, 5, 1000, 0.1)...)
	a := analysed(t, mono(16000, s))
	start := float64(a.Trace.Start)
	near(t, "start", start, 0.256, 1e-9, "a quarter of 16384 samples")
	for i, l := range a.Trace.Levels {
		at := start + float64(i)
		switch {
		case at+1 < 4:
			near(t, "second "+strconv.Itoa(i), l.DB(), -40, 0.05, "its rms")
		case at > 4:
			near(t, "second "+strconv.Itoa(i), l.DB(), -20, 0.01, "its rms")
		}
	}
	if n := len(a.Trace.Levels); n != 8 { // 9 s less two quarters, the last half second closed
		t.Errorf("%d seconds, want 8", n)
	}
}
