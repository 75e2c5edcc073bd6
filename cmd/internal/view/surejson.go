package view

import (
	"math"

	"lowsone/match"
	"lowsone/match/sample"
)

// sureJSON says how sure a ranking is as a whole.
type sureJSON struct {
	Confidence Number           `json:"confidence"`
	Draws      int              `json:"draws"`
	Dropped    int              `json:"contradicting_draws"`
	Asked      int              `json:"candidates_drawn"`
	Need       rangeJSON        `json:"need_flow_m3h"`
	Now        rangeJSON        `json:"present_flow_m3h"`
	Loss       rangeJSON        `json:"pressure_at_need_pa"`
	Causes     List[causeJSON]  `json:"variance_shares"`
	Advice     *adviceJSON      `json:"measure_next,omitempty"`
	Further    List[adviceJSON] `json:"measure"` // what tells most first
}

// rangeJSON is the middle of what was drawn, and what holds 10 to 90 % of it.
type rangeJSON struct {
	Low    Number `json:"p10,omitzero"`
	Middle Number `json:"p50,omitzero"`
	High   Number `json:"p90,omitzero"`
}

type causeJSON struct {
	What    string `json:"what"`
	Level   Number `json:"of_level,omitzero"`
	Heat    Number `json:"of_temperature,omitzero"`
	Measure string `json:"measure,omitempty"`
}

type adviceJSON struct {
	Measure   string `json:"measure"`
	Level     Number `json:"level_half_range_db,omitzero"`
	LevelThen Number `json:"level_half_range_then_db,omitzero"`
	Heat      Number `json:"temperature_half_range_k,omitzero"`
	HeatThen  Number `json:"temperature_half_range_then_k,omitzero"`
}

// candidateSureJSON says how sure one candidate is.
type candidateSureJSON struct {
	Level   Number         `json:"level_kept_dba,omitzero"` // absent where the flow is not kept so surely
	Kept    Number         `json:"keeps_flow_share"`
	Limit   Number         `json:"keeps_limits_share,omitzero"`
	Quieter Number         `json:"quieter_than_fitted_share,omitzero"`
	Beats   Number         `json:"quieter_than_next_share,omitzero"`
	Group   int            `json:"group"`
	Needed  neededJSON     `json:"as_needed"`
	Planned plannedJSON    `json:"as_planned"`
	Spots   []spotTempJSON `json:"temperatures,omitempty"`
}

type neededJSON struct {
	Ratio rangeJSON  `json:"speed_ratio"`
	Level rangeJSON  `json:"level_dba"`
	Sone  *rangeJSON `json:"sone,omitempty"` // absent where no spectrum is known
}

type plannedJSON struct {
	Flow  rangeJSON `json:"flow_m3h"`
	Level rangeJSON `json:"level_dba"`
}

type spotTempJSON struct {
	Spot string `json:"spot"`
	rangeJSON
}

// rangeOf gives a range; an end that is beyond all numbers (no flow is enough) is
// absent.
func rangeOf(b sample.Band, by float64) rangeJSON {
	end := func(v float64) Number {
		if math.IsInf(v, 0) {
			return Number(math.NaN())
		}
		return Number(v * by)
	}
	return rangeJSON{end(b.Low), end(b.Middle), end(b.High)}
}

// sureOfAll gives how sure the ranking is; nil where nothing was drawn.
func sureOfAll(r *sample.Ranking) *sureJSON {
	if r == nil {
		return nil
	}
	return &sureJSON{
		Confidence: Number(r.Confidence), Draws: r.Draws, Dropped: r.Dropped, Asked: r.Asked,
		Need: rangeOf(r.Air.Need, perHour), Now: rangeOf(r.Now, perHour), Loss: rangeOf(r.Loss, 1),
		Causes: causesJSON(r.Causes), Advice: firstAdvice(r.Advice), Further: advicesOf(r.Advice),
	}
}

func causesJSON(causes []sample.Cause) List[causeJSON] {
	var out List[causeJSON]
	for _, c := range causes {
		out = append(out, causeJSON{c.Name, Number(c.Level), Number(c.Heat), c.Measure})
	}
	return out
}

func firstAdvice(all []sample.Advice) *adviceJSON {
	if len(all) == 0 {
		return nil
	}
	first := adviceOf(&all[0])
	return &first
}

func advicesOf(all []sample.Advice) List[adviceJSON] {
	var out List[adviceJSON]
	for i := range all {
		out = append(out, adviceOf(&all[i]))
	}
	return out
}

func adviceOf(a *sample.Advice) adviceJSON {
	return adviceJSON{a.Measure, Number(a.Level), Number(a.LevelThen), Number(a.Heat), Number(a.HeatThen)}
}

// candidateSure gives how sure a candidate is; nil where it was not drawn.
func candidateSure(s *sample.Sure, c *match.Candidate) *candidateSureJSON {
	if s == nil {
		return nil
	}
	j := &candidateSureJSON{
		Level: Number(s.Level), Kept: Number(s.Kept), Limit: Number(s.Limit), Quieter: Number(s.Quieter), Beats: Number(s.BeatsRow), Group: s.Group,
		Needed:  neededJSON{Ratio: rangeOf(s.Needed.Ratio, 1), Level: rangeOf(s.Needed.Level, 1)},
		Planned: plannedJSON{rangeOf(s.Planned.Flow, perHour), rangeOf(s.Planned.Level, 1)},
	}
	if math.IsInf(s.Level, 1) {
		j.Level = Number(math.NaN())
	}
	if !math.IsNaN(s.Needed.Sone.Middle) {
		sone := rangeOf(s.Needed.Sone, 1)
		j.Needed.Sone = &sone
	}
	for i, t := range s.Planned.Spots {
		j.Spots = append(j.Spots, spotTempJSON{c.Spots[i].Name, rangeOf(t, 1)})
	}
	return j
}
