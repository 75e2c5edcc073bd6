package acoustics

import (
	"math"
	"testing"

	"lowsone/catalog/quantity"
)

// The allowance falls with the share, has one step of less than 0.1 dB, at 0.48,
// and lies within its band.
func TestOffBestShape(t *testing.T) {
	const step = 1e-4
	last, _, _ := OffBest(Axial, -0.1)
	for q := -0.1 + step; q < 1.2; q += step {
		m, low, high := OffBest(Axial, q)
		drop := last - m
		most := quantity.Decibel(0.004) // the steepest slope, 17.5/0.6 dB, over one step
		if math.Abs(q-quietShare) < 1.5*step {
			most = 0.0776 + 0.004
		}
		if drop < -1e-12 || drop > most {
			t.Fatalf("OffBest(Axial, %v) falls by %v from %v, want 0 to %v", q, drop, last, most)
		}
		half := 2.0
		if q < stallShare {
			half = 4
		}
		check(t, "low", float64(m-low), half, 1e-9, "±2 dB, below q = 0.3 ±4 dB")
		check(t, "high", float64(high-m), half, 1e-9, "±2 dB, below q = 0.3 ±4 dB")
		last = m
	}
}

func TestOffBestJoints(t *testing.T) {
	at := func(q float64) float64 { m, _, _ := OffBest(Axial, q); return float64(m) }
	check(t, "OffBest(Axial, under 0.3)", at(0.3-1e-12), at(0.3), 1e-9, "value runs on at 0.3")
	slope := func(q float64) float64 { return (at(q+1e-6) - at(q-1e-6)) / 2e-6 }
	check(t, "slope under 0.3", slope(0.3-2e-6), slope(0.3+2e-6), 0.001, "slope runs on at 0.3")
	check(t, "step at 0.48", at(0.48-1e-12)-at(0.48), 0.0776, 1e-6, "doc of OffBest")
	check(t, "OffBest(Axial, 0)", at(0), 8, 0, "at most 8 dB, common practice")
}

func TestOffBestWheels(t *testing.T) {
	rows := []struct {
		wheel             Wheel
		q                 float64
		middle, low, high quantity.Decibel
	}{
		{Axial, 1, 0, -2, 2},
		{Axial, 0.1, 8, 4, 12},
		{Centrifugal, 0.1, 0, -3, 2},
		{Centrifugal, 1, 0, -3, 2},
		{Mixed, 1, 0, -3, 2},
		{Mixed, 0.1, 4, -3, 12},
	}
	for _, r := range rows {
		m, low, high := OffBest(r.wheel, r.q)
		if m != r.middle || low != r.low || high != r.high {
			t.Errorf("OffBest(%v, %v) = %v, %v to %v, want %v, %v to %v", r.wheel, r.q, m, low, high, r.middle, r.low, r.high)
		}
	}
	for _, w := range []Wheel{0, 9} {
		if m, _, _ := OffBest(w, 0.5); !math.IsNaN(float64(m)) {
			t.Errorf("OffBest(%v, 0.5) = %v, want NaN", w, m)
		}
	}
	for _, w := range []Wheel{Axial, Mixed} {
		if m, _, _ := OffBest(w, math.NaN()); !math.IsNaN(float64(m)) {
			t.Errorf("OffBest(%v, NaN) = %v, want NaN", w, m)
		}
	}
}
