package cli

import (
	"strings"
	"testing"

	"lowsone/catalog"
)

// TestFieldNamedAsPeopleDo holds what fields may be called: their own names, those
// without the unit, their titles, and the titles of tables.
func TestFieldNamedAsPeopleDo(t *testing.T) {
	for said, want := range map[string]catalog.FieldID{
		"noise_dba": catalog.FieldNoise, "noise": catalog.FieldNoise, "Noise": catalog.FieldNoise,
		"pressure": catalog.FieldStaticPressure, "static_pressure": catalog.FieldStaticPressure, "static-pressure": catalog.FieldStaticPressure,
		"airflow": catalog.FieldAirflow, "flow": catalog.FieldAirflow, "free airflow": catalog.FieldAirflow,
		"speed": catalog.FieldSpeed, "voltage": catalog.FieldVoltage, "current": catalog.FieldCurrent, "power": catalog.FieldPower,
		"width": catalog.FieldWidth, "frame": catalog.FieldWidth, "size": catalog.FieldWidth,
		"height": catalog.FieldHeight, "depth": catalog.FieldDepth, "price": catalog.FieldPrice,
		"life": catalog.FieldLife, "life_temp": catalog.FieldLifeTemp, "tach": catalog.FieldTachPerRev,
		"start_voltage": catalog.FieldStartVoltage, "starting voltage": catalog.FieldStartVoltage,
		"noise_kind": catalog.FieldNoiseKind, "noise_distance": catalog.FieldNoiseDistance, "order code": catalog.FieldOrderCode,
	} {
		if d, err := fieldNamed(said, catalog.FieldNames()); err != nil || d.ID != want {
			t.Errorf("fieldNamed(%q) = %v, %v, want %s", said, d, err, catalog.Fields[want].Name)
		}
	}
}

// TestEveryFieldHasItsNames goes through the field table: no field is hidden behind
// what another one is called.
func TestEveryFieldHasItsNames(t *testing.T) {
	for i := range catalog.Fields {
		d := &catalog.Fields[i]
		for _, said := range []string{d.Name, withoutUnit(d), d.Title} {
			if got, err := fieldNamed(said, catalog.FieldNames()); err != nil || got.ID != d.ID {
				t.Errorf("fieldNamed(%q) = %v, %v, want %s", said, got, err, d.Name)
			}
		}
	}
	for said := range tableTitles {
		if d, ok := catalog.FieldNamed(said); ok {
			t.Errorf("%q is the name of %s already", said, d.Name)
		}
	}
}

// TestWrongFieldIsToldTheNearest: three at most, and where all stand.
func TestWrongFieldIsToldTheNearest(t *testing.T) {
	for _, said := range []string{"nois", "pressur", "volt", "x", "temperature", "schall"} {
		_, err := fieldNamed(said, catalog.FieldNames())
		if err == nil {
			t.Errorf("fieldNamed(%q) finds one", said)
			continue
		}
		hint := hintOf(err)
		if n := strings.Count(hint, " or ") + 1; n > mostFieldsNamed || !strings.HasSuffix(hint, "lowsone search --help lists them") {
			t.Errorf("fieldNamed(%q): hint %q", said, hint)
		}
	}
}
