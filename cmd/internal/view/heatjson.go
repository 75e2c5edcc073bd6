package view

import (
	"math"

	"lowsone/match/thermal"
)

// The keys of heat.
type heatLogJSON struct {
	Schema
	File    string          `json:"file"`
	Rows    int             `json:"rows"`
	Time    string          `json:"time_column"`
	Probes  List[probeJSON] `json:"probes"`
	Skipped List[skipJSON]  `json:"skipped"`

	Unchecked List[uncheckedJSON] `json:"limits_not_checked"` // spots of the device file of which the log has no probe

	Notes   List[string] `json:"notes"`
	Caution string       `json:"caution"`
}

type uncheckedJSON struct {
	Spot   string `json:"spot"`
	Limit  Number `json:"limit_c"`
	Margin Number `json:"margin_k"`
}

type skipJSON struct {
	Header string `json:"header"`
	Why    string `json:"why"`
}

type probeJSON struct {
	Name     string `json:"probe"`
	Header   string `json:"header"`
	Readings int    `json:"readings"`
	Missing  int    `json:"missing"`
	Length   Number `json:"length_s"`
	First    Number `json:"first_c"`
	Last     Number `json:"last_c"`
	Highest  Number `json:"highest_c,omitzero"`

	Verdict  string `json:"verdict"`
	Why      string `json:"why"`
	End      Number `json:"end_c,omitzero"` // only where the log predicts it
	EndSD    Number `json:"end_standard_error_k,omitzero"`
	AtLeast  Number `json:"at_least_c,omitzero"` // where it has not settled
	Constant Number `json:"time_constant_s,omitzero"`
	TauSD    Number `json:"time_constant_standard_error_s,omitzero"`
	Hidden   Number `json:"may_hide_k,omitzero"`

	AtWorst   Number         `json:"at_worst_c,omitzero"`
	Limit     Number         `json:"limit_c,omitzero"`
	Margin    Number         `json:"margin_k,omitzero"`
	Allowed   Number         `json:"allowed_c,omitzero"`
	Judgement string         `json:"limit_verdict,omitempty"`
	Rules     List[ruleJSON] `json:"rules"`
}

type ruleJSON struct {
	Rule    string `json:"rule"`
	Asks    string `json:"asks"`
	Settled bool   `json:"steady"`
	Detail  string `json:"detail"`
	Source  string `json:"source"`
}

// JSON gives the object of the heat command.
func (d *Heat) JSON() any {
	j := heatLogJSON{File: d.File, Rows: d.Log.Rows, Time: d.Log.Time, Notes: d.Log.Notes, Caution: Caution}
	for _, s := range d.Log.Skipped {
		j.Skipped = append(j.Skipped, skipJSON(s))
	}
	for _, s := range d.Unchecked {
		j.Unchecked = append(j.Unchecked, uncheckedJSON{s.Name, Number(s.Limit.Limit), Number(s.Limit.Margin)})
	}
	for i := range d.Probes {
		j.Probes = append(j.Probes, d.Probes[i].json())
	}
	return j
}

func (p *HeatProbe) json() probeJSON {
	unknown := Number(math.NaN())
	j := probeJSON{
		Name: p.Name, Header: p.Header, Readings: len(p.Readings), Missing: p.Missing, Length: Number(p.length()),
		First: Number(p.Readings[0].Celsius), Last: Number(p.last()), Highest: finite(p.Prediction.Highest.Celsius),
		Verdict: p.Prediction.Verdict.String(), Why: p.Prediction.Why(),
		End: unknown, EndSD: unknown, AtLeast: unknown, Constant: unknown, TauSD: unknown, Hidden: unknown,
		AtWorst: Number(p.atWorst()), Limit: unknown, Margin: unknown, Allowed: unknown,
	}
	if end, sd, ok := p.Prediction.End(); ok {
		j.End, j.EndSD, j.Hidden = Number(end), Number(sd), finite(p.Prediction.Hidden)
	}
	if least, ok := p.Prediction.AtLeast(); ok {
		j.AtLeast = Number(least)
	}
	if p.Prediction.Verdict == thermal.Predicts {
		j.Constant, j.TauSD = Number(p.Prediction.Whole.Tau), finite(p.Prediction.Whole.TauSD)
	}
	if p.Limit.Known {
		j.Limit, j.Margin, j.Allowed, j.Judgement = Number(p.Limit.Limit), Number(p.Limit.Margin), Number(p.Limit.Allowed()), p.Judgement.String()
	}
	for _, r := range p.Rules {
		j.Rules = append(j.Rules, ruleJSON{r.Rule.Name, r.Rule.Asks, r.Settled, r.Detail, r.Rule.Source})
	}
	return j
}
