package devicefile

import (
	"math"

	"lowsone/acoustics"
	"lowsone/match"
)

// meter asks what a level was measured with, and doubts one that is beyond what
// its kind was tested at.
func (r *reporter) meter(key string, m *match.Reading) {
	o := open{Rounds, "", "how far the level may be off; a change that the same meter tells in the same place is off by less", 6}
	if m.Meter == 0 {
		r.ask(key, "", o)
		return
	}
	bands := acoustics.Thirds{}
	bands = bands.ScaledTo(m.Level)
	if m.Bands != nil {
		bands = *m.Bands
	}
	off := float64(m.Meter.HalfWidth(&bands))
	switch value, by := m.Meter.String(), number(math.Round(10*off)/10)+" dB"; {
	case math.IsNaN(off):
		o.weight, o.why = Sharpens, "how far a phone is off was tested between 65 and 95 dB(A) only; a change that it tells, before and after, in the same place, is off by less"
		r.doubt(key, value, o)
	case m.Meter == acoustics.Phone:
		r.ask(key, value+", off by some "+by, o)
	case m.Bands != nil:
		r.ask(key, value+", off by "+by+" at most", o)
	default:
		r.ask(key, value, o)
	}
}
