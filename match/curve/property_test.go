package curve

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// anyCurve draws a curve with humps, dips, level stretches and zeros, of the
// size of small fans. It begins at no flow where fromZero is set.
func anyCurve(t *rapid.T, fromZero bool) Curve {
	n := rapid.IntRange(2, 12).Draw(t, "knots")
	q, p := make([]float64, n), make([]float64, n)
	if !fromZero && rapid.Bool().Draw(t, "begins later") {
		q[0] = rapid.Float64Range(0.001, 0.02).Draw(t, "first flow")
	}
	for i := range q {
		if i > 0 {
			q[i] = q[i-1] + rapid.Float64Range(0.0005, 0.01).Draw(t, "step")
		}
		p[i] = rapid.OneOf(rapid.Float64Range(0, 200), rapid.SampledFrom([]float64{0, 25, 50, 100})).Draw(t, "pressure")
	}
	p[0] = max(p[0], 1)
	return mustNewRapid(t, q, p)
}

// fallingCurve draws a curve that falls from shut-off to free delivery.
func fallingCurve(t *rapid.T) Curve {
	n := rapid.IntRange(2, 12).Draw(t, "knots")
	q, p := make([]float64, n), make([]float64, n)
	for i := 1; i < n; i++ {
		q[i] = q[i-1] + rapid.Float64Range(0.0005, 0.01).Draw(t, "step")
		p[n-1-i] = p[n-i] + rapid.Float64Range(0.5, 40).Draw(t, "fall")
	}
	return mustNewRapid(t, q, p)
}

func mustNewRapid(t *rapid.T, q, p []float64) Curve {
	c, err := New(q, p)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// anySystem draws a system that costs something like what small fans give.
func anySystem(t *rapid.T) System {
	a := rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(1, 2e4)).Draw(t, "a")
	b := rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(100, 2e6)).Draw(t, "b")
	return System{A: a, B: b}
}

// surplusAt returns what the fan gives less what the device takes.
func surplusAt(t *rapid.T, c Curve, s System, q float64) float64 {
	p, ok := c.At(q)
	if !ok {
		t.Fatalf("no curve at %g", q)
	}
	return p - s.Loss(q)
}

// near tells whether two numbers agree to a relative tolerance.
func near(a, b, tol float64) bool { return math.Abs(a-b) <= tol*max(math.Abs(a), math.Abs(b)) }

func TestCrossingsSatisfyBothAndMissNone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, s := anyCurve(t, false), anySystem(t)
		all := Crossings(nil, c, s)
		for i, x := range all {
			if p, ok := c.At(x.Q); !ok || !near(p, x.P, 1e-9) || math.Abs(x.P-s.Loss(x.Q)) > 1e-9*(x.P+s.Loss(x.Q))+1e-12 {
				t.Fatalf("%+v: fan %g, device %g", x, p, s.Loss(x.Q))
			}
			if i > 0 && x.Q <= all[i-1].Q {
				t.Fatalf("flows do not rise: %+v", all)
			}
		}
		sameAsGrid(t, c, s, all)
	})
}

// sameAsGrid compares crossings with the changes of sign on a dense grid: in
// each step of the grid whose ends differ in sign lies an odd number of
// crossings that pass through, else an even one. Touches pass on neither side.
func sameAsGrid(t *rapid.T, c Curve, s System, all []Crossing) {
	const steps = 200
	for k := 1; k < c.Len(); k++ {
		q0, _ := c.Knot(k - 1)
		q1, _ := c.Knot(k)
		left, gl := q0, surplusAt(t, c, s, q0)
		for j := 1; j <= steps; j++ {
			right := q0 + (q1-q0)*float64(j)/steps
			gr := surplusAt(t, c, s, right)
			const small = 1e-7 // too near to zero to have a sure sign
			if math.Abs(gl) > small && math.Abs(gr) > small {
				if (gl > 0) != (gr > 0) != (passing(t, c, s, all, left, right)%2 == 1) {
					t.Fatalf("sign %+.3g at %g, %+.3g at %g; crossings %+v", gl, left, gr, right, all)
				}
			}
			left, gl = right, gr
		}
	}
}

// passing counts the crossings between two flows; a touch counts twice.
func passing(t *rapid.T, c Curve, s System, all []Crossing, left, right float64) (n int) {
	for _, x := range all {
		if x.Q <= left || x.Q > right {
			continue
		}
		n++
		h := (right - left) * 1e-4
		if x.Q-h > left && x.Q+h < right && !x.Stable && surplusAt(t, c, s, x.Q-h) < 0 == (surplusAt(t, c, s, x.Q+h) < 0) {
			n++
		}
	}
	return n
}

func TestStableMeansFromAboveToBelow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, s := anyCurve(t, false), anySystem(t)
		all := Crossings(nil, c, s)
		for i, x := range all {
			room := x.Q
			if i > 0 {
				room = min(room, x.Q-all[i-1].Q)
			}
			if i+1 < len(all) {
				room = min(room, all[i+1].Q-x.Q)
			}
			left, right := x.Q-room*1e-3, x.Q+room*1e-3
			if _, ok := c.At(left); !ok {
				continue
			}
			if _, ok := c.At(right); !ok {
				continue
			}
			gl, gr := surplusAt(t, c, s, left), surplusAt(t, c, s, right)
			if math.Abs(gl) < 1e-7 || math.Abs(gr) < 1e-7 {
				continue
			}
			if x.Stable != (gl > 0 && gr < 0) {
				t.Fatalf("%+v: surplus %g before, %g after", x, gl, gr)
			}
		}
	})
}

func TestMoreResistanceNeverGivesMoreFlow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, s := anyCurve(t, true), anySystem(t)
		more := System{
			A: s.A + rapid.Float64Range(0, 1e4).Draw(t, "more a"),
			B: s.B + rapid.Float64Range(0, 1e6).Draw(t, "more b"),
		}
		x, _, err := Operate(c, s)
		if err != nil {
			return // beyond the high-flow end: no flow to compare with
		}
		y, _, err := Operate(c, more)
		if err != nil {
			t.Fatalf("a working point at %+v, none with more resistance: %v", s, err)
		}
		if y.Q > x.Q*(1+1e-9) {
			t.Fatalf("%g m³/s at %+v, %g at %+v", x.Q, s, y.Q, more)
		}
	})
}

func TestOperateIsTheLowestStableCrossing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, s := anyCurve(t, false), anySystem(t)
		x, stable, err := Operate(c, s)
		var want []Crossing
		for _, y := range Crossings(nil, c, s) {
			if y.Stable {
				want = append(want, y)
			}
		}
		if (err == nil) != (len(want) > 0) || stable != len(want) || err == nil && x != want[0] {
			t.Fatalf("Operate = %+v, %d, %v; the stable crossings are %+v", x, stable, err, want)
		}
	})
}

// On a purely quadratic device Q ∝ r and p ∝ r², crossing by crossing.
func TestFanLawsOnQuadraticSystem(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCurve(t, false)
		s := System{B: rapid.Float64Range(100, 2e6).Draw(t, "b")}
		r := rapid.Float64Range(0.2, 3).Draw(t, "r")
		before, after := Crossings(nil, c, s), Crossings(nil, c.AtSpeed(r), s)
		if len(before) != len(after) {
			t.Fatalf("%d crossings, %d at %g times the speed", len(before), len(after), r)
		}
		for i, x := range before {
			y := after[i]
			if !near(y.Q, r*x.Q, 1e-6) || math.Abs(y.P-r*r*x.P) > 1e-6*r*r*x.P+1e-9 || x.Stable != y.Stable {
				t.Fatalf("%+v became %+v at %g times the speed", x, y, r)
			}
		}
	})
}

// b ∝ ρ: in thinner air the same device has the same flow at less pressure.
func TestDensityLeavesTheFlowOnQuadraticSystem(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, rho := fallingCurve(t), rapid.Float64Range(0.5, 1.4).Draw(t, "rho")
		b := rapid.Float64Range(100, 2e6).Draw(t, "b")
		x, _, err := Operate(c, System{B: b})
		y, _, err2 := Operate(c.AtDensity(rho), System{B: b * rho / 1.2})
		if err != nil || err2 != nil || !near(x.Q, y.Q, 1e-9) || math.Abs(y.P-x.P*rho/1.2) > 1e-9*(1+x.P) {
			t.Fatalf("%+v (%v) became %+v (%v) at %g kg/m³", x, err, y, err2, rho)
		}
	})
}

func TestScalingComposes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCurve(t, false)
		r1, r2 := rapid.Float64Range(0.2, 3).Draw(t, "r1"), rapid.Float64Range(0.2, 3).Draw(t, "r2")
		one, two := c.AtSpeed(r1*r2), c.AtSpeed(r1).AtSpeed(r2)
		for i := range c.Len() {
			q1, p1 := one.Knot(i)
			q2, p2 := two.Knot(i)
			if !near(q1, q2, 1e-14) || !near(p1, p2, 1e-14) {
				t.Fatalf("knot %d: (%g, %g) and (%g, %g)", i, q1, p1, q2, p2)
			}
		}
	})
}

func TestStalledIsLeftOfTheDip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCurve(t, false)
		d, ok := c.Dip()
		if !ok {
			return
		}
		valley, _ := c.At(d.Valley)
		peak, _ := c.At(d.Peak)
		if d.Valley >= d.Peak || peak <= valley || !c.Stalled(d.Valley) || !c.Stalled(d.Peak) {
			t.Fatalf("dip %+v: %g Pa in the valley, %g on the peak", d, valley, peak)
		}
	})
}
