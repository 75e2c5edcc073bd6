package thermal

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// A split drawn from what is unknown is possible, and needs no more flow and
// gets no hotter than the corners say.
func TestSplitLiesWithinTheCorners(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Spot{Name: "fins", Found: 58, Then: Conditions{Ambient: 24, Heat: 90}, Limit: 75}
		if rapid.Bool().Draw(t, "air known") {
			s.Shares.Air = Exactly(rapid.Float64Range(0, 1).Draw(t, "air"))
		}
		if rapid.Bool().Draw(t, "solid known") {
			s.Shares.Solid = Exactly(rapid.Float64Range(0, 0.9).Draw(t, "solid"))
		}
		m, err := New(s)
		if err != nil {
			return // contradicting shares are refused elsewhere
		}
		u := func(name string) float64 { return rapid.Float64Range(0, 1).Draw(t, name) }
		one := m.At(u("u air"), u("u solid"), u("u exponent"))
		c := one.corners[0]
		if sum := c.Air + c.Film + c.Solid; math.Abs(sum-1) > 1e-9 || c.Film < 0 {
			t.Fatalf("At gives %v, shares that add to %v", c, sum)
		}
		worst := Conditions{Ambient: rapid.Float64Range(20, 45).Draw(t, "ambient"), Heat: rapid.Float64Range(45, 130).Draw(t, "heat")}
		all, _ := m.Need(worst)
		single, _ := one.Need(worst)
		if single.Ratio > all.Ratio*(1+1e-9) || single.Ratio < all.Least*(1-1e-9) {
			t.Fatalf("At(%v): need %v outside %v to %v", c, single.Ratio, all.Least, all.Ratio)
		}
		ratio := rapid.Float64Range(0.3, 3).Draw(t, "ratio")
		band, _ := m.Temperature(worst, ratio)
		got, _ := one.Temperature(worst, ratio)
		if got.Middle < band.Low-1e-9 || got.Middle > band.High+1e-9 {
			t.Fatalf("At(%v): %v °C outside %v to %v", c, got.Middle, band.Low, band.High)
		}
	})
}

// Known shares that add to more than one by rounding alone are one split: that of
// the corners is that of At.
func TestSplitOfRoundedShares(t *testing.T) {
	for _, solid := range []Share{Exactly(9e-10), Between(9e-10, 0.2)} {
		m, err := New(Spot{Name: "fins", Found: 58, Then: Conditions{Ambient: 24, Heat: 90}, Limit: 75,
			Shares: Shares{Air: Exactly(1), Solid: solid, Exponent: Exactly(0.8)}})
		if err != nil {
			t.Fatal(err)
		}
		if one := m.At(1, 1, 1).corners[0]; len(m.corners) != 1 || m.corners[0] != one {
			t.Errorf("corners %v, At gives %v", m.corners, one)
		}
	}
}

func TestSplitKeepsWhatIsExact(t *testing.T) {
	m, err := New(Spot{Name: "fins", Found: 58, Then: Conditions{Ambient: 24, Heat: 90}, Limit: 75,
		Shares: Shares{Air: Exactly(0.25), Solid: Exactly(0.1)}})
	if err != nil {
		t.Fatal(err)
	}
	if air, solid, exponent := m.Exact(); !air || !solid || exponent {
		t.Errorf("Exact() = %v, %v, %v, want true, true, false", air, solid, exponent)
	}
	for _, u := range []float64{math.NaN(), -1, 0, 0.5, 1, 7} {
		if c := m.At(u, u, u).corners[0]; c.Air != 0.25 || c.Solid != 0.1 || c.Exponent < 0.5 || c.Exponent > 0.8 {
			t.Errorf("At(%v) = %v, want air 0.25, solid 0.1, exponent 0.5 to 0.8", u, c)
		}
	}
}
