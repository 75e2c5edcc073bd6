package view

import (
	"fmt"
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
	text := saidText(f, d.field)
	i := slices.IndexFunc(d.said, func(s saying) bool { return s.text == text })
	if i < 0 {
		i = len(d.said)
		d.said = append(d.said, saying{text: text, unknown: text == notSaid})
	}
	d.said[i].fans = append(d.said[i].fans, f)
}

// saidText gives what a fan says of a field, in all its digits.
func saidText(f *catalog.Fan, d *catalog.Field) string {
	_, origin := d.Get(f)
	switch {
	case origin == quantity.Unknown:
		return notSaid
	case d.Form == catalog.Money:
		return strings.TrimSpace(d.Format(f) + " " + f.Currency)
	}
	text := strings.TrimSpace(d.Format(f) + " " + d.Unit.Symbol)
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
