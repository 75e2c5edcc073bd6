package partscsv

import (
	"strings"
	"unicode"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/catalog/tabular"
)

// cleanText drops blanks around a text and makes those within single spaces;
// control characters go. The apostrophe that keeps a spreadsheet from running a
// text goes too.
func cleanText(text string) string {
	plain := true
	last := byte(' ')
	for i := 0; i < len(text) && plain; i++ {
		c := text[i]
		plain = c > ' ' && c < 0x7f || c == ' ' && last != ' '
		last = c
	}
	if !plain || last == ' ' {
		text = strings.Join(strings.FieldsFunc(strings.Map(catalog.Printable, text), unicode.IsSpace), " ")
	}
	return catalog.Unguarded(text)
}

// text reads a cell of a Text column.
func (r *Reader) text(c *column, text string) {
	clean := cleanText(text)
	if c.field == catalog.FieldCurrency {
		if code, ok := currencyCode(clean); ok {
			clean = code
		}
	}
	if clean == "" && c.field == catalog.FieldPart {
		r.row.reject(c, text, noPart, "")
		return
	}
	r.row.putText(c, c.field, clean)
	if c.field == catalog.FieldPart {
		if doubt := turnedPart(clean); doubt != "" {
			r.row.warn(c, doubt, "part %q: %s", clean, doubt)
		}
	}
	if c.field == catalog.FieldConnector && c.how != ByName { // the tool's own CSV has columns for what else it says
		r.leadsIn(c, clean)
		r.outputs(c, r.tokensOf(clean), clean)
	}
}

// price reads an amount and its currency.
func (r *Reader) price(c *column, text string) {
	code, rest := currencyIn(text)
	rest = strings.TrimSuffix(strings.TrimSpace(rest), ",-") // "12,-"
	fault := r.take(c, rest)
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
	r.row.put(c, c.field, value, quantity.Cell, text)
	if code == "" {
		code = c.header.currency
	}
	if code != "" && r.row.fan.Price.Known() && r.row.fan.Currency == "" {
		r.row.fan.Currency = code
		r.row.from[catalog.FieldCurrency] = origin{c.index + 1, true}
	}
}

// curve reads curve points as the tool's own CSV holds them; with a decimal
// comma where the column has one.
func (r *Reader) curve(c *column, text string) {
	plain := text
	if c.mark == tabular.Comma {
		plain = strings.ReplaceAll(text, ",", ".")
	}
	points, err := catalog.ParseCurve(plain)
	if err != nil {
		reason, hint := err.Error(), ""
		if ve, ok := err.(*catalog.ValueError); ok {
			reason, hint = ve.Reason, ve.Hint
		}
		r.row.refuse(c, text, reason, hint)
		return
	}
	if reason, hint := impossibleCurve(points); reason != "" {
		r.row.refuse(c, text, reason, hint)
		return
	}
	r.row.fan.Curve = points
	r.row.from[catalog.FieldCurve] = origin{c.index + 1, false}
}

// impossibleCurve says why no fan has the greatest flow and pressure of a
// curve, or its beginning.
func impossibleCurve(points []catalog.CurvePoint) (reason, hint string) {
	high := points[0].Pressure
	for _, p := range points {
		high = max(high, p.Pressure)
	}
	pressure, flow := &catalog.Fields[catalog.FieldStaticPressure], &catalog.Fields[catalog.FieldAirflow]
	if reason, hint = pressure.Bound(float64(high)); reason != "" {
		return reason, hint
	}
	if first := points[0]; first.Flow == 0 && first.Pressure == 0 {
		return "no pressure at no flow: no fan is like this", "the pairs are flow and pressure, in this order"
	}
	return flow.Bound(float64(points[len(points)-1].Flow))
}
