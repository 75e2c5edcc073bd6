package view

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/partscsv"
)

// Search is what a search found.
type Search struct {
	Total   int            // all hits
	Fans    []*catalog.Fan // those shown, in order
	Unclear int            // fans that might be hits but do not state an asked value
	Lacks   []Lack         // what those do not state, in the order of the fields
	Listed  []Listed       // those shown that several sources list
}

// Lack is how many fans do not state a field.
type Lack struct {
	Field catalog.FieldID
	Fans  int
}

type searchJSON struct {
	Schema
	Total   int            `json:"total"`
	Fans    List[object]   `json:"fans"`
	Unclear int            `json:"unclear"`
	Lacks   List[lackJSON] `json:"unclear_for_want_of"`

	Listed List[listedJSON] `json:"several_sources"`
}

type lackJSON struct {
	Field string `json:"field"`
	Fans  int    `json:"fans"`
}

func lacksJSON(lacks []Lack) List[lackJSON] {
	var list List[lackJSON]
	for _, l := range lacks {
		list = append(list, lackJSON{catalog.Fields[l.Field].Name, l.Fans})
	}
	return list
}

// JSON gives the object of the search.
func (s *Search) JSON() any {
	j := searchJSON{Total: s.Total, Unclear: s.Unclear, Lacks: lacksJSON(s.Lacks), Listed: listedOf(s.Listed)}
	for _, f := range s.Fans {
		j.Fans = append(j.Fans, recordJSON(f))
	}
	return j
}

// CSV writes the fans as the tool's own CSV.
func (s *Search) CSV(w io.Writer) error { return partscsv.Write(w, s.Fans) }

// Text writes the fans as a table.
func (s *Search) Text(w io.Writer, style Style) error {
	if len(s.Fans) == 0 {
		return nil
	}
	currency := oneCurrency(s.Fans)
	t := Table{Columns: []Column{
		{Title: "part", Wrap: true},
		{Title: "maker", Wrap: true},
		{Title: "kind", Spare: 1},
		{Title: "size", Unit: "mm"},
		{Title: "voltage", Unit: "V", Number: true},
		{Title: "airflow", Unit: "m³/h", Number: true},
		{Title: "pressure", Unit: "Pa", Number: true},
		{Title: "noise", Unit: "dB(A)", Number: true},
		{Title: "price", Unit: currency, Number: true, Optional: true, Spare: 1},
		{Title: "stock", Number: true, Optional: true, Spare: 1},
	}}
	for _, f := range s.Fans {
		noise, notes := noiseCell(f)
		t.Add(f.Part, orUnknown(f.Maker), orUnknown(f.Kind.Or(0).String()), shortSizeCell(f), voltageCell(f),
			cell(f, catalog.FieldAirflow), cell(f, catalog.FieldStaticPressure), noise,
			priceCell(f, currency), stockCell(f))
		if hasEstimate(f, catalog.FieldWidth, catalog.FieldHeight, catalog.FieldDepth, catalog.FieldVoltage,
			catalog.FieldAirflow, catalog.FieldStaticPressure, catalog.FieldNoise) {
			notes = append(notes, EstimateNote)
		}
		for _, note := range notes {
			if !slices.Contains(t.Notes, note) {
				t.Notes = append(t.Notes, note)
			}
		}
	}
	slices.Sort(t.Notes)
	return t.Write(w, style)
}

// stockCell gives the pieces in stock, else what is said without a number.
func stockCell(f *catalog.Fan) string {
	if !f.Stock.Known() && f.InStock.Known() {
		return catalog.Fields[catalog.FieldInStock].Format(f)
	}
	return cell(f, catalog.FieldStock)
}

// Remarks says what the fans shown leave out.
func (s *Search) Remarks() []string {
	var lines []string
	if more := s.Total - len(s.Fans); more > 0 {
		lines = append(lines, fmt.Sprintf("%d more: --limit 0 shows all", more))
	}
	if s.Unclear > 0 {
		lines = append(lines, s.unclearWords())
	}
	return lines
}

// unclearWords says how many fans were left out because they do not state what
// was asked for.
func (s *Search) unclearWords() string {
	thing := "more fan"
	if s.Total == 0 {
		thing = "fan"
	}
	var parts []string
	for _, l := range s.Lacks {
		parts = append(parts, "no "+catalog.Fields[l.Field].Title)
	}
	state := "state"
	if s.Unclear == 1 {
		state = "states"
	}
	if s.Unclear == 1 || len(parts) == 1 {
		return count(s.Unclear, thing) + " " + state + " " + strings.Join(parts, ", ")
	}
	for i, l := range s.Lacks {
		parts[i] = strconv.Itoa(l.Fans) + " " + parts[i]
	}
	return count(s.Unclear, thing) + " do not state all that was asked for: " + strings.Join(parts, ", ")
}
