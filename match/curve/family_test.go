package curve

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// allKinds are the three kinds with a family.
var allKinds = []struct {
	name   string
	shapes Shapes
}{{"axial", Axial()}, {"centrifugal", Centrifugal()}, {"mixed", Mixed()}}

// rounding is what straight lines between equal pressures cost.
const rounding = 1e-12

func TestLargerShareNeverGivesLessFlow(t *testing.T) {
	for _, kind := range allKinds {
		for i := 1; i < familySize; i++ {
			less, more := &kind.shapes.family[i-1], &kind.shapes.family[i]
			apart := false
			for j := -200; j <= 200; j++ {
				k := math.Exp(float64(j) / 20)
				x, y := meets(t, TwoEnded(less, 1, 1), k), meets(t, TwoEnded(more, 1, 1), k)
				if y < x-rounding {
					t.Fatalf("%s: member %d crosses %g·Q² at %g, member %d at %g", kind.name, i-1, k, x, i, y)
				}
				apart = apart || y > x+1e-4
			}
			if !apart {
				t.Errorf("%s: members %d and %d are one", kind.name, i-1, i)
			}
		}
	}
}

// The same on any system, with shares as they are drawn.
func TestLargerShareNeverGivesLessFlowOnAnySystem(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom(allKinds).Draw(t, "kind").shapes
		u, v := rapid.Float64Range(0, 1).Draw(t, "u"), rapid.Float64Range(0, 1).Draw(t, "v")
		device := anySystem(t)
		x, _, errX := Operate(TwoEnded(s.At(min(u, v)), 0.02, 50), device)
		y, _, errY := Operate(TwoEnded(s.At(max(u, v)), 0.02, 50), device)
		if errX != nil || errY != nil || y.Q < x.Q*(1-rounding) {
			t.Fatalf("%+v: flow %g m³/s (%v) at the smaller share, %g (%v) at the larger", device, x.Q, errX, y.Q, errY)
		}
	})
}

// A member falls from shut-off, or rises to one hump of at most 6 % and falls
// from there: the least rise after a fall would be a dip no one published.
func TestMembersAreCurves(t *testing.T) {
	for _, kind := range allKinds {
		for i := range familySize {
			m := &kind.shapes.family[i]
			if _, err := New(m.q[:], m.p[:]); err != nil {
				t.Errorf("%s, member %d: %v", kind.name, i, err)
			}
			if m.q[0] != 0 || m.p[0] != 1 || m.q[shapeKnots-1] != 1 || m.p[shapeKnots-1] != 0 {
				t.Errorf("%s, member %d: from (%g, %g) to (%g, %g)", kind.name, i, m.q[0], m.p[0], m.q[shapeKnots-1], m.p[shapeKnots-1])
			}
			fallen := false
			for j := 1; j < shapeKnots; j++ {
				rise := m.p[j] - m.p[j-1]
				if fallen && rise > rounding || m.p[j] > peakAboveShutOff+rounding || i <= familyMiddle && rise > rounding {
					t.Errorf("%s, member %d: %g after %g at knot %d", kind.name, i, m.p[j], m.p[j-1], j)
				}
				fallen = fallen || rise < -rounding
			}
		}
	}
}

// Shares drawn evenly draw every member equally often.
func TestSharesAreEven(t *testing.T) {
	const each = 100
	count := map[*Shape]int{}
	s := Axial()
	for i := range familySize * each {
		count[s.At((float64(i)+0.5)/(familySize*each))]++
	}
	for i := range familySize {
		if n := count[&s.family[i]]; n != each {
			t.Errorf("member %d is drawn %d times, want %d", i, n, each)
		}
	}
}

func TestShareOutside(t *testing.T) {
	s := Centrifugal()
	for _, row := range []struct {
		u    float64
		want *Shape
	}{
		{math.Inf(-1), &s.family[0]}, {-0.1, &s.family[0]}, {0, &s.family[0]},
		{0.5, &s.family[familyMiddle]}, {math.Nextafter(1, 0), &s.family[familySize-1]},
		{1, &s.family[familySize-1]}, {2, &s.family[familySize-1]}, {math.Inf(1), &s.family[familySize-1]},
		{math.NaN(), nil},
	} {
		if got := s.At(row.u); got != row.want {
			t.Errorf("At(%g) = %p, want %p", row.u, got, row.want)
		}
	}
	if (Shapes{}).At(0.5) != nil {
		t.Error("no shapes have a middle one")
	}
	if n := TwoEnded(s.At(math.NaN()), 0.02, 50).Len(); n != 0 {
		t.Errorf("TwoEnded without a shape has %d knots, want none", n)
	}
}

func TestDrawingAllocatesNothing(t *testing.T) {
	device := System{A: 500, B: 2e5}
	n := testing.AllocsPerRun(100, func() {
		for i := range familySize {
			c := TwoEnded(Mixed().At(shareOf(i)), 0.02, 50)
			if _, _, err := Operate(c, device); err != nil {
				t.Fatal(err)
			}
		}
	})
	if n != 0 {
		t.Errorf("%g allocations, want none", n)
	}
}
