package partscsv

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/catalog/tabular"
)

// Given is a value that holds for every row which does not state it itself
// (--value FIELD=VALUE). It is kept as [quantity.Default], and a remark tells it
// from what the list says.
type Given struct {
	Field catalog.FieldID
	Text  string // as given

	fan     *catalog.Fan // with what the text states
	fields  []catalog.FieldID
	remarks []string
	column  *column // that stands for it where columns are named
}

// String writes it as the option does: FIELD=VALUE.
func (g *Given) String() string { return catalog.Fields[g.Field].Name + "=" + g.Text }

// Option writes it as a shell is given it.
func (g *Given) Option() string {
	return "--value " + catalog.Fields[g.Field].Name + "=" + ShellQuoted(g.Text)
}

// ParseGiven reads a text as a cell of the field's own column is read, with a
// decimal point or comma. Errors: *catalog.ValueError.
func ParseGiven(id catalog.FieldID, text string) (Given, error) {
	g := Given{Field: id, Text: text}
	switch id {
	case catalog.FieldPart, catalog.FieldCurve, catalog.FieldNoiseBands:
		return g, g.fault("no value that all rows share", "each fan has its own: it needs a column")
	}
	err := g.read(tabular.Point)
	if err != nil && catalog.Fields[id].Numeric() {
		if g.read(tabular.Comma) == nil {
			err = nil
		}
	}
	return g, err
}

func (g *Given) fault(reason, hint string) error {
	return &catalog.ValueError{Field: catalog.Fields[g.Field].Name, Text: g.Text, Reason: reason, Hint: hint}
}

// read reads the text as the only cell of a row.
func (g *Given) read(mark tabular.Mark) error {
	x, d := tables(), &catalog.Fields[g.Field]
	b := &builder{lexicon: x}
	c := &column{header: x.parseHeader(d.Name, ""), mark: mark}
	b.own(c, d)
	r := (&Plan{lexicon: x, columns: []*column{c}, order: []*column{c}, lone: true}).Reader()
	g.fan, g.fields, g.remarks = &catalog.Fan{}, nil, nil
	r.row.reset(g.fan)
	r.readCell(c, g.Text)
	if r.row.err == nil {
		r.settleFrequency()
		r.settleSides()
		r.settleSupply()
	}
	if e := r.row.err; e != nil {
		return g.fault(e.Reason, cmp.Or(choicesOf(d), e.Hint))
	}
	g.note(r.row.remarks)
	if len(g.fields) == 0 {
		return g.fault(whyNothing(r.row.remarks), choicesOf(d))
	}
	given := *c
	given.index, given.header.text = -1, "--value "+g.String()
	g.column = &given
	return nil
}

// note keeps which fields the text gives, its own first, and what was remarked.
func (g *Given) note(remarks []Remark) {
	for id := range catalog.NumFields {
		if _, o := catalog.Fields[id].Get(g.fan); o != quantity.Unknown {
			g.fields = append(g.fields, id)
		}
	}
	slices.SortStableFunc(g.fields, func(a, b catalog.FieldID) int {
		return -compareBool(a == g.Field, b == g.Field)
	})
	for i := range remarks {
		g.remarks = append(g.remarks, remarks[i].Text)
	}
}

// whyNothing says why a text gives no value.
func whyNothing(remarks []Remark) string {
	if len(remarks) > 0 && remarks[0].Warning != "" {
		return remarks[0].Warning
	}
	return "it says no value"
}

// choicesOf names what a choice may be.
func choicesOf(d *catalog.Field) string {
	if d.Form != catalog.Choice {
		return ""
	}
	return fmt.Sprintf("a %s is one of %s", d.Title, strings.Join(d.Choices, ", "))
}

// give puts the given values where the row states none. What a text says beside
// its field holds for that value alone: the 1 m of "25 dB(A) @ 1 m" says nothing of
// the row's own level.
func (r *Reader) give() {
	for i := range r.plan.given {
		g := &r.plan.given[i]
		if g.fields[0] == g.Field && !r.wants(g.Field) {
			continue
		}
		for n, id := range g.fields {
			if n > 0 && r.plan.gives(id) || !r.wants(id) {
				continue
			}
			d := &catalog.Fields[id]
			v, o := d.Get(g.fan)
			if o == quantity.Cell {
				o = quantity.Default
			}
			d.Put(r.row.fan, v, o)
			r.row.from[id] = origin{column: -1 - i}
		}
	}
}

// gives says whether one of the given values is of this very field.
func (p *Plan) gives(id catalog.FieldID) bool {
	return slices.ContainsFunc(p.given, func(g Given) bool { return g.Field == id })
}

// wants says whether the row states nothing of a field, nor anything that a value
// of it would contradict.
func (r *Reader) wants(id catalog.FieldID) bool {
	f := r.row.fan
	if _, o := catalog.Fields[id].Get(f); o != quantity.Unknown && o != quantity.Estimate {
		return false
	}
	switch id {
	case catalog.FieldFrequency:
		return len(r.row.pairs) == 0
	case catalog.FieldInStock:
		return !f.Stock.Known()
	case catalog.FieldStock:
		return !f.InStock.Known()
	case catalog.FieldAirflow, catalog.FieldStaticPressure:
		return len(f.Curve) == 0
	case catalog.FieldNoise:
		return r.bands == nil || len(r.bands.levels) == 0
	case catalog.FieldCurrency:
		return f.Price.Known() || r.plan.gives(catalog.FieldPrice)
	case catalog.FieldCurrent, catalog.FieldPower:
		return r.row.bareDraw.column == nil
	}
	return true
}

// tellGiven remarks on the values that were given, and keeps which of the given
// ones the row took.
func (r *Reader) tellGiven() {
	r.took = r.took[:0]
	var said []string
	for i := range r.plan.given {
		g := &r.plan.given[i]
		taken := false
		for _, id := range g.fields {
			if r.row.from[id].column != -1-i {
				continue
			}
			taken = true
			d := &catalog.Fields[id]
			v, _ := d.Get(r.row.fan)
			said = append(said, d.Title+" "+showValue(d, v, r.row.fan))
		}
		if taken {
			r.took = append(r.took, i)
			said = append(said, g.remarks...)
		}
	}
	if len(said) > 0 {
		text := "said at the import, not by the list: " + strings.Join(said, ", ")
		r.row.remarks = append(r.row.remarks, Remark{Column: -1, Text: clippedTo(text, mostRemarked)})
	}
}

// Took lists which of the plan's given values the row read last took, by their
// place among them. It is good until the next call of Read.
func (r *Reader) Took() []int { return r.took }

// columnFrom gives the column that an origin names; the first for none.
func (p *Plan) columnFrom(n int) *column {
	if n < 0 {
		return p.given[-1-n].column
	}
	return p.columns[max(0, n-1)]
}
