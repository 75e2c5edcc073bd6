package catalog

import (
	"lowsone/catalog/quantity"
)

// FieldID numbers the fields in the order of the tool's own CSV.
type FieldID uint8

// The fields.
const (
	FieldPart FieldID = iota
	FieldMaker
	FieldKind
	FieldWidth
	FieldHeight
	FieldDepth
	FieldHolePitch
	FieldVoltage
	FieldVoltageMin
	FieldVoltageMax
	FieldSupply
	FieldCurrent
	FieldPower
	FieldLeads
	FieldConnector
	FieldTachPerRev
	FieldPWM
	FieldStartVoltage
	FieldFrequency
	FieldAirflow
	FieldStaticPressure
	FieldCurve
	FieldSpeed
	FieldNoise
	FieldNoiseKind
	FieldNoiseDistance
	FieldNoiseBands
	FieldBlades
	FieldBearing
	FieldLife
	FieldLifeTemp
	FieldTempMax
	FieldPrice
	FieldCurrency
	FieldSupplier
	FieldOrderCode
	FieldStock
	FieldInStock
	FieldDescription
	NumFields // how many there are
)

// Form says what a field's values are.
type Form uint8

// The forms.
const (
	Text     Form = iota // any words
	Choice               // one of Choices
	Count                // a whole number
	Quantity             // a number of Unit
	Money                // an amount in the record's currency
	Points               // curve points, flow:pressure pairs
	Bands                // band levels, frequency:level pairs
)

// Value is a field's content: Number for counts, money and quantities (SI),
// and for choices the index into Choices plus one; Text for texts; Curve for
// points; Bands for bands.
type Value struct {
	Number float64
	Text   string
	Curve  []CurvePoint
	Bands  []quantity.BandLevel
}

// Field describes one field of the record.
type Field struct {
	ID      FieldID
	Name    string // column name in the tool's own CSV, key in JSON
	Title   string // for people
	Form    Form
	Unit    quantity.Unit // of the name; for Quantity only
	Choices []string      // for Choice only
	// Essential fields reject the row when their cell cannot be read; others
	// become unknown, with a warning.
	Essential bool
	// Low and High bound a possible value, in Unit; both 0: no bound. A value
	// outside is an error of the row, not a fan.
	Low, High float64

	get func(*Fan) (Value, quantity.Origin)
	set func(*Fan, Value, quantity.Origin)
}

// Get gives the field's value in f; the origin is Unknown where there is none.
func (d *Field) Get(f *Fan) (Value, quantity.Origin) { return d.get(f) }

// Put stores v in f without checking it; Unknown clears the field.
func (d *Field) Put(f *Fan, v Value, o quantity.Origin) { d.set(f, v, o) }

// Numeric says whether the field's values can be ordered as numbers.
func (d *Field) Numeric() bool {
	return d.Form == Count || d.Form == Quantity || d.Form == Money
}

// InUnit gives an SI value of the field in the unit of its name.
func (d *Field) InUnit(si float64) float64 {
	if d.Form != Quantity {
		return si
	}
	return d.Unit.FromSI(si)
}

// SI gives a value in the unit of the field's name in SI.
func (d *Field) SI(v float64) float64 {
	if d.Form != Quantity {
		return v
	}
	return d.Unit.ToSI(v)
}

// FieldNamed finds a field by its name.
func FieldNamed(name string) (*Field, bool) {
	for i := range Fields {
		if Fields[i].Name == name {
			return &Fields[i], true
		}
	}
	return nil, false
}

// FieldNames lists the names in the order of the tool's own CSV.
func FieldNames() []string {
	names := make([]string, NumFields)
	for i := range Fields {
		names[i] = Fields[i].Name
	}
	return names
}
