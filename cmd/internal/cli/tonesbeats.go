package cli

import (
	"math"

	"lowsone/acoustics"
	"lowsone/catalog/quantity"
	"lowsone/cmd/internal/view"
	"lowsone/match"
)

// mostOrder is the highest multiple of a blade tone that is looked at for beats:
// those above are weaker (common practice).
const mostOrder = 3

// unsureSpeed is how far a speed that follows from label and supply may be off:
// ±10 % is the tolerance of labels (common practice).
const unsureSpeed = 0.1

// oneSpeed is how far the speeds of two fans may lie apart that are worth
// regulating to one (common practice).
const oneSpeed = 0.1

// beatsOf lists the pairs of fans whose tones are heard to beat, or coincide, or
// may be where a speed was not measured.
func beatsOf(fans []match.Turning) []view.Beat {
	var beats []view.Beat
	for i := range fans {
		for j := i + 1; j < len(fans); j++ {
			if beat, ok := beatOf(fans, i, j); ok {
				clearOthers(&beat, fans)
				beats = append(beats, beat)
			}
		}
	}
	return beats
}

// beatOf finds the beat of two fans: that of their blade tones, else of one of
// these with the lowest multiple of the other that swells, fluctuates or
// coincides. Where a speed was not measured it only says whether the blade tones
// may be near each other.
func beatOf(fans []match.Turning, i, j int) (view.Beat, bool) {
	if math.IsNaN(fans[i].Hz()) || math.IsNaN(fans[j].Hz()) {
		return view.Beat{}, false
	}
	b := newBeat(fans, i, j, 1, 1)
	if !fans[i].Measured || !fans[j].Measured { // a beat is the small difference of two speeds
		b.Unsure = true
		return b, b.High.Hz/b.Low.Hz-1 <= unsureSpeed
	}
	if b.Heard != acoustics.Apart {
		return b, true
	}
	for order := 2; order <= mostOrder; order++ {
		for _, b := range []view.Beat{newBeat(fans, i, j, 1, order), newBeat(fans, i, j, order, 1)} {
			if swells(b.Heard) {
				return b, true
			}
		}
	}
	return view.Beat{}, false
}

// newBeat holds two multiples of blade tones beside each other. The fan with the
// lower one comes first.
func newBeat(fans []match.Turning, i, j, orderI, orderJ int) view.Beat {
	low := view.BeatTone{Fan: i, Order: orderI, Hz: float64(orderI) * fans[i].Hz(), Turns: fans[i].Turns}
	high := view.BeatTone{Fan: j, Order: orderJ, Hz: float64(orderJ) * fans[j].Hz(), Turns: fans[j].Turns}
	if low.Hz > high.Hz {
		low, high = high, low
	}
	f, g := quantity.Frequency(low.Hz), quantity.Frequency(high.Hz)
	b := view.Beat{Low: low, High: high, Beat: float64(acoustics.Beat(f, g)), Heard: acoustics.HowHeard(f, g)}
	b.OneSpeed = fans[i].Blades == fans[j].Blades && orderI == orderJ && high.Turns/low.Turns-1 <= oneSpeed
	b.Steady, b.Distinct = slowerThan(fans[low.Fan].Blades*float64(low.Order), high.Hz)
	return b
}

// slowerThan gives the speeds in 1/s at or below which a tone of so many to the
// turn no longer fluctuates with one of hz, and is heard apart from it.
func slowerThan(perTurn, hz float64) (steady, distinct float64) {
	together := hz / perTurn // the speed at which the two tones are one
	calm, _ := acoustics.SpeedsApart(perTurn, quantity.Speed(together))
	distinct = together
	for range 20 { // SpeedsApart asks for the slower speed, which is looked for; see there
		_, apart := acoustics.SpeedsApart(perTurn, quantity.Speed(distinct))
		distinct = max(0, together-float64(apart))
	}
	return max(0, together-float64(calm)), distinct
}
