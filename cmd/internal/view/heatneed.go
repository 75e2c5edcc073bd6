package view

import (
	"math"

	"lowsone/match"
	"lowsone/match/thermal"
)

// heatJSON is the need of the watched spots.
type heatJSON struct {
	Spot    string         `json:"spot"` // whose need is the largest
	Flow    Number         `json:"flow_m3h,omitzero"`
	Density Number         `json:"density_kg_m3"`
	Ratio   Number         `json:"mass_flow_ratio,omitzero"` // over the present one; absent: no flow is enough
	Least   Number         `json:"mass_flow_ratio_least,omitzero"`
	Reason  string         `json:"no_flow_is_enough,omitempty"`
	Spots   List[needSpot] `json:"spots"`
	Assumed List[string]   `json:"assumed"`
}

// needSpot is the need of one spot.
type needSpot struct {
	Spot   string `json:"spot"`
	Limit  Number `json:"limit_c"`
	Margin Number `json:"margin_k"`
	Ratio  Number `json:"mass_flow_ratio,omitzero"`
	Why    string `json:"why"`
}

func heatOf(h *match.HeatNeed) *heatJSON {
	if h == nil {
		return nil
	}
	j := &heatJSON{
		Spot: h.Spot, Flow: finite(h.Flow * perHour), Density: Number(h.Density), Ratio: finite(h.Ratio), Least: finite(h.Least), Assumed: h.Assumed,
	}
	if h.Reason != thermal.Enough {
		j.Reason = h.Why()
	}
	for _, n := range h.Each {
		j.Spots = append(j.Spots, needSpot{n.Spot, Number(n.Limit), Number(n.Margin), finite(n.Ratio), n.Why()})
	}
	return j
}

// seatJSON is what the seat adds to the level of a fan.
type seatJSON struct {
	Offset    Number `json:"offset_db,omitzero"` // added to every candidate
	Measured  Number `json:"measured_dba"`
	Predicted Number `json:"predicted_dba"`
	Note      string `json:"note"`
}

func seatOf(in match.Installation) *seatJSON {
	note := in.Note()
	if note == "" {
		return nil
	}
	j := &seatJSON{Number(in.Offset), Number(in.Measured), Number(in.Predicted), note}
	if !in.Known {
		j.Offset = Number(math.NaN())
	}
	return j
}

// life is the price of more warmth in life, over that with the fitted fan as
// found: the least of the capacitors' and, for a fan in the warm air, of its own
// bearings; NaN where there is no rule.
func life(c *match.Candidate, warm bool) float64 {
	least := math.NaN()
	take := func(v float64) {
		if !math.IsNaN(v) && !(v >= least) {
			least = v
		}
	}
	for _, t := range c.Spots {
		take(t.Life)
	}
	if warm {
		take(c.FanLife)
	}
	return least
}
