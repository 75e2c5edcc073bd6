package view

import (
	"fmt"
	"math"

	"lowsone/match"
	"lowsone/match/resistance"
)

// wayJSON is one of several ways to the resistance that were recorded.
type wayJSON struct {
	Method string `json:"method"`
	Flow   Number `json:"flow_m3h,omitzero"`
	Low    Number `json:"flow_low_m3h,omitzero"`
	High   Number `json:"flow_high_m3h,omitzero"`
	A      Number `json:"a_pa_per_m3h"`
	B      Number `json:"b_pa_per_m3h2"`
}

func waysJSON(all []resistance.Estimate) []wayJSON {
	var out []wayJSON
	for _, e := range all {
		j := wayJSON{e.Method.String(), Number(math.NaN()), Number(math.NaN()), Number(math.NaN()), Number(e.System.A / perHour), Number(e.System.B / perHour / perHour)}
		if e.Located {
			j.Flow, j.Low, j.High = Number(e.Q*perHour), Number(e.LowQ*perHour), Number(e.HighQ*perHour)
		}
		out = append(out, j)
	}
	return out
}

// ways compares the ways that were recorded: "heat says 30.2 m³/h, pressure
// says 36 m³/h". Empty where there is but one.
func ways(s *match.System) string {
	if len(s.Others) == 0 {
		return ""
	}
	says := func(e *resistance.Estimate) string {
		if !e.Located {
			return e.Method.String() + " says nothing of the flow"
		}
		return fmt.Sprintf("%s says %s", e.Method, flowText(e.Q))
	}
	said := says(&s.Estimate) + " and is used"
	for i := range s.Others {
		said += "; " + says(&s.Others[i])
	}
	return said
}
