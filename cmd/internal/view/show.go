package view

import (
	"io"
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/partscsv"
	"lowsone/catalog/quantity"
)

// Show is everything known of one fan; Fan is nil where there is no such fan.
type Show struct {
	Fan     *catalog.Fan
	Others  []*catalog.Fan // the same fan as other sources have it
	Nearest []string       // names of fans with a similar part number, where there is none
}

type showJSON struct {
	Schema
	Fan     object      `json:"fan"`
	Origins object      `json:"origins"`
	Extra   object      `json:"extra"`
	Source  *sourceJSON `json:"source,omitempty"`

	AlsoIn      List[sourceJSON]     `json:"also_in"`
	Differences List[differenceJSON] `json:"differences"`

	Remarks List[string] `json:"remarks"`
	Nearest List[string] `json:"nearest"`
}

type sourceJSON struct {
	File string `json:"file"`
	Line int    `json:"line"`
}

// JSON gives the object of the fan; empty members where there is none.
func (s *Show) JSON() any {
	j := showJSON{Fan: object{}, Origins: object{}, Extra: object{}, Nearest: s.Nearest}
	if s.Fan == nil {
		return j
	}
	full := withDefaults(s.Fan)
	j.Fan, j.Origins = recordJSON(full), originsJSON(full)
	for _, e := range s.Fan.Extra {
		j.Extra = append(j.Extra, entry{e.Header, e.Text})
	}
	j.Source = &sourceJSON{s.Fan.Source.Name, s.Fan.Source.Line}
	j.Remarks = s.Fan.Remarks
	for _, f := range s.Others {
		j.AlsoIn = append(j.AlsoIn, sourceJSON{f.Source.Name, f.Source.Line})
	}
	j.Differences = s.differencesJSON()
	return j
}

// CSV writes the fan as the tool's own CSV.
func (s *Show) CSV(w io.Writer) error {
	if s.Fan == nil {
		return partscsv.Write(w, nil)
	}
	return partscsv.Write(w, []*catalog.Fan{s.Fan})
}

// group is some fields that are shown together.
type group struct {
	title  string
	fields []catalog.FieldID
}

func groups() []group {
	return []group{
		{"what it is", []catalog.FieldID{catalog.FieldKind, catalog.FieldWidth, catalog.FieldHeight, catalog.FieldDepth,
			catalog.FieldHolePitch, catalog.FieldBlades, catalog.FieldBearing, catalog.FieldDescription}},
		{"air and noise", []catalog.FieldID{catalog.FieldAirflow, catalog.FieldStaticPressure, catalog.FieldCurve, catalog.FieldSpeed,
			catalog.FieldNoise, catalog.FieldNoiseKind, catalog.FieldNoiseDistance, catalog.FieldNoiseBands}},
		{"electrical", []catalog.FieldID{catalog.FieldSupply, catalog.FieldVoltage, catalog.FieldVoltageMin, catalog.FieldVoltageMax,
			catalog.FieldStartVoltage, catalog.FieldFrequency, catalog.FieldCurrent, catalog.FieldPower, catalog.FieldLeads,
			catalog.FieldConnector, catalog.FieldTachPerRev, catalog.FieldPWM}},
		{"life and heat", []catalog.FieldID{catalog.FieldLife, catalog.FieldLifeTemp, catalog.FieldTempMax}},
		{"buying", []catalog.FieldID{catalog.FieldPrice, catalog.FieldCurrency, catalog.FieldSupplier, catalog.FieldOrderCode, catalog.FieldStock, catalog.FieldInStock}},
	}
}

// Text writes the fan in groups, what is not known of each group in one line.
func (s *Show) Text(w io.Writer, style Style) error {
	if s.Fan == nil {
		return nil
	}
	p := &printer{w: w, style: style.within(proseWidth)}
	f := withDefaults(s.Fan)
	p.line("%s", style.Bold(Clean(f.Name())))
	from := places([]*catalog.Fan{f})
	if len(s.Others) > 0 {
		from += "; also in " + places(s.Others)
	}
	p.wrapped("", Clean(from))
	for _, g := range groups() {
		s.group(p, f, g)
	}
	s.rest(p)
	s.whoSays(p)
	s.originNotes(p, f)
	return p.err
}

func (s *Show) group(p *printer, f *catalog.Fan, g group) {
	p.line("")
	p.line("%s", p.style.Bold(g.title))
	var missing []string
	for _, id := range g.fields {
		d := &catalog.Fields[id]
		_, origin := d.Get(f)
		switch {
		case id == catalog.FieldInStock && origin == quantity.Unknown: // it stands for a number that is not stated
		case origin == quantity.Unknown:
			missing = append(missing, d.Title)
		case id == catalog.FieldCurrency && f.Price.Known(): // stands with the price
		case id == catalog.FieldLifeTemp && f.Life.Known(): // stands with the life
		default:
			p.fact(d.Title, fieldText(f, d), s.originNote(d, origin))
		}
	}
	if len(missing) > 0 {
		p.fact("not stated", strings.Join(missing, ", "), "")
	}
}

// rest writes what the row holds beside the fields.
func (s *Show) rest(p *printer) {
	if len(s.Fan.Extra) > 0 {
		p.line("")
		p.line("%s", p.style.Bold("other columns of the file"))
		for _, e := range s.Fan.Extra {
			p.fact(e.Header, e.Text, "")
		}
	}
	if len(s.Fan.Remarks) > 0 {
		p.line("")
		p.line("%s", p.style.Bold("remarks of the reading"))
		for _, r := range s.Fan.Remarks {
			p.wrapped("  ", Clean(r))
		}
	}
}

// originNote says where a value comes from; a cell needs no word. A default that
// is kept with the fan was said when its list was imported.
func (s *Show) originNote(d *catalog.Field, o quantity.Origin) string {
	switch {
	case o == quantity.Default && s.saidAtImport(d):
		return "said at the import"
	case o == quantity.Estimate, o == quantity.Default:
		return o.String()
	}
	return ""
}

func (s *Show) saidAtImport(d *catalog.Field) bool {
	_, origin := d.Get(s.Fan)
	return origin == quantity.Default
}

// DefaultNote explains the origin default.
const DefaultNote = "default: what the trade means where a sheet says nothing"

// originNotes explains the origins that are marked.
func (s *Show) originNotes(p *printer, f *catalog.Fan) {
	var estimate, byDefault bool
	for id := range catalog.Fields {
		d := &catalog.Fields[id]
		_, origin := d.Get(f)
		estimate = estimate || origin == quantity.Estimate
		byDefault = byDefault || origin == quantity.Default && !s.saidAtImport(d)
	}
	if estimate || byDefault {
		p.line("")
	}
	if estimate {
		p.line("%s", p.style.Faint(EstimateNote))
	}
	if byDefault {
		p.line("%s", p.style.Faint(DefaultNote))
	}
}

// fieldText gives a known field with its unit, and flow and pressure also in
// the other units of the trade.
func fieldText(f *catalog.Fan, d *catalog.Field) string {
	v, origin := d.Get(f)
	switch d.Form {
	case catalog.Text, catalog.Choice:
		return d.Format(f)
	case catalog.Points:
		return curveText(v.Curve)
	case catalog.Bands:
		return bandsText(v.Bands)
	}
	text := Value(d, v.Number)
	if origin == quantity.Estimate {
		text = Estimated(text)
	}
	if d.Form == catalog.Money {
		return strings.TrimSpace(text + " " + f.Currency)
	}
	text = strings.TrimSpace(text + " " + d.Unit.Symbol)
	if temp, ok := f.LifeTemp.Get(); ok && d.ID == catalog.FieldLife {
		text += " at " + Value(&catalog.Fields[catalog.FieldLifeTemp], temp.Celsius()) + " °C"
	}
	for _, u := range alsoIn(d.Unit.Dimension) {
		text += " = " + Trim(Digits(u.FromSI(v.Number), 3)) + " " + u.Symbol
	}
	return text
}

// alsoIn lists the further units in which people know a quantity.
func alsoIn(d quantity.Dimension) []quantity.Unit {
	var units []quantity.Unit
	names := map[quantity.Dimension][]string{
		quantity.DimFlow:     {"CFM", "l/s"},
		quantity.DimPressure: {"mmH₂O", "inH₂O"},
	}
	for _, name := range names[d] {
		if u, ok := quantity.UnitOf(d, name); ok {
			units = append(units, u)
		}
	}
	return units
}

// curveText gives curve points as the tool's own CSV does, with fewer digits.
func curveText(curve []catalog.CurvePoint) string {
	var points []string
	for _, c := range curve {
		q, p := float64(c.Flow/quantity.CubicMetrePerHour), float64(c.Pressure)
		points = append(points, Trim(Digits(q, 3))+":"+Trim(Digits(p, 3)))
	}
	return "m³/h:Pa " + strings.Join(points, "; ")
}
