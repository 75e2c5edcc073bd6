package acoustics

import (
	"fmt"
	"math"

	"lowsone/catalog/quantity"
)

// Meter is what a level was measured with. The zero value is none of them.
type Meter uint8

// The meters.
const (
	Class1 Meter = iota + 1 // a sound level meter of class 1
	Class2                  // a sound level meter of class 2
	Phone                   // a phone with an app, not calibrated
)

// String names the meter.
func (m Meter) String() string {
	switch m {
	case Class1:
		return "class 1 meter"
	case Class2:
		return "class 2 meter"
	case Phone:
		return "phone, not calibrated"
	}
	return fmt.Sprintf("Meter(%d)", uint8(m))
}

// A tolerance is how far a meter may read above and below.
type tolerance struct{ above, below float64 }

// Tolerances in dB of the two classes in the octaves, and last at 12.5 kHz, which
// class 2 need not hear at all. [IEC61672] of 2002, table 2: as much as a meter
// may be off, the test's own uncertainty in it.
var meterLimits = [2][NumOctaves + 1]tolerance{
	{{2, -2}, {1.5, -1.5}, {1.5, -1.5}, {1.4, -1.4}, {1.4, -1.4}, {1.1, -1.1}, {1.6, -1.6}, {1.6, -1.6}, {2.1, -3.1}, {3, -6}},
	{{3.5, -3.5}, {2.5, -2.5}, {2, -2}, {1.9, -1.9}, {1.9, -1.9}, {1.4, -1.4}, {2.6, -2.6}, {3.6, -3.6}, {5.6, -5.6}, {6, math.Inf(-1)}},
}

// Levels in dB(A) between which phones were tested, and how far the best of five
// apps was off at most in one of those studies. [KardousShaw], [Nast]
const (
	phoneLow   = 65
	phoneHigh  = 95
	phoneWidth = 5
)

// HalfWidth gives how far the A-weighted level of a broad-band spectrum s may be
// off when that meter reads it, either way, in dB.
//
// Class 1 and 2: as if the meter were off by its full tolerance in every band to
// the same side,
//
//	10·lg Σ wᵢ·10^(tᵢ/10), w the bands' shares of the A-weighted energy,
//
// the larger of the two sides. That is an upper bound for a meter that was
// calibrated, held into the sound, and whose own noise (see its sheet; some 17
// dB(A) for class 1, 25 to 30 for class 2, common practice) lies 10 dB below the
// level. [IEC61672]
//
// Phone: ±5 dB between 65 and 95 dB(A), where studies tested them. It is an
// estimate: an app that nobody tested may be further off. Below and above
// nothing is known, so the result is NaN; and fans are mostly below.
//
// For any other meter and for a spectrum without sound the result is NaN.
func (m Meter) HalfWidth(s *Thirds) quantity.Decibel {
	switch m {
	case Class1, Class2:
		above, below := bandLimits(s, &meterLimits[m-Class1])
		return quantity.Decibel(max(above, -below))
	case Phone:
		if a := s.A().DB(); a >= phoneLow && a <= phoneHigh {
			return phoneWidth
		}
	}
	return quantity.Decibel(math.NaN())
}

// bandLimits gives how far the A-weighted level moves where every band is off by
// its tolerance.
func bandLimits(s *Thirds, limits *[NumOctaves + 1]tolerance) (above, below float64) {
	var high, low Thirds
	for i := range s {
		t := limits[i/perOctave]
		high[i], low[i] = s[i]+t.above, s[i]+t.below
	}
	a := s.A()
	return float64(high.A().Above(a)), float64(low.A().Above(a))
}

// ChangeHalfWidth gives how far the difference of two readings may be off, in
// dB, where the same meter stood in the same place, before and after: what is
// wrong with the meter is wrong both times. Class 1 and 2: 1 dB, phone: 2 dB
// (common practice, without a source). It holds where both readings lie 10 dB
// above the meter's own noise and the room's, the microphone looks the same way,
// and the phone's automatic gain is off or the app records without it. Nearer to
// the noise the true change is larger than the one read. NaN for any other
// meter.
func (m Meter) ChangeHalfWidth() quantity.Decibel {
	switch m {
	case Class1, Class2:
		return 1
	case Phone:
		return 2
	}
	return quantity.Decibel(math.NaN())
}
