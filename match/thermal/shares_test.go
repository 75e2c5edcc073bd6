package thermal

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestAirShare(t *testing.T) {
	// Air 24 to 33 °C past a sink at 58 °C; 90 W in 9.95 g/s.
	for _, row := range []struct {
		name string
		got  func() (Share, error)
		want float64
	}{
		{"rise, outlet", func() (Share, error) { return AirShare(9, 34, OutletAir) }, 9.0 / 34},
		{"rise, mean", func() (Share, error) { return AirShare(9, 34, MeanAir) }, 4.5 / 34},
		{"heat, outlet", func() (Share, error) { return AirShareOfHeat(90, 90/(1005.0*9), 34, OutletAir) }, 9.0 / 34},
		{"heat, mean", func() (Share, error) { return AirShareOfHeat(90, 90/(1005.0*9), 34, MeanAir) }, 4.5 / 34},
		{"no rise", func() (Share, error) { return AirShare(0, 34, OutletAir) }, 0},
		{"all of it", func() (Share, error) { return AirShare(34, 34, OutletAir) }, 1},
	} {
		s, err := row.got()
		low, high := s.Span()
		if err != nil || !s.Known() || low != high || math.Abs(low-row.want) > 1e-12 {
			t.Errorf("%s: %+v, %v, want exactly %g", row.name, s, err, row.want)
		}
	}
	var rise *AirRiseError
	if _, err := AirShare(20, 15, OutletAir); !errors.As(err, &rise) || !strings.Contains(err.Error(), "20 K") || !strings.Contains(err.Error(), "15 K") {
		t.Errorf("air warmer than the spot: %v", err)
	}
	if _, err := AirShare(20, 15, MeanAir); err != nil {
		t.Errorf("the mean is 10 K of 15: %v", err)
	}
	nan := math.NaN()
	for _, in := range [][3]float64{{nan, 0.01, 34}, {0, 0.01, 34}, {90, 0, 34}, {90, nan, 34}, {90, 0.01, 0}, {90, 0.01, nan}, {90, 0.01, -1}, {math.Inf(1), 0.01, 34}} {
		var input *InputError
		if _, err := AirShareOfHeat(in[0], in[1], in[2], OutletAir); !errors.As(err, &input) {
			t.Errorf("AirShareOfHeat%v: %v, want an *InputError", in, err)
		}
	}
}

func TestOutlet(t *testing.T) {
	check(t, "OutletTemperature", OutletTemperature(30, 90, 90/(1005.0*9)), 39, 1e-12, "heat balance")
	for _, in := range [][2]float64{{-1, 0.01}, {90, 0}, {90, -1}, {math.NaN(), 0.01}, {90, math.NaN()}} {
		if got := OutletRise(in[0], in[1]); !math.IsNaN(got) {
			t.Errorf("OutletRise%v = %g, want NaN", in, got)
		}
	}
}

// A contradiction is an error with its numbers; what is only assumed gives way.
func TestSharesMakeAWhole(t *testing.T) {
	s := amplifier()
	s.Shares = Shares{Air: Exactly(0.8), Solid: Exactly(0.3)}
	var contradiction *SharesError
	if _, err := New(s); !errors.As(err, &contradiction) || !strings.Contains(err.Error(), "0.8") || !strings.Contains(err.Error(), "0.3") || !strings.Contains(err.Error(), "1.1") {
		t.Errorf("air 0.8 and solid 0.3: %v", err)
	}
	for _, row := range []struct {
		name    string
		shares  Shares
		corners []Corner
	}{
		{"much air, solid unknown", Shares{Air: Exactly(0.8), Exponent: Exactly(0.5)},
			[]Corner{{0.8, 0.2, 0, 0.5}, {0.8, 0, 0.2, 0.5}}},
		{"much solid, air unknown", Shares{Solid: Exactly(0.95), Exponent: Exactly(0.5)},
			[]Corner{{0.05, 0, 0.95, 0.5}}},
		{"a corner cut off", Shares{Air: Between(0.2, 0.7), Solid: Between(0.1, 0.5), Exponent: Exactly(0.5)},
			[]Corner{{0.2, 0.7, 0.1, 0.5}, {0.2, 0.3, 0.5, 0.5}, {0.7, 0.2, 0.1, 0.5}, {0.7, 0, 0.3, 0.5}, {0.5, 0, 0.5, 0.5}}},
		{"both ends of the exponent", Shares{Air: Exactly(0.2), Solid: Exactly(0.1)},
			[]Corner{{0.2, 0.7, 0.1, 0.5}, {0.2, 0.7, 0.1, 0.8}}},
	} {
		s.Shares = row.shares
		got := model(t, s).Corners()
		ok := len(got) == len(row.corners)
		for i := range got {
			ok = ok && near(got[i], row.corners[i])
		}
		if !ok {
			t.Errorf("%s: corners %v, want %v", row.name, got, row.corners)
		}
	}
}

// What is assumed is named as it is used: cut to what the known share leaves.
func TestAssumedGivesWay(t *testing.T) {
	s := amplifier()
	s.Shares = Shares{Air: Exactly(0.8), Exponent: Exactly(0.5)}
	if got := strings.Join(model(t, s).Assumed(), "; "); got != "share of the solid part 0 to 0.2" {
		t.Errorf("air 0.8: assumed %q", got)
	}
	s.Shares = Shares{Solid: Exactly(0.5), Exponent: Exactly(0.5)}
	if got := strings.Join(model(t, s).Assumed(), "; "); got != "share of the air 0.1 to 0.5" {
		t.Errorf("solid 0.5: assumed %q", got)
	}
}

func TestSpotErrors(t *testing.T) {
	nan := math.NaN()
	for _, row := range []struct {
		name string
		edit func(*Spot)
		want string
	}{
		{"found", func(s *Spot) { s.Found = nan }, "temperature found in °C of NaN"},
		{"found, no number a thermometer shows", func(s *Spot) { s.Found = 1e9 }, "must be between -100 and 2000"},
		{"room", func(s *Spot) { s.Then.Ambient = nan }, "temperature of the room then in °C of NaN"},
		{"inlet", func(s *Spot) { s.Inlet = math.Inf(1) }, "temperature of the inlet then in °C of +Inf"},
		{"limit", func(s *Spot) { s.Limit = nan }, "limit in °C of NaN"},
		{"margin", func(s *Spot) { s.Margin = -1 }, "margin in K of -1: it must be zero or above"},
		{"heat", func(s *Spot) { s.Then.Heat = 0 }, "heat then in W of 0: it must be above zero"},
		{"cold spot", func(s *Spot) { s.Found = 23 }, `"heat sink" was found at 23 °C with air of 24 °C going in`},
		{"air", func(s *Spot) { s.Shares.Air = Exactly(1.2) }, "share of the air of 1.2: it must be from 0 to 1"},
		{"air, not a number", func(s *Spot) { s.Shares.Air = Between(nan, 1) }, "share of the air of NaN"},
		{"solid", func(s *Spot) { s.Shares.Solid = Exactly(1) }, "share of the solid part of 1: it must be from 0 to below 1"},
		{"exponent", func(s *Spot) { s.Shares.Exponent = Exactly(0.2) }, "exponent of the film of 0.2: it must be from 0.3 to 1"},
		{"turned span", func(s *Spot) { s.Shares.Air = Between(0.5, 0.2) }, "low end of the share of the air of 0.5: it must be at most its high end, 0.2"},
	} {
		s := amplifier()
		row.edit(&s)
		if _, err := New(s); err == nil || !strings.Contains(err.Error(), row.want) {
			t.Errorf("%s: %v, want %q", row.name, err, row.want)
		}
	}
	m := model(t, amplifier())
	for _, c := range []Conditions{{nan, 90}, {30, nan}, {30, 0}, {30, -1}, {-300, 90}, {30, math.Inf(1)}} {
		var input *InputError
		if _, err := m.Need(c); !errors.As(err, &input) {
			t.Errorf("Need(%v): %v, want an *InputError", c, err)
		}
		if _, err := m.Temperature(c, 1); !errors.As(err, &input) {
			t.Errorf("Temperature(%v, 1): %v, want an *InputError", c, err)
		}
	}
	for _, ratio := range []float64{0, -1, nan, math.Inf(1)} {
		if _, err := m.Temperature(Conditions{30, 90}, ratio); err == nil {
			t.Errorf("Temperature at the ratio %g gives no error", ratio)
		}
	}
}

// drawShares draws shares known, spanned or unknown, that do not contradict.
func drawShares(t *rapid.T) Shares {
	draw := func(name string, low, high float64) Share {
		a := rapid.Float64Range(low, high).Draw(t, name)
		switch rapid.IntRange(0, 2).Draw(t, name+" known") {
		case 0:
			return Share{}
		case 1:
			return Exactly(a)
		}
		return Between(a, rapid.Float64Range(a, high).Draw(t, name+" high"))
	}
	s := Shares{Air: draw("air", 0, 1), Exponent: draw("exponent", 0.3, 1)}
	s.Solid = draw("solid", 0, min(1-s.Air.low, 0.95))
	return s
}

// The corners are possible splits, their middle too, and no split within the
// spans is hotter or cooler than all corners.
func TestCornersBoundAllSplits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		full, _, err := drawShares(t).checked()
		if err != nil {
			t.Fatal(err)
		}
		corners := full.corners()
		for _, c := range append(corners, middle(corners)) {
			if !(c.Air >= 0 && c.Film >= 0 && c.Solid >= 0 && math.Abs(c.Air+c.Film+c.Solid-1) < 1e-8) {
				t.Fatalf("%v is no split (%+v)", c, full)
			}
		}
		ratio := math.Exp(rapid.Float64Range(-3, 3).Draw(t, "ln ratio"))
		low, high := math.Inf(1), math.Inf(-1)
		for _, c := range corners {
			low, high = min(low, c.factor(ratio)), max(high, c.factor(ratio))
		}
		within := func(name string, s Share) float64 { return rapid.Float64Range(s.low, s.high).Draw(t, name+" within") }
		c := Corner{Air: within("air", full.Air), Solid: within("solid", full.Solid), Exponent: within("exponent", full.Exponent)}
		if c.Film = 1 - c.Air - c.Solid; c.Film < 0 {
			t.Skip("no split")
		}
		if got := c.factor(ratio); got < low-1e-8*low || got > high+1e-8*high {
			t.Fatalf("%v at %g: %g, the corners have %g to %g (%+v)", c, ratio, got, low, high, full)
		}
		m := middle(corners)
		if got := m.factor(ratio); got < low-1e-9 || got > high+1e-9 {
			t.Fatalf("middle %v at %g: %g, the corners have %g to %g", m, ratio, got, low, high)
		}
	})
}
