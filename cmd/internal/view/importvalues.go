package view

import (
	"fmt"
	"strings"

	"lowsone/catalog"
)

// values says how many rows took what was given for all of them.
func (m *Import) values(p *printer) {
	for _, v := range m.Values {
		name := catalog.Fields[v.Field].Name
		p.wrapped("", Clean(fmt.Sprintf("--value %s=%s: taken by %s of %d", name, v.Text, count(v.Rows, "row"), m.Rows)))
	}
}

// unstated names the option for what holds for a whole list and stands in none of
// its rows.
func (m *Import) unstated(p *printer) {
	if len(m.Unstated) == 0 || m.Fans == 0 {
		return
	}
	examples := map[catalog.FieldID]string{catalog.FieldKind: "axial", catalog.FieldSupply: "dc"}
	var names, options []string
	for _, id := range m.Unstated {
		d := &catalog.Fields[id]
		example := examples[id]
		if example == "" {
			example = "NAME"
		}
		names = append(names, d.Title)
		options = append(options, fmt.Sprintf("--value %s=%s", d.Name, example))
	}
	p.wrapped("", fmt.Sprintf("no row states %s; what is the same for all can be said: %s", orList(names), strings.Join(options, " ")))
}

// orList joins names with commas and an or.
func orList(names []string) string {
	if n := len(names); n > 1 {
		return strings.Join(names[:n-1], ", ") + " or " + names[n-1]
	}
	return strings.Join(names, "")
}

// forgotten says what the last import of the source was told and this one was not.
func (m *Import) forgotten(p *printer) {
	if n := len(m.Forgotten); n > 0 {
		give, hold := "it", "it still holds"
		if n > 1 {
			give, hold = "them", "they still hold"
		}
		p.wrapped("", Clean(fmt.Sprintf("last time with %s: give %s again if %s", strings.Join(m.Forgotten, " "), give, hold)))
	}
}
