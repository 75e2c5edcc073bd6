package partscsv

import (
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
}

// Reader gives a reader that works by the plan.
func (p *Plan) Reader() *Reader { return &Reader{plan: p} }

// Read makes a fan of a row that has a cell for every column, and tells what
// was remarkable about it. The remarks are good until the next call. The fan's
// Source is left to the caller. Errors are *RowError, without line.
func (r *Reader) Read(cells []string) (*catalog.Fan, []Remark, error) {
	fan := &catalog.Fan{}
	r.cells = cells
	r.row.reset(fan)
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

// readCell reads one cell into the row.
func (r *Reader) readCell(c *column, text string) {
	if !c.taken {
		if clean := cleanText(text); clean != "" {
			r.row.fan.Extra = append(r.row.fan.Extra, catalog.Extra{Header: c.header.text, Text: clean})
		}
		return
	}
	if r.plan.lexicon.isUnknown(normalise(text)) {
		if c.field == catalog.FieldPart {
			r.row.reject(c, text, "no part number", "")
		}
		return
	}
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
