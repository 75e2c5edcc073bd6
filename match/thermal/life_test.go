package thermal

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Source: heat_life L1, L2, L10, L11. The hours are the sources' own: the ratios
// are what is tested.
func TestPublishedLife(t *testing.T) {
	rows := records(t, "heat_life.csv")
	for _, row := range []struct {
		id, input, published string
		got, want, tol       float64
	}{
		{"L1", "105 C 2000 h", "95 C 4000", 2000 * CapacitorLife(105, 95), 4000, 1e-9},
		{"L1", "105 C 2000 h", "85 C 8000", 2000 * CapacitorLife(105, 85), 8000, 1e-9},
		{"L1", "105 C 2000 h", "65 C 32000 h", 2000 * CapacitorLife(105, 65), 32000, 1e-9},
		{"L2", "1000 h part rated 85 C run at 45 C", "16000 h", 1000 * CapacitorLife(85, 45), 16000, 1e-9},
		{"L10", "75000 h at 40 C", "33333 h at 60 C", 75000 * BearingLife(40, 60), 33333, 0.5},
		{"L11", "40 to 75 C", "4.13", BearingLife(75, 40), 4.13, 0.005},
	} {
		rows[row.id].has(t, "input", row.input)
		rows[row.id].has(t, "published", row.published)
		check(t, row.id+" "+row.published, row.got, row.want, row.tol, rows[row.id]["source"])
	}
}

// Source: heat_life L3: 8 h each day at 45, 55 and 65 °C use up life at three
// rates; the rates add.
func TestPublishedMixedDuty(t *testing.T) {
	r := records(t, "heat_life.csv")["L3"]
	r.has(t, "input", "105 C 1000 h; 8 h each at 45, 55, 65 C")
	r.has(t, "check", "L 27429 h; 57.22 C")
	used := 0.0
	for _, celsius := range []float64{45, 55, 65} {
		used += 1.0 / 3 / (1000 * CapacitorLife(105, celsius))
	}
	check(t, "mixed duty", 1/used, 27429, 0.5, r["source"])
	check(t, "life at the equivalent temperature", 1000*CapacitorLife(105, 57.22), 27429, 27429*math.Ln2/10*0.005, r["source"])
}

// Source: heat_life L9, derived: the rule as an activation energy in eV.
func TestRuleAsActivationEnergy(t *testing.T) {
	r := records(t, "heat_life.csv")["L9"]
	r.has(t, "check", "0.62 eV at 45-55, 0.66 at 55-65, 0.83 at 95-105 C")
	const boltzmann = 8.617e-5 // eV/K
	for _, row := range []struct {
		low, high float64
		want      string
	}{{45, 55, "0.62"}, {55, 65, "0.66"}, {95, 105, "0.83"}} {
		got := boltzmann * math.Log(CapacitorLife(row.high, row.low)) / (1/(row.low+freezing) - 1/(row.high+freezing))
		want, half := printed(t, row.want)
		check(t, fmt.Sprintf("energy of the rule from %g to %g °C", row.low, row.high), got, want, half, r["status"])
	}
}

func TestLifeProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(-40, 150).Draw(t, "a")
		b := rapid.Float64Range(-40, 150).Draw(t, "b")
		c := rapid.Float64Range(-40, 150).Draw(t, "c")
		for name, life := range map[string]func(float64, float64) float64{"CapacitorLife": CapacitorLife, "BearingLife": BearingLife} {
			if whole, parts := life(a, c), life(a, b)*life(b, c); math.Abs(whole-parts) > 1e-9*whole {
				t.Fatalf("%s(%g, %g) = %g, by way of %g %g", name, a, c, whole, b, parts)
			}
			if got := life(a, b); (got < 1) != (b > a) && math.Abs(a-b) > 1e-9 {
				t.Fatalf("%s(%g, %g) = %g: hotter must be shorter", name, a, b, got)
			}
		}
	})
	for _, in := range [][2]float64{{math.NaN(), 50}, {50, math.NaN()}, {math.Inf(1), 50}, {50, math.Inf(-1)}} {
		if c, b := CapacitorLife(in[0], in[1]), BearingLife(in[0], in[1]); !math.IsNaN(c) || !math.IsNaN(b) {
			t.Errorf("life of %v: %g and %g, want NaN", in, c, b)
		}
	}
}
