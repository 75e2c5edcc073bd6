package curve

import (
	"fmt"
	"math"
)

// System is the resistance of a device to the air blown through it:
// Δp = A·Q + B·Q².
type System struct {
	A float64 // Pa/(m³/s), ≥ 0: narrow fins and filters; does not follow the density
	B float64 // Pa/(m³/s)², ≥ 0: grilles, bends, jets; goes with the density
}

// Loss returns the pressure in Pa that the flow q in m³/s, q ≥ 0, costs.
func (s System) Loss(q float64) float64 { return q * (s.A + s.B*q) }

// valid tells whether s is a resistance at all.
func (s System) valid() bool {
	return s.A >= 0 && s.B >= 0 && s.A <= math.MaxFloat64 && s.B <= math.MaxFloat64
}

// SystemError reports a system that is no resistance: a coefficient below zero
// or not finite.
type SystemError struct{ System System }

func (e *SystemError) Error() string {
	return fmt.Sprintf("no resistance: a = %.6g Pa/(m³/s), b = %.6g Pa/(m³/s)²; both must be finite and not below zero", e.System.A, e.System.B)
}
