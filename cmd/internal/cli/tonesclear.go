package cli

import (
	"math"

	"lowsone/acoustics"
	"lowsone/catalog/quantity"
	"lowsone/cmd/internal/view"
	"lowsone/match"
)

// clearStep is how far apart speeds are tried, as a share, and leastSlowed how far
// below the one that ends a beat they go: slower fans hardly cool.
const clearStep, leastSlowed = 0.99, 0.5

// clearOthers moves the speeds that end a beat further down where they would put
// the fan beside a third one.
func clearOthers(b *view.Beat, fans []match.Turning) {
	steady, distinct := b.Steady, b.Distinct
	var steadyBounded, distinctBounded bool
	b.Steady, steadyBounded = clearSpeed(fans, b, steady, false)
	b.Distinct, distinctBounded = clearSpeed(fans, b, distinct, true)
	b.Bounded = steadyBounded || distinctBounded
	b.Crowded = steady > 0 && b.Steady == 0 || distinct > 0 && b.Distinct == 0
}

// clearSpeed gives the speed in 1/s at or below turns at which the fan with
// the lower tone meets no third one; 0 where there is none. It is bounded where it meets one further down.
func clearSpeed(fans []match.Turning, b *view.Beat, turns float64, distinct bool) (clear float64, bounded bool) {
	for s := turns; s > leastSlowed*turns; s *= clearStep {
		switch met := meets(fans, b, s, distinct); {
		case clear == 0 && !met:
			clear = s
		case clear > 0 && met:
			return clear, true
		}
	}
	return clear, false
}

// meets says whether that fan at a speed in 1/s is heard to beat with a third one,
// or may be; where the tones are to be distinct, to be rough with its blade tone too.
func meets(fans []match.Turning, b *view.Beat, turns float64, distinct bool) bool {
	tone := fans[b.Low.Fan].Blades * turns * (1 - 1e-6) // the limits themselves still beat
	for i := range fans {
		hz := fans[i].Hz()
		if i == b.Low.Fan || i == b.High.Fan || !(hz > 0) {
			continue
		}
		if !fans[i].Measured && math.Max(tone/hz, hz/tone)-1 <= unsureSpeed {
			return true
		}
		heard := acoustics.HowHeard(quantity.Frequency(tone), quantity.Frequency(hz))
		if swells(heard) || distinct && heard == acoustics.Rough {
			return true
		}
		for order := 2.0; order <= mostOrder; order++ {
			if swells(acoustics.HowHeard(quantity.Frequency(order*tone), quantity.Frequency(hz))) ||
				swells(acoustics.HowHeard(quantity.Frequency(tone), quantity.Frequency(order*hz))) {
				return true
			}
		}
	}
	return false
}

// swells says whether two tones swell, fluctuate, or would if a speed wandered.
func swells(h acoustics.Hearing) bool {
	return h == acoustics.AsOne || h == acoustics.Swelling || h == acoustics.Flutter
}
