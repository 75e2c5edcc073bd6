package resistance

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"lowsone/match/curve"
)

// built returns an element or ends the test.
func built(t testing.TB) func(e Element, err error) Element {
	return func(e Element, err error) Element {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return e
	}
}

// printed returns a published number and half a unit of its last digit.
func printed(t *testing.T, text string) (value, half float64) {
	t.Helper()
	value, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	_, decimals, _ := strings.Cut(text, ".")
	return value, 0.5 * math.Pow10(-len(decimals)) * (1 + 1e-9)
}

// elementOf builds the element of a row of air_loss_coefficients.csv, with the
// flow at which the row holds.
func elementOf(t *testing.T, element, parameter string) (e Element, q float64, known bool) {
	t.Helper()
	const area, side = 0.01, 0.1
	make, in := built(t), StandardAir()
	ratio, _ := strconv.ParseFloat(parameter[strings.LastIndex(parameter, " ")+1:], 64) // 0 where there is none
	switch {
	case strings.HasPrefix(element, "thin square-edge perforated plate"):
		return make(Grille("plate", area, ratio, SharpEdge)), 0.02, true
	case element == "rounded-edge grille":
		return make(Grille("bars", area, ratio, RoundedEdge)), 0.02, true
	case strings.HasPrefix(element, "round-wire screen"):
		var re, open float64
		if _, err := fmt.Sscanf(parameter, "Re %g, a=%g", &re, &open); err != nil {
			t.Fatal(err)
		}
		const gap = 0.5e-3
		return make(Screen("wire", area, open, gap)), re * in.Viscosity / in.Density / gap * open * area, true
	case element == "sudden expansion d/D":
		return make(Expansion("wider", area*ratio*ratio, area)), 0.02, true
	case element == "sharp contraction d/D (Rennels)":
		return make(Contraction("narrower", area, area*ratio*ratio)), 0.02, true
	case element == "sharp entrance":
		return make(Entrance("in", area)), 0.02, true
	case element == "exit":
		return make(Exit("out", area)), 0.02, true
	case element == "90 deg mitre":
		return make(Mitre("corner", area, 90)), 0.02, true
	case strings.HasPrefix(element, "90 deg bend r/D"):
		radius, _ := strconv.ParseFloat(element[len(element)-1:], 64)
		return make(Bend("bend", area, 90, radius, 0.02)), 0.02, true
	}
	return Element{}, 0, false
}

// Source: air_loss_coefficients.csv, every row: K on the velocity that the row
// names, at the printed digits. The two rows that are no single K are held
// against below.
func TestLossCoefficients(t *testing.T) {
	others := map[string]bool{"fan duct example components": true, "Darcy-Forchheimer via Ergun": true}
	in := StandardAir()
	seen := 0
	for _, r := range table(t, "air_loss_coefficients.csv") {
		e, q, known := elementOf(t, r[0], r[1])
		if !known {
			if !others[r[0]] {
				t.Errorf("row %q, %q is not tested", r[0], r[1])
			}
			continue
		}
		seen++
		want, half := printed(t, r[2])
		k, ok := e.Coefficient(q, in)
		if !ok {
			t.Fatalf("%q has no coefficient", r[0])
		}
		check(t, fmt.Sprintf("K of %s, %s", r[0], r[1]), k, want, half, r[4])
		if r[3] != "" && !sameVelocity(r[3], e.Velocity) {
			t.Errorf("%s is on the velocity %q, in the source it is the %s", r[0], e.Velocity, r[3])
		}
	}
	if seen < 35 {
		t.Errorf("%d rows held against, want 35 or more", seen)
	}
}

// Source: Blevins, Applied Fluid Dynamics Handbook, 1984, the whole of both
// tables as an open fluids library has them (read there; the points not in
// air_loss_coefficients.csv).
func TestFurtherPointsOfGrilles(t *testing.T) {
	for _, test := range []struct {
		free, want float64
		edge       Edge
	}{
		{0.15, 85, SharpEdge}, {0.30, 17, SharpEdge}, {0.45, 5.5, SharpEdge}, {0.60, 2, SharpEdge}, {0.75, 0.78, SharpEdge},
		{0.90, 0.08, SharpEdge}, {0.5, 0.6, RoundedEdge},
	} {
		k, _ := built(t)(Grille("grille", 0.01, test.free, test.edge)).Coefficient(0.02, StandardAir())
		check(t, fmt.Sprintf("K of a grille of %g", test.free), k, test.want, 1e-9, blevins)
	}
}

// sameVelocity compares the reference velocity of the source with ours.
func sameVelocity(source, ours string) bool {
	return map[string]string{"approach velocity": ahead, "small-pipe velocity": smallOne, "pipe velocity": duct}[source] == ours
}

// Source: the same, Ergun's equation of a packed bed as a·Q + b·Q² in water-like
// fluid: 1338.8671875 Pa.
func TestFilterOfErgun(t *testing.T) {
	for _, r := range table(t, "air_loss_coefficients.csv") {
		if r[0] != "Darcy-Forchheimer via Ergun" {
			continue
		}
		const d, e, v, rho, mu, length, area = 0.8e-3, 0.4, 1e-3, 1000, 1e-3, 1.0, 0.02
		bed := curve.System{
			A: 150 * mu * (1 - e) * (1 - e) / (e * e * e * d * d) * length / area,
			B: 1.75 * rho * (1 - e) / (e * e * e * d) * length / (area * area),
		}
		water := Air{Density: rho, Viscosity: mu}
		f := built(t)(Filter("bed", bed, water))
		want, half := printed(t, r[2])
		check(t, "Loss of a packed bed", f.Loss(v*area, water), want, half, r[4])
		// In other air the two parts go with viscosity and density.
		check(t, "Loss in thinner fluid", f.Loss(v*area, Air{Density: rho / 2, Viscosity: mu * 3}),
			3*bed.A*v*area+bed.B/2*v*area*v*area, 1e-9*want, "a goes with μ, b with ρ")
		return
	}
	t.Error("no row of Ergun")
}

// Source: Çengel & Cimbala, example 14-1, rows OP-1 of air_operating_points.csv
// and the fan duct example of air_loss_coefficients.csv: hood, damper and five
// elbows on a duct of 9.06 in and 44 ft; 650 CFM and 0.83 inH₂O read off a graph,
// 3 %; 643.6 CFM recomputed with straight lines, 0.5 %.
func TestGeometryOfFanAndDuct(t *testing.T) {
	const (
		cfm    = 0.3048 * 0.3048 * 0.3048 / 60
		inH2O  = 249.089
		d      = 9.06 * 0.0254
		length = 44 * 0.3048
		rough  = 0.15e-3
	)
	in := Air{Density: 1.184, Viscosity: 1.184 * 1.562e-5}
	var k [3]float64
	for _, r := range table(t, "air_loss_coefficients.csv") {
		if r[0] == "fan duct example components" {
			if _, err := fmt.Sscanf(r[2], "%g / %g / %g", &k[0], &k[1], &k[2]); err != nil {
				t.Fatal(err)
			}
		}
	}
	area := math.Pi / 4 * d * d
	f := 0.02
	for range 20 { // Colebrook
		x := -2 * math.Log10(rough/d/3.7+2.51/(650*cfm/area*d/1.562e-5*math.Sqrt(f)))
		f = 1 / (x * x)
	}
	piece := func(name string, k float64) Element {
		return built(t)(Coefficient(name, k, area, duct, "Çengel & Cimbala"))
	}
	path := Path{piece("hood", k[0]), piece("damper", k[1]), piece("duct", f*length/d)}
	for range 5 {
		path = append(path, piece("elbow", k[2]))
	}
	path = append(path, piece("exit", 1.05)) // kinetic energy factor of the book
	c, err := curve.New(scaled(cfm, 0, 250, 500, 750, 1000, 1200), scaled(inH2O, 0.90, 0.95, 0.90, 0.75, 0.40, 0))
	if err != nil {
		t.Fatal(err)
	}
	e, err := Geometry(c, in, path)
	if err != nil {
		t.Fatal(err)
	}
	const source = "Çengel & Cimbala, example 14-1"
	check(t, "flow in CFM", e.Q/cfm, 650, 0.03*650, source)
	check(t, "pressure in inH2O", e.P/inH2O, 0.83, 0.03*0.83, source)
	check(t, "flow in CFM", e.Q/cfm, 643.6, 0.005*643.6, "straight lines between the points, computed")
}

func scaled(by float64, values ...float64) []float64 {
	for i := range values {
		values[i] *= by
	}
	return values
}

// Source: air_channel_friction.csv, the polynomial to its printed digits, and
// the exact series within the 0.06 % by which the polynomial misses it.
func TestChannelFriction(t *testing.T) {
	for _, r := range table(t, "air_channel_friction.csv") {
		aspect, _ := printed(t, r[0])
		third, half := printed(t, r[3])
		slack := half
		if r[0] == "0.16667" || r[0] == "0.33333" || r[0] == "0.66667" {
			aspect = math.Round(aspect*12) / 12 // sixths and thirds, cut to five digits
		}
		got := frictionProduct(aspect)
		check(t, "f·Re at aspect "+r[0], got, third, slack, "Shah & London, polynomial")
		series, _ := printed(t, r[1])
		check(t, "f·Re at aspect "+r[0], got, series, 0.0006*series, "Shah & London, exact series")
		darcy, half := printed(t, r[2])
		check(t, "4·f·Re at aspect "+r[0], 4*got, darcy, half+0.0006*darcy, "Shah & London, f of Darcy")
	}
}
