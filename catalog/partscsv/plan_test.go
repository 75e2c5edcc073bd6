package partscsv

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"lowsone/catalog"
	"lowsone/catalog/tabular"
)

func TestForcedColumns(t *testing.T) {
	text := "Teil|Wert A|Wert B|Airflow [m³/h]\nA1|12|30|45\nA2|24|32|60"
	assign := []Assignment{
		{catalog.FieldPart, "Teil"}, {catalog.FieldVoltage, "Wert A"}, {catalog.FieldNoise, "wert b"}, {catalog.FieldAirflow, ""},
	}
	p, rows := planOf(t, tabular.Point, text, assign...)
	fan, _, err := p.Reader().Read(rows[0])
	if err != nil {
		t.Fatal(err)
	}
	if got, want := said(fan), "part=A1 voltage_v=12 noise_dba=30"; got != want {
		t.Errorf("forced columns read %s, want %s", got, want)
	}
	if got := p.Columns()[1].How; got != ByForce {
		t.Errorf("forced column was found by %q, want %q", got, ByForce)
	}
	if got := fan.Extra; len(got) != 1 || got[0] != (catalog.Extra{Header: "Airflow [m³/h]", Text: "45"}) {
		t.Errorf("a column forced to nothing is kept as %v, want its header and text", got)
	}
}

func TestForceRefusals(t *testing.T) {
	header := []string{"Part number", "Frame", "Schall", "schall"}
	sample := [][]string{{"A1", "60", "30", "31"}}
	rows := []struct {
		assign []Assignment
		want   string
		hint   string
	}{
		{[]Assignment{{catalog.FieldNoise, "Schal"}}, `--column "noise_dba=Schal": no column has the header "Schal"`, `did you mean "Schall"? the headers are "Part number", "Frame", "Schall", "schall"`},
		{[]Assignment{{catalog.FieldNoise, "SCHALL"}}, `--column "noise_dba=SCHALL": 2 columns have the header "SCHALL"`, "give the header exactly as it stands in the file"},
		{[]Assignment{{catalog.FieldNoise, "Schall"}, {catalog.FieldSpeed, "Schall"}}, `--column "speed_rpm=Schall": column "Schall" is already noise_dba`, "a column is read as one field"},
		{[]Assignment{{catalog.FieldNoise, "Schall"}, {catalog.FieldNoise, "schall"}}, `--column "noise_dba=schall": noise_dba is already read from "Schall"`, "a field is read from one column"},
	}
	for _, r := range rows {
		_, err := NewPlan(Input{File: "f.csv", Header: header, Sample: sample, Assign: r.assign})
		var e *ColumnError
		if !errors.As(err, &e) || e.Error() != r.want || e.Hint != r.hint {
			t.Errorf("NewPlan with %v = %v (hint %q), want %s (hint %q)", r.assign, err, hintOf(e), r.want, r.hint)
		}
	}
}

// A band's column that is named takes those named like it; several are taken as
// they are named.
func TestForcedBands(t *testing.T) {
	bands := func(headers ...string) (list []Assignment) {
		for _, h := range headers {
			list = append(list, Assignment{catalog.FieldNoiseBands, h})
		}
		return list
	}
	const text = "Part|Frame|inlet 125 Hz|inlet 250 Hz|inlet 500 Hz|Lw 125 Hz|Lw 250 Hz|Lw 500 Hz|Lw 1 kHz|Lw 2 kHz|Lw 4 kHz|note 63|Pegel\nA1|60|1|2|3|11|12|13|14|15|16|9|63:41"
	for _, r := range []struct {
		assign []Assignment
		want   []int // columns, from 0
		err    string
	}{
		{nil, []int{5, 6, 7, 8, 9, 10}, ""},
		{bands("Lw 1 kHz"), []int{5, 6, 7, 8, 9, 10}, ""},
		{bands("inlet 250 Hz"), []int{2, 3, 4}, ""},
		{bands("Lw 1 kHz", "inlet 250 Hz", "note 63"), []int{3, 8, 11}, ""},
		{bands("Pegel"), []int{12}, ""},
		{bands(""), nil, ""},
		{bands("note 63"), nil, "no other column is a band named like it"},
		{bands("Lw 250 Hz", "inlet 250 Hz"), nil, `"Lw 250 Hz" is the same band`},
		{bands("Lw 250 Hz", "Lw 250 Hz"), nil, "it is given twice"},
		{bands("Pegel", "Lw 250 Hz"), nil, `noise_bands is already read from "Pegel"`},
		{append([]Assignment{{catalog.FieldNoise, "Lw 250 Hz"}}, bands("Lw 250 Hz", "Lw 500 Hz")...), nil, `column "Lw 250 Hz" is already noise_dba`},
	} {
		header, rows := table(text)
		p, err := NewPlan(Input{File: "f.csv", Header: header, Sample: rows, Assign: r.assign})
		if r.err != "" {
			var e *ColumnError
			if !errors.As(err, &e) || !strings.Contains(e.Reason, r.err) || e.Hint == "" {
				t.Errorf("NewPlan with %v = %v, want %s", r.assign, err, r.err)
			}
			continue
		}
		if err != nil {
			t.Errorf("NewPlan with %v = %v", r.assign, err)
			continue
		}
		var got []int
		noted := false // that no weighting is named
		for i, c := range p.Columns() {
			if c.FieldName() == "noise_bands" {
				noted = noted || len(c.Notes) > 0
				got = append(got, i)
			}
		}
		if !slices.Equal(got, r.want) || noted != (len(r.want) > 0) {
			t.Errorf("with %v the bands are columns %v, want %v", r.assign, got, r.want)
		}
	}
}

func hintOf(e *ColumnError) string {
	if e == nil {
		return ""
	}
	return e.Hint
}

func TestNotAPartsTable(t *testing.T) {
	rows := []struct{ table, want, hint string }{
		{"Datum|Konto|Betrag\n1.1.|100|12,00", `f.csv: not a parts table: no column is the part number, and no column is a frame, a voltage, an airflow or a pressure; its columns are "Datum", "Konto", "Betrag"`,
			"say which column is which, such as --column part=Datum --column width_mm=Konto; in the place of width_mm may stand voltage_v, airflow_m3h or static_pressure_pa"},
		{"Part number|Luftstron\nA1|x", `f.csv: not a parts table: no column is a frame, a voltage, an airflow or a pressure; its columns are "Part number", "Luftstron"`,
			"say which column is which, such as --column airflow_m3h=Luftstron; in the place of airflow_m3h may stand width_mm, voltage_v or static_pressure_pa"},
		{"foo|note\na|b\nc|d", `f.csv: not a parts table: no column is the part number, and no column is a frame, a voltage, an airflow or a pressure; its columns are "foo", "note"`,
			"say which column is which, such as --column part=foo --column width_mm=note; in the place of width_mm may stand voltage_v, airflow_m3h or static_pressure_pa"},
		{"note\na\nb", `f.csv: not a parts table: no column is the part number, and no column is a frame, a voltage, an airflow or a pressure; its columns are "note"`,
			"a parts table has a column of part numbers, and one of frame, voltage, airflow or pressure"},
	}
	for _, r := range rows {
		header, sample := table(r.table)
		_, err := NewPlan(Input{File: "f.csv", Header: header, Sample: sample})
		var e *NotPartsError
		if !errors.As(err, &e) || e.Error() != r.want || e.Hint() != r.hint {
			t.Errorf("NewPlan(%q) = %v\nwant %s", header, err, r.want)
			if e != nil {
				t.Errorf("hint = %s\nwant %s", e.Hint(), r.hint)
			}
		}
	}
}

// What nothing names is assumed only if every sampled cell is possible, and is
// said.
func TestAssumedUnits(t *testing.T) {
	rows := []struct{ name, table, column, unit, note string }{
		{"flow in a metric file", "Model|Size [mm]|Airflow\nA1|60|45\nA2|80|60", "Airflow", "m³/h", "the other units of the file are metric"},
		{"flow in an imperial file", "Model|Size [inch]|Pressure [inH2O]|Airflow\nA1|2.36|0.14|26.5\nA2|3.15|0.2|35", "Airflow", "CFM", "the other units of the file are imperial"},
		{"flow with nothing to go by", "Model|Voltage|Airflow\nA1|12 V|45\nA2|24 V|60", "Airflow", "m³/h", "may be CFM"},
		{"flow beside its other unit", "Model|Voltage|Airflow|Airflow [m³/h]\nA1|12 V|26.5|45\nA2|24 V|35.3|60", "Airflow", "CFM", `makes the values those of "Airflow [m³/h]"`},
		{"flow that fits speed and frame in m³/h", "Model|Size [mm]|Speed [rpm]|Airflow\n" + axialFans(1), "Airflow", "m³/h", "give the flow of such fans"},
		{"flow that is too little in m³/h", "Model|Kind|Size [mm]|Speed [rpm]|Airflow\n" + strings.ReplaceAll(axialFans(1/1.699), "A|", "A|axial|"), "Airflow", "CFM", "m³/h would be too little"},
		{"blowers have less flow", "Model|Kind|Size [mm]|Speed [rpm]|Airflow\n" + strings.ReplaceAll(axialFans(1/1.699), "A|", "A|blower|"), "Airflow", "m³/h", "may be CFM"},
		{"size in mm", "Model|Size\nA1|60\nA2|80", "Size", "mm", "mm is assumed"},
		{"size in inches of an imperial file", "Model|Size|Airflow CFM\nA1|2.36|26.5\nA2|3.15|35", "Size", "inch", "inch is assumed"},
		{"size in cm", "Model|Size\nA1|6.0\nA2|8.0", "Size", "cm", "cm is assumed"},
		{"pressure in Pa", "Model|Size [mm]|Pressure\nA1|60|35\nA2|80|40", "Pressure", "Pa", "Pa is assumed"},
		{"pressure in mmH₂O", "Model|Size [mm]|Pressure\nA1|60|3.5\nA2|80|4.1", "Pressure", "mmH₂O", "mmH₂O is assumed"},
		{"current in A", "Model|Size [mm]|Current\nA1|60|0.12\nA2|80|0.2", "Current", "A", "A is assumed"},
		{"current in mA", "Model|Size [mm]|Current\nA1|60|120\nA2|80|200", "Current", "mA", "mA is assumed"},
		{"most cells name it", "Model|Size [mm]|Voltage\nA1|60|12 V\nA2|80|24 V\nA3|80|24", "Voltage", "V", "as most are"},
		{"one level may be in bels", "Model|Size [mm]|Noise\nA1|60|4.2\nA2|80|31\nA3|80|28", "Noise", "dB(A)", "in which 2 of 3 sampled cells are possible"},
		{"all levels may be in bels", "Model|Size [mm]|Noise\nA1|60|4.2\nA2|80|3.9", "Noise", "", "no one unit"},
		{"a placeholder among speeds", "Model|Size [mm]|Speed\nA1|60|3000\nA2|80|999999\nA3|80|2500", "Speed", "rpm", "2 of 3"},
		{"a slip among sizes", "Model|Size\nA1|60\nA2|80\nA3|9999", "Size", "mm", "2 of 3"},
		{"no one unit fits", "Model|Size [mm]|Current\nA1|60|0.12\nA2|80|5000", "Current", "", "no one unit"},
	}
	for _, r := range rows {
		p, _ := planOf(t, tabular.Point, r.table)
		for _, c := range p.Columns() {
			if c.Header != r.column {
				continue
			}
			if notes := strings.Join(c.Notes, "; "); c.Unit != r.unit || !strings.Contains(notes, r.note) {
				t.Errorf("%s: unit %q, notes %q, want %q and %q", r.name, c.Unit, notes, r.unit, r.note)
			}
		}
	}
}

// axialFans are rows of fans with a flow as makers state it in m³/h (common
// practice), times a factor.
func axialFans(factor float64) string {
	var b strings.Builder
	for _, f := range []struct{ size, speed, flow float64 }{{40, 6000, 12}, {60, 3000, 25}, {60, 5200, 42}, {80, 2600, 58}, {92, 2400, 80}, {120, 2000, 140}} {
		fmt.Fprintf(&b, "%.0f-%.0fA|%.0f|%.0f|%.1f\n", f.size, f.speed, f.size, f.speed, f.flow*factor)
	}
	return b.String()
}

// A level that is not A-weighted is no dB(A): such a column is kept as it is.
func TestOtherWeightings(t *testing.T) {
	for header, want := range map[string]string{
		"Noise dB(C)": "", "Noise dBC": "", "Noise level [dB (Z)]": "", "Noise dB(lin)": "", "Noise dB linear": "", "Noise, unweighted (dB)": "", "Geräusch dB unbewertet": "",
		"Noise dB(A)": " noise_dba=35", "Noise dB": " noise_dba=35", "Noise [dB A]": " noise_dba=35",
	} {
		p, rows := planOf(t, tabular.Point, "Model|Airflow [CFM]|"+header+"\nA1|26.5|35")
		fan, _, err := p.Reader().Read(rows[0])
		if err != nil {
			t.Fatal(err)
		}
		if got := said(fan); !strings.HasPrefix(got, "part=A1 airflow_m3h=45.02") || strings.Contains(got, "noise") != (want != "") || !strings.Contains(got, want) {
			t.Errorf("under %q: %s, want the noise %q", header, got, want)
		}
	}
}

// Two columns of one field check each other.
func TestSecondColumn(t *testing.T) {
	p, rows := planOf(t, tabular.Point, `Model|Voltage|Airflow [m³/h]|Airflow [CFM]
A1|12 V|45|26.5
A2|12 V|45|28.5
A3|12 V|45|76
A4|12 V||26.5
A5|12 V|45|see sheet`)
	want := []struct{ fan, remark string }{
		{"part=A1 voltage_v=12 airflow_m3h=45", ""},
		{"part=A2 voltage_v=12 airflow_m3h=45", "free airflow: 45 m³/h and 48.42 m³/h differ by 7 %; the first is kept"},
		{`"Airflow [CFM]": contradicts itself: 45 m³/h and 129.1 m³/h`, ""},
		{"part=A4 voltage_v=12 airflow_m3h=45.02", ""},
		{"part=A5 voltage_v=12 airflow_m3h=45", `free airflow "see sheet": no number in it; taken as unknown`},
	}
	r := p.Reader()
	for i, row := range rows {
		fan, remarks, err := r.Read(row)
		got, remark := "", ""
		if err != nil {
			got = err.Error()
		} else {
			got = said(fan)
		}
		for _, m := range remarks {
			remark += m.Text
		}
		if got != want[i].fan || err == nil && remark != want[i].remark {
			t.Errorf("row %d = %s (%s), want %s (%s)", i, got, remark, want[i].fan, want[i].remark)
		}
	}
}

// Pairs of values go with the mains frequencies the row names.
func TestMainsPairs(t *testing.T) {
	p, rows := planOf(t, tabular.Comma, `Typ|Nennspannung|Frequenz Hz|Luftstrom m³/h|Drehzahl 1/min|Geräusch dB(A)
A1|230 V~|50/60|150/170|2600/3100|45/48
A2|230 V~|60/50|170/150|3100/2600|48/45
A3|230 V~||150/170|2600/3100|45/48
A4|230 V~ 50/60 Hz||150/170|2600|45
A5|230 V~|50|150|2600|45
A6|230 V~|50/60|150|2600|45
A7|230 V~|50|150/170|2600|45`)
	want := []string{
		"part=A1 voltage_v=230 supply=ac frequency_hz=50 airflow_m3h=150 speed_rpm=2600 noise_dba=45",
		"part=A2 voltage_v=230 supply=ac frequency_hz=50 airflow_m3h=150 speed_rpm=2600 noise_dba=45",
		"part=A3 voltage_v=230 supply=ac airflow_m3h=150 speed_rpm=2600 noise_dba=48",
		"part=A4 voltage_v=230 supply=ac frequency_hz=50 airflow_m3h=150 speed_rpm=2600 noise_dba=45",
		"part=A5 voltage_v=230 supply=ac frequency_hz=50 airflow_m3h=150 speed_rpm=2600 noise_dba=45",
		"part=A6 voltage_v=230 supply=ac airflow_m3h=150 speed_rpm=2600 noise_dba=45",
		"part=A7 voltage_v=230 supply=ac airflow_m3h=150 speed_rpm=2600 noise_dba=45",
	}
	r := p.Reader()
	for i, row := range rows {
		fan, _, err := r.Read(row)
		if err != nil {
			t.Errorf("row %v = %v, want %s", row, err, want[i])
		} else if got := said(fan); got != want[i] {
			t.Errorf("row %v = %s, want %s", row, got, want[i])
		}
	}
}

// Values that cannot be true together.
func TestRowsThatContradict(t *testing.T) {
	p, rows := planOf(t, tabular.Point, `Model|Voltage (V)|V min|V max|Supply type|Airflow m³/h|Pressure Pa|Power W|Curve
A1|12|13.8|7|DC|45|35|1.4|
A2|24|7|13.8|DC|45|35|1.4|
A3|12 VAC|7|13.8|DC|45|35|1.4|
A4|12|7|13.8|DC|450|3500|1.4|
A5|12|7|13.8|DC|45|35|1.4|0:35;20:20;60:0`)
	want := []struct{ err, warning string }{
		{`"V min": lowest voltage 13.8 V is above the highest, 7 V`, ""},
		{"", `nominal voltage outside its own range (against "V min" and "V max")`},
		{"", "DC and AC contradict each other"},
		{"", `less power than the air that is moved takes (against "Airflow m³/h" and "Pressure Pa"); check the units of airflow, pressure and power`},
		{"", `free airflow more than 3 % from the curve's end (against "Curve"); the curve is used`},
	}
	r := p.Reader()
	for i, row := range rows {
		_, remarks, err := r.Read(row)
		text, warning := "", ""
		if err != nil {
			text = err.Error()
		}
		for _, m := range remarks {
			warning += m.Warning
		}
		if text != want[i].err || warning != want[i].warning {
			t.Errorf("row %v = %q, warning %q, want %q, %q", row, text, warning, want[i].err, want[i].warning)
		}
	}
}

// The report shows the first three different cells that are known, and what
// came of them.
func TestColumnSamples(t *testing.T) {
	p, _ := planOf(t, tabular.Comma, `Typ|Spannung [V]|Geräusch dB(A)|IP
A1|12|28–30|20
A2|12|-|20
A3|24|0|54
A4|5|31|65
A5|48|32|67`)
	columns := p.Columns()
	want := [][]Sample{
		{{Cell: "A1", Value: "part A1"}, {Cell: "A2", Value: "part A2"}, {Cell: "A3", Value: "part A3"}},
		{{Cell: "12", Value: "voltage 12 V"}, {Cell: "24", Value: "voltage 24 V"}, {Cell: "5", Value: "voltage 5 V"}},
		{{Cell: "28–30", Value: "noise 30 dB(A)"}, {Cell: "0", Value: "0 dB(A) is outside the possible 10 to 130", Fault: true}, {Cell: "31", Value: "noise 31 dB(A)"}},
		{{Cell: "20", Value: ""}, {Cell: "54", Value: ""}, {Cell: "65", Value: ""}},
	}
	for i, c := range columns {
		if diff := cmp.Diff(want[i], c.Samples); diff != "" {
			t.Errorf("samples of %q (-want +got):\n%s", c.Header, diff)
		}
	}
	if c := columns[1]; c.Decimal != "," || c.Number != 2 || c.FieldName() != "voltage_v" || c.Why != `the word "Spannung" (de) and the unit V` {
		t.Errorf("column = %+v", c)
	}
	if c := columns[3]; c.Taken() || c.How != Unread || c.Why == "" {
		t.Errorf("column = %+v", c)
	}
}

func TestHeaderScore(t *testing.T) {
	h := NewHeaders()
	rows := []struct {
		cells  string
		header bool
	}{
		{"Typ|Hersteller|Nennspannung|Luftstrom m³/h", true},
		{"part|maker|airflow_m3h", true},
		{"AX60|Nordwehe|12 V|45", false},
		{"Typ|Maße|63|125|250|500|1000|2000|4000|8000", true},
		{"Typ|Maße|63 Hz|125 Hz|250 Hz|500 Hz|1 kHz|2 kHz|4 kHz", true},
		{"FX60|60x60|25|31.5|40|50|63|80|100", false},
		{"Preisliste Lüfter 2026|||", false},
		{"Stand 03/2026; Preise netto|||", false},
		{"|||", false},
	}
	for _, r := range rows {
		if got := h.Score(strings.Split(r.cells, "|")); (got > 0) != r.header {
			t.Errorf("Score(%q) = %v, header is %v", r.cells, got, r.header)
		}
	}
	if !h.AreUnits([]string{"", "[m³/h]", "Pa", "dB(A)", "€"}) {
		t.Error("a row of units is not seen as one")
	}
	for _, cells := range []string{"A1|45|12", "axial|m³/h|Pa", "|||V"} {
		if h.AreUnits(strings.Split(cells, "|")) {
			t.Errorf("AreUnits(%q) = true", cells)
		}
	}
}
