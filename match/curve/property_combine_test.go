package curve

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Two equal fans are one fan in a device of a different resistance: side by
// side each moves half, one behind the other each gives half.
func TestTwoEqualFans(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, s := fallingCurve(t), anySystem(t)
		side, err := Parallel(c, c)
		if err != nil {
			t.Fatal(err)
		}
		x, _, err := Operate(side, s)
		y, _, err2 := Operate(c, System{A: 2 * s.A, B: 4 * s.B})
		if err != nil || err2 != nil || !near(x.Q, 2*y.Q, 1e-9) {
			t.Fatalf("in parallel %+v (%v), one alone %+v (%v)", x, err, y, err2)
		}
		row, err := Series(c, c)
		if err != nil {
			t.Fatal(err)
		}
		x, _, err = Operate(row, s)
		y, _, err2 = Operate(c, System{A: s.A / 2, B: s.B / 2})
		if err != nil || err2 != nil || !near(x.Q, y.Q, 1e-9) {
			t.Fatalf("in series %+v (%v), one alone %+v (%v)", x, err, y, err2)
		}
	})
}

// Flows add at equal pressure and pressures at equal flow, anywhere on the
// combined curve.
func TestCombinedCurvesAdd(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := fallingCurve(t), fallingCurve(t)
		share := rapid.Float64Range(0, 1).Draw(t, "share")
		side, err := Parallel(a, b)
		if err != nil {
			t.Fatal(err)
		}
		top, _ := side.ShutOff()
		pa, _ := a.ShutOff()
		pb, _ := b.ShutOff()
		if top != min(pa, pb) {
			t.Fatalf("in parallel up to %g Pa; the fans reach %g and %g", top, pa, pb)
		}
		p := share * top
		if q := flowOf(a, p) + flowOf(b, p); math.Abs(flowOf(side, p)-q) > 1e-9*q {
			t.Fatalf("in parallel %g m³/s at %g Pa, want %g", flowOf(side, p), p, q)
		}
		row, err := Series(a, b)
		if err != nil {
			t.Fatal(err)
		}
		end, _ := row.FreeDelivery()
		q := share * end
		ya, _ := a.At(q)
		yb, _ := b.At(q)
		if got, ok := row.At(q); !ok || !near(got, ya+yb, 1e-9) {
			t.Fatalf("in series %g Pa at %g m³/s, want %g", got, q, ya+yb)
		}
	})
}

// flowOf returns the flow at which a falling curve gives p, by bisection.
func flowOf(c Curve, p float64) float64 {
	low, _ := c.Knot(0)
	high, _ := c.Knot(c.Len() - 1)
	for range 100 {
		mid := (low + high) / 2
		if y, _ := c.At(mid); y > p {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}

// Whatever the two curves, a combination is a curve within what both know.
func TestCombiningAnyCurves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := anyCurve(t, false), anyCurve(t, false)
		if c, err := Parallel(a, b); err == nil {
			for i := 1; i < c.Len(); i++ {
				_, before := c.Knot(i - 1)
				if _, p := c.Knot(i); p > before {
					t.Fatalf("in parallel the pressure rises at knot %d: %v", i, knots(c))
				}
			}
		}
		if c, err := Series(a, b); err == nil {
			for i := range c.Len() {
				q, p := c.Knot(i)
				pa, _ := a.At(q)
				pb, _ := b.At(q)
				if math.Abs(p-pa-pb) > 1e-6 {
					t.Fatalf("in series %g Pa at %g m³/s, want %g", p, q, pa+pb)
				}
			}
		}
	})
}
