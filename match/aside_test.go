package match

import (
	"context"
	"math"
	"slices"
	"testing"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// learned gives what the fans have in common.
func learned(t *testing.T, fans catalog.Fans) *similarFans {
	t.Helper()
	s := &similarFans{fans: fans}
	if err := s.learn(context.Background()); err != nil {
		t.Fatal(err)
	}
	return s
}

// A fan that two sources list is learned from once.
func TestSimilarFansCountOnce(t *testing.T) {
	fan := func(flow, pressure float64) *catalog.Fan {
		return &catalog.Fan{
			Kind: quantity.Stated(catalog.Axial), Width: quantity.Stated(quantity.Length(0.06)), Speed: quantity.Stated(quantity.Speed(50)),
			Airflow: quantity.Stated(quantity.Flow(flow)), StaticPressure: quantity.Stated(quantity.Pressure(pressure)),
		}
	}
	var fans []*catalog.Fan
	for i := range 5 {
		fans = append(fans, fan(0.008+0.001*float64(i), 40))
	}
	again := catalog.ColumnsOf(append(slices.Clone(fans), fans[4], fans[4], fans[4])...)
	again.Aside = []uint64{1<<5 | 1<<6 | 1<<7}
	once, twice := learned(t, catalog.ColumnsOf(fans...)), learned(t, again)
	a, okA := once.pressure(catalog.Axial, 0.06, math.NaN(), 0.01)
	b, okB := twice.pressure(catalog.Axial, 0.06, math.NaN(), 0.01)
	if !okA || !okB || a != b {
		t.Errorf("pressure(…) = %v, %v with the fans once, %v, %v with one of them set aside three times more", a, okA, b, okB)
	}
}
