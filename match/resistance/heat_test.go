package resistance

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"lowsone/match/air"
	"lowsone/match/curve"
	"lowsone/testdata/sources"
)

// table reads a file of published values, without its header.
func table(t *testing.T, name string) [][]string {
	t.Helper()
	return sources.Rows(t, name)[1:]
}

// Source: air_heat_flow.csv, computed with c_p = 1005 J/(kg·K) from dry air: the
// flow at the fan for 1 W and 1 K, here of 70 W and 10 K, for a fan that
// blows in air of that state and for one that sucks it out.
func TestHeatFindsTheFlow(t *testing.T) {
	c := fan(t)
	seen := 0
	for _, r := range table(t, "air_heat_flow.csv") {
		var celsius, altitude float64
		if n, _ := fmt.Sscanf(r[1], "%g C, %g", &celsius, &altitude); r[0] != "HC" || n != 2 {
			continue
		}
		ambient := altitude
		if strings.HasSuffix(r[1], " m") {
			ambient, _ = air.PressureAtAltitude(altitude)
		}
		seen++
		rho, _ := strconv.ParseFloat(r[3], 64)
		perWattKelvin, _ := strconv.ParseFloat(r[4], 64)
		for _, in := range []HeatInput{
			{Power: 70, AirRise: 10, InletC: celsius, InletKnown: true, Ambient: ambient, AmbientKnown: true, FanAt: Inlet},
			{Power: 70, AirRise: 10, InletC: celsius - 10, InletKnown: true, Ambient: ambient, AmbientKnown: true, FanAt: Outlet},
		} {
			e, err := Heat(c, in)
			if err != nil {
				t.Fatal(err)
			}
			call := fmt.Sprintf("Heat(%+v)", in)
			check(t, call+" in m³/h", e.Q/perHour, 7*perWattKelvin, 7*0.00005, r[2])
			check(t, call+" in kg/m³", e.Density, rho, 5e-6, r[2])
			check(t, call+" in Pa", e.P, 60*(1-7*perWattKelvin/50)*rho/1.2, 0.002, "a straight curve in air of that density")
			check(t, call+" LowQ", e.LowQ, 0.8*e.Q, 1e-12, "±20 %")
			check(t, call+" HighQ", e.HighQ, 1.2*e.Q, 1e-12, "±20 %")
			check(t, call+" loss", e.System.Loss(e.Q), e.P, 1e-9, "b through the working point")
			if e.Method != ByHeat || !e.Located || len(e.Assumed) != 0 {
				t.Errorf("%s = %+v", call, e)
			}
		}
	}
	if seen != 8 {
		t.Errorf("saw %d rows, want 8", seen)
	}
}

func TestHeatSaysWhatItAssumes(t *testing.T) {
	e, err := Heat(fan(t), HeatInput{Power: 90, AirRise: 10})
	if err != nil {
		t.Fatal(err)
	}
	check(t, "density in kg/m³", e.Density, 1.20411, 5e-6, "dry air of 20 °C at sea level, air_moist_density.csv")
	if len(e.Assumed) != 2 || e.Assumed[0] != "20 °C at the inlet" || e.Assumed[1] != "air pressure at sea level" {
		t.Errorf("assumed %q", e.Assumed)
	}
	known, err := Heat(fan(t), HeatInput{Power: 90, AirRise: 10, InletC: 0, InletKnown: true, Ambient: 101325, AmbientKnown: true})
	if err != nil || len(known.Assumed) != 0 {
		t.Fatal(known.Assumed, err)
	}
	check(t, "density at a known 0 °C", known.Density, 1.29227, 5e-6, "air_moist_density.csv: 0 °C is a temperature, not an unknown")
}

func TestHeatRefuses(t *testing.T) {
	good := HeatInput{Power: 90, AirRise: 9, InletC: 24, InletKnown: true, Ambient: 101325, AmbientKnown: true}
	nan, inf := math.NaN(), math.Inf(1)
	tests := []struct {
		name string
		with func(in *HeatInput)
		what string
	}{
		{"no heat", func(in *HeatInput) { in.Power = 0 }, "heat in W"},
		{"cooling", func(in *HeatInput) { in.Power = -90 }, "heat in W"},
		{"heat not a number", func(in *HeatInput) { in.Power = nan }, "heat in W"},
		{"heat without end", func(in *HeatInput) { in.Power = inf }, "heat in W"},
		{"no rise", func(in *HeatInput) { in.AirRise = 0 }, "rise of the air"},
		{"colder", func(in *HeatInput) { in.AirRise = -9 }, "rise of the air"},
		{"rise not a number", func(in *HeatInput) { in.AirRise = nan }, "rise of the air"},
		{"rise without end", func(in *HeatInput) { in.AirRise = inf }, "rise of the air"},
		{"inlet in kelvin", func(in *HeatInput) { in.InletC = 297 }, "inlet temperature"},
		{"inlet of space", func(in *HeatInput) { in.InletC = -100 }, "inlet temperature"},
		{"inlet not a number", func(in *HeatInput) { in.InletC = nan }, "inlet temperature"},
		{"no air", func(in *HeatInput) { in.Ambient = 0 }, "air pressure"},
		{"air pressure not a number", func(in *HeatInput) { in.Ambient = nan }, "air pressure"},
		{"air pressure without end", func(in *HeatInput) { in.Ambient = inf }, "air pressure"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			in := good
			test.with(&in)
			var bad *InputError
			if _, err := Heat(fan(t), in); !errors.As(err, &bad) || !strings.Contains(err.Error(), test.what) {
				t.Errorf("Heat(%+v): %v, want an *InputError about the %s", in, err, test.what)
			}
		})
	}
	var no *ContradictionError
	in := good
	in.Power = 200
	_, err := Heat(fan(t), in)
	if !errors.As(err, &no) || math.Abs(no.Limit-50*perHour) > 1e-12 {
		t.Fatalf("200 W and 9 K: %v, want a *ContradictionError", err)
	}
	check(t, "claimed flow in m³/h", no.Got/perHour, 67.01, 0.005, "200 W/(1.1879 kg/m³ · 1005 J/(kg·K) · 9 K)")
	for _, words := range []string{"67.01 m³/h", "50 m³/h", "through the case", "not mixed", "faster than its label"} {
		if !strings.Contains(no.Error()+"\n"+no.Hint(), words) {
			t.Errorf("%q does not say %q", err, words)
		}
	}
	if _, err := Heat(curve.Curve{}, good); !errors.Is(err, curve.ErrNoCurve) {
		t.Errorf("Heat without a curve: %v", err)
	}
}
