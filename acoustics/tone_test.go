package acoustics

import (
	"math"
	"testing"

	"lowsone/catalog/quantity"
)

func TestTachFrequency(t *testing.T) {
	if got := TachFrequency(2, 3000*quantity.RevolutionPerMinute); math.Abs(float64(got)-100) > 1e-9 {
		t.Errorf("TachFrequency(2, 3000 rpm) = %v, want 100", got)
	}
}
