package curve

import (
	"math"

	"lowsone/match/air"
)

// Scaled returns the curve with every flow and every pressure multiplied by
// the two factors, which must be finite and above zero; otherwise it returns
// the zero Curve, since a fan at a standstill has none.
func (c Curve) Scaled(flow, pressure float64) Curve {
	c.flow *= flow
	c.pressure *= pressure
	if !(c.flow > 0 && c.pressure > 0 && c.flow <= math.MaxFloat64 && c.pressure <= math.MaxFloat64) {
		return Curve{}
	}
	return c
}

// AtSpeed returns the curve of the same fan at the speed ratio r = N/N₁ by the
// affinity laws: Q = r·Q₁, p = r²·p₁. They hold while the flow pattern does,
// in practice to a few per cent between r = 0.5 and 1.2 (common practice).
func (c Curve) AtSpeed(r float64) Curve { return c.Scaled(r, r*r) }

// AtDensity returns a curve stated for standard air (1.2 kg/m³) in air of
// density rho in kg/m³: p = p₁·ρ/1.2, the volume flow stays.
func (c Curve) AtDensity(rho float64) Curve { return c.Scaled(1, rho/air.StandardDensity) }

// AtSize returns the curve of a fan of the same family, alike in every
// proportion, with d times the diameter, at the same speed: Q = d³·Q₁,
// p = d²·p₁.
func (c Curve) AtSize(d float64) Curve { return c.Scaled(d*d*d, d*d) }
