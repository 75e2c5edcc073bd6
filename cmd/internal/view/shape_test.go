package view

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"lowsone/catalog"
	"lowsone/catalog/intake"
	"lowsone/catalog/partscsv"
	"lowsone/catalog/quantity"
	"lowsone/catalog/tabular"
)

// fanOf builds a fan from FIELD=VALUE texts.
func fanOf(t *testing.T, values ...string) *catalog.Fan {
	t.Helper()
	f := &catalog.Fan{Source: catalog.Source{Name: "parts.csv", Line: 7}}
	for _, text := range values {
		name, value, _ := strings.Cut(text, "=")
		d, ok := catalog.FieldNamed(name)
		if !ok {
			t.Fatalf("no field %q", name)
		}
		v, err := d.Parse(value)
		if err != nil {
			t.Fatal(err)
		}
		d.Put(f, v, quantity.Cell)
	}
	return f
}

func fullFan(t *testing.T) *catalog.Fan {
	f := fanOf(t, "part=NW60-25", "maker=Nordwehe", "kind=axial", "width_mm=60", "height_mm=60", "depth_mm=25",
		"voltage_v=12", "supply=dc", "pwm=no", "airflow_m3h=16CFM", "static_pressure_pa=3mmH2O",
		"curve=0:29.4;20:12;27.2:0", "speed_rpm=2800", "noise_dba=24.5", "price=7.9", "currency=EUR", "stock=0")
	f.Extra = []catalog.Extra{{Header: "Lagerort", Text: "B 12"}}
	f.Remarks = []string{"airflow in two units, 1 % apart"}
	return f
}

func fullAccount() intake.Account {
	return intake.Account{
		File: "parts.csv", Source: "parts.csv", Rows: 5, Imported: 2, Rejected: 1, Repeated: 2, Fans: 4,
		Lacks: []intake.Lack{{Field: catalog.FieldNoise, Fans: 1}},
		Format: tabular.Dialect{
			Encoding:  tabular.Trait[string]{Value: "utf-8"},
			Delimiter: tabular.Trait[rune]{Value: ';', Forced: true},
			Decimal:   tabular.Trait[tabular.Mark]{Value: tabular.Comma},
		},
		Columns: []partscsv.Column{
			{Header: "Artikel", Number: 1, Fields: []catalog.FieldID{catalog.FieldPart}, How: partscsv.ByWord},
			{Header: "Schall", Number: 2, Fields: []catalog.FieldID{catalog.FieldNoise}, Unit: "dB(A)", How: partscsv.ByForce,
				Decimal: ",", Samples: []partscsv.Sample{{Cell: "24,5", Value: "24.5 dB(A)"}}},
			{Header: "Lagerort", Number: 3, How: partscsv.Unread},
		},
		Warnings:    []partscsv.Warning{{Header: "Bohrung", Reason: "not read", Count: 2, Line: 3}},
		Rejects:     []intake.Reject{{At: tabular.Position{Line: 4, Column: 9}, Header: "Schall", Cell: "laut", Reason: "no number in it"}},
		RejectsFile: "parts.rejects.csv",
	}
}

// TestShapes checks the keys that others lean on, in full and in empty
// results: each is there, nothing is null, what is unknown is absent.
func TestShapes(t *testing.T) {
	fan := fullFan(t)
	rows := []struct {
		name   string
		doc    Document
		want   []string
		absent []string
	}{
		{"import", &Import{Account: fullAccount()}, []string{
			"rows", "imported", "rejected", "repeated", "columns[].header", "columns[].field", "columns[].unit",
			"rejects[].line", "rejects[].column", "rejects[].cell", "rejects[].reason", "rejects_file"}, nil},
		{"import of nothing", &Import{}, []string{"rows", "imported", "rejected", "repeated", "columns", "rejects"}, []string{"rejects_file"}},
		{"search", &Search{Total: 30, Fans: []*catalog.Fan{fan}}, []string{
			"total", "fans[].part", "fans[].airflow_m3h", "fans[].noise_dba", "fans[].curve", "fans[].stock", "fans[].pwm"},
			[]string{"fans[].depth", "fans[].leads", "fans[].noise_distance_m"}},
		{"search without a hit", &Search{}, []string{"total", "fans"}, nil},
		{"show", &Show{Fan: fan}, []string{
			"fan.part", "fan.airflow_m3h", "origins.part", "origins.airflow_m3h", "origins.noise_distance_m",
			"extra.Lagerort", "source.file", "source.line"}, []string{"fan.leads", "origins.leads"}},
		{"show without a fan", &Show{Nearest: []string{"a"}}, []string{"fan", "origins", "extra", "nearest"}, []string{"source"}},
		{"catalog", &Holdings{Dir: "d", Fans: 4, Sources: []Source{{Name: "a", Fans: 4, Imported: time.Unix(0, 0)}}, Missing: []Lack{{catalog.FieldNoise, 2}}},
			[]string{"dir", "fans", "sources[].name", "sources[].fans", "sources[].imported", "missing[].field", "missing[].fans"}, []string{"sources[].file"}},
		{"catalog of nothing", &Holdings{}, []string{"fans", "sources", "missing"}, nil},
	}
	for _, r := range rows {
		keys := keysOf(t, r.doc)
		for _, key := range append(r.want, "schema_version") {
			if !slices.Contains(keys, key) {
				t.Errorf("%s: no key %s in %v", r.name, key, keys)
			}
		}
		for _, key := range r.absent {
			if slices.Contains(keys, key) {
				t.Errorf("%s: key %s, want it absent", r.name, key)
			}
		}
	}
}

// keysOf lists the paths of all keys of a document's JSON.
func keysOf(t *testing.T, doc Document) []string {
	var b bytes.Buffer
	if err := WriteJSON(&b, doc.JSON()); err != nil {
		t.Fatal(err)
	}
	var value any
	if err := json.Unmarshal(b.Bytes(), &value); err != nil {
		t.Fatal(err)
	}
	var keys []string
	walk(t, value, "", &keys)
	return keys
}

func walk(t *testing.T, value any, path string, keys *[]string) {
	if !slices.Contains(*keys, path) {
		*keys = append(*keys, path)
	}
	switch v := value.(type) {
	case nil:
		t.Errorf("%s is null", path)
	case map[string]any:
		for key, member := range v {
			walk(t, member, strings.TrimPrefix(path+"."+key, "."), keys)
		}
	case []any:
		for _, member := range v {
			walk(t, member, path+"[]", keys)
		}
	}
}

// TestRecordNumbersArePlain checks values of a record: unrounded to ten
// digits, in the unit of the name.
func TestRecordNumbersArePlain(t *testing.T) {
	var b bytes.Buffer
	if err := WriteJSON(&b, recordJSON(fullFan(t))); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		`"airflow_m3h": 27.18417273`,     // 16 CFM of 1.69901079552 m³/h
		`"static_pressure_pa": 29.41995`, // 3 mmH₂O of 9.80665 Pa
		`"width_mm": 60,`, `"stock": 0`, `"pwm": "no"`, `"curve": "0:29.4;20:12;27.2:0"`,
	} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("record has no %s: %s", want, b.String())
		}
	}
}

// TestNothingRawReachesATerminal shows documents full of control characters.
func TestNothingRawReachesATerminal(t *testing.T) {
	const evil = "\x1b]0;x\x07\u009b31m\u202e\r\n"
	fan := fullFan(t)
	fan.Part, fan.Maker, fan.Description, fan.Source.Name = evil+"p", evil, evil, evil
	fan.Extra, fan.Remarks = []catalog.Extra{{Header: evil, Text: evil}}, []string{evil}
	account := fullAccount()
	account.File, account.Source, account.RejectsFile = evil, evil, evil
	account.Columns[0].Header, account.Columns[1].Samples[0].Cell = evil, evil
	account.Columns[0].Notes, account.Format.Notes = []string{evil}, []string{evil}
	account.Warnings[0].Header, account.Rejects[0].Reason, account.Rejects[0].Cell = evil, evil, evil
	docs := []Document{
		&Import{Account: account}, &Search{Total: 1, Fans: []*catalog.Fan{fan}}, &Show{Fan: fan},
		&Holdings{Dir: evil, Fans: 1, Sources: []Source{{Name: evil, Path: evil}}},
	}
	for _, doc := range docs {
		for format := range Formats {
			if _, ok := doc.(Spreadsheet); !ok && Format(format) == FormatCSV {
				continue
			}
			var b bytes.Buffer
			if err := Write(&b, doc, Format(format), Style{Width: 80, Terminal: true}); err != nil {
				t.Fatal(err)
			}
			if i := strings.IndexFunc(b.String(), func(r rune) bool { return r != '\n' && (r < ' ' || hidden(r)) }); i >= 0 {
				t.Errorf("%T as %s lets %q through", doc, Format(format), fmt.Sprintf("%.20s", b.String()[i:]))
			}
		}
	}
}

// TestSearchMarks checks the signs of levels and values that do not compare,
// each explained once.
func TestSearchMarks(t *testing.T) {
	power := fanOf(t, "part=A", "noise_dba=51", "noise_kind=power", "voltage_v=230", "supply=ac")
	near := fanOf(t, "part=B", "noise_dba=46", "noise_distance_m=0.5", "width_mm=60", "height_mm=60")
	guess := fanOf(t, "part=C", "noise_dba=24.5", "noise_distance_m=1", "voltage_min_v=5", "voltage_max_v=13.8")
	guess.Airflow = quantity.From(20*quantity.CubicMetrePerHour, quantity.Estimate)
	var b bytes.Buffer
	if err := (&Search{Fans: []*catalog.Fan{power, near, guess, guess}}).Text(&b, Style{}); err != nil {
		t.Fatal(err)
	}
	want := `
part  maker  kind  size     voltage  airflow  pressure  noise
                   mm             V     m³/h        Pa  dB(A)
─────────────────────────────────────────────────────────────
A     –      –     –         230 AC        –         –   51w
B     –      –     60×60×?      –          –         –   46d
C     –      –     –        5–13.8      ~20          –   24.5
C     –      –     –        5–13.8      ~20          –   24.5
d not at 1 m: lowsone show PART names the distance
w a sound power level: 11 dB above the level at 1 m in free air
~ estimated: no sheet gave it
`
	if b.String() != want[1:] {
		t.Errorf("search is\n%swant\n%s", b.String(), want[1:])
	}
}

func TestShare(t *testing.T) {
	rows := []struct {
		part, all int
		want      string
	}{{0, 10, "0 %"}, {1, 1000, "<1 %"}, {5, 10, "50 %"}, {999, 1000, ">99 %"}, {10, 10, "100 %"}}
	for _, r := range rows {
		if got := share(r.part, r.all); got != r.want {
			t.Errorf("share(%d, %d) = %q, want %q", r.part, r.all, got, r.want)
		}
	}
}
