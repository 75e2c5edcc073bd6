package resistance

import (
	"math"
	"testing"

	"lowsone/match/air"
	"lowsone/match/curve"
	"pgregory.net/rapid"
)

// truth is a device and a fan in it: what a perfect measurement would find.
type truth struct {
	fan    curve.Curve // as it runs, at its speed and in its air
	system curve.System
	x      curve.Crossing
}

// drawTruth draws a falling fan in a quadratic device, its working point at 15
// to 80 % of free delivery.
func drawTruth(t *rapid.T) truth {
	n := rapid.IntRange(2, 8).Draw(t, "knots")
	q, p := make([]float64, n), make([]float64, n)
	for i := 1; i < n; i++ {
		q[i] = q[i-1] + rapid.Float64Range(0.001, 0.01).Draw(t, "step")
		p[n-1-i] = p[n-i] + rapid.Float64Range(2, 40).Draw(t, "fall")
	}
	c, err := curve.New(q, p)
	if err != nil {
		t.Fatal(err)
	}
	q0, _ := c.FreeDelivery()
	at := rapid.Float64Range(0.15, 0.8).Draw(t, "share") * q0
	pressure, _ := c.At(at)
	s := curve.System{B: pressure / (at * at)}
	x, _, err := curve.Operate(c, s)
	if err != nil {
		t.Fatal(err)
	}
	return truth{c, s, x}
}

// finds asserts that an estimate is the truth.
func (w truth) finds(t *rapid.T, way string, e Estimate, err error) {
	near := func(a, b float64) bool { return math.Abs(a-b) <= 1e-6*math.Abs(b) }
	if err != nil || !near(e.Q, w.x.Q) || !near(e.P, w.x.P) || !near(e.System.B, w.system.B) || e.System.A != 0 {
		t.Fatalf("%s = %+v, %v; the truth is %+v in %+v", way, e, err, w.x, w.system)
	}
	if !e.Located || !(e.LowQ <= e.Q && e.Q <= e.HighQ && e.HighQ > 0) {
		t.Fatalf("%s: span %g … %g around %g", way, e.LowQ, e.HighQ, e.Q)
	}
}

func TestEveryWayFindsTheTruth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawTruth(t)
		q0, _ := w.fan.FreeDelivery()

		e, err := Share(w.fan, w.x.Q/q0)
		w.finds(t, "Share", e, err)
		e, err = Flow(w.fan, w.x.Q)
		w.finds(t, "Flow", e, err)
		e, err = Pressure(w.fan, w.x.P)
		w.finds(t, "Pressure", e, err)

		in := HeatInput{
			AirRise:    rapid.Float64Range(1, 40).Draw(t, "rise"),
			InletC:     rapid.Float64Range(-10, 50).Draw(t, "inlet"),
			InletKnown: true,
			Ambient:    rapid.Float64Range(60e3, 105e3).Draw(t, "ambient"), AmbientKnown: true,
			FanAt: rapid.SampledFrom([]Place{Inlet, Outlet}).Draw(t, "fan at"),
		}
		meets := in.InletC
		if in.FanAt == Outlet {
			meets += in.AirRise
		}
		rho := air.Density(meets, in.Ambient)
		in.Power = w.x.Q * rho * air.SpecificHeat * in.AirRise
		e, err = Heat(w.fan.AtDensity(1.2*1.2/rho), in) // the curve as a sheet would have it
		w.finds(t, "Heat", e, err)
	})
}

func TestPointsFindTheTruth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawTruth(t)
		unit := w.x.P / w.x.Q
		s := curve.System{A: unit * rapid.Float64Range(0, 1).Draw(t, "a"), B: unit / w.x.Q * rapid.Float64Range(0.01, 1).Draw(t, "b")}
		q := []float64{0.4 * w.x.Q, 0.7 * w.x.Q, w.x.Q}
		p := []float64{s.Loss(q[0]), s.Loss(q[1]), s.Loss(q[2])}
		e, err := Points(w.fan, q, p)
		if err != nil || math.Abs(e.System.A-s.A) > 1e-9*unit || math.Abs(e.System.B-s.B) > 1e-9*unit/w.x.Q {
			t.Fatalf("Points = %+v, %v; the truth is %+v", e, err, s)
		}
		x, _, err := curve.Operate(w.fan, s)
		if err != nil || math.Abs(e.Q-x.Q) > 1e-9*x.Q {
			t.Fatalf("Points = %+v; the working point is %+v, %v", e, x, err)
		}
	})
}

// The same heat seen by a fan at the outlet is more volume of thinner air.
func TestOutletFanMovesMoreVolume(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := HeatInput{Power: 40, AirRise: rapid.Float64Range(8, 60).Draw(t, "rise"), InletC: 25, InletKnown: true, AmbientKnown: true, Ambient: 101325}
		c, err := curve.New([]float64{0, 0.02}, []float64{60, 0})
		if err != nil {
			t.Fatal(err)
		}
		blows, err := Heat(c, in)
		in.FanAt = Outlet
		sucks, err2 := Heat(c, in)
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		ratio := (273.15 + 25 + in.AirRise) / (273.15 + 25)
		if math.Abs(sucks.Q/blows.Q-ratio) > 1e-9 || math.Abs(blows.Density/sucks.Density-ratio) > 1e-9 {
			t.Fatalf("%g K: %g and %g m³/s, %g and %g kg/m³; want the ratio %g", in.AirRise, blows.Q, sucks.Q, blows.Density, sucks.Density, ratio)
		}
	})
}

// Whatever is measured, the span holds the estimate and lies on the curve.
func TestSpanHoldsTheEstimate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawTruth(t)
		first, _ := w.fan.Knot(0)
		last, _ := w.fan.FreeDelivery()
		shut, _ := w.fan.ShutOff()
		share := rapid.Float64Range(0.01, 0.999).Draw(t, "share of the end")
		for _, way := range []struct {
			name string
			do   func() (Estimate, error)
		}{
			{"Share", func() (Estimate, error) { return Share(w.fan, share) }},
			{"Flow", func() (Estimate, error) { return Flow(w.fan, share*last) }},
			{"Pressure", func() (Estimate, error) { return Pressure(w.fan, 1.1*share*shut) }},
		} {
			e, err := way.do()
			if err != nil {
				t.Fatalf("%s: %v", way.name, err)
			}
			if !(first <= e.LowQ && e.LowQ <= e.Q && e.Q <= e.HighQ && e.HighQ <= last) {
				t.Fatalf("%s: %g … %g … %g on a curve from %g to %g", way.name, e.LowQ, e.Q, e.HighQ, first, last)
			}
			if p, _ := w.fan.At(e.Q); math.Abs(p-e.P) > 1e-9*shut || math.Abs(e.System.Loss(e.Q)-e.P) > 1e-9*shut {
				t.Fatalf("%s: %g Pa at %g m³/s; the fan gives %g, the device takes %g", way.name, e.P, e.Q, p, e.System.Loss(e.Q))
			}
			if e.OneSided && e.HighQ != last {
				t.Fatalf("%s: one-sided up to %g, not to %g", way.name, e.HighQ, last)
			}
		}
	})
}
