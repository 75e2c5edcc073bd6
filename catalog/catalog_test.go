package catalog

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"lowsone/catalog/quantity"
)

// wanted is the record of the design: the columns of the tool's own CSV.
const wanted = "part,maker,kind,width_mm,height_mm,depth_mm,hole_pitch_mm,voltage_v,voltage_min_v,voltage_max_v,supply,current_a,power_w,leads,connector,tach_per_rev,pwm,start_voltage_v,frequency_hz,airflow_m3h,static_pressure_pa,curve,speed_rpm,noise_dba,noise_kind,noise_distance_m,noise_bands,blades,bearing,life_h,life_temp_c,temp_max_c,price,currency,supplier,order_code,stock,in_stock,description"

func TestFieldNames(t *testing.T) {
	if diff := cmp.Diff(strings.Split(wanted, ","), FieldNames()); diff != "" {
		t.Fatal(diff)
	}
	for i := range Fields {
		d := &Fields[i]
		if int(d.ID) != i || d.get == nil || d.set == nil || d.Title == "" {
			t.Errorf("field %d (%s) is not whole", i, d.Name)
		}
		if d.Form == Quantity && d.Unit.Symbol == "" {
			t.Errorf("%s has no unit", d.Name)
		}
	}
}

// draw gives a valid random text for a field.
func draw(t *rapid.T, d *Field) string {
	switch d.Form {
	case Choice:
		return rapid.SampledFrom(d.Choices).Draw(t, d.Name)
	case Count:
		return Number(float64(rapid.IntRange(int(d.Low), int(math.Min(d.High, 1e6))).Draw(t, d.Name)))
	case Points:
		return "0:40;10:30;20:0"
	case Bands:
		return "63:41;125:38.5;250:-3"
	case Text:
		return rapid.StringMatching(`[A-Za-z0-9äß=+@-]([A-Za-z0-9 äß=+@-]{0,10}[A-Za-z0-9])?`).Draw(t, d.Name)
	default:
		low, high := d.Low, d.High
		return Number(rapid.Float64Range(low, high).Draw(t, d.Name))
	}
}

// Property: what a field writes it reads back to the same text.
func TestFieldRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var f, g Fan
		for i := range Fields {
			d := &Fields[i]
			text := draw(t, d)
			v, err := d.Parse(text)
			if err != nil {
				t.Fatalf("%s: %v", d.Name, err)
			}
			d.Put(&f, v, quantity.Cell)
			w, err := d.Parse(d.Format(&f))
			if err != nil {
				t.Fatalf("%s: %q does not read back: %v", d.Name, d.Format(&f), err)
			}
			d.Put(&g, w, quantity.Cell)
			if a, b := d.Format(&f), d.Format(&g); a != b {
				t.Fatalf("%s: wrote %q, then %q", d.Name, a, b)
			}
		}
	})
}

// Unknown fields write nothing and stay unknown through Put.
func TestUnknownStaysUnknown(t *testing.T) {
	var f Fan
	for i := range Fields {
		d := &Fields[i]
		if _, o := d.Get(&f); o != quantity.Unknown || d.Format(&f) != "" {
			t.Errorf("%s of the empty fan is %v, %q", d.Name, o, d.Format(&f))
		}
		d.Put(&f, Value{Number: 1, Text: "x", Curve: []CurvePoint{{}}}, quantity.Unknown)
		if _, o := d.Get(&f); o != quantity.Unknown {
			t.Errorf("%s put as unknown is %v", d.Name, o)
		}
	}
	c := ColumnsOf(&f)
	for i := range Fields {
		if d := &Fields[i]; d.Numeric() && !math.IsNaN(c.Number(d.ID, 0)) {
			t.Errorf("column %s of the empty fan is %v, want NaN", d.Name, c.Number(d.ID, 0))
		}
	}
}

func TestParseRefuses(t *testing.T) {
	rows := []struct{ field, text, want, hint string }{
		{"airflow_m3h", "0", `airflow_m3h "0": 0 m³/h is outside the possible 0.01 to 200000`, "leave the cell empty where the value is unknown"},
		{"noise_dba", "4.2", `noise_dba "4.2": 4.2 dB(A) is outside the possible 10 to 130`, "a level so low may be in bels: name the unit B in the header or the cell"},
		{"kind", "axail", `kind "axail": not one of axial, centrifugal, mixed, crossflow`, "did you mean axial?"},
		{"leads", "2.5", `leads "2.5": not a whole number`, ""},
		{"voltage_v", "twelve", `voltage_v "twelve": no number in it`, "write a number and a unit, such as 12V"},
		{"curve", "0:40", `curve "0:40": a curve needs two points or more`, `write flow in m³/h and pressure in Pa as pairs, such as "0:42;10:35;22:0"`},
		{"curve", "0:40;10:20;5:0", `curve "0:40;10:20;5:0": the flow does not rise from point 2 to point 3`, ""},
		{"curve", "0:NaN;10:20", `curve "0:NaN;10:20": point 1 (0:NaN) is not a flow and a pressure`, ""},
		{"part", " ", `part "": nothing stands there`, ""},
	}
	for _, r := range rows {
		d, _ := FieldNamed(r.field)
		_, err := d.Parse(r.text)
		ve, ok := err.(*ValueError)
		if !ok || ve.Error() != r.want || r.hint != "" && ve.Hint != r.hint {
			t.Errorf("%s.Parse(%q) = %v (hint %q), want %s (hint %q)", r.field, r.text, err, hintOf(ve), r.want, r.hint)
		}
	}
}

func hintOf(e *ValueError) string {
	if e == nil {
		return ""
	}
	return e.Hint
}

func fanWith(t *testing.T, pairs ...string) *Fan {
	t.Helper()
	f := &Fan{}
	for i := 0; i < len(pairs); i += 2 {
		d, ok := FieldNamed(pairs[i])
		if !ok {
			t.Fatalf("no field %q", pairs[i])
		}
		v, err := d.Parse(pairs[i+1])
		if err != nil {
			t.Fatal(err)
		}
		d.Put(f, v, quantity.Cell)
	}
	return f
}

func TestCheck(t *testing.T) {
	rows := []struct {
		name  string
		fan   *Fan
		want  string // part of the reason; empty: nothing found
		fatal bool
	}{
		{"sound", fanWith(t, "voltage_v", "12", "voltage_min_v", "7", "voltage_max_v", "13.8"), "", false},
		{"min above max", fanWith(t, "voltage_min_v", "13.8", "voltage_max_v", "7"), "lowest voltage 13.8 V is above the highest, 7 V", true},
		{"nominal outside", fanWith(t, "voltage_v", "24", "voltage_min_v", "7", "voltage_max_v", "13.8"), "outside its own range", false},
		{"starts too high", fanWith(t, "voltage_v", "12", "start_voltage_v", "14"), "starts only at 14 V", false},
		{"curve ends elsewhere", fanWith(t, "airflow_m3h", "25", "curve", "0:40;20:0"), "more than 3 % from the curve's end, 20 m³/h", false},
		{"curve within 3 %", fanWith(t, "airflow_m3h", "20.5", "static_pressure_pa", "41", "curve", "0:40;20:0"), "", false},
		{"more air power than electric", fanWith(t, "airflow_m3h", "100", "static_pressure_pa", "500", "power_w", "2"), "moves 3.47 W of air on 2 W of power", false},
		{"current and voltage count as power", fanWith(t, "airflow_m3h", "100", "static_pressure_pa", "500", "voltage_v", "12", "current_a", "0.1"), "on 1.2 W of power", false},
	}
	for _, r := range rows {
		got := Check(r.fan)
		if r.want == "" {
			if len(got) != 0 {
				t.Errorf("%s: %v, want nothing", r.name, got)
			}
			continue
		}
		if len(got) != 1 || !strings.Contains(got[0].Reason, r.want) || got[0].Fatal != r.fatal {
			t.Errorf("%s: %v, want %q, fatal %v", r.name, got, r.want, r.fatal)
		}
	}
}

func TestFillFromCurve(t *testing.T) {
	f := fanWith(t, "curve", "0:40;20:0")
	f.FillFromCurve()
	if Fields[FieldAirflow].Format(f) != "20" || Fields[FieldStaticPressure].Format(f) != "40" {
		t.Errorf("ends not taken from the curve: %v, %v", f.Airflow, f.StaticPressure)
	}
	f = fanWith(t, "curve", "5:40;20:4", "airflow_m3h", "24")
	f.FillFromCurve()
	if f.StaticPressure.Known() || Fields[FieldAirflow].Format(f) != "24" {
		t.Errorf("a curve that reaches no end must not set one: %v, %v", f.Airflow, f.StaticPressure)
	}
}

func TestKeyFolds(t *testing.T) {
	if a, b := Key("Nordhauch Werke", "NW 60-25"), Key("nordhauchwerke", "nw60-25"); a != b {
		t.Errorf("%q and %q differ", a, b)
	}
	if Key("a", "bc") == Key("ab", "c") {
		t.Error("maker and part run together")
	}
}

func TestColumns(t *testing.T) {
	a := fanWith(t, "part", "A", "maker", "M", "width_mm", "60", "curve", "0:40;20:0", "pwm", "no", "kind", "axial")
	b := fanWith(t, "part", "BB", "stock", "0")
	c := fanWith(t, "part", "C", "curve", "0:30;5:20;9:0")
	cols := ColumnsOf(a, b, c)
	if cols.Rows != 3 || cols.Text(FieldPart, 1) != "BB" || cols.Text(FieldMaker, 1) != "" || cols.Text(FieldMaker, 0) != "M" {
		t.Errorf("texts: %+v", cols.Texts)
	}
	if !math.IsNaN(cols.Number(FieldWidth, 1)) || cols.Number(FieldWidth, 0) != 0.06 || cols.Number(FieldStock, 1) != 0 {
		t.Errorf("numbers: %v", cols.Numbers[FieldWidth])
	}
	if cols.Code(FieldPWM, 0) != 1 || cols.Code(FieldPWM, 1) != 0 || Kind(cols.Code(FieldKind, 0)) != Axial {
		t.Errorf("codes: %v", cols.Codes[FieldPWM])
	}
	for i, want := range []int{2, 0, 3} {
		if q, p := cols.Curve(i); len(q) != want || len(p) != want {
			t.Errorf("curve of row %d has %d points, want %d", i, len(q), want)
		}
	}
}

func TestColumnsOfBands(t *testing.T) {
	cols := ColumnsOf(
		fanWith(t, "part", "A"), fanWith(t, "part", "B", "noise_bands", "63:41;125:38"),
		fanWith(t, "part", "C"), fanWith(t, "part", "D", "noise_bands", "250:30"),
	)
	for i, want := range []string{"", "63:41;125:38", "", "250:30", ""} {
		if got := FormatBands(cols.Bands(i)); got != want {
			t.Errorf("bands of row %d = %q, want %q", i, got, want)
		}
	}
	if none := ColumnsOf(fanWith(t, "part", "A")); none.BandRows != nil || none.BandEnd != nil || none.Bands(0) != nil {
		t.Errorf("a row without bands costs %v, %v", none.BandRows, none.BandEnd)
	}
}

func TestFilter(t *testing.T) {
	cols := ColumnsOf(
		fanWith(t, "part", "A", "width_mm", "60", "height_mm", "60", "depth_mm", "25", "voltage_v", "12", "voltage_min_v", "7", "voltage_max_v", "13.8", "noise_dba", "30", "connector", "JX 3-way", "stock", "4"),
		fanWith(t, "part", "B", "width_mm", "60", "height_mm", "60", "voltage_v", "9"),
		fanWith(t, "part", "C", "width_mm", "119", "height_mm", "119", "depth_mm", "38", "voltage_v", "12", "noise_dba", "41", "stock", "0"),
		fanWith(t, "part", "D"),
		fanWith(t, "part", "E", "maker", "power", "noise_dba", "35", "noise_kind", "power", "width_mm", "40", "height_mm", "40", "voltage_v", "48", "connector", "-", "stock", "0"),
	)
	rows := []struct {
		name    string
		filter  Filter
		want    []int
		unclear int
	}{
		{"all", Filter{}, []int{0, 1, 2, 3, 4}, 0},
		{"frame", Filter{Width: 60 * quantity.Millimetre}, []int{0, 1}, 1},
		{"frame and depth", Filter{Width: 60 * quantity.Millimetre, DepthMax: 25 * quantity.Millimetre}, []int{0}, 2},
		{"119 is 120", Filter{Width: 120 * quantity.Millimetre}, []int{2}, 1},
		{"voltage in range, else nominal", Filter{Voltage: 9}, []int{0, 1}, 1},
		{"voltage at an end", Filter{Voltage: 13.8}, []int{0}, 1},
		{"noise", Filter{NoiseMax: 30}, []int{0, 4}, 2},
		{"noise as a sound power", Filter{NoiseMax: 24, Maker: "power"}, []int{4}, 2},
		{"connector words", Filter{Connector: "jx3"}, []int{0}, 3},
		{"in stock", Filter{InStock: true}, []int{0}, 2},
	}
	for _, r := range rows {
		got, unclear := r.filter.Select(cols)
		if !slices.Equal(got, r.want) || unclear != r.unclear {
			t.Errorf("%s: rows %v, %d unclear, want %v, %d", r.name, got, unclear, r.want, r.unclear)
		}
	}
}

func TestSortPutsUnknownLast(t *testing.T) {
	cols := ColumnsOf(
		fanWith(t, "part", "A", "maker", "z", "noise_dba", "30"), fanWith(t, "part", "b", "maker", "Y"),
		fanWith(t, "part", "C", "maker", "y", "noise_dba", "20"), fanWith(t, "part", "d", "maker", "Y", "noise_dba", "30"),
	)
	rows := []int{0, 1, 2, 3}
	for _, r := range []struct {
		field FieldID
		down  bool
		want  []int
	}{
		{FieldNoise, false, []int{2, 3, 0, 1}},
		{FieldNoise, true, []int{3, 0, 2, 1}},
		{FieldPart, false, []int{0, 1, 2, 3}},
		{FieldMaker, false, []int{1, 3, 2, 0}},
	} {
		cols.Sort(rows, &Fields[r.field], r.down)
		if !slices.Equal(rows, r.want) {
			t.Errorf("by %s, descending %v: %v, want %v", Fields[r.field].Name, r.down, rows, r.want)
		}
	}
}

func TestNumberIsPlain(t *testing.T) {
	for v, want := range map[float64]string{0.06: "0.06", 1e6: "1000000", 1.0 / 3: "0.3333333333", 1e-7: "0.0000001", math.Copysign(0, -1): "0", 123456.789012345: "123456.789"} {
		if got := Number(v); got != want {
			t.Errorf("Number(%v) = %q, want %q", v, got, want)
		}
	}
}

// Pieces count; where there is no number, what is said of them does.
func TestHasStock(t *testing.T) {
	tests := []struct {
		name string
		fan  *Fan
		want Verdict
	}{
		{"pieces", fanWith(t, "part", "A", "stock", "4"), Pass},
		{"none", fanWith(t, "part", "A", "stock", "0"), Fail},
		{"said", fanWith(t, "part", "A", "in_stock", "yes"), Pass},
		{"denied", fanWith(t, "part", "A", "in_stock", "no"), Fail},
		{"not said", fanWith(t, "part", "A"), Unclear},
		{"none, though said", fanWith(t, "part", "A", "stock", "0", "in_stock", "yes"), Fail},
	}
	for _, test := range tests {
		f := Filter{InStock: true}
		if got := f.Match(ColumnsOf(test.fan), 0); got != test.want {
			t.Errorf("%s: Match(in stock) = %v, want %v", test.name, got, test.want)
		}
	}
}
