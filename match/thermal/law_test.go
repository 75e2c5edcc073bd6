package thermal

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func drawSpot(t *rapid.T) Spot {
	s := Spot{
		Name: "spot", InletKnown: true, MarginKnown: true,
		Then:   Conditions{rapid.Float64Range(10, 35).Draw(t, "room"), rapid.Float64Range(1, 1000).Draw(t, "heat")},
		Margin: rapid.Float64Range(0, 15).Draw(t, "margin"),
		Limit:  rapid.Float64Range(40, 150).Draw(t, "limit"),
		Shares: drawShares(t),
	}
	s.Inlet = s.Then.Ambient + rapid.Float64Range(-2, 10).Draw(t, "excess")
	s.Found = s.Inlet + rapid.Float64Range(1, 80).Draw(t, "rise")
	return s
}

func drawModel(t *rapid.T, s Spot) Model {
	m, err := New(s)
	if err != nil {
		t.Fatalf("%v (%+v)", err, s)
	}
	return m
}

func drawConditions(t *rapid.T, heat float64) Conditions {
	return Conditions{rapid.Float64Range(10, 50).Draw(t, "worst room"), heat * rapid.Float64Range(0.3, 3).Draw(t, "more heat")}
}

func TestMoreFlowIsNeverHotter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSpot(t)
		m, c := drawModel(t, s), drawConditions(t, s.Then.Heat)
		ratio := math.Exp(rapid.Float64Range(-4, 4).Draw(t, "ln ratio"))
		less, err := m.Temperature(c, ratio)
		more, err2 := m.Temperature(c, ratio*rapid.Float64Range(1, 10).Draw(t, "more"))
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		const tol = 1e-9
		if more.Low > less.Low+tol || more.Middle > less.Middle+tol || more.High > less.High+tol {
			t.Fatalf("more flow is hotter: %+v, then %+v", less, more)
		}
		if !(less.Low <= less.Middle+tol && less.Middle <= less.High+tol) {
			t.Fatalf("%+v is no band", less)
		}
		hotter, _ := m.Temperature(Conditions{c.Ambient + 5, c.Heat * 1.1}, ratio)
		if !(hotter.Low > less.Low && hotter.High > less.High) {
			t.Fatalf("a warmer room and more heat are not hotter: %+v, then %+v", less, hotter)
		}
	})
}

// At the conditions as found the spot is as hot as found, and if that is its
// limit less the margin it needs the present flow, in every corner.
func TestPresentConditionsNeedThePresentFlow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSpot(t)
		s.Limit = s.Found + s.Margin
		m := drawModel(t, s)
		b, err := m.Temperature(s.Then, 1)
		if err != nil || math.Abs(b.Low-s.Found) > 1e-9 || math.Abs(b.High-s.Found) > 1e-9 || math.Abs(b.Middle-s.Found) > 1e-7 {
			t.Fatalf("Temperature at the present flow = %+v, %v, want %g", b, err, s.Found)
		}
		for _, c := range m.Corners() {
			if c.Air+c.Film < 1e-3 {
				continue // nearly all solid: the flow counts for nothing, any will do
			}
			if mu := c.ratioFor(1); math.Abs(mu-1) > 1e-9 {
				t.Fatalf("%v needs %g of the present flow, want 1", c, mu)
			}
		}
	})
}

// At the needed flow the hottest corner stands at the limit less the margin.
func TestNeedAndTemperatureAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSpot(t)
		m, worst := drawModel(t, s), drawConditions(t, s.Then.Heat)
		n, err := m.Need(worst)
		if err != nil {
			t.Fatal(err)
		}
		if n.Reason != Enough {
			b, err := m.Temperature(worst, 1e9)
			if err != nil || b.High < s.Limit-s.Margin-1e-6 {
				t.Fatalf("no flow is enough (%s), but with a flow without end: %+v, %v", n.Why(), b, err)
			}
			return
		}
		b, err := m.Temperature(worst, n.Ratio)
		if want := s.Limit - s.Margin; err != nil || math.Abs(b.High-want) > 1e-7 {
			t.Fatalf("at %g of the flow: %+v, %v, want at most %g", n.Ratio, b, err, want)
		}
		if !(n.Least <= n.Ratio) {
			t.Fatalf("least need %g above the largest %g", n.Least, n.Ratio)
		}
		hotter, err := m.Need(Conditions{worst.Ambient + 1, worst.Heat})
		if err != nil || !(hotter.Ratio > n.Ratio) {
			t.Fatalf("a warmer room needs %g, not more than %g", hotter.Ratio, n.Ratio)
		}
	})
}

// The root against plain halving of the span.
func TestRatioForAgainstHalving(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := Corner{Air: rapid.Float64Range(0, 1).Draw(t, "air"), Exponent: rapid.Float64Range(0.3, 1).Draw(t, "exponent")}
		c.Solid = rapid.Float64Range(0, 1-c.Air).Draw(t, "solid")
		c.Film = max(1-c.Air-c.Solid, 0)
		allowed := c.Solid + math.Exp(rapid.Float64Range(-8, 5).Draw(t, "ln left"))
		got := c.ratioFor(allowed)
		if c.Air+c.Film < 1e-6 {
			t.Skip("all solid")
		}
		low, high := -60.0, 60.0
		for range 100 {
			if mid := (low + high) / 2; c.factor(math.Exp(mid)) > allowed {
				low = mid
			} else {
				high = mid
			}
		}
		// What is left above the solid part has lost digits to it.
		lost := 1e-15 * allowed / (allowed - c.Solid) / c.Exponent
		if want := math.Exp(low); math.Abs(got-want) > (1e-12+10*lost)*want {
			t.Fatalf("%v.ratioFor(%g) = %.17g, halving gives %.17g", c, allowed, got, want)
		}
	})
}

// Only ratios of heat and differences of temperature count.
func TestUnitsOfHeatAndZeroOfTemperatureDoNotCount(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSpot(t)
		worst := drawConditions(t, s.Then.Heat)
		a, err := drawModel(t, s).Need(worst)
		if err != nil {
			t.Fatal(err)
		}
		by := rapid.Float64Range(0.1, 10).Draw(t, "unit")
		s.Then.Heat, worst.Heat = s.Then.Heat*by, worst.Heat*by
		shift := rapid.Float64Range(-20, 20).Draw(t, "shift")
		s.Then.Ambient, s.Inlet, s.Found, s.Limit, worst.Ambient = s.Then.Ambient+shift, s.Inlet+shift, s.Found+shift, s.Limit+shift, worst.Ambient+shift
		b, err := drawModel(t, s).Need(worst)
		if err != nil {
			t.Fatal(err)
		}
		if a.Ratio < 1e6 && math.Abs(a.Ratio-b.Ratio) > 1e-4*a.Ratio {
			t.Fatalf("need %g, in other units %g", a.Ratio, b.Ratio)
		}
	})
}

// With all shares unknown: the two ends by the corners, the middle by air 0.35,
// film 0.5, solid 0.15, exponent 0.65.
func TestTemperatureBand(t *testing.T) {
	b, err := model(t, amplifier()).Temperature(Conditions{30, 180}, 0.8)
	if err != nil {
		t.Fatal(err)
	}
	at := func(air, film, solid, exponent float64) float64 {
		return 32 + 68*(air/0.8+film*math.Pow(0.8, -exponent)+solid)
	}
	check(t, "Low", b.Low, at(0.1, 0.6, 0.3, 0.5), 1e-9, "by hand")
	check(t, "Middle", b.Middle, at(0.35, 0.5, 0.15, 0.65), 1e-9, "by hand")
	check(t, "High", b.High, at(0.6, 0.4, 0, 0.8), 1e-9, "by hand")
	if !near(b.AtLow, Corner{0.1, 0.6, 0.3, 0.5}) || !near(b.AtHigh, Corner{0.6, 0.4, 0, 0.8}) {
		t.Errorf("low at %v, high at %v", b.AtLow, b.AtHigh)
	}
}

// Common practice, no source: a device of about 50 W, its hot spot at about 47 °C
// after 20 minutes in a room of 20 to 25 °C; a fan with somewhat less free-air
// flow cost about 5 K after the same time. Somewhat less is taken as 80 % of the
// mass flow: on a device of quadratic loss the flow goes with the free-air flow.
func TestBandHoldsAKnownSwap(t *testing.T) {
	for _, room := range []float64{20, 22.5, 25} {
		m := model(t, Spot{Name: "hot spot", Found: 47, Then: Conditions{room, 50}, Limit: 80})
		b, err := m.Temperature(Conditions{room, 50}, 0.80)
		if err != nil {
			t.Fatal(err)
		}
		if low, high := b.Low-47, b.High-47; !(low <= 5 && 5 <= high) {
			t.Errorf("room %g °C: 80 %% of the flow cost %.3g to %.3g K, want about 5 within (common practice)", room, low, high)
		}
	}
}
