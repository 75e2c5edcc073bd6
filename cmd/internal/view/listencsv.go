package view

import (
	"encoding/csv"
	"io"
	"math"

	"lowsone/acoustics"
	"lowsone/catalog"
)

// CSV lists the third octaves: of one recording its levels, of two those before
// and after with their difference. A cell is empty where a level is not known or
// there is no sound.
func (d *Listen) CSV(w io.Writer) error {
	first := &d.Recordings[0]
	unit := "unweighted_db"
	if first.Scaled == nil {
		unit += "_re_full_scale"
	}
	rows := [][]string{{"hz", unit}}
	if d.Change != nil {
		rows = [][]string{{"hz", "before_" + unit, "after_" + unit, "difference_db", "standard_deviation_db"}}
	}
	for i, hz := range acoustics.ThirdNominal {
		row := []string{catalog.Number(hz), finiteNumber(first.db(first.Analysis.Thirds[i]))}
		if d.Change != nil {
			after, c := &d.Recordings[1], d.Change.Thirds[i]
			row = append(row, finiteNumber(after.db(after.Analysis.Thirds[i])), finiteNumber(float64(c.By)), finiteNumber(float64(c.Spread)))
		}
		rows = append(rows, row)
	}
	return csv.NewWriter(w).WriteAll(rows)
}

// finiteNumber writes a number as JSON has it, nothing for one that is not known
// or without end.
func finiteNumber(v float64) string {
	if math.IsInf(v, 0) {
		return ""
	}
	return number(v)
}
