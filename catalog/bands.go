package catalog

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"lowsone/catalog/quantity"
)

// ParseBands reads band levels "63:41;125:38;250:35", mid-band frequency in Hz
// and unweighted level in dB, in any order; they come back by rising frequency.
// Whether the frequencies are those of octaves or third octaves is for those
// who know bands. Errors are *ValueError.
func ParseBands(text string) ([]quantity.BandLevel, error) {
	fail := func(reason string) ([]quantity.BandLevel, error) {
		return nil, &ValueError{Fields[FieldNoiseBands].Name, text, reason, `write mid-band frequency in Hz and level in dB as pairs, such as "63:41;125:38;250:35"`}
	}
	var bands []quantity.BandLevel
	for pair := range strings.SplitSeq(text, ";") {
		if pair = strings.TrimSpace(pair); pair == "" {
			continue
		}
		left, right, ok := strings.Cut(pair, ":")
		hz, errHz := strconv.ParseFloat(strings.TrimSpace(left), 64)
		db, errDB := strconv.ParseFloat(strings.TrimSpace(right), 64)
		if !ok || errHz != nil || errDB != nil {
			return fail(fmt.Sprintf("%q is no pair of numbers", pair))
		}
		bands = append(bands, quantity.BandLevel{Frequency: quantity.Frequency(hz), Level: quantity.Decibel(db)})
	}
	SortBands(bands)
	if reason := bandsFault(bands); reason != "" {
		return fail(reason)
	}
	return bands, nil
}

// bandsFault says why sorted levels are no spectrum; empty where they may be
// one.
func bandsFault(bands []quantity.BandLevel) string {
	if len(bands) == 0 {
		return "it holds no band"
	}
	for i, b := range bands {
		hz, db := float64(b.Frequency), float64(b.Level)
		if math.IsNaN(hz) || math.IsInf(hz, 0) || math.IsNaN(db) || math.IsInf(db, 0) || hz <= 0 {
			return fmt.Sprintf("%v:%v is not a frequency and a level", hz, db)
		}
		if i > 0 && bands[i-1].Frequency == b.Frequency {
			return fmt.Sprintf("the band of %s Hz stands there twice", Number(hz))
		}
	}
	return ""
}

// SortBands brings band levels into the order of their frequencies; those of
// one frequency stay in the order given.
func SortBands(bands []quantity.BandLevel) {
	slices.SortStableFunc(bands, func(a, b quantity.BandLevel) int { return cmp.Compare(a.Frequency, b.Frequency) })
}

// FormatBands writes band levels as ParseBands reads them.
func FormatBands(bands []quantity.BandLevel) string {
	var b strings.Builder
	for i, l := range bands {
		if i > 0 {
			b.WriteByte(';')
		}
		b.WriteString(Number(float64(l.Frequency)))
		b.WriteByte(':')
		b.WriteString(Number(float64(l.Level)))
	}
	return b.String()
}
