package partscsv

import (
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// noise reads a level, with what kind of level it is and at what distance.
func (r *Reader) noise(c *column, text string) {
	fault := r.take(c, text)
	if fault == "" {
		fault = r.sorted.gather()
	}
	if fault != "" {
		r.row.refuse(c, text, fault, c.hint(fault))
		return
	}
	value, ok := r.settle(c, text)
	if !ok {
		return
	}
	kind := c.noiseKind
	if k := r.noiseKindIn(r.cell.words); k != 0 {
		kind = k
	}
	if r.sorted.amounts[0].unit.Symbol == "B" {
		if kind == 0 {
			r.row.remark(c, "a level in bels is a sound power")
			kind = catalog.NoisePower
		}
	}
	r.companions(c)
	r.row.put(c, catalog.FieldNoise, value, quantity.Cell, text)
	if _, read := r.row.fan.Noise.Get(); !read {
		return
	}
	if _, known := r.row.fan.NoiseKind.Get(); kind != 0 && !known {
		r.row.put(c, catalog.FieldNoiseKind, float64(kind), quantity.Cell, text)
	}
	if m, ok := c.header.condition(quantity.DimLength); ok {
		if _, known := r.row.fan.NoiseDistance.Get(); !known {
			r.row.put(c, catalog.FieldNoiseDistance, m, quantity.Cell, text)
		}
	}
}

// noiseKindIn tells sound power and sound pressure by their words.
func (r *Reader) noiseKindIn(words []string) catalog.NoiseKind {
	if len(words) == 0 {
		return 0
	}
	x := r.plan.lexicon
	group, _, _ := x.choices[catalog.FieldNoiseKind].find(x.vocabulary.tokens(strings.Join(words, " ")))
	return catalog.NoiseKind(group + 1)
}

// condition gives what the header says its values hold for, in dimension d.
func (h *header) condition(d quantity.Dimension) (float64, bool) {
	for _, c := range h.conditions {
		if v, ok := c.in(d); ok {
			return v, true
		}
	}
	return 0, false
}
