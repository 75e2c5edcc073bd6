package view

import (
	"slices"

	"lowsone/match"
	"lowsone/match/thermal"
)

// hottest gives the watched spot that comes nearest to what it may have, or
// passes it furthest; not ok where none is watched.
func hottest(spots []match.SpotTemperature) (match.SpotTemperature, bool) {
	if len(spots) == 0 {
		return match.SpotTemperature{}, false
	}
	over := func(t match.SpotTemperature) float64 { return t.Planned.High - (t.Limit - t.Margin) }
	return slices.MaxFunc(spots, func(a, b match.SpotTemperature) int {
		switch d := over(a) - over(b); {
		case d > 0:
			return 1
		case d < 0:
			return -1
		}
		return 0
	}), true
}

// atMost writes the warm end of a temperature that hangs on unknown shares:
// the one that is judged.
func atMost(b thermal.Band) string { return Fixed(b.High, 0) }

// mayHave tells what a spot may have: its limit less the margin.
func mayHave(t *match.SpotTemperature) string {
	return Trim(Fixed(t.Limit-t.Margin, 1)) + " °C (" + Trim(Fixed(t.Limit, 1)) + " less " + Trim(Fixed(t.Margin, 1)) + ")"
}

// hotCell gives the temperature of the spot nearest to its limit.
func hotCell(spots []match.SpotTemperature) string {
	hot, ok := hottest(spots)
	if !ok {
		return Unknown
	}
	return atMost(hot.Planned)
}

// allKept says whether every spot keeps its limit less the margin.
func allKept(spots []match.SpotTemperature) bool {
	return !slices.ContainsFunc(spots, func(t match.SpotTemperature) bool { return !t.Kept() })
}

// allWithin says whether every watched spot keeps its limit itself.
func allWithin(spots []match.SpotTemperature) bool {
	return !slices.ContainsFunc(spots, func(t match.SpotTemperature) bool { return !t.Within() })
}

// spotJSON is a watched spot at the worst.
type spotJSON struct {
	Name   string `json:"spot"`
	Low    Number `json:"low_c"`
	Middle Number `json:"middle_c"`
	High   Number `json:"high_c"`
	Limit  Number `json:"limit_c"`
	Margin Number `json:"margin_k"`
	Kept   bool   `json:"keeps_limit_less_margin"`
	// Life is that of a capacitor over its life with the fitted fan as found.
	Life Number `json:"life_ratio,omitzero"`
}

func spotsJSON(spots []match.SpotTemperature) []spotJSON {
	var out []spotJSON
	for i := range spots {
		t := &spots[i]
		out = append(out, spotJSON{
			t.Name, Number(t.Planned.Low), Number(t.Planned.Middle), Number(t.Planned.High),
			Number(t.Limit), Number(t.Margin), t.Kept(), Number(t.Life),
		})
	}
	return out
}
