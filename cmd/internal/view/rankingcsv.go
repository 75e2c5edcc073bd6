package view

import (
	"encoding/csv"
	"io"
	"math"
	"strconv"
	"strings"

	"lowsone/catalog"
	"lowsone/match"
)

// rankingColumns are the columns of a ranking as CSV, units in their names.
var rankingColumns = []string{
	"rank", "part", "maker", "fitted", "level_dba", "level_is_upper_bound", "level_difference_db", "sone",
	"speed_ratio", "flow_m3h", "pressure_pa", "q_over_qmax", "full_flow_m3h", "full_level_dba", "reserve_ratio", "limited_by",
	"check", "not_known", "estimated", "stalled", "marginal", "tie_with_first", "pareto", "three_shares",
	"price", "currency", "supplier", "order_code",
	"total_level_dba", "hottest_spot", "hottest_c", "keeps_limits", "life_ratio",
	"spectrum", "sone_low", "sone_high", "blade_tone_hz",
	"level_kept_dba", "level_p10_dba", "level_p90_dba", "keeps_flow_share", "keeps_limits_share", "group",
}

// CSV lists the candidates. A cell is empty where nothing is known.
func (d *Ranking) CSV(w io.Writer) error {
	out := csv.NewWriter(w)
	rows := [][]string{rankingColumns}
	for i := range d.Ranking.Candidates {
		rows = append(rows, append(d.csvRow(&d.Ranking.Candidates[i]), d.sureCells(i)...))
	}
	return out.WriteAll(rows)
}

func (d *Ranking) csvRow(c *match.Candidate) []string {
	fan := d.fan(c.Row)
	flag := strconv.FormatBool
	hot, hotCelsius, kept := "", "", ""
	if spot, ok := hottest(c.Spots); ok {
		hot, hotCelsius, kept = catalog.Guarded(spot.Name), number(spot.Planned.High), flag(allKept(c.Spots))
	}
	return []string{
		strconv.Itoa(c.Rank), catalog.Guarded(fan.Part), catalog.Guarded(fan.Maker), flag(c.Fitted),
		number(c.Planned.Level.DB), flag(c.Planned.Level.Under), number(d.difference(c)), number(c.Loud.Sone),
		number(c.Planned.Ratio), number(c.Planned.Q * perHour), number(c.Planned.P), number(c.QOverQ0),
		number(c.Full.Q * perHour), number(c.Full.Level.DB), number(c.Margin), string(c.Limit),
		strings.Join(checksThat(c.Checks, catalog.Warn), " "), strings.Join(checksThat(c.Checks, catalog.Unclear), " "),
		strings.Join(match.Names(c.Estimated), " "), stallNames[c.Stalled], flag(c.Marginal), flag(c.Tie), flag(c.Pareto), string(c.Shares),
		number(c.Price), catalog.Guarded(c.Currency), catalog.Guarded(fan.Supplier), catalog.Guarded(fan.OrderCode),
		number(d.total(c)), hot, hotCelsius, kept, number(life(c, d.Warm)),
		spectrumWord(&c.Loud), number(c.Loud.Low), number(c.Loud.High), number(c.Tone.Hz),
	}
}

// sureCells are the cells of how sure candidate i is; empty where it was not
// drawn.
func (d *Ranking) sureCells(i int) []string {
	s := d.sureOf(i)
	if s == nil {
		return make([]string, 6)
	}
	kept := s.Level
	if math.IsInf(kept, 1) {
		kept = math.NaN()
	}
	return []string{number(kept), number(s.Needed.Level.Low), number(s.Needed.Level.High), number(s.Kept), number(s.Limit), strconv.Itoa(s.Group)}
}

// number writes a number as JSON has it, nothing for an unknown one.
func number(v float64) string {
	if math.IsNaN(v) {
		return ""
	}
	return catalog.Number(v)
}
