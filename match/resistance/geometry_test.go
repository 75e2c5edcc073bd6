package resistance

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"lowsone/match/curve"
)

func ExampleGeometry() {
	fan, _ := curve.New([]float64{0, 0.014}, []float64{42, 0})
	in := AirAt(24, 101325)
	const face = 0.06 * 0.06
	grille, _ := Grille("inlet grille", face, 0.3, SharpEdge)
	fins, _ := Fins("fins", FinStack{Channels: 14, Gap: 0.003, Height: 0.05, Length: 0.15, Face: face})
	exit, _ := Exit("outlet", face)
	path := Path{grille, fins, exit}

	e, err := Geometry(fan, in, path)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f m³/h (%.1f to %.1f), %.1f Pa\n", e.Q*3600, e.LowQ*3600, e.HighQ*3600, e.P)
	for _, c := range path.Costs(e.Q, in) {
		fmt.Printf("%s %.0f %%\n", c.Name, 100*c.Share)
	}
	// Output:
	// 16.3 m³/h (14.4 to 19.1), 28.4 Pa
	// inlet grille 57 %
	// fins 40 %
	// outlet 3 %
}

// box returns a purely quadratic path with b in Pa/(m³/h)² in standard air.
func box(t testing.TB, b float64) Path {
	return Path{built(t)(Filter("box", curve.System{B: b / perHour / perHour}, StandardAir()))}
}

func TestGeometryOnAStraightFan(t *testing.T) {
	// b·Q² meets 60 − 1.2·Q
	root := func(b float64) float64 { return (-1.2 + math.Sqrt(1.44+240*b)) / (2 * b) }
	e, err := Geometry(fan(t), StandardAir(), box(t, 0.06))
	expected{root(0.06), 60 - 1.2*root(0.06), root(0.06 * 1.3), root(0.06 * 0.7), false, nil}.check(t, e, err)
	if e.Method != ByGeometry || len(e.Assumed) != 0 || e.Density != 0 {
		t.Errorf("Geometry = %+v", e)
	}

	e, err = Geometry(fan(t), StandardAir(), box(t, 0.002))
	if err != nil || !e.OneSided || !warned(e, "of free delivery") {
		t.Errorf("nearly free: %+v, %v", e, err)
	}

	dip := fan(t, [2]float64{0, 60}, [2]float64{20, 10}, [2]float64{24, 50}, [2]float64{50, 0})
	e, err = Geometry(dip, StandardAir(), Path{built(t)(Filter("mat", curve.System{A: 1.5 / perHour}, StandardAir()))})
	if err != nil || !warned(e, "2 working points") {
		t.Errorf("across a dip: %+v, %v", e, err)
	}
	check(t, "Q in m³/h", e.Q/perHour, 15, 1e-9, "the lower of the two: 60 − 2.5·Q = 1.5·Q")
}

// Where the path is no a·Q + b·Q² the working point is still that of the path
// itself, and what is assumed and doubted is said.
func TestGeometryOfFinsAndScreens(t *testing.T) {
	in := StandardAir()
	path := Path{
		built(t)(Screen("screen", 0.0036, 0.5, 0.4e-3)),
		built(t)(FilterAt("filter", 0.0036, 1.5, 4, in)),
		built(t)(Fins("fins", FinStack{Channels: 2, Gap: 0.02, Height: 0.05, Length: 0.15, Face: 0.0036})),
		built(t)(Screen("gauze", 0.0036, 0.6, UnknownGap)),
	}
	e, err := Geometry(fan(t), in, path)
	if err != nil {
		t.Fatal(err)
	}
	if p := path.Loss(e.Q, in); math.Abs(p-e.P) > 1e-7*p {
		t.Errorf("the path takes %g Pa at %g m³/s, the fan gives %g", p, e.Q, e.P)
	}
	if !warned(e, `flow in "fins" may be turbulent`) || len(e.Warnings) != 1 {
		t.Errorf("warnings %q, want turbulence in the fins", e.Warnings)
	}
	for i, words := range []string{`half of the loss of "filter"`, `Reynolds number above 400 in "gauze"`} {
		if len(e.Assumed) != 2 || !strings.Contains(e.Assumed[i], words) {
			t.Fatalf("assumed %q, want %q", e.Assumed, words)
		}
	}
	slow, err := Geometry(fan(t).AtSpeed(0.05), in, path)
	if err != nil || !warned(slow, `creeps through "screen"`) {
		t.Errorf("at a twentieth of the speed: %+v, %v", slow, err)
	}
}

func TestGeometryRefuses(t *testing.T) {
	in, path := StandardAir(), box(t, 0.02)
	var outside *curve.OutsideError
	_, err := Geometry(fan(t, [2]float64{20, 40}, [2]float64{40, 20}), in, box(t, 1))
	if !errors.As(err, &outside) {
		t.Errorf("too tight for the curve: %v", err)
	}
	if _, err = Geometry(curve.Curve{}, in, path); !errors.Is(err, curve.ErrNoCurve) {
		t.Errorf("without a curve: %v", err)
	}
	for _, p := range []Path{nil, {}, {Element{}}, append(path, Element{Name: "none"})} {
		if _, err = Geometry(fan(t), in, p); !errors.Is(err, ErrNoPath) {
			t.Errorf("path %v: %v, want ErrNoPath", p, err)
		}
	}
	var bad *InputError
	for _, a := range []Air{{}, {Density: 1.2}, {Viscosity: 1e-5}, AirAt(math.NaN(), 1e5), {Density: math.Inf(1), Viscosity: 1e-5}} {
		if _, err = Geometry(fan(t), a, path); !errors.As(err, &bad) || !strings.Contains(err.Error(), "of the air") {
			t.Errorf("air %+v: %v", a, err)
		}
	}
}

func TestElementsRefuse(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	std := StandardAir()
	fins := func(n int, gap, height, length, face float64) error {
		_, err := Fins("x", FinStack{n, gap, height, length, face})
		return err
	}
	only := func(_ Element, err error) error { return err }
	tests := []struct {
		name string
		err  error
		text string
	}{
		{"no face", only(Grille("x", 0, 0.5, SharpEdge)), `face area in m² of "x"`},
		{"nearly closed", only(Grille("x", 1, 0.04, SharpEdge)), `free area ratio of "x" of 0.04: it must be from 0.05 to 1`},
		{"percent", only(Grille("x", 1, 55, SharpEdge)), "from 0.05 to 1"},
		{"not a number", only(Grille("x", 1, nan, SharpEdge)), "from 0.05 to 1"},
		{"rounded, too open", only(Grille("x", 1, 0.71, RoundedEdge)), "from 0.3 to 0.7"},
		{"outlet, nearly closed", only(OutletGrille("x", 1, 0.04, SharpEdge)), "from 0.05 to 1"},
		{"screen without face", only(Screen("x", nan, 0.5, 1e-3)), "face area"},
		{"screen too open", only(Screen("x", 1, 0.81, 1e-3)), "from 0.05 to 0.8"},
		{"screen, gap below zero", only(Screen("x", 1, 0.5, -1e-3)), "gap in m"},
		{"screen, gap not a number", only(Screen("x", 1, 0.5, nan)), "gap in m"},
		{"guard without face", only(Guard("x", 0, 0.9)), "face area"},
		{"guard too dense", only(Guard("x", 1, 0.8)), "from 0.85 to 1"},
		{"contraction that widens", only(Contraction("x", 1, 2)), "ratio of the smaller to the larger area"},
		{"expansion that narrows", only(Expansion("x", 2, 1)), "ratio of the smaller to the larger area"},
		{"expansion from nothing", only(Expansion("x", 0, 1)), "smaller area"},
		{"contraction from infinity", only(Contraction("x", inf, 1)), "larger area"},
		{"entrance", only(Entrance("x", -1)), "reference area"},
		{"exit", only(Exit("x", 0)), "reference area"},
		{"K below zero", only(Coefficient("x", -1, 1, duct, "")), "loss coefficient"},
		{"K without end", only(Coefficient("x", inf, 1, duct, "")), "loss coefficient"},
		{"mitre too sharp", only(Mitre("x", 1, 151)), "from 0 to 150"},
		{"mitre of no angle", only(Mitre("x", 1, 0)), "angle in degrees"},
		{"mitre without duct", only(Mitre("x", 0, 90)), "area of the duct"},
		{"bend back", only(Bend("x", 1, 181, 1, 0.03)), "from 0 to 180"},
		{"bend too tight", only(Bend("x", 1, 90, 0.4, 0.03)), "from 0.5 to 10"},
		{"bend friction", only(Bend("x", 1, 90, 1, 0)), "friction factor"},
		{"filter of nothing", only(Filter("x", curve.System{}, std)), "above zero"},
		{"filter below zero", only(Filter("x", curve.System{A: -1, B: 2}, std)), "no resistance"},
		{"filter not a number", only(Filter("x", curve.System{A: nan, B: 2}, std)), "no resistance"},
		{"filter without end", only(Filter("x", curve.System{A: inf}, std)), "above zero"},
		{"filter in no air", only(Filter("x", curve.System{A: 1}, Air{})), "density of the air"},
		{"filter point without face", only(FilterAt("x", 0, 1, 1, std)), "face area"},
		{"filter point without velocity", only(FilterAt("x", 1, 0, 1, std)), "face velocity"},
		{"filter point without pressure", only(FilterAt("x", 1, 1, 0, std)), "pressure in Pa"},
		{"no channels", fins(0, 1, 1, 1, 1), "number of channels"},
		{"no gap", fins(1, 0, 1, 1, 1), "gap between the fins"},
		{"no height", fins(1, 1, nan, 1, 1), "height of the fins"},
		{"no length", fins(1, 1, 1, -1, 1), "length of the fins"},
		{"no face of fins", fins(1, 1, 1, 1, 0), "face area"},
		{"channels larger than the face", fins(2, 1, 1, 1, 1.9), "free share of the face"},
		{"one branch", only(Parallel("x", box(t, 1))), "number of branches"},
		{"empty branch", only(Parallel("x", box(t, 1), nil)), `branch 2 of "x": no air path`},
		{"free branch", only(Parallel("x", box(t, 1), Path{built(t)(Grille("hole", 1, 1, SharpEdge))})), "resistance in Pa of branch 2"},
	}
	for _, test := range tests {
		if test.err == nil || !strings.Contains(test.err.Error(), test.text) {
			t.Errorf("%s: %v, want %q", test.name, test.err, test.text)
		}
	}
}

// What an element hangs on is stated for every kind.
func TestElementsStateTheirBasis(t *testing.T) {
	make, in := built(t), StandardAir()
	for _, e := range []Element{
		make(Grille("1", 1, 0.5, SharpEdge)), make(OutletGrille("2", 1, 0.5, RoundedEdge)), make(Screen("3", 1, 0.5, 1e-3)),
		make(Screen("4", 1, 0.5, UnknownGap)), make(Guard("5", 1, 0.9)), make(Contraction("6", 2, 1)), make(Expansion("7", 1, 2)),
		make(Entrance("8", 1)), make(Exit("9", 1)), make(Coefficient("10", 1, 1, "here", "a book")), make(Mitre("11", 1, 90)),
		make(Bend("12", 1, 90, 1, SmoothFriction)), make(FilterAt("13", 1, 1, 1, in)),
		make(Fins("14", FinStack{1, 0.01, 0.01, 0.1, 0.001})),
	} {
		if k, ok := e.Coefficient(0.1, in); !ok || !(k > 0) || e.Velocity == "" || e.Valid == "" || e.Source == "" || e.Name == "" {
			t.Errorf("%+v: K = %g, %t", e, k, ok)
		}
		if _, ok := e.Coefficient(0, in); ok {
			t.Errorf("%s has a coefficient at no flow", e.Name)
		}
	}
	f := make(Filter("15", curve.System{A: 1, B: 1}, in))
	if _, ok := f.Coefficient(0.1, in); ok || f.Valid == "" || f.Source == "" {
		t.Errorf("a filter without an area has a coefficient: %+v", f)
	}
}
