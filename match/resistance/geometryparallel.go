package resistance

import (
	"fmt"
	"math"

	"lowsone/match/curve"
)

// Parallel returns branches side by side: the pressure across them is the same,
// the flows add. Every branch must resist; one that does not would take all the
// air. The split is found at each flow by halving, to rounding.
//
// Two branches b₁·Q² and b₂·Q² are one of 1/√b = 1/√b₁ + 1/√b₂, two of a₁·Q and
// a₂·Q one of 1/a = 1/a₁ + 1/a₂. Mixed ones are neither: Path.System fits them
// about the working point.
func Parallel(name string, branches ...Path) (Element, error) {
	if len(branches) < 2 {
		return Element{}, &InputError{What: of("number of branches", name), Value: float64(len(branches)), Want: "two or more"}
	}
	for i, b := range branches {
		if err := b.check(); err != nil {
			return Element{}, fmt.Errorf("branch %d of %q: %w", i+1, name, err)
		}
		if err := positive(of(fmt.Sprintf("resistance in Pa of branch %d", i+1), name), b.Loss(1, StandardAir())); err != nil {
			return Element{}, err
		}
	}
	return sideBySide(name, branches), nil
}

func sideBySide(name string, branches []Path) Element {
	return Element{
		Name: name, Valid: "branches that start and end at the same two places", Source: "equal pressure, flows added",
		made: true, branches: branches,
		law: law{rest: func(q float64, in Air) float64 { return pressureAcross(branches, q, in) }},
	}
}

// halvings narrow a bracket down to rounding.
const halvings = 60

// pressureAcross returns the pressure in Pa at which the branches take the flow
// q together. It is below what any of them takes for q alone.
func pressureAcross(branches []Path, q float64, in Air) float64 {
	if len(branches) == 0 || !(q > 0) {
		return 0
	}
	high := branches[0].Loss(q, in)
	for _, b := range branches[1:] {
		high = min(high, b.Loss(q, in))
	}
	return halve(high, func(p float64) bool {
		sum := 0.0
		for _, b := range branches {
			sum += b.flowAt(p, q, in)
		}
		return sum < q
	})
}

// flowsThrough returns how the flow q in m³/s divides over the branches; nil
// where there are none.
func flowsThrough(branches []Path, q float64, in Air) []float64 {
	if len(branches) == 0 {
		return nil
	}
	p := pressureAcross(branches, q, in)
	flows := make([]float64, len(branches))
	for i, b := range branches {
		flows[i] = b.flowAt(p, q, in)
	}
	return flows
}

// flowAt returns the flow, at most most, that the pressure p drives.
func (p Path) flowAt(pressure, most float64, in Air) float64 {
	if s, ok := p.exact(in); ok {
		return min(flowFor(s, pressure), most)
	}
	return halve(most, func(q float64) bool { return p.Loss(q, in) < pressure })
}

// flowFor returns the flow in m³/s at which s, not zero, takes the pressure p: the
// root of b·Q² + a·Q = p in the form that does not cancel.
func flowFor(s curve.System, p float64) float64 {
	if p == 0 {
		return 0
	}
	return 2 * p / (s.A + math.Sqrt(s.A*s.A+4*s.B*p))
}

// halve returns the place in 0 … high where below turns false.
func halve(high float64, below func(float64) bool) float64 {
	low := 0.0
	for range halvings {
		middle := low + (high-low)/2
		if below(middle) {
			low = middle
		} else {
			high = middle
		}
	}
	return low + (high-low)/2
}
