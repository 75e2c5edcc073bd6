package view

import (
	"math"

	"lowsone/match"
)

// budgetJSON is the noise budget at the listener, now.
type budgetJSON struct {
	Total   Number          `json:"total_dba,omitzero"`
	Shares  List[shareJSON] `json:"shares"`
	Missing List[string]    `json:"not_known"`
}

type shareJSON struct {
	Name    string `json:"name"`
	Fan     bool   `json:"fan"`
	Known   string `json:"known_by"`
	Level   Number `json:"level_dba"`
	Without Number `json:"without_dba,omitzero"`
	Gain    Number `json:"gain_at_most_db,omitzero"`
	Next    string `json:"then_dominates,omitempty"`
}

// deviceJSON names the device and its paths.
type deviceJSON struct {
	Name    string       `json:"name,omitempty"`
	Path    string       `json:"path"`
	Loudest bool         `json:"loudest,omitempty"`
	Paths   List[string] `json:"paths"`
}

func (a *Around) deviceJSON() *deviceJSON {
	if a == nil {
		return nil
	}
	j := &deviceJSON{Name: a.Device.Name, Path: a.Device.PathName(a.Shown), Loudest: a.Loudest}
	for i := range a.Device.Paths {
		j.Paths = append(j.Paths, a.Device.PathName(i))
	}
	return j
}

func (a *Around) budgetJSON() *budgetJSON {
	if a == nil {
		return nil
	}
	budget := a.budget()
	j := &budgetJSON{Total: finite(budget.Total), Missing: a.Missing}
	for _, s := range budget.Shares {
		h := a.named(s.Name)
		share := shareJSON{
			Name: s.Name, Fan: h.Path != match.OtherSource, Known: match.HeardNames[h.By],
			Level: Number(s.Level), Without: finite(s.Without), Gain: Number(math.NaN()), Next: s.Next,
		}
		if s.Next != "" {
			share.Gain = Number(s.Gain)
		}
		j.Shares = append(j.Shares, share)
	}
	return j
}

// finite gives a number that is unknown where it is not finite: the level of
// nothing.
func finite(v float64) Number {
	if math.IsInf(v, 0) {
		v = math.NaN()
	}
	return Number(v)
}
