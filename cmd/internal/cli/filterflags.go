package cli

import (
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// addFilterFlags adds the flags that choose fans by their values.
func addFilterFlags(flags *pflag.FlagSet, f *catalog.Filter) {
	flags.Var(newParsed("mm", func(text string) error { return setFrame(f, text) }), "frame", "frame in `mm`, 60 for 60×60, 60x38 for a blower")
	flags.Var(newFieldValue(catalog.FieldDepth, func(v catalog.Value) { f.DepthMax = quantity.Length(v.Number) }), "depth-max", "greatest depth in `mm`")
	flags.Var(newFieldValue(catalog.FieldVoltage, func(v catalog.Value) { f.Voltage = quantity.Voltage(v.Number) }), "voltage", "supply in `V`: within the fan's range, else its nominal voltage")
	flags.Var(newFieldValue(catalog.FieldSupply, func(v catalog.Value) { f.Supply = catalog.Supply(v.Number) }), "supply", "`dc` or ac")
	flags.Var(newFieldValue(catalog.FieldKind, func(v catalog.Value) { f.Kind = catalog.Kind(v.Number) }), "kind", "`axial`, centrifugal, mixed or crossflow")
	flags.Var(newFieldValue(catalog.FieldLeads, func(v catalog.Value) { f.Leads = v.Number }), "leads", "`number` of leads")
	flags.StringVar(&f.Connector, "connector", "", "`words` in the connector's name")
	flags.StringVar(&f.Maker, "maker", "", "`name` of the maker")
	flags.Var(newFieldValue(catalog.FieldNoise, func(v catalog.Value) { f.NoiseMax = quantity.Decibel(v.Number) }), "noise-max", "greatest rated noise in `dB(A)`")
	flags.Var(newFieldValue(catalog.FieldAirflow, func(v catalog.Value) { f.AirflowMin = quantity.Flow(v.Number) }), "airflow-min", "least free airflow in `m³/h`, or with a unit: 12CFM")
	flags.Var(newFieldValue(catalog.FieldStaticPressure, func(v catalog.Value) { f.PressureMin = quantity.Pressure(v.Number) }), "pressure-min", "least static pressure in `Pa`, or with a unit: 3mmH2O")
	flags.Var(newFieldValue(catalog.FieldPrice, func(v catalog.Value) { f.PriceMax = v.Number }), "price-max", "highest `price`, whatever the currency")
	flags.BoolVar(&f.InStock, "in-stock", false, "only fans of which the list has stock")
}

// setFrame reads 60, 60mm, 2.36in or 60x38 into width and height.
func setFrame(f *catalog.Filter, text string) error {
	sides := strings.Split(strings.NewReplacer("×", "x", "X", "x").Replace(text), "x")
	if len(sides) > 2 || slices.Contains(sides, "") {
		return usagef("write 60, or 60x38; the depth: --depth-max", "not one size or two")
	}
	w, err := parseField(&catalog.Fields[catalog.FieldWidth], sides[0])
	if err != nil {
		return err
	}
	h, err := parseField(&catalog.Fields[catalog.FieldHeight], sides[len(sides)-1])
	if err != nil {
		return err
	}
	f.Width, f.Height = quantity.Length(w.Number), quantity.Length(h.Number)
	return nil
}

// question is one of the things a filter asks, with the field that answers it
// and the further fields that are looked at.
type question struct {
	flag   string // that asks it
	field  catalog.FieldID
	filter catalog.Filter
	also   []catalog.FieldID
}

// asked takes a filter apart, in the order of the fields.
func asked(f *catalog.Filter) []question {
	all := []question{
		{"--maker", catalog.FieldMaker, catalog.Filter{Maker: f.Maker}, nil},
		{"--kind", catalog.FieldKind, catalog.Filter{Kind: f.Kind}, nil},
		{"--frame", catalog.FieldWidth, catalog.Filter{Width: f.Width, Height: f.Height}, []catalog.FieldID{catalog.FieldHeight}},
		{"--depth-max", catalog.FieldDepth, catalog.Filter{DepthMax: f.DepthMax}, nil},
		{"--voltage", catalog.FieldVoltage, catalog.Filter{Voltage: f.Voltage}, []catalog.FieldID{catalog.FieldVoltageMin, catalog.FieldVoltageMax}},
		{"--supply", catalog.FieldSupply, catalog.Filter{Supply: f.Supply}, nil},
		{"--leads", catalog.FieldLeads, catalog.Filter{Leads: f.Leads}, nil},
		{"--connector", catalog.FieldConnector, catalog.Filter{Connector: f.Connector}, nil},
		{"--airflow-min", catalog.FieldAirflow, catalog.Filter{AirflowMin: f.AirflowMin}, nil},
		{"--pressure-min", catalog.FieldStaticPressure, catalog.Filter{PressureMin: f.PressureMin}, nil},
		{"--noise-max", catalog.FieldNoise, catalog.Filter{NoiseMax: f.NoiseMax}, nil},
		{"--price-max", catalog.FieldPrice, catalog.Filter{PriceMax: f.PriceMax}, nil},
		{"--in-stock", catalog.FieldStock, catalog.Filter{InStock: f.InStock}, []catalog.FieldID{catalog.FieldInStock}},
	}
	return slices.DeleteFunc(all, func(q question) bool { return q.filter == catalog.Filter{} })
}
