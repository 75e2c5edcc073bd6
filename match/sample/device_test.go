package sample

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match"
	"lowsone/match/resistance"
)

func rankError(t *testing.T, req match.Request) error {
	t.Helper()
	_, err := Rank(context.Background(), catalog.ColumnsOf(fanOf(t, strong)), req, Options{})
	if err == nil {
		t.Fatal("no error")
	}
	return err
}

// width is that of the range of the present flow.
func width(t *testing.T, ways ...match.Way) float64 {
	t.Helper()
	req := requestFor(t, ways[0])
	if len(ways) > 1 {
		req.Path.Ways = ways
	}
	r := rankOf(t, req, Options{}, fanOf(t, strong))
	if r.Draws < 200 {
		t.Fatalf("%d draws", r.Draws)
	}
	return r.Now.High - r.Now.Low
}

// heatOf gives a heat balance that tells the flow in m³/h.
func heatOf(m3h float64) match.Way {
	w := match.Way{Method: resistance.ByHeat, Heat: match.Heat{AirRise: 9, Inlet: quantity.Stated(quantity.Celsius(20))}}
	w.Heat.Power = quantity.Power(m3h / 3600 * 1.2041 * 1005 * 9) // air of 20 °C: 1.2041 kg/m³
	return w
}

// Source: two measurements of one number with the variances v₁ and v₂ that agree
// leave 1/(1/v₁ + 1/v₂) (inverse variances add: any textbook of statistics).
func TestAgreeingWaysNarrow(t *testing.T) {
	heat, flow := heatOf(28), byFlow(28)
	byHeat, byFlow, both := width(t, heat), width(t, flow), width(t, heat, flow)
	check(t, "width by heat", byHeat/(28.0/3600), 0.4, 0.02, "±20 %")
	check(t, "width by flow", byFlow/(28.0/3600), 0.2, 0.01, "±10 %")
	want := 1 / math.Sqrt(1/(byHeat*byHeat)+1/(byFlow*byFlow))
	check(t, "width by both", both, want, 0.12*want, "inverse variances add; a draw of 256")
	if both >= byFlow {
		t.Errorf("two ways that agree leave %v, the better one alone %v", both, byFlow)
	}
}

// Ways that lie apart by less than they may be off meet between them.
func TestWaysMeetBetween(t *testing.T) {
	req := requestFor(t, heatOf(32))
	req.Path.Ways = []match.Way{heatOf(32), byFlow(27)}
	r := rankOf(t, req, Options{}, fanOf(t, strong))
	// Weighed by 1/(0.2·32)² and 1/(0.1·27)²: 27.8 m³/h.
	check(t, "present flow", r.Now.Middle*3600, 27.8, 0.6, "weighed mean")
}

func TestContradictingWays(t *testing.T) {
	req := requestFor(t, byFlow(14))
	req.Path.Ways = []match.Way{byFlow(14), heatOf(36)}
	var apart *ContradictionError
	if err := rankError(t, req); !errors.As(err, &apart) {
		t.Fatalf("error %v, want a *ContradictionError", err)
	}
	for _, part := range []string{"by flow", "by heat", "14 m³/h", "36 m³/h"} {
		if !strings.Contains(apart.Error(), part) {
			t.Errorf("%q does not name the pair with %q", apart.Error(), part)
		}
	}
	if apart.Why != nil || !strings.Contains(apart.Hint(), "measure one of the two again") {
		t.Errorf("%+v with the hint %q", apart, apart.Hint())
	}
}

// More flow than the fitted fan gives at all is refused, with both numbers.
func TestMoreThanFreeDelivery(t *testing.T) {
	var over *resistance.ContradictionError
	if err := rankError(t, requestFor(t, heatOf(80))); !errors.As(err, &over) {
		t.Errorf("error %v, want a *resistance.ContradictionError", err)
	}
}

// What is possible as given, but under hardly any draw, is refused as well, and
// what is possible under most is drawn without the rest.
func TestContradictingDraws(t *testing.T) {
	near := requestFor(t, heatOf(44))
	near.Path.SpeedNow = match.Speed{}
	r := rankOf(t, near, Options{}, fanOf(t, strong))
	if r.Dropped == 0 || r.Draws+r.Dropped != defaultDraws {
		t.Errorf("%d draws and %d dropped, want some dropped of %d", r.Draws, r.Dropped, defaultDraws)
	}
	if limit := 48 * 1.25 / 3600; r.Now.High > limit {
		t.Errorf("present flow up to %v m³/s, above what the fan can give", r.Now.High)
	}
	at := requestFor(t, match.Way{Method: resistance.ByPressure, Pressure: 132})
	at.Path.Fitted.StaticPressure = quantity.Stated(quantity.Pressure(120))
	at.Path.SpeedNow = match.Speed{}
	var contradiction *ContradictionError
	if err := rankError(t, at); !errors.As(err, &contradiction) {
		t.Fatalf("error %v, want a *ContradictionError", err)
	}
	if c := contradiction; c.Why == nil || c.Of != defaultDraws || c.Kept >= c.Of/4 || !strings.Contains(c.Error(), c.Why.Error()) || !strings.Contains(c.Hint(), "check the pressure and the fitted fan's label and speed; --nominal") {
		t.Errorf("%+v: %v (%v)", c, c, c.Hint())
	}
}

// Where the speed of the fitted fan was not measured, it is slower than its label,
// and so is all that follows.
func TestSpeedNotMeasured(t *testing.T) {
	way := match.Way{Method: resistance.ByShare, Share: 0.55}
	measured, not := requestFor(t, way), requestFor(t, way)
	not.Path.SpeedNow = match.Speed{}
	a, b := rankOf(t, measured, Options{}, fanOf(t, strong)), rankOf(t, not, Options{}, fanOf(t, strong))
	check(t, "middle of the present flow", b.Now.Middle/a.Now.Middle, 0.925, 0.02, "middle of 85 and 100 %")
	if !(b.Now.High < a.Now.High) {
		t.Errorf("up to %v m³/s unmeasured, %v measured", b.Now.High, a.Now.High)
	}
}

// A device of which points are known needs no fitted fan; what that moves is not
// known then, and no range of it is told.
func TestDeviceWithoutFittedFan(t *testing.T) {
	point := func(m3h, pa float64) catalog.CurvePoint {
		return catalog.CurvePoint{Flow: quantity.Flow(m3h) * quantity.CubicMetrePerHour, Pressure: quantity.Pressure(pa)}
	}
	req := requestFor(t, match.Way{Method: resistance.ByPoints, Points: []catalog.CurvePoint{point(10, 8), point(20, 30)}})
	req.Path.Fitted = fanOf(t, "part=OLD"+frame60)
	req.Path.SpeedNow = match.Speed{}
	req.Need.Flow = 20 * quantity.CubicMetrePerHour
	r := rankOf(t, req, Options{}, fanOf(t, strong))
	_, s := r.of(t, 0)
	if !math.IsNaN(r.Now.Middle) || !math.IsNaN(s.Quieter) {
		t.Errorf("present flow %+v, quieter %v; want neither known", r.Now, s.Quieter)
	}
	check(t, "loss at the need", r.Loss.Middle, 30, 0.5, "its second point")
	check(t, "half its range", (r.Loss.High-r.Loss.Low)/2, 3, 0.2, "±10 %")
	if s.Needed.Ratio.Low >= s.Needed.Ratio.High {
		t.Errorf("speed as needed %+v", s.Needed.Ratio)
	}
}
