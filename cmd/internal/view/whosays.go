package view

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// difference is a field of which the sources of one fan say several things.
type difference struct {
	field *catalog.Field
	said  []saying // the first is that of the fan shown
}

// saying is what one source or several say of a field.
type saying struct {
	text    string
	fans    []*catalog.Fan // as those sources have it
	unknown bool
}

// notSaid stands for a source that does not state a field.
const notSaid = "not stated"

// differences compares a fan field by field with what other sources say of it.
// Rounding is no difference.
func (s *Show) differences() []difference {
	var list []difference
	for id := range catalog.Fields {
		d := &catalog.Fields[id]
		if d.ID == catalog.FieldPart || d.ID == catalog.FieldMaker || d.ID == catalog.FieldCurrency { // the same but for case; with the price
			continue
		}
		diff := difference{field: d}
		for _, f := range append([]*catalog.Fan{s.Fan}, s.Others...) {
			diff.add(f)
		}
		if len(diff.said) > 1 {
			list = append(list, diff)
		}
	}
	return list
}

func (d *difference) add(f *catalog.Fan) {
	i := slices.IndexFunc(d.said, func(s saying) bool { return alike(d.field, s.fans[0], f) })
	if i < 0 {
		text := saidText(f, d.field)
		i = len(d.said)
		d.said = append(d.said, saying{text: text, unknown: text == notSaid})
	}
	d.said[i].fans = append(d.said[i].fans, f)
}

// roundedShare is the share of a quantity that sources differ by when one of them
// rounds or converts. Sizes are compared as frames are.
const roundedShare = 0.01

// alike says whether two fans say the same of a field, but for rounding. What is
// counted or paid is the same only if it is equal.
func alike(d *catalog.Field, a, b *catalog.Fan) bool {
	v, origin := d.Get(a)
	w, other := d.Get(b)
	if origin != other || origin == quantity.Unknown || !d.Numeric() && d.Form != catalog.Points {
		return saidText(a, d) == saidText(b, d)
	}
	switch {
	case d.Form == catalog.Points:
		return slices.EqualFunc(v.Curve, w.Curve, func(p, q catalog.CurvePoint) bool {
			return nearly(float64(p.Flow), float64(q.Flow)) && nearly(float64(p.Pressure), float64(q.Pressure))
		})
	case d.Form != catalog.Quantity:
		return saidText(a, d) == saidText(b, d)
	case d.Unit.Symbol == "mm":
		return catalog.Same(v.Number, w.Number)
	}
	return nearly(d.InUnit(v.Number), d.InUnit(w.Number))
}

func nearly(a, b float64) bool {
	return math.Abs(a-b) <= (roundedShare+1e-9)*max(math.Abs(a), math.Abs(b))
}

// saidDigits is to how many digits sources are told apart.
const saidDigits = 4

// saidText gives what a fan says of a field.
func saidText(f *catalog.Fan, d *catalog.Field) string {
	v, origin := d.Get(f)
	switch {
	case origin == quantity.Unknown:
		return notSaid
	case d.Form == catalog.Money:
		return strings.TrimSpace(d.Format(f) + " " + f.Currency)
	case d.Form == catalog.Points:
		return curveText(v.Curve)
	case d.Form != catalog.Quantity:
		return d.Format(f)
	}
	text := strings.TrimSpace(Trim(Digits(d.InUnit(v.Number), saidDigits)) + " " + d.Unit.Symbol)
	if origin == quantity.Estimate {
		return Estimated(text)
	}
	return text
}

// places gives where fans were read, source and line.
func places(fans []*catalog.Fan) string {
	var list []string
	for _, f := range fans {
		list = append(list, fmt.Sprintf("%s:%d", f.Source.Name, f.Source.Line))
	}
	return strings.Join(list, ", ")
}

// whoSays writes what the sources of a fan do not agree on.
func (s *Show) whoSays(p *printer) {
	if len(s.Others) == 0 {
		return
	}
	p.line("")
	p.line("%s", p.style.Bold("who says what"))
	list := s.differences()
	if len(list) == 0 {
		p.line("  all sources say the same")
	}
	for _, d := range list {
		name := d.field.Title
		for _, said := range d.said {
			p.fact(name, said.text, Clean(places(said.fans)))
			name = ""
		}
	}
}

type differenceJSON struct {
	Field string           `json:"field"`
	Said  List[sayingJSON] `json:"said"`
}

type sayingJSON struct {
	Value    any              `json:"value,omitempty"` // absent: not stated
	Currency string           `json:"currency,omitempty"`
	By       List[sourceJSON] `json:"by"`
}

func (s *Show) differencesJSON() List[differenceJSON] {
	var list List[differenceJSON]
	if len(s.Others) == 0 {
		return list
	}
	for _, d := range s.differences() {
		j := differenceJSON{Field: d.field.Name}
		for _, said := range d.said {
			one := sayingJSON{}
			for _, e := range recordJSON(said.fans[0]) {
				if e.key == d.field.Name && !said.unknown {
					one.Value = e.value
				}
			}
			if d.field.Form == catalog.Money && !said.unknown {
				one.Currency = said.fans[0].Currency
			}
			for _, f := range said.fans {
				one.By = append(one.By, sourceJSON{f.Source.Name, f.Source.Line})
			}
			j.Said = append(j.Said, one)
		}
		list = append(list, j)
	}
	return list
}
