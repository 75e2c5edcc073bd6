package air

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Source: air_standard_atmosphere.csv, its mu at the temperature beside it
// (computed by Sutherland's law, T rounded to 1 mK), and where a row has it the
// one read from table I of [USSA].
func TestViscosityOfTheStandardAtmosphere(t *testing.T) {
	read := 0
	for _, r := range records(t, "air_standard_atmosphere.csv") {
		kelvin, _ := r.number(t, "T_K")
		got := Viscosity(kelvin - 273.15)
		want, half := r.number(t, "mu_Pa_s")
		check(t, "Viscosity at "+r["T_K"]+" K", got, want, half+want*1e-3/kelvin, "[USSA], computed from its formula")
		if r["published_mu"] == "" {
			continue
		}
		read++
		want, half = r.number(t, "published_mu")
		check(t, "Viscosity at "+r["T_K"]+" K", got, want, half, "[USSA] table I")
	}
	if read < 2 {
		t.Errorf("%d values of table I, want 2 or more", read)
	}
}

// Air gets more viscous when it gets hotter, unlike a liquid, and by less than
// in proportion to T.
func TestViscosityRises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cold := rapid.Float64Range(-60, 200).Draw(t, "cold")
		hot := rapid.Float64Range(cold+0.01, 201).Draw(t, "hot")
		ratio := Viscosity(hot) / Viscosity(cold)
		if !(ratio > 1 && ratio < (hot+freezing)/(cold+freezing)) {
			t.Fatalf("Viscosity(%g)/Viscosity(%g) = %g", hot, cold, ratio)
		}
	})
}

func TestViscosityOutsideItsRange(t *testing.T) {
	for _, celsius := range []float64{-273.15, -300, math.NaN()} {
		if got := Viscosity(celsius); !math.IsNaN(got) {
			t.Errorf("Viscosity(%g) = %g, want NaN", celsius, got)
		}
	}
}
