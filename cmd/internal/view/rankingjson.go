package view

import (
	"math"

	"lowsone/catalog"
	"lowsone/match"
)

// The keys of a ranking. Level and flow keys are those of pointJSON.
type rankingJSON struct {
	Schema
	Device     *deviceJSON             `json:"device,omitempty"`
	Baseline   baselineJSON            `json:"baseline"`
	System     systemJSON              `json:"system"`
	Need       needJSON                `json:"need"`
	Heat       *heatJSON               `json:"heat,omitempty"`
	Seat       *seatJSON               `json:"installation,omitempty"`
	Budget     *budgetJSON             `json:"noise_budget,omitempty"`
	Listener   Number                  `json:"level_distance_m"`
	Room       Number                  `json:"small_room_adds_db"` // at most, to every level
	Sure       *sureJSON               `json:"sure,omitempty"`     // absent: nominal
	Looked     int                     `json:"looked_at"`
	Total      int                     `json:"candidates_total"`
	Candidates List[candidateJSON]     `json:"candidates"`
	Fitted     *candidateJSON          `json:"fitted_candidate,omitempty"` // where it is not among the candidates shown
	Rejected   map[match.CheckName]int `json:"rejected"`
	Unrankable List[reasonJSON]        `json:"not_rankable"`
	TooWeak    List[weakJSON]          `json:"too_weak"`
	NotAsked   int                     `json:"does_not_state_choice"`
	Listed     List[listedJSON]        `json:"several_sources"`
	Notes      List[string]            `json:"notes"`
	Caution    string                  `json:"caution"`
}

type needJSON struct {
	Flow Number `json:"flow_m3h,omitzero"` // absent: no flow is enough
	From string `json:"from"`
}

type candidateJSON struct {
	Rank       int                `json:"rank"`
	Part       string             `json:"part"`
	Maker      string             `json:"maker,omitempty"`
	Fitted     bool               `json:"fitted"`
	Full       pointJSON          `json:"full"`
	Matched    pointJSON          `json:"matched"`
	Planned    pointJSON          `json:"planned"`
	Difference Number             `json:"level_difference_db,omitzero"` // planned less baseline
	Total      Number             `json:"total_level_dba,omitzero"`     // with everything else that is heard
	Reserve    Number             `json:"reserve_ratio"`                // full flow over need, less 1
	Spots      []spotJSON         `json:"temperatures,omitempty"`       // at the planned speed, at the worst
	FanAir     Number             `json:"fan_air_c,omitzero"`
	FanLife    Number             `json:"fan_life_ratio,omitzero"`
	Fit        List[checkJSON]    `json:"fit"`
	Estimated  List[string]       `json:"estimated"`
	TwoEnded   bool               `json:"two_ended_curve"`
	Stalled    string             `json:"stalled"` // no, probably, near
	Marginal   bool               `json:"marginal"`
	Tie        bool               `json:"tie_with_first"`
	Pareto     bool               `json:"pareto"`
	Shares     string             `json:"three_shares,omitempty"`
	Cautions   List[string]       `json:"cautions"`
	Sure       *candidateSureJSON `json:"sure,omitempty"`
	Price      Number             `json:"price,omitzero"`
	Currency   string             `json:"currency,omitempty"`
	Supplier   string             `json:"supplier,omitempty"`
	OrderCode  string             `json:"order_code,omitempty"`
	Stock      Number             `json:"stock,omitzero"`
	InStock    string             `json:"in_stock,omitempty"`
}

type checkJSON struct {
	Check  string `json:"check"`
	Result string `json:"result"`
	Note   string `json:"note,omitempty"`
}

type reasonJSON struct {
	Reason string `json:"reason"`
	Count  int    `json:"count"`
}

type weakJSON struct {
	Part      string `json:"part"`
	Maker     string `json:"maker,omitempty"`
	Fitted    bool   `json:"fitted"`
	Flow      Number `json:"flow_m3h"`
	Shortfall Number `json:"shortfall_ratio"`
	Shares    string `json:"three_shares,omitempty"`
}

// stallNames names the judgements of stall by match.Stall.
var stallNames = [...]string{"no", "probably", "near"}

// JSON gives the object of the rank command.
func (d *Ranking) JSON() any {
	r, s := d.Ranking, d.system()
	j := rankingJSON{
		Device: d.Around.deviceJSON(), Heat: heatOf(r.Heat), Seat: seatOf(r.Seat), Budget: d.Around.budgetJSON(),
		Baseline: s.baseline(), System: s.json(), Need: needJSON{Number(r.Need * perHour), r.NeedFrom},
		Listener: Number(r.Listener), Room: Number(roomAdds(r.Listener)), Looked: r.Looked, Total: r.Total, NotAsked: r.NotAsked,
		Rejected: map[match.CheckName]int{}, Notes: r.Notes, Caution: Caution, Sure: sureOfAll(d.Sure), Listed: listedOf(d.Listed),
	}
	for i := range r.Candidates {
		one := d.candidateJSON(&r.Candidates[i])
		one.Sure = candidateSure(d.sureOf(i), &r.Candidates[i])
		j.Candidates = append(j.Candidates, one)
	}
	if r.Fitted != nil {
		one := d.candidateJSON(r.Fitted)
		one.Sure = candidateSure(d.sureOfFitted(), r.Fitted)
		j.Fitted = &one
	}
	for _, name := range match.RejectNames {
		j.Rejected[name] = r.Rejected[name]
	}
	for _, u := range r.Unrankable {
		j.Unrankable = append(j.Unrankable, reasonJSON{u.Why, u.Count})
	}
	for _, weak := range d.nearest() {
		fan := d.fan(weak.Row)
		j.TooWeak = append(j.TooWeak, weakJSON{fan.Part, fan.Maker, weak.Fitted, Number(weak.Q * perHour), Number(weak.Shortfall), string(weak.Shares)})
	}
	return j
}

func (d *Ranking) candidateJSON(c *match.Candidate) candidateJSON {
	fan := d.fan(c.Row)
	j := candidateJSON{
		Rank: c.Rank, Part: fan.Part, Maker: fan.Maker, Fitted: c.Fitted,
		Full: pointOf(c.Full), Matched: pointOf(c.Matched), Planned: pointOf(c.Planned),
		Difference: Number(d.difference(c)), Reserve: Number(c.Margin),
		Total: Number(d.total(c)), Spots: spotsJSON(c.Spots), FanAir: Number(c.FanAir), FanLife: Number(c.FanLife),
		Estimated: fieldNames(c.Estimated), TwoEnded: c.TwoEnded, Stalled: stallNames[c.Stalled],
		Marginal: c.Marginal, Tie: c.Tie, Pareto: c.Pareto, Shares: string(c.Shares), Cautions: c.Warnings(),
		Price: Number(c.Price), Currency: c.Currency, Supplier: fan.Supplier, OrderCode: fan.OrderCode, Stock: numberOf(fan, catalog.FieldStock),
		InStock: catalog.Fields[catalog.FieldInStock].Format(fan),
	}
	j.Matched.QOverQMax = Number(c.QOverQ0)
	j.Planned.LimitedBy = string(c.Limit)
	j.Planned.loudnessJSON = loudnessOf(&c.Loud)
	j.Planned.Tone = Number(c.Tone.Hz)
	for _, check := range c.Checks {
		j.Fit = append(j.Fit, checkJSON{string(check.Name), check.Verdict.String(), check.Note})
	}
	return j
}

// difference gives the planned level less that of the fitted fan now, in dB;
// NaN where the latter is not known.
func (d *Ranking) difference(c *match.Candidate) float64 {
	if b := d.Ranking.Baseline; b.HasLevel {
		return c.Planned.Level.DB - b.Level.DB
	}
	return math.NaN()
}

// total gives what is heard at the listener in all with a candidate; NaN where
// nothing else is.
func (d *Ranking) total(c *match.Candidate) float64 {
	if d.Around == nil {
		return math.NaN()
	}
	return d.Around.total(c.Planned.Level.DB)
}

// numberOf gives the value of a numeric field in the unit of its name, NaN
// where it is not known.
func numberOf(f *catalog.Fan, id catalog.FieldID) Number {
	return Number(catalog.Fields[id].InUnit(catalog.ColumnsOf(f).Number(id, 0)))
}
