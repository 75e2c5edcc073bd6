package thermal

import (
	"fmt"
	"math"
)

// Reason says why no flow is enough. The zero value: some flow is.
type Reason uint8

// The reasons.
const (
	Enough      Reason = iota
	LimitInAir         // the limit itself is not above the air that enters
	MarginInAir        // the limit is, but less the margin it is not
	SolidAlone         // what no flow takes away is all that is allowed, or more
)

// Need is the least flow that keeps a spot at its limit less the margin.
type Need struct {
	Spot   string
	Ratio  float64 // μ, needed mass flow over the present one; +Inf where no flow is enough
	Corner Corner  // what decides: the corner with the largest need
	Reason Reason

	// Least is the smallest need of all corners and LeastCorner where it is: the
	// two ends show what the unknown shares are worth. +Inf as Ratio.
	Least       float64
	LeastCorner Corner

	Limit, Margin float64 // °C, K
	Inlet         float64 // °C of the air that enters in the worst case
	Allowed       float64 // K over it: limit less margin less inlet
	Rise          float64 // K over it in the worst case at the present flow
}

// Need returns the flow the spot needs in the worst case, as the least mass flow
// ratio μ with
//
//	ΔT₁·(P_worst/P₁)·[f_air/μ + f_film/μ^m + f_solid] ≤ T_limit − margin − T_inlet
//
// at every corner of what is not known, with T_inlet = T_worst + the excess of
// the inlet over the room as it was found. Which corner has the largest need
// hangs on whether more or less flow than now is needed. That no flow is enough
// is an answer, not an error: Reason says why. The error is an *InputError.
func (m Model) Need(worst Conditions) (Need, error) {
	if err := worst.check(); err != nil {
		return Need{}, err
	}
	n := Need{
		Spot: m.name, Limit: m.limit, Margin: m.margin,
		Inlet: m.Inlet(worst), Rise: m.rise * (worst.Heat / m.heat),
	}
	n.Allowed = m.limit - m.margin - n.Inlet
	for i, corner := range m.corners {
		mu := math.Inf(1)
		if n.Allowed > 0 {
			mu = corner.ratioFor(n.Allowed / n.Rise)
		}
		if i == 0 || mu > n.Ratio {
			n.Ratio, n.Corner = mu, corner
		}
		if i == 0 || mu < n.Least {
			n.Least, n.LeastCorner = mu, corner
		}
	}
	n.Reason = n.reason()
	return n, nil
}

func (n Need) reason() Reason {
	switch {
	case !math.IsInf(n.Ratio, 1):
		return Enough
	case n.Limit <= n.Inlet:
		return LimitInAir
	case n.Allowed <= 0:
		return MarginInAir
	}
	return SolidAlone
}

// Why says in words what the need comes from.
func (n Need) Why() string {
	switch n.Reason {
	case LimitInAir:
		return fmt.Sprintf("no flow is enough: %q may have %.4g °C, the air that enters has %.4g °C", n.Spot, n.Limit, n.Inlet)
	case MarginInAir:
		return fmt.Sprintf("no flow is enough: %q may have %.4g °C less a margin of %.4g K, the air that enters has %.4g °C", n.Spot, n.Limit, n.Margin, n.Inlet)
	case SolidAlone:
		return fmt.Sprintf("no flow is enough: %q may rise by %.4g K, and %.4g K of its rise lie in the solid part, which no flow cools (%v)%s",
			n.Spot, n.Allowed, n.Corner.Solid*n.Rise, n.Corner, n.otherwise())
	}
	return fmt.Sprintf("%q may rise by %.4g K over air of %.4g °C; at the present flow it would rise by %.4g K: %.4g of the present mass flow (%v)",
		n.Spot, n.Allowed, n.Inlet, n.Rise, n.Ratio, n.Corner)
}

// otherwise tells of a corner at which some flow would be enough.
func (n Need) otherwise() string {
	if math.IsInf(n.Least, 1) {
		return ""
	}
	return fmt.Sprintf("; %.4g of the present mass flow would do if the shares are %v", n.Least, n.LeastCorner)
}

// unwatchedBelow is the need, as a ratio, under which one spot alone says too
// little of the rest of the device (common practice).
const unwatchedBelow = 0.70

// Whole is the need of a device with one or more watched spots.
type Whole struct {
	Need           // the largest, the first of equal ones
	Each    []Need // of all spots, as given
	OneOnly bool   // a warning: one spot alone asks for under 70 % of the present flow, and other parts are unwatched
}

// Largest returns the need of the device: the largest of its spots'. Without any
// the error is ErrNoSpots.
func Largest(each ...Need) (Whole, error) {
	if len(each) == 0 {
		return Whole{}, ErrNoSpots
	}
	w := Whole{Need: each[0], Each: each}
	for _, n := range each[1:] {
		if n.Ratio > w.Ratio {
			w.Need = n
		}
	}
	w.OneOnly = len(each) == 1 && w.Ratio < unwatchedBelow
	return w, nil
}
