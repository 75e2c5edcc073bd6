package partscsv

import (
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// choice reads a cell of a Choice column.
func (r *Reader) choice(c *column, text string) {
	tokens := r.tokensOf(text)
	group, _, ambiguous := r.plan.lexicon.choices[c.field].find(tokens)
	switch {
	case ambiguous:
		r.row.refuse(c, text, "names two of "+strings.Join(c.def().Choices, ", "), "")
	case group >= 0:
		r.row.put(c, c.field, float64(group+1), quantity.Cell, text)
		r.supplyBeside(c, tokens)
	case c.field == catalog.FieldKind:
		r.kindOfFan(c, text, tokens)
	case c.field == catalog.FieldSupply && supplyOf(text) != 0:
		r.row.put(c, c.field, float64(supplyOf(text)), quantity.Cell, text)
	case c.field == catalog.FieldPWM && contains(tokens, "pwm"):
		r.row.put(c, c.field, yes, quantity.Cell, text)
	case c.field == catalog.FieldInStock && r.countedStock(c, text):
	default:
		r.row.refuse(c, text, "not one of "+strings.Join(c.def().Choices, ", "), catalog.Nearest(strings.ToLower(text), c.def().Choices))
	}
}

// supplyBeside takes "DC" from a kind such as "DC axial fan".
func (r *Reader) supplyBeside(c *column, tokens []string) {
	if c.field != catalog.FieldKind {
		return
	}
	if group, _, ambiguous := r.plan.lexicon.choices[catalog.FieldSupply].find(tokens); group >= 0 && !ambiguous {
		r.row.supplies = append(r.row.supplies, supplyClue{c, catalog.Supply(group + 1)})
	}
}

// The values of a yes-or-no field.
const (
	no  = 1
	yes = 2
)

// choiceTokens are the words of a cell; of a sign alone, the sign.
func (x *lexicon) choiceTokens(text string) []string {
	clean := normalise(text)
	if tokens := x.vocabulary.tokens(clean); len(tokens) > 0 {
		return tokens
	}
	return []string{clean}
}

// kindOfFan reads the words for a fan that are no kind by themselves.
func (r *Reader) kindOfFan(c *column, text string, tokens []string) {
	x := r.plan.lexicon
	switch {
	case x.blowers.has(tokens):
		r.row.remark(c, "%q is taken as a centrifugal fan", text)
		r.row.put(c, catalog.FieldKind, float64(catalog.Centrifugal), quantity.Cell, text)
	case x.fans.has(tokens), x.choices[catalog.FieldSupply].has(tokens):
		r.row.warn(c, "says a fan, but not of which kind", "kind %q does not say which kind of fan; unknown", text)
	default:
		r.row.refuse(c, text, "no kind of fan is known by this name",
			"a kind is one of "+strings.Join(c.def().Choices, ", ")+"; a column that is no kind is left alone with --column kind=")
	}
}

// leads reads how many leads a fan has: "3", "3-wire", "4 Litzen (PWM)".
func (r *Reader) leads(c *column, text string) {
	fault := r.take(c, text)
	if fault == "" {
		fault = r.sorted.gather()
	}
	if fault != "" {
		r.row.refuse(c, text, fault, "")
		return
	}
	value, ok := r.settle(c, text)
	if !ok {
		return
	}
	if value != float64(int(value)) {
		r.row.refuse(c, text, "not a whole number", "")
		return
	}
	r.row.put(c, c.field, value, quantity.Cell, text)
	r.outputs(c, r.tokensOf(text), text)
}

// outputs takes tach and PWM from words beside something else.
func (r *Reader) outputs(c *column, tokens []string, text string) {
	if contains(tokens, "pwm") && !r.row.fan.PWM.Known() {
		r.row.put(c, catalog.FieldPWM, yes, quantity.Cell, text)
	}
	if r.plan.lexicon.tachs.has(tokens) && !r.row.fan.TachPerRev.Known() {
		r.usualPulses(c, text)
	}
}

// leadsIn takes a number of leads from a connector cell: "2 leads", "3 Litzen".
func (r *Reader) leadsIn(c *column, text string) {
	x := r.plan.lexicon
	if !hasDigit(text) || r.row.fan.Leads.Known() || !x.beside[catalog.FieldLeads].has(r.tokensOf(text)) {
		return
	}
	trial := *c
	trial.take(x, catalog.FieldLeads)
	if r.take(&trial, text) != "" || len(r.sorted.values) != 1 {
		return
	}
	v := &r.sorted.values[0]
	if reason, _ := catalog.Fields[catalog.FieldLeads].Bound(v.low); reason == "" && !v.ranged() && v.low == float64(int(v.low)) {
		r.row.put(c, catalog.FieldLeads, v.low, quantity.Cell, text)
	}
}

// usualPulses is how many pulses for each turn a tach of a small fan gives
// (common practice; it goes with four-pole motors).
const usualPulses = 2

func (r *Reader) usualPulses(c *column, text string) {
	r.row.remark(c, "tach %q: %d pulses per turn, the usual number, are estimated", text, usualPulses)
	r.row.put(c, catalog.FieldTachPerRev, usualPulses, quantity.Estimate, text)
}

// tach reads a tach column: a number of pulses, the name of an output, or yes
// and no. An alarm output that only tells standstill is no tach.
func (r *Reader) tach(c *column, text string) {
	x := r.plan.lexicon
	tokens := r.tokensOf(text)
	if contains(tokens, "pwm") && !r.row.fan.PWM.Known() {
		r.row.put(c, catalog.FieldPWM, yes, quantity.Cell, text)
	}
	answer, found, _ := x.choices[catalog.FieldPWM].find(tokens)
	only := len(found) == len(tokens)
	switch {
	case r.pulses(c, text):
	case x.tachs.has(tokens) && answer != 0:
		r.usualPulses(c, text)
	case answer == 0 && (only || x.tachs.has(tokens)), contains(tokens, "pwm") && len(tokens) == 1 && c.proof:
		r.row.put(c, catalog.FieldTachPerRev, 0, quantity.Cell, text)
	case x.alarms.has(tokens):
		r.row.remark(c, "%q is an alarm output, no tach", text)
		r.row.put(c, catalog.FieldTachPerRev, 0, quantity.Cell, text)
	case answer == 1 && c.proof:
		r.usualPulses(c, text)
	case contains(tokens, "pwm"):
	default:
		r.row.refuse(c, text, "no output is known by this name", "")
	}
}

// pulses reads a number of pulses, if the cell is one.
func (r *Reader) pulses(c *column, text string) bool {
	if !hasDigit(text) || r.take(c, text) != "" || len(r.sorted.values) != 1 || r.sorted.values[0].ranged() {
		return false
	}
	v := r.sorted.values[0].low
	if v != float64(int(v)) || v == 1 && len(text) == 1 && !c.proof {
		return false
	}
	r.row.put(c, c.field, v, quantity.Cell, text)
	return true
}

// stock reads a number of pieces, or words for some and none.
func (r *Reader) stock(c *column, text string) {
	fault := r.take(c, text)
	if fault == "" {
		fault = r.sorted.gather()
	}
	if fault == "" {
		a := &r.sorted.amounts[0]
		if a.paired() || a.ranged() || a.low != float64(int64(a.low)) {
			r.row.refuse(c, text, "not a whole number", "")
			return
		}
		if a.said != 0 || strings.HasSuffix(strings.TrimSpace(text), "+") {
			r.row.remark(c, "stock %q is read as %s", text, catalog.Number(a.low))
		}
		r.row.put(c, c.field, a.low, quantity.Cell, text)
		return
	}
	r.inStock(c, text, fault)
}

// inStock reads words of a column of pieces: none is no piece, some is no
// number of them.
func (r *Reader) inStock(c *column, text, fault string) {
	group, _, ambiguous := r.plan.lexicon.choices[catalog.FieldInStock].find(r.tokensOf(text))
	switch {
	case (group < 0 || ambiguous) && !hasDigit(text):
		r.row.refuse(c, text, "neither a number of pieces nor a word for some or none", "")
	case group < 0 || ambiguous:
		r.row.refuse(c, text, fault, "")
	case group == 0:
		r.row.remark(c, "stock %q is read as none", text)
		r.row.put(c, c.field, 0, quantity.Cell, text)
	default:
		r.row.remark(c, "stock %q: some, the number is not stated", text)
		r.row.put(c, catalog.FieldInStock, yes, quantity.Cell, text)
	}
}

// countedStock reads a number of pieces in a column that says whether there are
// any.
func (r *Reader) countedStock(c *column, text string) bool {
	trial := *c
	trial.take(r.plan.lexicon, catalog.FieldStock)
	if r.take(&trial, text) != "" || r.sorted.gather() != "" {
		return false
	}
	a := &r.sorted.amounts[0]
	if a.paired() || a.ranged() || a.low != float64(int64(a.low)) {
		return false
	}
	r.row.put(c, catalog.FieldStock, a.low, quantity.Cell, text)
	return true
}
