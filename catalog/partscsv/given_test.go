package partscsv

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/catalog/tabular"
)

// givenOf reads FIELD=VALUE texts.
func givenOf(t *testing.T, texts ...string) []Given {
	t.Helper()
	var list []Given
	for _, text := range texts {
		name, value, _ := strings.Cut(text, "=")
		d, ok := catalog.FieldNamed(name)
		if !ok {
			t.Fatalf("no field %q", name)
		}
		g, err := ParseGiven(d.ID, value)
		if err != nil {
			t.Fatalf("ParseGiven(%s) = %v", text, err)
		}
		list = append(list, g)
	}
	return list
}

// A given value stands where the row states none, and is told of.
func TestGivenValues(t *testing.T) {
	const head = "Part number|Airflow [m³/h]|Voltage|Kind|Supplier|Price|Tach\n"
	tests := []struct {
		name, row string
		given     []string
		want      string
		remark    string
		took      string
	}{
		{"all are missing", "A1|45|||||", []string{"kind=axial", "supply=dc", "supplier=Hobelhof"}, "part=A1 kind=axial supply=dc airflow_m3h=45 supplier=Hobelhof",
			"said at the import, not by the list: kind axial, supply dc, supplier Hobelhof", "[0 1 2]"},
		{"the row's own wins", "A1|45|230 VAC|radial|Senkhorst||", []string{"kind=axial", "supply=dc", "supplier=Hobelhof"},
			"part=A1 kind=centrifugal voltage_v=230 supply=ac airflow_m3h=45 supplier=Senkhorst", "", "[]"},
		{"with a unit of its own", "A1||||||", []string{"airflow_m3h=26.5 CFM", "depth_mm=1 in"}, "part=A1 depth_mm=25.4 airflow_m3h=45.02", "free airflow 45.02 m³/h", "[0 1]"},
		{"a decimal comma", "A1|45|||||", []string{"voltage_v=13,8"}, "part=A1 voltage_v=13.8 airflow_m3h=45", "voltage 13.8 V", "[0]"},
		{"what a cell gives beside", "A1|45|||||", []string{"voltage_v=24 VDC"}, "part=A1 voltage_v=24 supply=dc airflow_m3h=45", "voltage 24 V, supply dc", "[0]"},
		{"nothing beside a value that is not taken", "A1|45|12|||3.20|", []string{"voltage_v=24 VDC (18-28)", "price=5 EUR"}, "part=A1 voltage_v=12 airflow_m3h=45 price=3.2", "", "[]"},
		{"a range beside no nominal one", "A1|45|12||||", []string{"voltage_v=10-14 V"}, "part=A1 voltage_v=12 voltage_min_v=10 voltage_max_v=14 airflow_m3h=45", "lowest voltage 10 V, highest voltage 14 V", "[0]"},
		{"a given field before what another gives beside", "A1|45|||||", []string{"voltage_v=24 VDC", "supply=ac"}, "part=A1 voltage_v=24 supply=ac airflow_m3h=45", "voltage 24 V, supply ac", "[0 1]"},
		{"an amount's currency", "A1|45||||3.20|", []string{"currency=EUR"}, "part=A1 airflow_m3h=45 price=3.2 currency=EUR", "currency EUR", "[0]"},
		{"no amount, no currency", "A1|45|||||", []string{"currency=EUR"}, "part=A1 airflow_m3h=45", "", "[]"},
		{"instead of an estimate", "A1|45|||||yes", []string{"tach_per_rev=3"}, "part=A1 tach_per_rev=3 airflow_m3h=45", "tach pulses per turn 3", "[0]"},
		{"not instead of none", "A1|45|||||no", []string{"tach_per_rev=3"}, "part=A1 tach_per_rev=0 airflow_m3h=45", "", "[]"},
		{"as the supply of a range", "A1|45|11-250 V||||", []string{"voltage_v=24"}, "part=A1 voltage_v=24 voltage_min_v=11 voltage_max_v=250 airflow_m3h=45", "voltage 24 V", "[0]"},
	}
	for _, test := range tests {
		header, rows := table(head + test.row + "\nA2|60|12 V|axial|Senkhorst|4|yes")
		p, err := NewPlan(Input{File: "f.csv", Header: header, Sample: rows, Marks: marksOf(tabular.Point, len(header)), Given: givenOf(t, test.given...)})
		if err != nil {
			t.Fatal(err)
		}
		r := p.Reader()
		fan, _, err := r.Read(rows[0])
		if err != nil {
			t.Errorf("%s: %v", test.name, err)
			continue
		}
		remarks := strings.Join(fan.Remarks, "; ")
		got, took := said(fan), fmt.Sprint(r.Took())
		if got != test.want || !strings.Contains(remarks, test.remark) || test.remark == "" && strings.Contains(remarks, "said at") || took != test.took {
			t.Errorf("%s: read %s (%s), took %s, want %s (%s), %s", test.name, got, remarks, took, test.want, test.remark, test.took)
		}
	}
}

// What was given is no cell.
func TestGivenIsNoCell(t *testing.T) {
	header, rows := table("Part number|Airflow [m³/h]\nA1|45")
	p, err := NewPlan(Input{Header: header, Sample: rows, Given: givenOf(t, "kind=axial")})
	if err != nil {
		t.Fatal(err)
	}
	fan, _, err := p.Reader().Read(rows[0])
	if err != nil || fan.Kind.Origin() != quantity.Default {
		t.Errorf("the kind comes from %v, %v, want %v", fan.Kind.Origin(), err, quantity.Default)
	}
	var b strings.Builder
	if err := Write(&b, []*catalog.Fan{fan}); err != nil || !strings.Contains(b.String(), "\nA1,,axial,") {
		t.Errorf("Write = %q, %v, want the kind in it", b.String(), err)
	}
}

// A given value that makes a row impossible is named.
func TestGivenImpossible(t *testing.T) {
	header, rows := table("Part number|Airflow [m³/h]|Umax [V]\nA1|45|14")
	p, err := NewPlan(Input{Header: header, Sample: rows, Given: givenOf(t, "voltage_min_v=20")})
	if err != nil {
		t.Fatal(err)
	}
	_, _, err = p.Reader().Read(rows[0])
	var row *RowError
	want := `"--value voltage_min_v=20": lowest voltage 20 V is above the highest, 14 V`
	if !errors.As(err, &row) || row.Column != -1 || row.Error() != want {
		t.Errorf("Read = %v, want %s", err, want)
	}
}

func TestGivenRefusals(t *testing.T) {
	for _, test := range []struct {
		field             catalog.FieldID
		text, reason, tip string
	}{
		{catalog.FieldPart, "A1", "no value that all rows share", "each fan has its own"},
		{catalog.FieldCurve, "0:40;10:0", "no value that all rows share", "each fan has its own"},
		{catalog.FieldKind, "axail", "no kind of fan is known by this name", "a kind is one of axial"},
		{catalog.FieldSupply, "sometimes", "", "a supply is one of"},
		{catalog.FieldVoltage, "12 W", "W is no unit of voltage", ""},
		{catalog.FieldNoise, "0", "0 dB(A) is outside the possible 10 to 130", ""},
		{catalog.FieldSupplier, "", "it says no value", ""},
		{catalog.FieldDepth, "n/a", "it says no value", ""},
	} {
		_, err := ParseGiven(test.field, test.text)
		var e *catalog.ValueError
		if !errors.As(err, &e) || !strings.Contains(e.Reason, test.reason) || !strings.Contains(e.Hint, test.tip) {
			t.Errorf("ParseGiven(%s, %q) = %+v, want %q (%q)", catalog.Fields[test.field].Name, test.text, e, test.reason, test.tip)
		}
	}
}
