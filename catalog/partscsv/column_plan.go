package partscsv

import (
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/catalog/tabular"
)

// column is how one column is read.
type column struct {
	index  int // from 0
	header header
	mark   tabular.Mark

	taken   bool
	field   catalog.FieldID
	check   bool // second column of its field
	how     How
	why     string
	proof   bool // the header names the field, cells need not
	notes   []string
	assumed string // what of the unit is assumed, see Column.Assumed

	scale     scale
	supply    catalog.Supply
	noiseKind catalog.NoiseKind
	weight    weighting       // of levels in bands
	band      int             // the column holds the levels of the band at 10^(band/10) Hz; 0 for none
	either    bool            // of current and power: the header says neither for certain
	sibling   *column         // of current and power: the column as the other of them
	usual     catalog.FieldID // of either: what a cell without a unit is where the row does not tell; 0 for neither
	lowEnd    bool            // of a voltage range: the column holds its low end alone
}

func (c *column) def() *catalog.Field { return &catalog.Fields[c.field] }

// numeric says whether the cells of the column are numbers.
func (c *column) numeric() bool { return c.taken && (c.def().Numeric() || c.band > 0) }

// inch says whether bare numbers of the column are inches.
func (c *column) inch() bool { return len(c.scale.units) > 0 && c.scale.units[0].Symbol == "inch" }

// prepare normalises a cell and drops a name of its own that holds a number.
func (c *column) prepare(text string) string {
	clean := normalise(text)
	if c.field == catalog.FieldLife {
		for _, name := range [...]string{"L10", "L 10", "B10"} {
			clean = strings.Replace(clean, name, "", 1)
		}
	}
	return clean
}

// take makes the column one of field id.
func (c *column) take(x *lexicon, id catalog.FieldID) {
	c.taken, c.field = true, id
	d := c.def()
	c.scale = scale{dimension: d.Unit.Dimension}
	if d.Form == catalog.Quantity {
		c.scale.units = c.header.unitsOf(d.Unit.Dimension)
	}
	switch id {
	case catalog.FieldNoise:
		c.noiseKind = c.headerNoiseKind(x)
	case catalog.FieldNoiseBands:
		c.noiseKind, c.weight = c.headerNoiseKind(x), x.headerWeight(&c.header)
	case catalog.FieldVoltage, catalog.FieldVoltageMin, catalog.FieldVoltageMax:
		c.supply = c.headerSupply(x)
		c.lowEnd = c.header.has(x.least) || c.header.has("umin") || c.header.has("vmin") || c.header.has(stem("from")) || c.header.has("von")
	}
}

// headerNoiseKind tells whether the header says sound power or pressure.
func (c *column) headerNoiseKind(x *lexicon) catalog.NoiseKind {
	group, _, _ := x.choices[catalog.FieldNoiseKind].find(c.header.tokens)
	return catalog.NoiseKind(group + 1)
}

// headerSupply tells what supply the header or its unit names.
func (c *column) headerSupply(x *lexicon) catalog.Supply {
	for _, u := range c.header.units {
		if isOf(u.units, quantity.DimVoltage) {
			if s := supplyOf(u.spelling); s != 0 {
				return s
			}
		}
	}
	group, _, ambiguous := x.choices[catalog.FieldSupply].find(c.header.tokens)
	if ambiguous {
		return 0
	}
	return catalog.Supply(group + 1)
}
