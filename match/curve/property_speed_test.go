package curve

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// At every matched speed the fan meets the device at the needed flow, and it
// stays there just where Match says so.
func TestMatchedSpeedMovesTheNeed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, s := anyCurve(t, false), anySystem(t)
		need := rapid.Float64Range(0.0005, 0.1).Draw(t, "need")
		for _, m := range SpeedsFor(nil, c, s, need) {
			at := c.AtSpeed(m.Ratio)
			if g := surplusAt(t, at, s, need); math.Abs(g) > 1e-8*(1+s.Loss(need)) {
				t.Fatalf("%+v leaves %g Pa at the need of %g m³/s", m, g, need)
			}
			if !near(m.Ratio*m.X, need, 1e-12) {
				t.Fatalf("%+v: ratio times x is not %g", m, need)
			}
			for _, x := range Crossings(nil, at, s) {
				if near(x.Q, need, 1e-12) && x.Stable != m.Stable && !grazing(c, s, m, need) {
					t.Fatalf("%+v, but the crossing is %+v", m, x)
				}
			}
		}
	})
}

// grazing tells whether fan and device have nearly the same slope at a match,
// so that whether it is stable hangs on rounding.
func grazing(c Curve, s System, m Match, need float64) bool {
	left, right := c.slopes(m.X)
	limit := (s.A + 2*s.B*need) / m.Ratio
	return near(left, limit, 1e-6) || near(right, limit, 1e-6)
}

// Rival: bisection on the speed, with the working point solved at each.
func TestSpeedForEqualsBisection(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, s := fallingCurve(t), anySystem(t)
		q0, _ := c.FreeDelivery()
		need := q0 * rapid.Float64Range(0.05, 1.5).Draw(t, "share")
		m, n, err := SpeedFor(c, s, need)
		if err != nil || n != 1 || !m.Stable {
			t.Fatalf("SpeedFor = %+v, %d, %v; want one, stable", m, n, err)
		}
		low, high := 0.0, 1.0
		flow := func(r float64) float64 {
			x, _, err := Held(c, s, r)
			if err != nil {
				t.Fatal(err)
			}
			return x.Q
		}
		for flow(high) < need {
			high *= 2
		}
		for range 80 {
			if mid := (low + high) / 2; flow(mid) < need {
				low = mid
			} else {
				high = mid
			}
		}
		if !near(m.Ratio, high, 1e-9) {
			t.Fatalf("SpeedFor = %.12g, bisection %.12g", m.Ratio, high)
		}
	})
}

func TestMoreNeedTakesMoreSpeed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, s := fallingCurve(t), anySystem(t)
		need := rapid.Float64Range(0.0005, 0.1).Draw(t, "need")
		less, _, err := SpeedFor(c, s, need)
		more, _, err2 := SpeedFor(c, s, 1.01*need)
		if err != nil || err2 != nil || more.Ratio <= less.Ratio {
			t.Fatalf("%+v (%v) for %g, %+v (%v) for 1 %% more", less, err, need, more, err2)
		}
	})
}
