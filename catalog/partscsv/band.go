package partscsv

import (
	"math"

	"lowsone/acoustics"
	"lowsone/catalog/quantity"
)

// Exponents n of the bands at 10^(n/10) Hz that columns and cells may name:
// from 16 Hz to 20 kHz.
const (
	lowestBand  = 12
	highestBand = 43
	thirdsFrom  = 14 // of acoustics.ThirdNominal[0], 25 Hz
	perOctave   = 3
	firstOctave = 12 // one of the octaves: 16 Hz
)

// offBand is the most that a frequency may lie off its band's exact one, as
// acoustics.ReadBands has it: nominal ones lie up to 1 % off.
const offBand = 0.03

// bandOf gives the exponent n of the band at 10^(n/10) Hz that f names.
func bandOf(hz float64) (n int, ok bool) {
	if !(hz > 0) || math.IsInf(hz, 0) {
		return 0, false
	}
	n = int(math.Round(10 * math.Log10(hz)))
	return n, n >= lowestBand && n <= highestBand && math.Abs(hz/float64(exactHz(n))-1) <= offBand
}

// exactHz gives the exact mid-band frequency of band n.
func exactHz(n int) quantity.Frequency { return quantity.Frequency(math.Pow(10, float64(n)/10)) }

// nominalHz gives the frequency by which people call band n.
func nominalHz(n int) quantity.Frequency {
	if i := n - thirdsFrom; i >= 0 && i < acoustics.NumThirds {
		return quantity.Frequency(acoustics.ThirdNominal[i])
	}
	return map[int]quantity.Frequency{12: 16, 13: 20, 42: 16000, 43: 20000}[n]
}

// isOctave says whether an octave lies at band n.
func isOctave(n int) bool { return (n-firstOctave)%perOctave == 0 }

// aWeighting gives the A-weighting at the band that f names, at its exact
// mid-band frequency; at f itself where it names none.
func aWeighting(f quantity.Frequency) quantity.Decibel {
	if n, ok := bandOf(float64(f)); ok {
		f = exactHz(n)
	}
	return acoustics.AWeighting(f)
}

// hundredth rounds a level that was worked out, since no meter shows more.
func hundredth(db float64) float64 { return math.Round(db*100) / 100 }

// levelSum adds band levels as energies, each changed by times its A-weighting:
// 1 weighs unweighted levels, 0 adds them as they are.
func levelSum(levels []quantity.BandLevel, times float64) float64 {
	var room [highestBand + 1]quantity.SoundPressureLevel
	list := room[:0]
	for _, b := range levels {
		list = append(list, quantity.PressureLevel(float64(b.Level)+times*float64(aWeighting(b.Frequency))))
	}
	return acoustics.Sum(list...).DB()
}
