package view

import (
	"math"

	"lowsone/match"
)

// The keys of rank --both.
type pairsJSON struct {
	Schema
	Device  *deviceJSON      `json:"device"`
	Paths   List[pathNeed]   `json:"paths"` // in the order of a pair's fans
	Budget  *budgetJSON      `json:"noise_budget"`
	Now     Number           `json:"now_dba,omitzero"`
	Output  string           `json:"shared_output,omitempty"`
	Pairs   List[pairJSON]   `json:"pairs"`
	Notes   List[pairedNote] `json:"notes"`
	Caution string           `json:"caution"`
}

type pathNeed struct {
	Path     string    `json:"path"`
	Need     needJSON  `json:"need"`
	Heat     *heatJSON `json:"heat,omitempty"`
	Listener Number    `json:"level_distance_m"`
	Total    int       `json:"candidates_total"`
}

type pairJSON struct {
	Rank     int             `json:"rank"`
	Fans     []candidateJSON `json:"fans"`
	Level    Number          `json:"level_dba"`
	Change   Number          `json:"level_change_db,omitzero"`
	Current  Number          `json:"current_a,omitzero"` // of both, on a shared output
	Starting Number          `json:"start_current_a,omitzero"`
	Supply   string          `json:"supply_check,omitempty"`
	Price    Number          `json:"price,omitzero"`
	Currency string          `json:"currency,omitempty"`
}

type pairedNote struct {
	Path string `json:"path"`
	Note string `json:"note"`
}

// JSON gives the object of rank --both.
func (d *Pairs) JSON() any {
	j := pairsJSON{Device: d.Around.deviceJSON(), Budget: d.Around.budgetJSON(), Now: Number(d.now()), Output: d.Output, Caution: Caution}
	for _, r := range []*Ranking{d.First, d.Second} {
		name := d.name(r.Around.Shown)
		j.Paths = append(j.Paths, pathNeed{
			Path: name, Need: needJSON{Number(r.Ranking.Need * perHour), r.Ranking.NeedFrom},
			Heat: heatOf(r.Ranking.Heat), Listener: Number(r.Ranking.Listener), Total: r.Ranking.Total,
		})
		for _, note := range r.Ranking.Notes {
			j.Notes = append(j.Notes, pairedNote{name, note})
		}
	}
	for i := range d.Pairs {
		j.Pairs = append(j.Pairs, d.pairJSON(i, &d.Pairs[i]))
	}
	return j
}

func (d *Pairs) pairJSON(i int, p *match.Pair) pairJSON {
	j := pairJSON{Rank: i + 1, Level: finite(p.Level), Change: Number(p.Level - d.now()), Price: Number(math.NaN())}
	for _, s := range d.sides(p) {
		j.Fans = append(j.Fans, s.ranking.candidateJSON(s.candidate))
	}
	if price, currency, ok := p.Price(); ok {
		j.Price, j.Currency = Number(price), currency
	}
	m := d.mirrored(p)
	j.Current, j.Starting = aboveZero(m.Current), aboveZero(m.StartCurrent)
	if d.Output != "" {
		j.Supply = m.Supply.String()
	}
	return j
}
