package devicefile

import (
	"bytes"
	"encoding/json"
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"github.com/goccy/go-yaml"
	"github.com/rogpeppe/go-internal/txtar"
	"github.com/santhosh-tekuri/jsonschema/v6"
)

func compiled(t *testing.T) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(Schema()))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	c.DefaultDraft(jsonschema.Draft2020)
	if err := c.AddResource("device.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("device.json")
	if err != nil {
		t.Fatalf("compiling the schema: %v", err)
	}
	return s
}

// value reads YAML as any JSON tool would; not ok where it is no YAML.
func value(t *testing.T, data string) (any, bool) {
	t.Helper()
	var v any
	if err := yaml.Unmarshal([]byte(data), &v); err != nil {
		return nil, false
	}
	text, err := json.Marshal(v)
	if err != nil {
		return nil, false
	}
	out, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return out, true
}

// Every file that Parse takes is valid by the schema.
func TestSchemaTakesValidFiles(t *testing.T) {
	s := compiled(t)
	files := map[string]string{
		"template filled": template(example),
		"template started": template(func(of table, e entry) string {
			if e.must || e.name == "part" && of.name == "fan" {
				return example(of, e)
			}
			return ""
		}),
		"unknown": "device: x\nroom: {now: unknown}\npaths: [{fan: {airflow_m3h: 40, pwm: true, leads: '3', connector: unknown}, speed: 70 %, near: {grille: none}, " +
			"leads: {pins: [minus, plus]}, resistance: {geometry: [{exit: {diameter: 3 cm}}]}}]\nnoise:\n",
	}
	for i, bands := range []string{
		"{63 Hz: 41 dB, 125: '38', 250: 36.5, 31.5: unknown, 500.0: 34, 1k: 30, 2 kHz: 25, 4.0k: -1}", "{}", "unknown", "",
		"'63 Hz: 41; 125: 38.5 dB ;; 250:36;500:34;1k:30;2 kHz:25;4000: -1;'", "63:41;125:38.5;250:36;500:34;1000:30;2000:25;4000:1e1",
	} {
		files[fmt.Sprintf("bands %d", i)] = "device: x\npaths: [{fan: {part: y, noise_bands: " + bands + "}}]\nroom: {bands: " + bands + "}\n"
	}
	files["bands for a level"] = everywhere("bands: {125: 46, 250: 42, 500: 39, 1000: 37, 2000: 33, 4000: 27}, bands_weighting: A")
	files["a table for a level"] = everywhere("bands_file: levels.csv, bands_weighting: A")
	for _, name := range devices {
		files[name] = string(readDevice(t, name))
	}
	for name, data := range files {
		parsed(t, name, data)
		v, ok := value(t, data)
		if !ok {
			t.Fatalf("%s is no YAML", name)
		}
		if err := s.Validate(v); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Whatever is wrong with the structure of a file is wrong by the schema too.
func TestSchemaRefusesWrongStructure(t *testing.T) {
	s := compiled(t)
	const head, tail = "device: x\npaths:\n- fan: {part: y}\n", "device: x\nnoise: [{name: hum, level: 30 dB(A), distance: 1 m}]\npaths:\n- fan: {part: y}\n"
	if v, ok := value(t, tail); !ok || s.Validate(v) != nil {
		t.Fatal("the file the rows are made of is not valid")
	}
	for _, c := range []struct{ name, data string }{
		{"not a map", "- x\n"},
		{"nothing", "{}\n"},
		{"no device", "paths: [{fan: {part: y}}]\n"},
		{"blank device", "device:\npaths: [{fan: {part: y}}]\n"},
		{"no paths", "device: x\n"},
		{"blank paths", "device: x\npaths: [{fan: {part: }}]\n"},
		{"paths no list", "device: x\npaths: {fan: {part: y}}\n"},
		{"path without fan", "device: x\npaths: [{name: y}]\n"},
		{"unknown key", tail + "rooms: {now: 24 °C}\n"},
		{"unknown key of a part", tail + "room: {altitide: 3 m}\n"},
		{"unknown key, blank", tail + "room: {altitide: }\n"},
		{"unknown field of a fan", "device: x\npaths: [{fan: {airflow: 40}}]\n"},
		{"bare number", tail + "room: {now: 24}\n"},
		{"bare number in quotes", tail + "room: {now: '24'}\n"},
		{"part a value", tail + "room: 24 °C\n"},
		{"value a part", tail + "listener: {now: 1 m}\n"},
		{"word that is none", head + "  direction: up\n"},
		{"share without mark", head + "  resistance: {share: 0.5}\n"},
		{"half a fan", head + "  fans: 2.5\n"},
		{"fans beyond", head + "  fans: 900\n"},
		{"pin that is none", head + "  leads: {pins: [minus, pluss]}\n"},
		{"pin text that is none", head + "  leads: {pins: 'minus, pluss'}\n"},
		{"neither yes nor no", head + "  clean: maybe\n"},
		{"item lacks a key", head + "  spots: [{name: sink, found: 58 °C}]\n"},
		{"item with a blank key", head + "  spots: [{name: sink, found: 58 °C, limit: }]\n"},
		{"exclude each other", head + "  space: {hole_pitch: 50 mm, hole_diagonal: 70 mm}\n"},
		{"two pieces in one item", head + "  resistance: {geometry: [{exit: {diameter: 3 cm}, entrance: {diameter: 3 cm}}]}\n"},
		{"piece lacks a key", head + "  resistance: {geometry: [{screen: {diameter: 3 cm}}]}\n"},
		{"piece of a branch lacks a key", head + "  resistance: {geometry: [{side_by_side: {branches: [{pieces: [{screen: {diameter: 3 cm}}]}]}}]}\n"},
		{"neither level nor bands", tail + "measured: [{distance: 1 m}]\n"},
		{"blank bands for a level", tail + "measured: [{distance: 1 m, bands: {}, bands_file: }]\n"},
		{"bands and a table", tail + "room: {bands: {125: 46, 250: 42, 500: 39, 1000: 37, 2000: 33, 4000: 27}, bands_file: x.csv}\n"},
		{"list of bands", tail + "room: {bands: [46, 42]}\n"},
		{"band without a level", tail + "room: {bands: {125: 46, 250: }}\n"},
		{"level in a list", tail + "room: {bands: {125: [46]}}\n"},
		{"band that is no frequency", tail + "room: {bands: {low: 46}}\n"},
		{"level that is none", tail + "room: {bands: {125: loud}}\n"},
		{"weighted levels by themselves", tail + "room: {bands: {125: 46 dB(A)}}\n"},
		{"text of half bands", tail + "room: {bands: 125:46;250}\n"},
		{"text of no bands", tail + "room: {bands: ;}\n"},
		{"bands of a fan that are none", "device: x\npaths: [{fan: {part: y, noise_bands: 125;250}}]\n"},
		{"weighting that is none", tail + "room: {bands_weighting: C}\n"},
		{"meter that is none", tail + "measured: [{distance: 1 m, level: 30 dB(A), meter: class 1}]\n"},
		{"empty text", "device: ''\npaths: [{fan: {part: y}}]\n"},
		{"long text", "device: " + strings.Repeat("x", longestText+1) + "\npaths: [{fan: {part: y}}]\n"},
	} {
		if len(problemsOf(t, c.data)) == 0 {
			t.Errorf("%s: Parse takes it", c.name)
		}
		v, ok := value(t, c.data)
		if !ok {
			t.Errorf("%s: no YAML", c.name)
		} else if s.Validate(v) == nil {
			t.Errorf("%s: valid by the schema", c.name)
		}
	}
}

// The golden files whose fault is in their keys and values are refused by the
// schema; those whose fault is in what they say together are not its business.
func TestSchemaOnGoldenFiles(t *testing.T) {
	meaning := map[string]bool{
		"space.txtar": false, "temperatures.txtar": false, "plug.txtar": false, "levels.txtar": false, "geometry.txtar": false,
		"keys.txtar": true, "values.txtar": true, "shapes.txtar": true, "missing.txtar": true, "exclude.txtar": true, "list.txtar": true, "blank.txtar": true, "empty.txtar": true,
		"wide.txtar": true, "bands.txtar": true, "spectra.txtar": false,
	}
	s := compiled(t)
	for name, refused := range meaning {
		a, err := txtar.ParseFile(filepath.Join("testdata", "refused", name))
		if err != nil {
			t.Fatal(err)
		}
		var v any
		data := bytes.ReplaceAll(a.Files[0].Data, []byte(".nan"), []byte("nan")) // which JSON cannot hold
		if err := yaml.UnmarshalWithOptions(data, &v, yaml.AllowDuplicateMapKey()); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		text, err := json.Marshal(v)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		out, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		if got := s.Validate(out) != nil; got != refused {
			t.Errorf("%s refused by the schema: %v, want %v: %v", name, got, refused, s.Validate(out))
		}
	}
}

// The schema is the same every time, and every key says what it is.
func TestSchemaIsSteady(t *testing.T) {
	first := Schema()
	for range 3 {
		if !bytes.Equal(first, Schema()) {
			t.Fatal("two schemas differ")
		}
	}
	for _, want := range []string{`"$schema": "https://json-schema.org/draft/2020-12/schema"`, `"description": "its temperature while you measured, such as 24 °C"`} {
		if !strings.Contains(string(first), want) {
			t.Errorf("the schema lacks %s", want)
		}
	}
}
