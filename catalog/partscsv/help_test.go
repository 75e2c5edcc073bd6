package partscsv

import (
	"errors"
	"strings"
	"testing"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/catalog/tabular"
)

// marksOf gives every column the same decimal mark.
func marksOf(m tabular.Mark, columns int) func(func(int) bool) []tabular.Mark {
	return func(func(int) bool) []tabular.Mark {
		marks := make([]tabular.Mark, columns)
		for i := range marks {
			marks[i] = m
		}
		return marks
	}
}

// table cuts lines at | into a header and rows.
func table(text string) (header []string, rows [][]string) {
	for line := range strings.Lines(strings.TrimSpace(text)) {
		cells := strings.Split(strings.TrimSuffix(line, "\n"), "|")
		if header == nil {
			header = cells
			continue
		}
		rows = append(rows, cells)
	}
	return header, rows
}

// planOf makes a plan of a table.
func planOf(t *testing.T, mark tabular.Mark, text string, assign ...Assignment) (*Plan, [][]string) {
	t.Helper()
	header, rows := table(text)
	p, err := NewPlan(Input{File: "f.csv", Header: header, Sample: rows, Marks: marksOf(mark, len(header)), Assign: assign})
	if err != nil {
		t.Fatalf("NewPlan(%q) = %v", header, err)
	}
	return p, rows
}

// said writes what a fan says, as NAME=VALUE in the order of the fields; an
// estimate is marked with ~.
func said(f *catalog.Fan) string {
	var parts []string
	for i := range catalog.Fields {
		d := &catalog.Fields[i]
		v, origin := d.Get(f)
		if origin == quantity.Unknown {
			continue
		}
		text := d.Format(f)
		if d.Numeric() {
			text = catalog.Number(significant(d.InUnit(v.Number)))
		}
		if origin == quantity.Estimate {
			text += "~"
		}
		parts = append(parts, d.Name+"="+text)
	}
	return strings.Join(parts, " ")
}

// fieldOfHeader is the field of the headers that cells are tested under, by
// their first word.
var fieldOfHeader = map[string]catalog.FieldID{
	"Airflow": catalog.FieldAirflow, "Luftstrom": catalog.FieldAirflow, "Débit": catalog.FieldAirflow,
	"Static": catalog.FieldStaticPressure,
	"Noise":  catalog.FieldNoise, "Geräusch": catalog.FieldNoise, "Bruit": catalog.FieldNoise, "Ruido": catalog.FieldNoise,
	"Schallleistung": catalog.FieldNoise, "Puissance": catalog.FieldNoise, "Sound": catalog.FieldNoise,
	"Spannung": catalog.FieldVoltage, "Tension": catalog.FieldVoltage, "Tensión": catalog.FieldVoltage, "Rated": catalog.FieldVoltage,
	"Spannungsbereich": catalog.FieldVoltageMin, "Umin": catalog.FieldVoltageMin, "Umax": catalog.FieldVoltageMax,
	"Size": catalog.FieldWidth, "W": catalog.FieldWidth, "H": catalog.FieldWidth, "Frame": catalog.FieldWidth,
	"Depth": catalog.FieldDepth, "Hole": catalog.FieldHolePitch,
	"Speed": catalog.FieldSpeed, "Vitesse": catalog.FieldSpeed, "Current": catalog.FieldCurrent, "Power": catalog.FieldPower,
	"Leads": catalog.FieldLeads, "Litzen": catalog.FieldLeads, "Fils": catalog.FieldLeads, "Hilos": catalog.FieldLeads,
	"Tach": catalog.FieldTachPerRev, "Tacho": catalog.FieldTachPerRev, "PWM": catalog.FieldPWM,
	"Life": catalog.FieldLife, "Operating": catalog.FieldTempMax, "Price": catalog.FieldPrice,
	"Stock": catalog.FieldStock, "Bestand": catalog.FieldStock, "Disponibilité": catalog.FieldStock,
	"Frequency": catalog.FieldFrequency, "Fan": catalog.FieldCurve, "Bearing": catalog.FieldBearing, "Connector": catalog.FieldConnector,
	"Kind": catalog.FieldKind, "Bauart": catalog.FieldKind, "Genre": catalog.FieldKind, "Clase": catalog.FieldKind,
}

// readCellOf reads one cell of a column that is told to be the field of its
// header, beside a part number and a curve or frame.
func readCellOf(t *testing.T, mark tabular.Mark, header, cell string) (string, []Remark) {
	t.Helper()
	names, row := []string{"Part number", header, "Height [mm]"}, []string{"A1", cell, "-"}
	var assign []Assignment
	if id, ok := fieldOfHeader[words(header)[0]]; ok {
		assign = append(assign, Assignment{id, header})
	}
	if len(assign) > 0 && assign[0].Field == catalog.FieldWidth {
		names, row = names[:2], row[:2]
	}
	p, err := NewPlan(Input{File: "f.csv", Header: names, Sample: [][]string{row}, Marks: marksOf(mark, len(names)), Assign: assign})
	if err != nil {
		t.Fatalf("NewPlan(%q, cell %q) = %v", names, cell, err)
	}
	fan, remarks, err := p.Reader().Read(row)
	if err != nil {
		var e *RowError
		if !errors.As(err, &e) {
			t.Fatalf("Read(%q) = %v, no *RowError", cell, err)
		}
		return "reject: " + e.Reason, nil
	}
	fan.Part = ""
	return said(fan), remarks
}
