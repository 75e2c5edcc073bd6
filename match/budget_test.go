package match

import (
	"math"
	"testing"
)

// The price of a pair: a fitted fan costs nothing, two currencies have no sum.
func TestPriceOfPair(t *testing.T) {
	fan := func(price float64, currency string, fitted bool) Candidate {
		return Candidate{Price: price, Currency: currency, Fitted: fitted}
	}
	for _, r := range []struct {
		name     string
		a, b     Candidate
		want     float64
		currency string
		ok       bool
	}{
		{"both bought", fan(8, "EUR", false), fan(5.5, "EUR", false), 13.5, "EUR", true},
		{"one stays", fan(math.NaN(), "", true), fan(5.5, "EUR", false), 5.5, "EUR", true},
		{"both stay", fan(8, "EUR", true), fan(5.5, "EUR", true), 0, "", false},
		{"no price", fan(8, "EUR", false), fan(math.NaN(), "", false), math.NaN(), "", false},
		{"two currencies", fan(8, "EUR", false), fan(5.5, "USD", false), math.NaN(), "", false},
	} {
		p := Pair{A: r.a, B: r.b}
		got, currency, ok := p.Price()
		if ok != r.ok || currency != r.currency || got != r.want && !(math.IsNaN(got) && math.IsNaN(r.want)) {
			t.Errorf("%s: Price() = %v %q, %v, want %v %q, %v", r.name, got, currency, ok, r.want, r.currency, r.ok)
		}
	}
}
