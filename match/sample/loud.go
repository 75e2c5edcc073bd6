package sample

import (
	"math"

	"lowsone/acoustics/loudness"
	"lowsone/catalog/quantity"
	"lowsone/match"
)

// sones gives the loudness in sone of a fan as needed under every draw, by ISO
// 532-1 in a free field. Where its spectrum is not measured, it is drawn among
// those typical of its kind, at the same places for all fans; NaN where there is
// none.
//
// Each is worked out anew: a loudness.Table costs as much as some thousand of
// them, and no two fans share one.
func (f *fan) sones(study *match.Study, seed uint64) []float64 {
	shapes := study.Shapes(f.index)
	for i := range shapes {
		shapes[i].Thirds = shapes[i].Thirds.ScaledTo(quantity.PressureLevel(0))
	}
	out := make([]float64, len(f.outcomes))
	at := hypercube(len(out), 1, seed, "spectrum")
	for k, o := range f.outcomes {
		if out[k] = math.NaN(); len(shapes) == 0 || math.IsNaN(o.Level) {
			continue
		}
		one := &shapes[int(at.At(k, 0)*float64(len(shapes)))].Thirds
		heard := one.Plus(quantity.Decibel(o.Level))
		out[k] = loudness.Sone(&heard, loudness.Free)
	}
	return out
}
