package partscsv

import (
	"lowsone/catalog/quantity"
)

// rowBands are the band levels of one row.
type rowBands struct {
	levels   []quantity.BandLevel // unweighted
	column   *column              // that gave the first; nil for none
	weighted bool                 // some were A-weighted
	shift    float64              // dB, by which they were brought to what the level is
	broken   bool                 // a cell could not be read, which was told
}

func (b *rowBands) reset() { *b = rowBands{levels: b.levels[:0]} }

// add takes in the level of the band that hz names; the weighting is taken off.
func (b *rowBands) add(c *column, hz, level float64, weighted bool) {
	l := quantity.BandLevel{Frequency: quantity.Frequency(hz), Level: quantity.Decibel(level)}
	if n, ok := bandOf(hz); ok {
		l.Frequency = nominalHz(n)
	}
	if weighted {
		l.Level = quantity.Decibel(hundredth(level - float64(aWeighting(l.Frequency))))
		b.weighted = true
	}
	b.levels = append(b.levels, l)
	if b.column == nil {
		b.column = c
	}
}

// band reads a cell of a column that holds the levels of one band.
func (r *Reader) band(c *column, text string) {
	fault := r.take(c, text)
	if fault == "" {
		fault = r.sorted.gather()
	}
	if fault != "" {
		r.row.warn(c, fault+"; the bands of the row are unknown", "%s %q: %s; taken as unknown", c.def().Title, text, fault)
		r.bands.broken = true
		return
	}
	level, ok := r.settle(c, text)
	if !ok {
		r.bands.broken = true
		return
	}
	weighted := c.weight == weightA
	if unit := r.sorted.values[0].unitText; unit != "" && c.weight == weightUnsaid {
		weighted = saysA(unit)
	}
	r.bands.add(c, float64(nominalHz(c.band)), level, weighted)
}

// pairs reads a cell of pairs of frequency and level.
func (r *Reader) pairs(c *column, text string) {
	numbers, fault := r.pairedNumbers(c, text)
	if fault != "" {
		const mend = `write mid-band frequency in Hz and level in dB as pairs, such as "63:41;125:38;250:35"`
		r.row.warn(c, fault+"; "+mend, "%s %q: %s; taken as unknown", c.def().Title, text, fault)
		r.bands.broken = true
		return
	}
	for i := 0; i < len(numbers); i += 2 {
		hz, db := &numbers[i], &numbers[i+1]
		if hz.of == ofLevel {
			hz, db = db, hz
		}
		r.bands.add(c, hz.value, db.value, db.weighted || c.weight == weightA)
	}
}
