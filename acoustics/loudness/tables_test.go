package loudness

import (
	"slices"
	"strings"
	"testing"
)

// Every number of the tables against a second copy, typed by itself.
func TestTables(t *testing.T) {
	ours := map[string][][]float64{
		"RAP": {lowRangeEnd[:]},
		"DLL": rowsOf(lowCorrection[:], func(r *[lowBands]float64) []float64 { return r[:] }),
		"a0":  {earLoss[:]},
		"DDF": {diffuseGain[:]},
		"LTQ": {quietThreshold[:]},
		"DCB": {bandAdaptation[:]},
		"ZUP": {bandEnd[:]},
		"RNS": {slopeFloor[:]},
		"USL": rowsOf(slope[:], func(r *[slopeCols]float64) []float64 { return r[:] }),
	}
	seen := map[string]int{}
	for _, r := range records(t, "sound_iso532_1_tables.csv") {
		symbol := r["symbol"]
		var want []float64
		for _, text := range strings.Fields(r["values"]) {
			want = append(want, number(t, text))
		}
		if row := seen[symbol]; row >= len(ours[symbol]) || !slices.Equal(ours[symbol][row], want) {
			t.Errorf("table %s, %s, row %s: want %v (ISO 532-1:2017 annex A.3)", r["table"], symbol, r["row"], want)
		}
		seen[symbol]++
	}
	for symbol, rows := range ours {
		if seen[symbol] != len(rows) {
			t.Errorf("%s: %d rows, the source has %d", symbol, len(rows), seen[symbol])
		}
	}
}

func rowsOf[R any](rows []R, flat func(*R) []float64) (all [][]float64) {
	for i := range rows {
		all = append(all, flat(&rows[i]))
	}
	return all
}

// A single band is heard from where it passes both the threshold at the ear and,
// by the formula, the threshold of its critical band.
func TestThresholdInQuiet(t *testing.T) {
	for i := lowGroups; i < coreBands; i++ {
		least := quietThreshold[i] + earLoss[i] + max(0, bandAdaptation[i])
		l := silence()
		band := i + lowBands - lowGroups
		l[band] = least - 0.001
		if got := Sone(&l, Free); got != 0 {
			t.Errorf("band %d at %v dB: %v sone, under the threshold", band, l[band], got)
		}
		l[band] = least + 0.001
		if got := Sone(&l, Free); !(got > 0) {
			t.Errorf("band %d at %v dB: %v sone, over the threshold", band, l[band], got)
		}
	}
}
