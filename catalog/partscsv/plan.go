package partscsv

import (
	"cmp"
	"slices"
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/catalog/tabular"
)

// Input is what a plan is made from.
type Input struct {
	File   string     // name for messages
	Header []string   // one name a column, none twice
	Second []string   // a second line of headers, such as one of units; may be empty
	Sample [][]string // the first rows, some hundred of them
	// Marks gives the decimal mark of each column. Only the columns for which
	// votes says so have a say about the others. Nil: points throughout.
	Marks func(votes func(column int) bool) []tabular.Mark
	// Assign overrules what columns are taken for.
	Assign []Assignment
	// Given are values of rows that do not state them, one for each field.
	Given []Given
}

// Plan says how each column of one file is read. It does not change once made,
// so that several readers can work by it.
type Plan struct {
	file     string
	lexicon  *lexicon
	columns  []*column // as in the file
	order    []*column // that are read, by field; extras behind
	lone     bool      // no column is read for heights
	exported bool      // the file is an export
	reports  []Column
	given    []Given
}

// builder makes a plan.
type builder struct {
	in       Input
	lexicon  *lexicon
	reader   Reader // reads sampled cells
	columns  []*column
	bandLike []bandColumn // whose headers may be those of bands
	letters  string       // headers that are the letter of a side, one for each column
	seen     map[evidenceKey]*evidence
	units    map[int]map[quantity.Dimension]int // of the cells of each column, see countUnits
	off      [catalog.NumFields]bool            // fields that no column may be
}

// NewPlan finds out what the columns of a file are. Errors: *NotPartsError,
// *ColumnError.
func NewPlan(in Input) (*Plan, error) {
	b := newBuilder(in)
	b.readHeaders()
	b.readBandHeaders()
	b.setMarks(func(int) bool { return true })
	if err := b.force(); err != nil {
		return nil, err
	}
	b.byName()
	exported := b.exported()
	if !exported {
		b.bandColumns()
		b.guessAll()
		b.fallbacks()
	}
	b.setMarks(func(i int) bool { return b.columns[i].numeric() })
	if !exported {
		b.checks()
	}
	b.assume()
	p := b.plan()
	p.exported, p.given = exported, b.in.Given
	b.settleEither(p)
	if err := p.isPartsTable(b); err != nil {
		return nil, err
	}
	p.report(b)
	return p, nil
}

func newBuilder(in Input) *builder {
	b := &builder{in: in, lexicon: tables(), seen: map[evidenceKey]*evidence{}, units: map[int]map[quantity.Dimension]int{}}
	b.reader.plan = &Plan{file: in.File, lexicon: b.lexicon}
	return b
}

func (b *builder) readHeaders() {
	for i, text := range b.in.Header {
		second := ""
		if i < len(b.in.Second) {
			second = b.in.Second[i]
		}
		c := &column{index: i, header: b.lexicon.parseHeader(text, second)}
		b.columns = append(b.columns, c)
		if t := c.header.tokens; len(t) == 1 && len(t[0]) == 1 && strings.Contains("wbhtdl", t[0]) {
			b.letters += t[0]
		}
	}
}

func (b *builder) setMarks(votes func(int) bool) {
	if b.in.Marks == nil {
		for _, c := range b.columns {
			c.mark = tabular.Point
		}
		return
	}
	for i, m := range b.in.Marks(votes) {
		if i < len(b.columns) {
			b.columns[i].mark = m
		}
	}
}

// byName takes the columns that carry the tool's own names; they always win
// over what other headers look like.
func (b *builder) byName() {
	for _, c := range b.columns {
		d, ok := catalog.FieldNamed(strings.TrimSpace(c.header.text))
		if ok && !c.taken && !b.off[d.ID] && b.columnOf(d.ID) == nil {
			b.own(c, d)
		}
	}
}

// own takes a column as the field whose very name it carries, in the unit of
// the name.
func (b *builder) own(c *column, d *catalog.Field) {
	c.take(b.lexicon, d.ID)
	c.how, c.why, c.proof, c.lowEnd = ByName, "the tool's own column name", true, d.ID == catalog.FieldVoltageMin
	if d.Form == catalog.Quantity {
		c.scale.units, c.scale.assumed = []quantity.Unit{d.Unit}, false
	}
}

// columnOf gives the column a field is read from; nil for none.
func (b *builder) columnOf(id catalog.FieldID) *column {
	for _, c := range b.columns {
		if c.taken && c.field == id && !c.check {
			return c
		}
	}
	return nil
}

// guessAll gives each field its best column and each column its best field,
// the surest first.
func (b *builder) guessAll() {
	guesses := b.guesses(func(c *column, id catalog.FieldID) bool {
		return !c.taken && !b.off[id] && b.columnOf(id) == nil
	})
	for _, g := range guesses {
		if g.score >= enough && !g.order && !g.column.taken && b.columnOf(g.field) == nil {
			b.accept(g)
		}
	}
}

// guesses lists what columns may be, the surest first. Equal scores stand by
// the tool's own unit, field and header, so that the order of the columns does
// not matter.
func (b *builder) guesses(ask func(*column, catalog.FieldID) bool) []guess {
	var list []guess
	for _, c := range b.columns {
		for id := range catalog.NumFields {
			if !ask(c, id) {
				continue
			}
			if g, ok := b.guessField(c, id); ok {
				list = append(list, g)
			}
		}
	}
	slices.SortFunc(list, func(x, y guess) int {
		return cmp.Or(
			cmp.Compare(y.score, x.score),
			cmp.Compare(x.field, y.field),
			-compareBool(x.ownUnit(), y.ownUnit()),
			cmp.Compare(x.column.header.text, y.column.header.text),
			cmp.Compare(x.column.index, y.column.index),
		)
	})
	return list
}

func compareBool(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return 1
	}
	return -1
}

// ownUnit says whether the header names the unit the tool prints.
func (g *guess) ownUnit() bool {
	d := &catalog.Fields[g.field]
	u, ok := g.column.header.unit(d.Unit.Dimension)
	return ok && u.Symbol == d.Unit.Symbol
}

func (b *builder) accept(g guess) {
	g.column.take(b.lexicon, g.field)
	g.column.how, g.column.why, g.column.proof, g.column.either = g.how, g.why, g.proof, g.either
	if g.field == catalog.FieldNoiseBands {
		g.column.noteWeight("the levels")
	}
}

// fallbacks applies the rules for what the other columns leave over.
func (b *builder) fallbacks() {
	b.partFallback()
	b.frameFallback()
	b.sideFallback()
}

// sideFallback reads "length, width, height" as the two sides of the frame and
// its depth.
func (b *builder) sideFallback() {
	width, height := b.columnOf(catalog.FieldWidth), b.columnOf(catalog.FieldHeight)
	if width == nil || height == nil || b.columnOf(catalog.FieldDepth) != nil || b.off[catalog.FieldDepth] || height.how == ByName || height.how == ByForce {
		return
	}
	for _, c := range b.columns {
		if c.taken || !b.isLength(c) {
			continue
		}
		height.take(b.lexicon, catalog.FieldDepth)
		height.how, height.why = ByRest, "beside a length and a width the height is the depth"
		c.take(b.lexicon, catalog.FieldHeight)
		c.how, c.why = ByRest, "beside a width and a height the length is the other side of the frame"
		return
	}
}

// isLength says whether a column is a length, and nothing but one side.
func (b *builder) isLength(c *column) bool {
	g, ok := b.guessField(c, catalog.FieldWidth)
	if !ok || g.score < enough || c.header.product != "" {
		return false
	}
	e := b.evidenceFor(c, catalog.FieldHeight)
	return e.known > 0 && e.share(e.read) > 0.6
}

// plan puts the columns in the order in which they are read.
func (b *builder) plan() *Plan {
	p := &Plan{file: b.in.File, lexicon: b.lexicon, columns: b.columns, lone: b.columnOf(catalog.FieldHeight) == nil}
	p.order = slices.Clone(b.columns)
	slices.SortStableFunc(p.order, func(x, y *column) int {
		switch {
		case x.taken != y.taken:
			return -compareBool(x.taken, y.taken)
		case !x.taken:
			return cmp.Compare(x.index, y.index)
		}
		return cmp.Or(compareBool(x.check, y.check), cmp.Compare(x.field, y.field), cmp.Compare(x.band, y.band), cmp.Compare(x.header.text, y.header.text))
	})
	return p
}
