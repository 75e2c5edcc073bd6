package partscsv

import (
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// Reader reads rows by a plan. It is for one goroutine at a time.
type Reader struct {
	plan   *Plan
	cells  []string // of the row
	row    rowState
	tokens []token
	cell   cell
	sorted sorted

	bands   *rowBands // nil where no column is for bands
	numbers []pairedNumber
	took    []int    // see Took
	aside   []string // remarks in brackets beside the value of the cell, see withoutRemarks

	// Answers for texts seen before, of at most mostAnswers texts.
	unknown map[string]bool
	told    map[string][]string

	problems map[problemKey]string // warnings of problems, see warnOfProblem
}

// Reader gives a reader that works by the plan.
func (p *Plan) Reader() *Reader {
	r := &Reader{plan: p}
	if p.columnOf(catalog.FieldNoiseBands) != nil {
		r.bands = &rowBands{}
	}
	return r
}

// Read makes a fan of a row that has a cell for every column, and tells what
// was remarkable about it. The remarks are good until the next call. The fan's
// Source is left to the caller. Errors are *RowError, without line.
func (r *Reader) Read(cells []string) (*catalog.Fan, []Remark, error) {
	fan := &catalog.Fan{}
	r.cells = cells
	r.row.reset(fan)
	if r.bands != nil {
		r.bands.reset()
	}
	for _, c := range r.plan.order {
		r.readCell(c, cells[c.index])
		if r.row.err != nil {
			break
		}
	}
	if r.row.err == nil {
		r.finish()
	}
	if err := r.row.err; err != nil {
		err.File = r.plan.file
		return nil, r.row.remarks, err
	}
	for i := range r.row.remarks {
		fan.Remarks = append(fan.Remarks, r.row.remarks[i].Text)
	}
	return fan, r.row.remarks, nil
}

// mostAnswers bounds the memory for answers; the same few words come again and
// again in a column.
const mostAnswers = 4096

// isUnknown says whether a cell is blank or a word for "not known".
func (r *Reader) isUnknown(text string) bool {
	if hasDigit(text) {
		return false
	}
	if len(text) > 2*longestUnknown {
		return len(text) < longestValue && r.plan.lexicon.isUnknown(normalise(text)) || strings.TrimSpace(text) == ""
	}
	known, seen := r.unknown[text]
	if !seen {
		known = r.plan.lexicon.isUnknown(normalise(text))
		if r.unknown == nil || len(r.unknown) >= mostAnswers {
			r.unknown = map[string]bool{}
		}
		r.unknown[text] = known
	}
	return known
}

// tokensOf gives the words of a cell, see lexicon.choiceTokens.
func (r *Reader) tokensOf(text string) []string {
	if len(text) > 2*longestUnknown {
		return r.plan.lexicon.choiceTokens(text)
	}
	tokens, seen := r.told[text]
	if !seen {
		tokens = r.plan.lexicon.choiceTokens(text)
		if r.told == nil || len(r.told) >= mostAnswers {
			r.told = map[string][]string{}
		}
		r.told[text] = tokens
	}
	return tokens
}

// noPart is the reason for a row that names no part.
const noPart = "no part number"

// readCell reads one cell into the row.
func (r *Reader) readCell(c *column, text string) {
	if !c.taken {
		if clean := cleanText(text); clean != "" {
			r.row.fan.Extra = append(r.row.fan.Extra, catalog.Extra{Header: r.plan.keptAs(c), Text: clean})
		}
		return
	}
	if r.isUnknown(text) {
		if c.field == catalog.FieldPart {
			r.row.reject(c, text, noPart, "")
		}
		return
	}
	r.aside = r.aside[:0]
	r.readValue(c, text)
	for _, text := range r.aside {
		r.row.remark(c, "%s has a remark beside it: %q", c.def().Title, clipped(text))
	}
}

func (r *Reader) readValue(c *column, text string) {
	switch c.field {
	case catalog.FieldWidth:
		r.size(c, text)
	case catalog.FieldHeight, catalog.FieldDepth, catalog.FieldHolePitch:
		r.length(c, text)
	case catalog.FieldVoltage, catalog.FieldVoltageMin, catalog.FieldVoltageMax:
		r.voltage(c, text)
	case catalog.FieldNoise:
		r.noise(c, text)
	case catalog.FieldLeads, catalog.FieldBlades:
		r.leads(c, text)
	case catalog.FieldTachPerRev:
		r.tach(c, text)
	case catalog.FieldStock:
		r.stock(c, text)
	case catalog.FieldPrice:
		r.price(c, text)
	case catalog.FieldFrequency:
		r.mainsFrequency(c, text)
	default:
		r.byForm(c, text)
	}
}

func (r *Reader) byForm(c *column, text string) {
	switch c.def().Form {
	case catalog.Text:
		r.text(c, text)
	case catalog.Choice:
		r.choice(c, text)
	case catalog.Points:
		r.curve(c, text)
	case catalog.Bands:
		if c.band > 0 {
			r.band(c, text)
			return
		}
		r.pairs(c, text)
	default:
		r.number(c, text)
		r.headerConditions(c)
	}
}

// headerConditions takes the temperature of a stated life from its header.
func (r *Reader) headerConditions(c *column) {
	t, ok := c.header.condition(quantity.DimTemperature)
	if ok && c.field == catalog.FieldLife && r.row.fan.Life.Known() && !r.row.fan.LifeTemp.Known() {
		r.row.put(c, catalog.FieldLifeTemp, t, quantity.Cell, c.header.text)
	}
}
