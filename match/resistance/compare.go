package resistance

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
)

// Pair is how far two estimates of one device lie apart in flow.
type Pair struct {
	A, B  int     // their places in the list given, A with the smaller flow
	Apart float64 // m³/s between their flows
	// Reach is what their spans, as far as they face each other, hold of that, in
	// m³/s: below Apart the spans do not touch.
	Reach float64
}

// Agree tells whether the spans touch.
func (p Pair) Agree() bool { return p.Apart <= p.Reach }

// Comparison is what several estimates of one device say together.
type Comparison struct {
	Best     int    // the place of the one to use in the list given
	Pairs    []Pair // all that can be compared, the one that disagrees most first
	Warnings []string
}

// ErrNothingToCompare reports an empty list of estimates.
var ErrNothingToCompare = errors.New("no estimate of the resistance to compare")

// Compare puts several estimates of one device beside each other. The best one
// is to be used; estimates are never averaged, since they share their faults.
// The order of trust is
//
//	points, heat, pressure where the curve is steep, flow, geometry,
//	pressure where it is flat (several answers or a span over ±25 %), share
//
// and of one way the narrower span for its flow, then the one given first. The
// order is common practice.
//
// Pairs are compared in flow where both have located the working point. The one
// that disagrees most is the one whose flows lie apart by the largest multiple of
// Reach. Every pair whose spans do not touch is warned of.
func Compare(estimates ...Estimate) (Comparison, error) {
	if len(estimates) == 0 {
		return Comparison{}, ErrNothingToCompare
	}
	c := Comparison{Best: best(estimates), Pairs: pairsOf(estimates)}
	for _, p := range c.Pairs {
		if !p.Agree() {
			c.Warnings = append(c.Warnings, disagreement(estimates[p.A], estimates[p.B], estimates[c.Best]))
		}
	}
	return c, nil
}

// best returns the place of the estimate to be trusted most.
func best(estimates []Estimate) int {
	least := 0
	for i := range estimates {
		if byTrust(estimates[i], estimates[least]) < 0 {
			least = i
		}
	}
	return least
}

// byTrust orders two estimates, the better one first.
func byTrust(a, b Estimate) int {
	return cmp.Or(cmp.Compare(distrust(a), distrust(b)), cmp.Compare(a.relativeSpan(), b.relativeSpan()))
}

// distrust ranks the ways, 0 the best.
func distrust(e Estimate) int {
	switch e.Method {
	case ByPoints:
		return 0
	case ByHeat:
		return 1
	case ByPressure:
		if e.vague() {
			return 5
		}
		return 2
	case ByFlow:
		return 3
	case ByGeometry:
		return 4
	case ByShare:
		return 6
	}
	return 7
}

// vague tells whether a pressure says little of the flow: doubt warns of the same.
func (e Estimate) vague() bool {
	return len(e.Points) != 1 || e.LowQ < (1-widePress)*e.Q || e.HighQ > (1+widePress)*e.Q
}

// relativeSpan returns the span over the flow, 0 where nothing is located.
func (e Estimate) relativeSpan() float64 {
	if !e.Located || !(e.Q > 0) {
		return 0
	}
	return (e.HighQ - e.LowQ) / e.Q
}

// pairsOf returns every pair of located estimates, the worst first.
func pairsOf(estimates []Estimate) (pairs []Pair) {
	for i, a := range estimates {
		for k := i + 1; k < len(estimates); k++ {
			if b := estimates[k]; a.Located && b.Located {
				pairs = append(pairs, pairOf(estimates, i, k))
			}
		}
	}
	slices.SortStableFunc(pairs, worseFirst)
	return pairs
}

func pairOf(estimates []Estimate, i, k int) Pair {
	if estimates[k].Q < estimates[i].Q {
		i, k = k, i
	}
	a, b := estimates[i], estimates[k]
	return Pair{A: i, B: k, Apart: b.Q - a.Q, Reach: (a.HighQ - a.Q) + (b.Q - b.LowQ)}
}

// worseFirst orders pairs by falling Apart/Reach, multiplied out since Reach may
// be zero, then by falling Apart.
func worseFirst(a, b Pair) int {
	return cmp.Or(cmp.Compare(b.Apart*a.Reach, a.Apart*b.Reach), cmp.Compare(b.Apart, a.Apart))
}

// disagreement says how two estimates contradict each other.
func disagreement(a, b, used Estimate) string {
	return fmt.Sprintf("by %s the device passes %s, by %s %s: the two do not agree even within their spans; check both, above all speed, leaks and dirt; the one by %s is used",
		a.Method, a.spanned(), b.Method, b.spanned(), used.Method)
}

// spanned gives flow and span in m³/h.
func (e Estimate) spanned() string {
	return fmt.Sprintf("%.4g m³/h (%.4g to %.4g)", e.Q*hour, e.LowQ*hour, e.HighQ*hour)
}
