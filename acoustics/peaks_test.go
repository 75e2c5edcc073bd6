package acoustics

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// Tones all over the range lie where they were made, in weak noise and in none:
// a small peak on their skirt does not stand for them.
func TestToneWhereItWasMade(t *testing.T) {
	random := rand.New(rand.NewPCG(20, 26))
	for i := range 130 {
		noise := 1e-5
		if i >= 100 {
			noise = 0
		}
		f := 100 * math.Pow(100, random.Float64()) // 100 Hz to 10 kHz
		n := narrowBand(signal(1.5, noise, uint64(i), sine{f, 0.1}), 1)
		tones := tonesOf(t, n)
		if noise == 0 && len(tones) != 1 {
			t.Errorf("a tone at %v Hz without noise: found %+v, want it alone", f, tones)
		}
		strongest := Tone{Level: -1000}
		for _, tone := range tones {
			if tone.Level > strongest.Level {
				strongest = tone
			}
		}
		check(t, fmt.Sprintf("frequency %v with noise of %v", f, noise), float64(strongest.Frequency), f, 0.5*float64(n.Step), "as made")
	}
}

// What lies 90 dB and more below the strongest line is no tone, whatever stands
// around it.
func TestNothingBelowWhatIsConveyed(t *testing.T) {
	n := NarrowBand{Step: 1, Power: make([]float64, 12000)}
	n.Power[500], n.Power[3000], n.Power[7000] = 1, 1.1e-9, 0.9e-9
	if tones := tonesOf(t, n); len(tones) != 2 || tones[1].Frequency != 3000 {
		t.Errorf("lines at 0, -89.6 and -90.5 dB: found %+v, want the first two", tones)
	}
}
