package match

import (
	"fmt"
	"math"
)

// watched explains the need of each watched spot.
func (w *walk) watched() {
	if w.p.cooling == nil {
		return
	}
	for _, n := range w.p.cooling.need.Each {
		w.add(Step{Title: "what " + n.Spot + " needs", Formula: "ΔT₁·(P_worst/P₁)·[f_air/μ + f_film/μ^m + f_solid] = limit − margin − inlet",
			Numbers: n.Why(), Result: ratioWords(n.Ratio),
			Source: "shares not recorded are spanned, and the largest need counts; see package thermal"})
	}
}

func ratioWords(ratio float64) string {
	if math.IsInf(ratio, 1) {
		return "no flow is enough"
	}
	return fmt.Sprintf("%s of the present mass flow", Plain(ratio))
}

// seated explains what the seat adds to the level of every fan.
func (w *walk) seated() {
	if in := w.p.seat; in.Known {
		w.add(Step{Title: "what the seat adds", Formula: "E = measured − predicted, of the fitted fan",
			Numbers: fmt.Sprintf("%.1f − %.1f dB(A)", in.Measured, in.Predicted), Result: fmt.Sprintf("%+.1f dB on every fan", in.Offset),
			Source: "guard, mounting and wear; common practice"})
	}
}

// warmth explains how hot the watched spots get with one fan. A working point
// that was evaluated has temperatures.
func (w *walk) warmth(full, planned Point) {
	c := Candidate{Full: full, Planned: planned}
	if w.p.heat(&c) != nil {
		return
	}
	for i := range c.Spots {
		t := &c.Spots[i]
		result := fmt.Sprintf("%s to %s °C, middle %s °C; it may have %s °C less %s K", Plain(t.Planned.Low), Plain(t.Planned.High), Plain(t.Planned.Middle), Plain(t.Limit), Plain(t.Margin))
		if !t.Kept() {
			result += ": not kept"
		}
		if !math.IsNaN(t.Life) {
			result += fmt.Sprintf("; it lives %s times as long as now", Plain(t.Life))
		}
		w.add(Step{About: TopicHeat, Title: "how hot " + t.Name + " gets", Formula: "T = T_inlet + ΔT₁·(P_worst/P₁)·[f_air/μ + f_film/μ^m + f_solid]",
			Numbers: fmt.Sprintf("μ = %s at the planned speed; at full speed %s to %s °C", Plain(planned.Q*w.p.task.density/w.p.cooling.mass), Plain(t.Full.Low), Plain(t.Full.High)),
			Result:  result, Source: "the worst room and heat; f: shares of the rise that are the air's own, from the surface to the air, and inside the part; m: film_exponent; see package thermal"})
	}
}
