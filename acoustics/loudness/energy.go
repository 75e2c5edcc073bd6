package loudness

import "math"

// Powers of ten are most of the work, so that they are taken from a table with a
// short series, right to about 1e-14.
const (
	powersPerOctave = 64
	octavesPerDB    = math.Ln10 / 10 * math.Log2E
	// roundBias added to a small number leaves it rounded, in the low bits.
	roundBias = 3 << 51
	// Levels up to furthest dB stay within the range of a float64.
	furthest = 3000
)

// octaveParts holds 2^(k/64).
var octaveParts = partsOfOctave()

func partsOfOctave() (parts [powersPerOctave]float64) {
	for k := range parts {
		parts[k] = math.Exp2(float64(k) / powersPerOctave)
	}
	return parts
}

// energy gives 10^(level/10).
func energy(level float64) float64 {
	if !(math.Abs(level) < furthest) {
		return math.Exp2(level * octavesPerDB)
	}
	x := level * (octavesPerDB * powersPerOctave)
	biased := x + roundBias
	n := int64(math.Float64bits(biased)) - int64(math.Float64bits(roundBias))
	r := (x - (biased - roundBias)) * (math.Ln2 / powersPerOctave)
	series := 1 + r*(1+r*(1.0/2+r*(1.0/6+r*(1.0/24))))
	whole := math.Float64frombits(uint64(n>>6+1023) << 52)
	return whole * octaveParts[n&(powersPerOctave-1)] * series
}
