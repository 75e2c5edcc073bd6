package partscsv

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"lowsone/acoustics"
	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// Differences of levels in dB.
const (
	sumApart = 3.0 // the sum of the bands and the level may be so far apart: rounding, and bands that are not stated
	sumMeets = 1.0 // so near the sum meets the level, by another reading of the bands
)

// settleBands makes a spectrum of the band levels of the row, holds their sum
// against the level, and takes it for the level where none is stated. Band
// levels that cannot be those of a fan are unknown, with a warning; the row
// stays.
func (r *Reader) settleBands() {
	b := r.bands
	if b.broken || len(b.levels) == 0 {
		return
	}
	catalog.SortBands(b.levels)
	if _, err := acoustics.ReadBands(b.levels, acoustics.Unweighted); err != nil {
		r.unfitBands(err)
		return
	}
	r.bringToFooting()
	r.row.fan.NoiseBands = slices.Clone(b.levels)
	r.row.from[catalog.FieldNoiseBands] = origin{b.column.index + 1, false}
	if b.weighted {
		r.row.remark(b.column, "band levels were A-weighted: the weighting is taken off")
	}
	if r.row.fan.Noise.Known() {
		r.compareSum()
		return
	}
	r.levelFromBands()
}

// unfitBands warns of band levels that make no spectrum.
func (r *Reader) unfitBands(err error) {
	reason, mend := strings.TrimPrefix(err.Error(), "read band levels: "), ""
	warning := reason
	var be *acoustics.BandError
	if errors.As(err, &be) {
		mend = "; " + bandMends[be.Fault]
		switch be.Fault { // equal ones are counted: without the value
		case acoustics.NoBand:
			warning = "no band lies at a frequency that stands there"
		case acoustics.TooLoud:
			warning = fmt.Sprintf("the level at %s Hz is above 130 dB", catalog.Number(float64(be.Band.Frequency)))
		}
	}
	r.row.warn(r.bands.column, warning+mend, "%s: %s%s; taken as unknown", catalog.Fields[catalog.FieldNoiseBands].Title, reason, mend)
}

// bandMends names the mend of each fault.
var bandMends = map[acoustics.BandFault]string{
	acoustics.NoBand:       "name bands by their mid-band frequency in Hz",
	acoustics.NoNumber:     "write the level in dB",
	acoustics.TooLoud:      "check the unit and the decimal mark",
	acoustics.Repeated:     "state each band once",
	acoustics.MixedWidths:  "state octaves or third octaves, not both",
	acoustics.MissingBands: "state every band between the lowest and the highest, or none",
	acoustics.TooFewBands:  "state them too, or none",
}

// compareSum holds the A-weighted sum of the bands against the level.
func (r *Reader) compareSum() {
	b, level := r.bands, float64(r.row.fan.Noise.Or(0))
	sum := levelSum(b.levels, 1)
	if math.Abs(sum-level) <= sumApart {
		return
	}
	warning, text := "the A-weighted sum of the bands and the level are more than 3 dB apart",
		fmt.Sprintf("the A-weighted sum of the bands is %s dB(A), the level %s dB(A)", tenth(sum), tenth(level))
	other := b.meant(level)
	if other != "" {
		warning, text = warning+"; "+other, text+"; "+other
	}
	r.row.warn(b.column, warning, "%s", text)
}

// meant says by what other reading the sum of the bands meets a level; empty
// where it does not.
func (b *rowBands) meant(level float64) string {
	meets := func(times, shift float64) bool {
		return math.Abs(levelSum(b.levels, times)+shift-level) <= sumMeets
	}
	switch {
	case b.shift != 0 && meets(1, -b.shift):
		return "as they stood the bands meet the level: one of the headers may name the wrong kind or distance"
	case !b.weighted && meets(0, 0):
		return "taken as A-weighted the bands meet the level: if they are, write dB(A) into the header"
	case b.weighted && meets(2, 0):
		return "taken as unweighted the bands meet the level: if they are, write dB into the header"
	}
	return ""
}

// levelFromBands takes the A-weighted sum of the bands for the level, which no
// cell states. It is no estimate: the bands are measured.
func (r *Reader) levelFromBands() {
	c, sum := r.bands.column, levelSum(r.bands.levels, 1)
	if reason, _ := catalog.Fields[catalog.FieldNoise].Bound(sum); reason != "" {
		r.row.warn(c, "no level is stated, and the A-weighted sum of the bands is none that is possible", "no level is stated, and as the A-weighted sum of the bands %s", reason)
		return
	}
	r.row.fan.Noise = quantity.Stated(quantity.Decibel(hundredth(sum)))
	r.row.from[catalog.FieldNoise] = origin{c.index + 1, true}
	r.row.warn(c, "no level is stated: the A-weighted sum of the bands is taken", "no level is stated: %s dB(A) is the A-weighted sum of the bands", tenth(sum))
}

// tenth writes a level to a tenth of a decibel.
func tenth(db float64) string { return catalog.Number(math.Round(db*10) / 10) }
