package partscsv

import (
	"fmt"

	"lowsone/catalog"
)

// forceBands takes the columns that assignments name as bands: those, where
// they are several; where it is one, all that are named like it.
func (b *builder) forceBands(named []bandColumn) error {
	if len(named) == 0 {
		return nil
	}
	first := named[0].column
	if other := b.columnOf(catalog.FieldNoiseBands); other != nil {
		return notABand(first, fmt.Sprintf("noise_bands is already read from %q", other.header.text), "name one column of pairs, or a column for each band")
	}
	if len(named) == 1 {
		for _, c := range b.bandLike {
			if c.column != first && !c.taken && c.alike(named[0]) {
				named = append(named, c)
			}
		}
	}
	if len(named) == 1 {
		return notABand(first, "no other column is a band named like it", "name every column of the spectrum: --column noise_bands=HEADER for each")
	}
	if err := unlikeBands(named); err != nil {
		return err
	}
	b.off[catalog.FieldNoiseBands] = false
	b.acceptBands(named, ByForce)
	return nil
}

// unlikeBands refuses columns of which two are one band, or one is another
// field.
func unlikeBands(list []bandColumn) error {
	var seen [highestBand + 1]*column
	for _, c := range list {
		if seen[c.n] == c.column {
			return notABand(c.column, "it is given twice", "name each column once")
		}
		if c.taken {
			return notABand(c.column, fmt.Sprintf("column %q is already %s", c.header.text, c.def().Name), "a column is read as one field")
		}
		if other := seen[c.n]; other != nil {
			return notABand(c.column, fmt.Sprintf("%q is the same band", other.header.text), "name one column for each band")
		}
		seen[c.n] = c.column
	}
	return nil
}

func notABand(c *column, reason, hint string) error {
	return &ColumnError{Assignment{catalog.FieldNoiseBands, c.header.text}.String(), reason, hint}
}
