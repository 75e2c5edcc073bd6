package acoustics

import (
	"math"
	"testing"

	"lowsone/catalog/quantity"
)

func TestCriticalBandwidth(t *testing.T) {
	compare(t, "sound_tones.csv", []published{
		{id: "T05", call: "CriticalBandwidth(1000)", got: float64(CriticalBandwidth(1000)), item: 0},
		{id: "T05", call: "CriticalBandwidth(500)", got: float64(CriticalBandwidth(500)), item: 1},
	})
}

func TestProminenceLimits(t *testing.T) {
	var rows []published
	for i, f := range []quantity.Frequency{100, 200, 500, 1000, 2000} {
		rows = append(rows, published{id: "T08", call: "ToneToNoiseLimit", got: float64(ToneToNoiseLimit(f)), item: i})
	}
	for i, f := range []quantity.Frequency{100, 120, 200, 500, 1000} {
		rows = append(rows, published{id: "T09", call: "ProminenceLimit", got: float64(ProminenceLimit(f)), item: i})
	}
	compare(t, "sound_tones.csv", rows)
	for _, f := range []quantity.Frequency{LeastTone, MostTone} {
		if a, b := ToneToNoiseLimit(f), ProminenceLimit(f); math.IsNaN(float64(a)) || math.IsNaN(float64(b)) {
			t.Errorf("limits at %v Hz = %v, %v, want numbers", f, a, b)
		}
	}
	for _, f := range []quantity.Frequency{LeastTone - 0.1, MostTone + 1, quantity.Frequency(math.NaN())} {
		if a, b := ToneToNoiseLimit(f), ProminenceLimit(f); !math.IsNaN(float64(a)) || !math.IsNaN(float64(b)) {
			t.Errorf("limits at %v Hz = %v, %v, want NaN", f, a, b)
		}
	}
}

// The range stands in the row as text.
func TestToneRangeAsPublished(t *testing.T) {
	row := recordOf(t, records(t, "sound_tones.csv"), "T10")
	if want := trimmed(float64(LeastTone)) + " Hz to " + trimmed(float64(MostTone)/1000) + " kHz"; row["expected"] != want && row["inputs"] != want {
		t.Errorf("range of tones = %s, want %s (%s)", want, row["inputs"]+row["expected"], row["source"])
	}
}

// The bands beside a tone's critical band join it and are about as wide as a
// critical band at their own middle.
func TestBandsBeside(t *testing.T) {
	check(t, "bandBelow(171.4)", bandBelow(171.4), 20, 0, "ECMA-418-1 clause 12.5")
	check(t, "bandBelow(just above 171.4)", bandBelow(171.4001), 20, 0.1, "ECMA-418-1 table 2")
	check(t, "bandBelow(just above 1600)", bandBelow(1600.001), bandBelow(1600), 2, "ECMA-418-1 table 2: the fits meet")
	check(t, "bandAbove(just above 1600)", bandAbove(1600.001), bandAbove(1600), 2, "ECMA-418-1 table 3: the fits meet")
	for f := 89.1; f < 11200; f *= 1.01 {
		low, high := criticalBand(f)
		check(t, "width of the critical band", high-low, float64(CriticalBandwidth(quantity.Frequency(f))), 1e-9, "ECMA-418-1 clause 10")
		if f > lowerMeets20 {
			middle := math.Sqrt(low * bandBelow(f))
			check(t, "width of the band below "+trimmed(f), low-bandBelow(f), float64(CriticalBandwidth(quantity.Frequency(middle))), 0.08*(low-bandBelow(f)), "a critical band, as far as the published fit goes")
		}
		middle := math.Sqrt(high * bandAbove(f))
		check(t, "width of the band above "+trimmed(f), bandAbove(f)-high, float64(CriticalBandwidth(quantity.Frequency(middle))), 0.08*(bandAbove(f)-high), "a critical band, as far as the published fit goes")
	}
}
