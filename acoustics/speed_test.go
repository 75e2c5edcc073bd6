package acoustics

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"lowsone/catalog/quantity"
)

// The law composes at and above half speed, falls with falling speed, and joins
// there; it is marked from there on down.
func TestSpeedLawShape(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.Float64Range(0.05, 1.5).Draw(t, "a"), rapid.Float64Range(0.05, 1.5).Draw(t, "b")
		la, extrapolated := AtSpeed(level(40), a)
		lb, _ := AtSpeed(level(40), b)
		if extrapolated != (a < 0.5) {
			t.Fatalf("AtSpeed(40, %v) extrapolated = %v", a, extrapolated)
		}
		if (a < b) != (la.DB() < lb.DB()) && a != b {
			t.Fatalf("AtSpeed(40, %v) = %v, AtSpeed(40, %v) = %v: not rising", a, la, b, lb)
		}
		k := float64(la.Above(lb)) / math.Log10(a/b)
		if a != b && math.Abs(math.Log10(a/b)) > 1e-6 && (k < 40-1e-6 || k > 50+1e-6) {
			t.Fatalf("between %v and %v the level goes as %v·lg r, want 40 to 50", a, b, k)
		}
		low, high := SpeedBand(level(40), a)
		if low.DB() > la.DB() || high.DB() < la.DB() {
			t.Fatalf("AtSpeed(40, %v) = %v lies outside its band %v to %v", a, la, low, high)
		}
	})
}

func TestSpeedOutsideRange(t *testing.T) {
	if l, _ := AtSpeed(level(40), 0); !math.IsInf(l.DB(), -1) {
		t.Errorf("AtSpeed(40, 0) = %v, want -Inf", l.DB())
	}
	if l, _ := AtSpeed(level(40), -1); !math.IsNaN(l.DB()) {
		t.Errorf("AtSpeed(40, -1) = %v, want NaN", l.DB())
	}
	at := func(r float64) float64 { l, _ := AtSpeed(level(40), r); return l.DB() }
	check(t, "AtSpeed(40, just under 0.5)", at(0.5-1e-12), at(0.5), 1e-9, "the law has no step")
	check(t, "AtSpeed(40, 1)", at(1), 40, 0, "no change")
	check(t, "AtSpeed(40, 0.25)", at(0.25), 40-15.0515-12.0412, 1e-4, "50·lg 0.5 + 40·lg 0.5, common practice")
}

func TestDensity(t *testing.T) {
	at := func(rho quantity.Density) float64 { return AtDensity(level(40), rho).DB() }
	check(t, "AtDensity(40, 1.2)", at(1.2), 40, 0, "no change")
	check(t, "AtDensity(40, 0.6)", at(0.6), 40-6.0206, 1e-4, "20·lg 0.5")
}

func TestUnderFloor(t *testing.T) {
	if !UnderFloor(level(9.99)) || UnderFloor(level(10)) {
		t.Error("UnderFloor must begin just below 10 dB(A)")
	}
}
