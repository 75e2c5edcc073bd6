package partscsv

import (
	"strings"

	"lowsone/catalog/quantity"
)

// noteWeighting says where a level is taken as A-weighted although dB alone is
// named: so labels of fans are meant (common practice).
func (b *builder) noteWeighting(c *column) {
	if c.how == ByName || b.lexicon.headerWeight(&c.header) != weightUnsaid || !b.plainDecibels(c) {
		return
	}
	c.assumed = "A"
	c.notes = append(c.notes, "dB without a weighting is taken as dB(A)")
}

// plainDecibels says whether most cells that name a unit, or else the header, name
// dB alone.
func (b *builder) plainDecibels(c *column) bool {
	plain, all := 0, 0
	b.eachSample(c, func(text string, _ []string) bool {
		if b.reader.take(c, text) != "" || b.reader.sorted.values[0].unitText == "" {
			return true
		}
		all++
		if plainDecibel(b.reader.sorted.values[0].unitText) {
			plain++
		}
		return true
	})
	if all > 0 {
		return 2*plain > all
	}
	for _, u := range c.header.units {
		if isOf(u.units, quantity.DimLevel) {
			return plainDecibel(u.spelling)
		}
	}
	return false
}

// plainDecibel says whether a spelling of a unit is dB and names no weighting.
func plainDecibel(spelling string) bool {
	folded := strings.ToLower(strings.TrimSpace(spelling))
	return folded == "db" || strings.HasPrefix(folded, "decibel")
}
