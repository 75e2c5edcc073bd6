package partscsv

import (
	"fmt"
	"slices"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/catalog/tabular"
)

// samples is how many cells of a column are shown.
const samples = 3

// Columns tells what each column of the file was taken for, in file order.
func (p *Plan) Columns() []Column { return slices.Clone(p.reports) }

// report makes the column report from the sampled rows.
func (p *Plan) report(b *builder) {
	for _, c := range p.columns {
		p.reports = append(p.reports, p.reportColumn(b, c))
	}
}

func (p *Plan) reportColumn(b *builder, c *column) Column {
	out := Column{Header: c.header.text, Number: c.index + 1, How: Unread, Notes: c.notes, Check: c.check}
	if !c.taken && p.exported {
		out.Why, out.Samples = "a column of an export that no field stands for", p.rawSamples(b, c)
		return out
	}
	if !c.taken {
		out.Why = b.whyUnread(c)
		out.Samples = p.rawSamples(b, c)
		return out
	}
	out.How, out.Why, out.Assumed = c.how, c.why, c.assumed
	out.Fields = []catalog.FieldID{c.field}
	if len(c.scale.units) > 0 && c.def().Form == catalog.Quantity {
		out.Unit = c.scale.units[0].Symbol
	}
	if c.band > 0 {
		out.Unit = c.levelUnit()
	}
	if c.numeric() {
		out.Decimal = string(rune(c.mark))
		if c.mark == 0 {
			out.Decimal = string(rune(tabular.Point))
		}
	}
	out.Samples = p.readSamples(b, c, &out.Fields)
	return out
}

// whyUnread says which field an unread column looked like, if any.
func (b *builder) whyUnread(c *column) string {
	if why := b.whyNoBand(c); why != "" {
		return why
	}
	if b.looksLikeBands(c) {
		return b.whyNoPairs(c)
	}
	best := guess{}
	for id := range catalog.NumFields {
		if g, ok := b.guessField(c, id); ok && g.score > best.score {
			best = g
		}
	}
	if best.score < enough {
		return "no field is known by this header"
	}
	if first := b.columnOf(best.field); first != nil {
		return "looks like " + catalog.Fields[best.field].Name + ", which is read from " + `"` + first.header.text + `"`
	}
	return "no field is known by this header"
}

// rawSamples gives the first different cells of a column.
func (p *Plan) rawSamples(b *builder, c *column) []Sample {
	var list []Sample
	b.eachSample(c, func(text string, _ []string) bool {
		list = append(list, Sample{Cell: text})
		return len(list) < samples
	})
	return list
}

// readSamples reads the first different cells of a column and adds the other
// fields they give.
func (p *Plan) readSamples(b *builder, c *column, fields *[]catalog.FieldID) []Sample {
	var list []Sample
	r := p.Reader()
	b.eachSample(c, func(text string, row []string) bool {
		if p.lexicon.isUnknown(normalise(text)) {
			return true
		}
		s := Sample{Cell: text}
		s.Value, s.Fault = r.sample(c, text, row, fields)
		list = append(list, s)
		return len(list) < samples
	})
	return list
}

// eachSample visits the different cells of a column that are not blank.
func (b *builder) eachSample(c *column, visit func(text string, row []string) bool) {
	var seen []string
	for _, row := range b.in.Sample {
		if c.index >= len(row) {
			continue
		}
		text := cleanText(row[c.index])
		if text == "" || slices.Contains(seen, text) {
			continue
		}
		seen = append(seen, text)
		if !visit(text, row) {
			return
		}
	}
}

// sample reads one cell alone and says what came of it; fault is set where it is
// what was wrong. What only its row tells is taken from there.
func (r *Reader) sample(c *column, text string, row []string, fields *[]catalog.FieldID) (value string, fault bool) {
	fan := &catalog.Fan{}
	r.row.reset(fan)
	if r.bands != nil {
		r.bands.reset()
	}
	r.readCell(c, text)
	if r.row.err != nil {
		return r.row.err.Reason, true
	}
	if r.row.bareDraw.column != nil {
		return r.sampleDraw(c, row, fields)
	}
	r.settleFrequency()
	r.settleSides()
	r.settleSupply()
	value = r.sampleBands(c)
	for id := range catalog.Fields {
		value = r.addSample(value, catalog.FieldID(id), fan, fields)
	}
	if value == "" && len(r.row.remarks) > 0 {
		return r.row.remarks[0].Warning, true
	}
	return value, false
}

// addSample adds a field of a sampled cell to what was read from it.
func (r *Reader) addSample(value string, id catalog.FieldID, fan *catalog.Fan, fields *[]catalog.FieldID) string {
	d := &catalog.Fields[id]
	v, origin := d.Get(fan)
	if origin == quantity.Unknown {
		return value
	}
	if !slices.Contains(*fields, d.ID) {
		*fields = append(*fields, d.ID)
	}
	if value != "" {
		value += ", "
	}
	value += d.Title + " " + showValue(d, v, fan)
	if origin == quantity.Estimate {
		value += " (estimated)"
	}
	return value
}

// sampleBands says what came of a cell of band levels: the level of the one band,
// else all.
func (r *Reader) sampleBands(c *column) string {
	switch {
	case r.bands == nil || len(r.bands.levels) == 0:
		return ""
	case c.band > 0:
		return fmt.Sprintf("%s %s dB", c.def().Title, tenth(float64(r.bands.levels[0].Level)))
	}
	return c.def().Title + " " + catalog.FormatBands(r.bands.levels)
}

// showValue writes a value with its unit.
func showValue(d *catalog.Field, v catalog.Value, fan *catalog.Fan) string {
	if d.Form == catalog.Quantity {
		return show(d, v.Number)
	}
	return d.Format(fan)
}
