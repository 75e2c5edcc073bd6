package match

import (
	"slices"
	"strings"
	"testing"

	"lowsone/catalog/quantity"
)

func TestSteady(t *testing.T) {
	minutes := func(m float64) quantity.Known[quantity.Time] {
		return quantity.Stated(quantity.Time(m) * quantity.Minute)
	}
	for _, r := range []struct {
		name string
		spot Spot
		want bool
	}{
		{"nothing recorded", Spot{}, false},
		{"a short soak", Spot{Soak: minutes(30)}, false},
		{"an hour", Spot{Soak: minutes(60)}, true},
		{"a settling rule", Spot{Settled: "IEC 60034-1"}, true},
		{"a short soak and a rule", Spot{Soak: minutes(30), Settled: "IEC 60034-1"}, true},
	} {
		if got := r.spot.Steady(); got != r.want {
			t.Errorf("%s: Steady() = %v, want %v", r.name, got, r.want)
		}
	}
}

// A ranking says of which spots it is not recorded that they were steady, and is
// silent where all were.
func TestRankingTellsOfUnsteadySpots(t *testing.T) {
	req := tunnel(t)
	says := func() bool {
		return slices.ContainsFunc(rankOf(t, req).Notes, func(n string) bool {
			return strings.Contains(n, `"heat sink" may still have been rising`) && strings.Contains(n, "60 min")
		})
	}
	if !says() {
		t.Error("nothing is said of a spot without a soak")
	}
	req.Path.Spots[0].Soak = quantity.Stated(90 * quantity.Minute)
	if says() {
		t.Error("a spot after 90 min is said to be rising")
	}
}
