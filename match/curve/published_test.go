package curve

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// Source: air_affinity.csv, whose rows name pump and fan data with published
// or computed values at a second speed, size or density. Units cancel, so the
// rows are taken in their own. Shaft power is not the matter of this package.
func TestAffinityLaws(t *testing.T) {
	for _, r := range records(t, "air_affinity.csv") {
		t.Run(r["id"], func(t *testing.T) {
			ratio := func(of string) float64 {
				return r.number(t, of+"2", 1) / r.number(t, of+"1", 1)
			}
			q1, p1 := r.number(t, "Q1", math.NaN()), r.number(t, "p1", math.NaN())
			c := View([]float64{q1}, []float64{p1}).AtSpeed(ratio("n")).AtSize(ratio("D")).AtDensity(1.2 * ratio("rho"))
			q, p := c.Knot(0)
			wantQ, wantP := r.number(t, "Q2", math.NaN()), r.number(t, "p2", math.NaN())
			tol := tolerance(t, r["tolerance"])
			call := fmt.Sprintf("(%g, %g) %s at %s", q1, p1, r["units"], r["id"])
			if !strings.HasPrefix(r["id"], "AF-HI") && !strings.HasPrefix(r["id"], "AF-PC") { // their flows are printed whole
				check(t, "flow of "+call, q, wantQ, tol(wantQ), r["source"])
			} else {
				check(t, "flow of "+call, q, wantQ, 0.5, r["source"])
			}
			check(t, "pressure of "+call, p, wantP, tol(wantP), r["source"])
		})
	}
}

// tolerance reads the cell of that name: a number, in per cent or relative
// where it says so.
func tolerance(t *testing.T, cell string) func(want float64) float64 {
	t.Helper()
	var x float64
	if _, err := fmt.Sscanf(cell, "%g", &x); err != nil {
		t.Fatalf("tolerance %q: %v", cell, err)
	}
	switch {
	case strings.Contains(cell, "% rel"):
		return func(want float64) float64 { return x / 100 * want }
	case strings.Contains(cell, "rel"):
		return func(want float64) float64 { return x * want }
	}
	return func(float64) float64 { return x }
}

// Source: Fox & McDonald, example 10.7: the shut-off head of 25 ft at 1170
// rpm becomes 55.9 ft at 1750 rpm (the book's rounding from MEMORY).
func TestAffinityOfShutOff(t *testing.T) {
	p, _ := View([]float64{0, 300}, []float64{25, 21.9}).AtSpeed(1750.0 / 1170).ShutOff()
	check(t, "25 ft at 1750/1170", p, 55.9, 0.05, "Fox & McDonald, example 10.7")
}

// operatingPoint returns the row of air_operating_points.csv with an id.
func operatingPoint(t *testing.T, id string) record {
	t.Helper()
	for _, r := range records(t, "air_operating_points.csv") {
		if r["id"] == id {
			return r
		}
	}
	t.Fatalf("no row %s", id)
	return nil
}

// duct is the fan of Çengel & Cimbala, example 14-1, in CFM and inches of
// water.
func duct(t *testing.T) Curve {
	return mustNew(t, []float64{0, 250, 500, 750, 1000, 1200}, []float64{0.90, 0.95, 0.90, 0.75, 0.40, 0})
}

// Source: Çengel & Cimbala, example 14-1, row OP-1: a duct of 9.06 in and 44 ft
// with hood, damper and elbows. The book reads 650 CFM and 0.83 inH₂O off a
// graph: 3 %.
func TestWorkingPointOfFanAndDuct(t *testing.T) {
	const (
		cfm    = 0.3048 * 0.3048 * 0.3048 / 60 // m³/s
		inH2O  = 249.089                       // Pa
		d      = 9.06 * 0.0254
		length = 44 * 0.3048
		rough  = 0.15e-3
		minor  = 1.05 + 1.3 + 1.8 + 5*0.21 // kinetic energy and fittings
		rho    = 1.184
		nu     = 1.562e-5
	)
	area := math.Pi / 4 * d * d
	reynolds := 650 * cfm / area * d / nu
	f := 0.02
	for range 20 { // Colebrook
		f = 1 / square(-2*math.Log10(rough/d/3.7+2.51/(reynolds*math.Sqrt(f))))
	}
	s := System{B: (f*length/d + minor) * rho / 2 / (area * area)}
	q, n, err := Operate(duct(t).Scaled(cfm, inH2O), s)
	if err != nil || n != 1 {
		t.Fatal(n, err)
	}
	source := operatingPoint(t, "OP-1")["source"]
	check(t, "flow in CFM", q.Q/cfm, 650, 0.03*650, source)
	check(t, "pressure in inH2O", q.P/inH2O, 0.83, 0.03*0.83, source)
	check(t, "flow in CFM", q.Q/cfm, 643.6, 0.005*643.6, "straight lines between the points, computed")
}

// Source: the same, row OP-2, with the system reduced to one number.
func TestWorkingPointOnQuadraticSystem(t *testing.T) {
	q, n, err := Operate(duct(t), System{B: 1.96450e-6})
	if err != nil || n != 1 {
		t.Fatal(n, err)
	}
	check(t, "flow in CFM", q.Q, 643.6, 0.005*643.6, operatingPoint(t, "OP-2")["source"])
}

// Source: Munson, Young & Okiishi, example 12.4, row OP-3: 1600 gpm and 66.5 ft
// (the answer from MEMORY). A static head is no part of a System; taken off
// the curve it gives the same crossing.
func TestWorkingPointWithStaticHead(t *testing.T) {
	const (
		static = 10.0
		gpm    = 0.002228009 // ft³/s
	)
	head := []float64{88, 86, 81, 70, 60, 46, 40}
	for i := range head {
		head[i] -= static
	}
	c := mustNew(t, []float64{0, 400, 800, 1400, 1800, 2200, 2300}, head)
	q, n, err := Operate(c, System{B: 4.4304 * gpm * gpm})
	if err != nil || n != 1 {
		t.Fatal(n, err)
	}
	source := operatingPoint(t, "OP-3")["source"]
	check(t, "flow in gpm", q.Q, 1600, 0.015*1600, source)
	check(t, "head in ft", q.P+static, 66.5, 0.02*66.5, source+"; read off a graph: 2 %")
	check(t, "flow in gpm", q.Q, 1586.3, 0.05, "straight lines between the points, computed")
	check(t, "head in ft", q.P+static, 65.34, 0.005, "straight lines between the points, computed")
}

// Source: rows OP-4 and OP-5, a published problem with one pump and with two in
// parallel: h = 20 − 0.08·Q², system 15 + 0.03·Q².
func TestWorkingPointOfOneAndOfTwoInParallel(t *testing.T) {
	var q, h []float64
	const static = 15
	for i := range 401 { // straight lines this short are off by 2e-6 of 20
		x := float64(i) / 400 * math.Sqrt((20-static)/0.08)
		q, h = append(q, x), append(h, max(20-0.08*x*x-static, 0))
	}
	one := mustNew(t, q, h)
	x, n, err := Operate(one, System{B: 0.03})
	if err != nil || n != 1 {
		t.Fatal(n, err)
	}
	check(t, "flow of one", x.Q, 6.74, 0.005, operatingPoint(t, "OP-4")["source"])
	two, err := Parallel(one, one)
	if err != nil {
		t.Fatal(err)
	}
	if x, n, err = Operate(two, System{B: 0.03}); err != nil || n != 1 {
		t.Fatal(n, err)
	}
	check(t, "flow of two", x.Q, 10, 0.005, operatingPoint(t, "OP-5")["source"])
}

// Source: row OP-9, an application note: a device that costs 0.04 inH₂O at 70
// CFM meets the fan at 92 CFM and 0.07 inH₂O.
func TestQuadraticSystemThroughOnePoint(t *testing.T) {
	s := System{B: 0.04 / (70 * 70)}
	check(t, "loss at 92 CFM", s.Loss(92), 0.07, 0.02*0.07, operatingPoint(t, "OP-9")["source"])
	if loss := s.Loss(70); loss >= 0.14 {
		t.Errorf("Loss(70) = %g, want less than the 0.14 the fan gives there", loss)
	}
}
