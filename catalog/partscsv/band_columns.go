package partscsv

import (
	"cmp"
	"fmt"
	"slices"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// leastBands is the fewest columns that are taken for the bands of one spectrum
// without --column.
const leastBands = 5

// bandColumn is a column whose header may be that of a band.
type bandColumn struct {
	*column
	bandHeader
}

// bandColumns takes columns for the bands of one spectrum: at least leastBands,
// one for each of different octaves or third octaves.
func (b *builder) bandColumns() {
	if b.off[catalog.FieldNoiseBands] || b.columnOf(catalog.FieldNoiseBands) != nil {
		return
	}
	var all []bandColumn
	for _, c := range b.bandLike {
		if !c.taken && c.plain && b.holdsLevels(c.column) {
			all = append(all, c)
		}
	}
	if len(all) < leastBands {
		return
	}
	groups := [][]bandColumn{all}
	if twice(all) || kinds(all) > 1 {
		groups = byLabel(all)
	}
	var best []bandColumn
	for _, g := range groups {
		if g = ofOneWidth(g); areBands(g) && (best == nil || better(g, best)) {
			best = g
		}
	}
	b.acceptBands(best, ByWord)
}

// readBandHeaders finds the columns whose headers may be those of bands.
func (b *builder) readBandHeaders() {
	for _, c := range b.columns {
		second := ""
		if c.index < len(b.in.Second) {
			second = b.in.Second[c.index]
		}
		if h, ok := b.lexicon.bandHeader(c.header.text, second); ok {
			b.bandLike = append(b.bandLike, bandColumn{c, h})
		}
	}
}

// bandHeaderOf gives the header of a column as that of a band.
func (b *builder) bandHeaderOf(c *column) (h bandHeader, ok bool) {
	i := slices.IndexFunc(b.bandLike, func(x bandColumn) bool { return x.column == c })
	if i < 0 {
		return h, false
	}
	return b.bandLike[i].bandHeader, true
}

// holdsLevels says whether most sampled cells of a column may be levels.
func (b *builder) holdsLevels(c *column) bool {
	trial := *c
	trial.takeBand(b.lexicon, bandHeader{})
	known, read := 0, 0
	for _, row := range b.in.Sample {
		if c.index >= len(row) || b.lexicon.isUnknown(normalise(row[c.index])) {
			continue
		}
		known++
		if b.reader.take(&trial, row[c.index]) != "" {
			continue
		}
		if v := b.reader.sorted.values[0]; v.low >= leastBandLevel && v.high <= mostBandLevel {
			read++
		}
	}
	return 2*read >= known
}

// twice says whether two columns are the same band.
func twice(list []bandColumn) bool {
	var seen [highestBand + 1]bool
	for _, c := range list {
		if seen[c.n] {
			return true
		}
		seen[c.n] = true
	}
	return false
}

// kinds counts the kinds of level that headers say.
func kinds(list []bandColumn) int {
	var said [1 << 8]bool
	n := 0
	for _, c := range list {
		if c.kind != 0 && !said[c.kind] {
			said[c.kind] = true
			n++
		}
	}
	return n
}

// byLabel parts columns by what their headers say beside the frequency, in the
// order in which they stand in the file.
func byLabel(list []bandColumn) [][]bandColumn {
	var groups [][]bandColumn
	for _, c := range list {
		i := slices.IndexFunc(groups, func(g []bandColumn) bool { return g[0].alike(c) })
		if i < 0 {
			groups = append(groups, nil)
			i = len(groups) - 1
		}
		groups[i] = append(groups[i], c)
	}
	return groups
}

// alike says whether two columns may be bands of one spectrum.
func (c bandColumn) alike(d bandColumn) bool {
	return c.label == d.label && c.kind == d.kind && c.said == d.said
}

// ofOneWidth keeps the bands that are octaves, or third octaves with a neighbour
// where those between octaves outnumber them. What does not belong, such as 50 Hz
// among octaves, is a mains frequency.
func ofOneWidth(list []bandColumn) []bandColumn {
	var there [highestBand + 2]bool
	octaves := 0
	for _, c := range list {
		there[c.n] = true
		if isOctave(c.n) {
			octaves++
		}
	}
	thirds := 2*octaves < len(list)
	var kept []bandColumn
	for _, c := range list {
		neighbours := there[c.n-1] || there[c.n+1]
		if thirds && neighbours || !thirds && isOctave(c.n) {
			kept = append(kept, c)
		}
	}
	return kept
}

// areBands says whether columns are enough for a spectrum. Bare numbers are
// bands only where they are neighbours and one of them is no number in which
// people count, as 63.
func areBands(list []bandColumn) bool {
	if len(list) < leastBands || twice(list) {
		return false
	}
	if slices.ContainsFunc(list, func(c bandColumn) bool { return c.sure() }) {
		return true
	}
	const uncounted = 18 // 63 Hz
	return slices.ContainsFunc(list, func(c bandColumn) bool { return c.n == uncounted }) && inRow(numbersOf(list))
}

func numbersOf(list []bandColumn) []int {
	var ns []int
	for _, c := range list {
		ns = append(ns, c.n)
	}
	slices.Sort(ns)
	return ns
}

// inRow says whether rising bands are neighbours: octaves or third octaves
// without a gap.
func inRow(ns []int) bool {
	for i := 1; i < len(ns); i++ {
		step := ns[i] - ns[i-1]
		if step != ns[1]-ns[0] || step != 1 && step != perOctave {
			return false
		}
	}
	return true
}

// better says whether spectrum g is read rather than h: the one with more bands,
// then the unweighted, then not that of sound power, as of two rated levels.
func better(g, h []bandColumn) bool {
	score := func(list []bandColumn) int {
		n := 4 * len(list)
		if list[0].said != weightA {
			n += 2
		}
		if list[0].kind != catalog.NoisePower {
			n++
		}
		return n
	}
	return cmp.Or(cmp.Compare(score(g), score(h)), cmp.Compare(h[0].label, g[0].label)) > 0
}

// acceptBands takes columns as bands. What one header says of kind and
// weighting, none saying otherwise, holds for all.
func (b *builder) acceptBands(list []bandColumn, how How) {
	slices.SortStableFunc(list, func(c, d bandColumn) int { return cmp.Compare(c.n, d.n) })
	kind, w := catalog.NoiseKind(0), weightUnsaid
	for _, c := range list {
		kind, w = cmp.Or(kind, c.kind), cmp.Or(w, c.said)
	}
	width := "octaves"
	if slices.ContainsFunc(list, func(c bandColumn) bool { return !isOctave(c.n) }) {
		width = "third octaves"
	}
	for i, c := range list {
		h := c.bandHeader
		h.kind, h.said = cmp.Or(h.kind, kind), cmp.Or(h.said, w)
		c.takeBand(b.lexicon, h)
		c.how, c.proof = how, true
		c.why = fmt.Sprintf("its frequency is one of %d %s", len(list), width)
		if how == ByForce {
			c.why = "as --column says"
		}
		if i == 0 {
			c.noteWeight(fmt.Sprintf("the levels of %d %s", len(list), width))
		}
	}
}

// takeBand makes the column one band of the field of band levels.
func (c *column) takeBand(x *lexicon, h bandHeader) {
	c.take(x, catalog.FieldNoiseBands)
	c.band, c.weight, c.noiseKind = h.n, h.said, h.kind
	c.scale = scale{dimension: quantity.DimLevel, units: c.header.unitsOf(quantity.DimLevel)}
	if len(c.scale.units) == 0 {
		c.scale.units = []quantity.Unit{quantity.PreferredUnit(quantity.DimLevel)}
	}
}

// noteWeight says how levels are taken.
func (c *column) noteWeight(levels string) {
	switch c.weight {
	case weightA:
		c.notes = append(c.notes, levels+" are A-weighted: the weighting is taken off")
	case weightUnsaid:
		c.notes = append(c.notes, levels+" name no weighting: they are taken as unweighted")
	}
}

// levelUnit gives the unit a person reads the levels of the column in.
func (c *column) levelUnit() string {
	if c.weight == weightA {
		return "dB(A)"
	}
	return "dB"
}

// looksLikeBands says whether most cells of a column are levels at mid-band
// frequencies, whatever its header says.
func (b *builder) looksLikeBands(c *column) bool {
	known, read := 0, 0
	b.eachSample(c, func(text string, _ []string) bool {
		if b.lexicon.isUnknown(normalise(text)) {
			return true
		}
		known++
		if list, fault := b.reader.pairedNumbers(c, text); fault == "" && len(list) >= 2*leastBands && areLevelsOfBands(list) {
			read++
		}
		return true
	})
	return 2*read > known
}

// whyNoPairs says why a column of band levels in pairs is not read.
func (b *builder) whyNoPairs(c *column) string {
	if first := b.columnOf(catalog.FieldNoiseBands); first != nil {
		return fmt.Sprintf("looks like noise_bands, which is read from %q", first.header.text)
	}
	return "looks like noise_bands, levels in bands, though the header does not say so: --column noise_bands=" + ShellQuoted(c.header.text) + " reads it"
}

// whyNoBand says why a column that looks like a band is none; empty where it
// does not look like one.
func (b *builder) whyNoBand(c *column) string {
	if !b.inOneBand(c) {
		return ""
	}
	if first := b.columnOf(catalog.FieldNoiseBands); first != nil {
		return fmt.Sprintf("looks like a band of noise_bands, which is read from %q", first.header.text)
	}
	return fmt.Sprintf("looks like a band of noise_bands, for which there must be %d columns of levels; --column noise_bands=HEADER takes fewer", leastBands)
}
