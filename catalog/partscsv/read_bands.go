package partscsv

import "lowsone/catalog"

// bands reads band levels as the tool's own CSV holds them.
func (r *Reader) bands(c *column, text string) {
	bands, err := catalog.ParseBands(text)
	if err != nil {
		ve := err.(*catalog.ValueError)
		r.row.refuse(c, text, ve.Reason, ve.Hint)
		return
	}
	r.row.fan.NoiseBands = bands
	r.row.from[catalog.FieldNoiseBands] = origin{c.index + 1, false}
}
