package match

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestAtPlacesIsWhatSortingGives(t *testing.T) {
	some := rapid.OneOf(rapid.Float64Range(-50, 50), rapid.Float64(), rapid.SampledFrom([]float64{0, 1, math.Inf(1), math.Inf(-1), math.MaxFloat64, 5e-324}))
	rapid.Check(t, func(t *rapid.T) {
		values := rapid.SliceOfN(some, 1, 200).Draw(t, "values")
		place := rapid.IntRange(0, len(values)-1).Draw(t, "place")
		cut := rapid.IntRange(0, len(values)).Draw(t, "cut")
		got := atPlaces([][]float64{slices.Clone(values[:cut]), nil, slices.Clone(values[cut:])}, place, 0, len(values)-1)
		sorted := slices.Sorted(slices.Values(values))
		if want := []float64{sorted[place], sorted[0], sorted[len(sorted)-1]}; !slices.Equal(got, want) {
			t.Fatalf("atPlaces(%v, %d, first, last) = %v, want %v", values, place, got, want)
		}
	})
	if got := atPlaces([][]float64{{2, math.NaN(), 1}}, 1); got[0] != 1 {
		t.Errorf("with a value that is not known: %v at place 1, want 1", got[0])
	}
}
