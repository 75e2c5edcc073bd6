package sample

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestQuantile(t *testing.T) {
	inf, nan := math.Inf(1), math.NaN()
	const byHand = "straight lines between the order statistics, by hand"
	for _, r := range []struct {
		name    string
		of      []float64
		p, want float64
	}{
		{"none", nil, 0.5, nan},
		{"one", []float64{3}, 0.9, 3},
		{"least", []float64{1, 2, 4}, 0, 1},
		{"most", []float64{1, 2, 4}, 1, 4},
		{"at a value", []float64{1, 2, 4}, 0.5, 2},
		{"between", []float64{1, 2, 4}, 0.75, 3},
		{"tenth of eleven", []float64{0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10}, 0.1, 1},
		{"just before infinity", []float64{1, 2, inf}, 0.5, 2},
		{"into infinity", []float64{1, 2, inf}, 0.6, inf},
		{"within infinity", []float64{1, inf, inf}, 0.8, inf},
	} {
		check(t, "quantile of "+r.name, quantile(r.of, r.p), r.want, 1e-12, byHand)
	}
}

func TestQuantileRisesWithTheShare(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.SliceOfN(rapid.OneOf(rapid.Float64Range(-9, 9), rapid.Just(math.Inf(1))), 1, 30).Draw(t, "values")
		slices.Sort(v)
		a, b := rapid.Float64Range(0, 1).Draw(t, "a"), rapid.Float64Range(0, 1).Draw(t, "b")
		low, high := quantile(v, min(a, b)), quantile(v, max(a, b))
		if !(low <= high+1e-12) || low < v[0] || high > v[len(v)-1] {
			t.Fatalf("quantiles %v and %v of %v", low, high, v)
		}
	})
}

// What is not known is left out, and the values stay in their order.
func TestBandOf(t *testing.T) {
	v := []float64{math.NaN(), 10, 0, 5, math.NaN(), 2, 8, 1, 9, 3, 7, 4, 6}
	kept := slices.Clone(v)
	if got, want := bandOf(v), (Band{1, 5, 9}); got != want {
		t.Errorf("bandOf(0 … 10) = %v, want %v", got, want)
	}
	if !slices.EqualFunc(v, kept, func(a, b float64) bool { return a == b || a != a && b != b }) {
		t.Error("bandOf changes what it is given")
	}
	if b := bandOf([]float64{math.NaN()}); !math.IsNaN(b.Low) || !math.IsNaN(b.Middle) || !math.IsNaN(b.High) {
		t.Errorf("bandOf of nothing known = %v", b)
	}
}

// The half width of the distributions is that of a 10–90 % range. Source: the 90 %
// quantile of the standard normal distribution, 1.2816 (printed tables, MEMORY).
func TestNormal(t *testing.T) {
	check(t, "normal(0.1)", normal(0.1), -1, 1e-12, "definition")
	check(t, "normal(0.5)", normal(0.5), 0, 1e-12, "definition")
	check(t, "normal(0.9)", normal(0.9), 1, 1e-12, "definition")
	check(t, "normal(0.975)", normal(0.975), 1.9600/1.2816, 5e-5, "printed tables, MEMORY")
	check(t, "factor(0.9, 0.2)", factor(0.9, 0.2), 1.2, 1e-12, "definition")
	check(t, "factor(0.1, 0.2)", factor(0.1, 0.2), 1/1.2, 1e-12, "definition")
	if low := factor(1e-12, 0.2); !(low > 0) {
		t.Errorf("factor = %v, want above zero", low)
	}
}

// Each axis has one point in each of n even layers, and the axes are not alike.
func TestHypercube(t *testing.T) {
	const n, axes = 64, 5
	cube := hypercube(n, axes, 1, "test")
	for axis := range axes {
		seen := make([]bool, n)
		for i := range n {
			v := cube.At(i, axis)
			if layer := int(v * n); v < 0 || v >= 1 || seen[layer] {
				t.Fatalf("axis %d: a second point in layer %d, at %v", axis, layer, v)
			} else {
				seen[layer] = true
			}
		}
	}
	if cube.At(0, 0) == cube.At(0, 1) && cube.At(1, 0) == cube.At(1, 1) {
		t.Error("two axes are drawn alike")
	}
	for _, other := range []struct {
		what  string
		seed  uint64
		name  string
		equal bool
	}{{"the same", 1, "test", true}, {"another seed", 2, "test", false}, {"another name", 1, "tests", false}} {
		same := slices.Equal(cube.RawMatrix().Data, hypercube(n, axes, other.seed, other.name).RawMatrix().Data)
		if same != other.equal {
			t.Errorf("%s: equal %v, want %v", other.what, same, other.equal)
		}
	}
}
