package demo

import (
	"fmt"
	"math"
	"strings"

	"lowsone/catalog"
	"lowsone/cmd/internal/order"
	"lowsone/cmd/internal/view"
	"lowsone/match"
)

// Sentences say in three sentences what a ranking found. All numbers are the
// ranking's and the catalogue's own.
func Sentences(cols *catalog.Columns, r *match.Ranking) []string {
	return []string{now(r), best(cols, r), label(cols, r)}
}

// now tells of the fitted fan.
func now(r *match.Ranking) string {
	b := r.Baseline
	said := fmt.Sprintf("The fitted %s moves %s through the device", b.Fan.Name(), flow(b.Q))
	if q0, ok := b.Fan.Airflow.Get(); ok {
		said += fmt.Sprintf(", %.0f %% of the %s on its label", 100*b.Q/float64(q0), flow(float64(q0)))
	}
	if b.HasLevel {
		said += ", and is " + level(b.Level) + " loud" + where(r)
	}
	return said + "."
}

// best tells of the first candidate that is not the fitted fan.
func best(cols *catalog.Columns, r *match.Ranking) string {
	for i := range r.Candidates {
		c := &r.Candidates[i]
		if c.Fitted {
			continue
		}
		said := fmt.Sprintf("Of %d fans %d fit and move as much; the first, %s, does it at %.0f %% of its speed with %s",
			r.Looked, r.Total, nameOf(cols, c.Row), 100*c.Planned.Ratio, level(c.Planned.Level))
		if r.Baseline.HasLevel {
			said += fmt.Sprintf(", %s dB less", view.Fixed(r.Baseline.Level.DB-c.Planned.Level.DB, 1)) + asLoud(&c.Loud, &r.Baseline.Loud)
		}
		if !math.IsNaN(c.Price) {
			said += strings.TrimRight(", for "+order.Amount(c.Price)+" "+c.Currency, " ")
		}
		return said + "."
	}
	return fmt.Sprintf("Of %d fans none but the fitted one fits and moves as much.", r.Looked)
}

// asLoud tells how loud a fan is to the ear against the fitted one: about, unless the spectra of both were measured.
func asLoud(fan, fitted *match.Loudness) string {
	if !(fitted.Sone > 0) || math.IsNaN(fan.Sone) {
		return ""
	}
	about := ""
	if !fan.Measured || !fitted.Measured {
		about = "about "
	}
	return fmt.Sprintf(" and to the ear %s%.0f %% as loud", about, 100*fan.Sone/fitted.Sone)
}

// label tells of the quietest label among the fans that promise more air than
// the fitted one, or at least enough, and do not move it.
func label(cols *catalog.Columns, r *match.Ranking) string {
	promised := max(r.Need, float64(r.Baseline.Fan.Airflow.Or(0)))
	trap, quietest := -1, math.Inf(1)
	for i, weak := range r.TooWeak {
		if weak.Row < 0 || !(cols.Number(catalog.FieldAirflow, weak.Row) >= promised) {
			continue
		}
		if noise := cols.Number(catalog.FieldNoise, weak.Row); noise < quietest {
			trap, quietest = i, noise
		}
	}
	if trap < 0 {
		return fmt.Sprintf("%d more fit but are too weak at the device's own resistance.", r.Rejected[match.TooWeak])
	}
	weak := r.TooWeak[trap]
	return fmt.Sprintf("The label of %s promises %s at %s dB(A), but in this device it moves %s, %.0f %% too little: free-air figures do not choose a fan.",
		nameOf(cols, weak.Row), flow(cols.Number(catalog.FieldAirflow, weak.Row)), view.Trim(view.Fixed(quietest, 1)), flow(weak.Q), 100*weak.Shortfall)
}

func where(r *match.Ranking) string {
	return " at " + view.Trim(view.Fixed(r.Listener, 2)) + " m"
}

func flow(q float64) string { return view.Digits(q*3600, 3) + " m³/h" }

func level(l match.Level) string {
	text := view.Fixed(l.DB, 1) + " dB(A)"
	if l.Under {
		return "at most " + text
	}
	return text
}

func nameOf(cols *catalog.Columns, row int) string {
	return strings.TrimSpace(cols.Text(catalog.FieldMaker, row) + " " + cols.Text(catalog.FieldPart, row))
}
