package devicefile

import (
	"math"
	"strings"
	"testing"

	"lowsone/catalog/quantity"
	"lowsone/match/curve"
	"lowsone/match/resistance"
)

// plain is a filled template in which no value is the one that is taken
// without it; what one key needs or excludes of another is in with.
func plain(with map[string]string) func(of table, e entry) string {
	return func(of table, e entry) string {
		key := of.name + ": " + e.name
		if v, ok := with[key]; ok {
			return v
		}
		if v, ok := uncommon[key]; ok {
			return v
		}
		if e.form.kind == formChoice {
			return e.form.words[len(e.form.words)-1]
		}
		return example(of, e)
	}
}

var uncommon = map[string]string{
	"device: purpose": "ordinary", "path: slow_by": "voltage", "path: regulated": "device", "leads: watches": "tach", "leads: alarm_kind": "",
	"leads: alarm_pulses": "3", "supply: kind": "dc", "spot: settled": "IEC 60034-1", "space: kind": "centrifugal", "fan: kind": "", "fan: supply": "",
	"path: direction": "", "room: bands_weighting": "none", "noise: bands_weighting": "none", "reading: bands_weighting": "none",
}

// Every key of the template says something of the device: without it, it is
// another.
func TestEveryKeyCounts(t *testing.T) {
	needs := map[string]map[string]string{
		"path: direction":      {"air: fan_at": ""},
		"path: arrangement":    {},
		"path: fans":           {"path: arrangement": ""},
		"space: hole_diagonal": {"space: hole_pitch": ""},
		"space: height":        {"space: height": "70 mm"},
		"space: width":         {},
		"space: outlet_width":  nil, "space: outlet_height": nil, // each needs the other
		"supply: voltage": {},
		"supply: low":     {"supply: voltage": "", "supply: high": "12 V"},
		"supply: high":    {"supply: voltage": "", "supply: low": ""},
		"supply: mains":   {"supply: kind": "ac", "supply: pulsed": "", "path: slow_by": "none", "path: regulated": "", "leads: pins": ""},
		"leads: watches":  {"leads: alarm_below": "", "leads: alarm_pulses": ""},
		"leads: alarm_kind": {"leads: watches": "alarm", "leads: alarm_below": "", "leads: alarm_pulses": "",
			"leads: pins": "minus, plus, alarm"},
		"fan: name": {"fan: part": "", "fan: airflow_m3h": "40"},
		// Weighted otherwise, or of a table, bands make another level.
		"room: bands_weighting":    {"room: bands_weighting": "A", "room: level": ""},
		"noise: bands_weighting":   {"noise: bands_weighting": "A", "noise: level": ""},
		"reading: bands_weighting": {"reading: bands_weighting": "A", "reading: level": ""},
		"room: bands_file":         {"room: bands": "", "room: level": "", "room: bands_weighting": ""},
		"noise: bands_file":        {"noise: bands": "", "noise: bands_weighting": "", "noise: level": "42 dB(A)"},
		"reading: bands_file":      {"reading: bands": "", "reading: bands_weighting": ""},
		"point: flow":              nil,
		"point: pressure":          nil,
	}
	eachLeaf(deviceTable(), func(of table, e entry) {
		key := of.name + ": " + e.name
		with, special := needs[key]
		if e.hidden || e.must || key == "fan: part" || special && with == nil {
			return
		}
		const absent = ""
		set := map[string]string{}
		for k, v := range with {
			set[k] = v
		}
		if _, ok := set[key]; !ok {
			set[key] = plain(nil)(of, e)
		}
		if set[key] == absent {
			set[key] = e.example
			if e.form.kind == formChoice {
				set[key] = e.form.words[len(e.form.words)-1]
			}
		}
		if of.name == "fan" && e.name != "name" && e.name != "part" && e.form.kind != formChoice {
			set[key] = e.example
		}
		f := parsed(t, key, template(plain(set)))
		set[key] = absent
		g := parsed(t, key+" left out", template(plain(set)))
		if diff(f.Device, g.Device) == "" && f.Fans[0].Part == g.Fans[0].Part {
			t.Errorf("%s: the device is the same without it", key)
		}
	})
}

// Every piece of geometry is the one of its name, with the sizes as written.
func TestEveryPiece(t *testing.T) {
	in := airOf(quantity.Celsius(24))
	made := func(e resistance.Element, err error) resistance.Element {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return e
	}
	const face, round, narrow = 0.06 * 0.04, math.Pi / 4 * 0.05 * 0.05, 0.03 * 0.03
	fitted, err := resistance.Points(curve.Curve{}, []float64{10.0 / 3600, 20.0 / 3600}, []float64{3, 9})
	if err != nil {
		t.Fatal(err)
	}
	for text, want := range map[string]resistance.Element{
		"grille: {width: 60 mm, height: 40 mm, open: 55 %}":                                     made(resistance.Grille("", face, 0.55, resistance.SharpEdge)),
		"grille: {diameter: 50 mm, open: 55 %, edge: rounded}":                                  made(resistance.Grille("", round, 0.55, resistance.RoundedEdge)),
		"outlet_grille: {width: 60 mm, height: 40 mm, open: 55 %}":                              made(resistance.OutletGrille("", face, 0.55, resistance.SharpEdge)),
		"screen: {width: 60 mm, height: 40 mm, open: 55 %, gap: 1.5 mm}":                        made(resistance.Screen("", face, 0.55, 1.5e-3)),
		"screen: {width: 60 mm, height: 40 mm, open: 55 %}":                                     made(resistance.Screen("", face, 0.55, resistance.UnknownGap)),
		"guard: {diameter: 50 mm, open: 90 %}":                                                  made(resistance.Guard("", round, 0.9)),
		"contraction: {from: {width: 60 mm, height: 40 mm}, to: {width: 30 mm, height: 30 mm}}": made(resistance.Contraction("", face, narrow)),
		"expansion: {from: {width: 30 mm, height: 30 mm}, to: {width: 60 mm, height: 40 mm}}":   made(resistance.Expansion("", narrow, face)),
		"entrance: {width: 60 mm, height: 40 mm}":                                               made(resistance.Entrance("", face)),
		"exit: {width: 60 mm, height: 40 mm}":                                                   made(resistance.Exit("", face)),
		"bend: {width: 60 mm, height: 40 mm, degrees: 60}":                                      made(resistance.Mitre("", face, 60)),
		"bend: {width: 60 mm, height: 40 mm, degrees: 60, radius: 90 mm}":                       made(resistance.Bend("", face, 60, 1.5, resistance.SmoothFriction)),
		"bend: {diameter: 50 mm, degrees: 60, radius: 10 cm}":                                   made(resistance.Bend("", round, 60, 2, resistance.SmoothFriction)),
		"filter: {width: 60 mm, height: 40 mm, flow: 20 m³/h, pressure: 9 Pa}":                  made(resistance.FilterAt("", face, 20.0/3600/face, 9, in)),
		"filter: {points: [{flow: 10 m³/h, pressure: 3 Pa}, {flow: 20 m³/h, pressure: 9 Pa}]}":  made(resistance.Filter("", fitted.System, in)),
		"fins: {channels: 7, gap: 3 mm, height: 40 mm, length: 90 mm, face: {width: 60 mm, height: 40 mm}}": made(resistance.Fins("",
			resistance.FinStack{Channels: 7, Gap: 0.003, Height: 0.04, Length: 0.09, Face: face})),
		"loss: {diameter: 50 mm, coefficient: 1.3, source: sheet}": made(resistance.Coefficient("", 1.3, round, "", "")),
		"side_by_side: {branches: [{pieces: [{exit: {diameter: 50 mm}}]}, {pieces: [{exit: {width: 60 mm, height: 40 mm}}, {entrance: {width: 60 mm, height: 40 mm}}]}]}": made(
			resistance.Parallel("", resistance.Path{made(resistance.Exit("", round))},
				resistance.Path{made(resistance.Exit("", face)), made(resistance.Entrance("", face))})),
	} {
		data := pathFile("/room: {now: 24 °C}", "resistance: {geometry: ["+text+"]}")
		if strings.HasPrefix(text, "side") {
			data = pathFile("/room: {now: 24 °C}", "resistance: {geometry: [{"+text+"}]}")
		}
		way := parsed(t, text, data).Device.Paths[0].Way
		if way.Method != resistance.ByGeometry || len(way.Geometry) != 1 {
			t.Errorf("%s: way %v of %d pieces", text, way.Method, len(way.Geometry))
			continue
		}
		for _, q := range []float64{0.002, 0.006} {
			if got, want := way.Geometry[0].Loss(q, in), want.Loss(q, in); math.Abs(got-want) > 1e-9*want {
				t.Errorf("%s costs %v Pa at %v m³/s, want %v", text, got, q, want)
			}
		}
	}
}

// Of several ways the one to be trusted most comes first.
func TestOrderOfWays(t *testing.T) {
	d := parsed(t, "ways", pathFile("/room: {now: 24 °C}", "heat: {now: 90 W}", "air: {outlet: 33 °C, fan_at: outlet}",
		"resistance: {share: 50 %, geometry: [exit: {diameter: 50 mm}], flow: 20 m³/h, pressure: 9 Pa, points: [{flow: 10 m³/h, pressure: 3 Pa}, {flow: 20 m³/h, pressure: 9 Pa}]}")).Device
	p := d.Paths[0]
	want := []resistance.Method{resistance.ByPoints, resistance.ByHeat, resistance.ByPressure, resistance.ByFlow, resistance.ByGeometry, resistance.ByShare}
	if len(p.Ways) != len(want) || p.Way.Method != want[0] {
		t.Fatalf("%d ways, first %v", len(p.Ways), p.Way.Method)
	}
	for i, w := range p.Ways {
		if w.Method != want[i] {
			t.Errorf("way %d by %v, want %v", i, w.Method, want[i])
		}
	}
	h := p.Ways[1].Heat
	if !h.Outlet || h.AirRise != 9 || h.Inlet.Origin() != quantity.Estimate {
		t.Errorf("heat balance %+v, want one from the room with the fan in the warm air", h)
	}
	if w := parsed(t, "no way", pathFile()).Device.Paths[0].Way; !w.Assumed || w.Share != resistance.DefaultShare {
		t.Errorf("without a way: %+v", w)
	}
}

// What is fine, though it looks like something refused, is taken.
func TestTaken(t *testing.T) {
	for name, said := range map[string]string{
		"two unused pins":             "leads: {count: 4, pins: [minus, plus, unused, unused]}",
		"limit just reached":          "spots: [{name: s, found: 70 °C, limit: 70 °C}]",
		"119 mm frame in 120 mm":      "space: {width: 119 mm, height: 119 mm}\n  fan: {width_mm: 120}",
		"frame larger than the fan":   "space: {width: 80 mm}",
		"no pins known":               "leads: {pins: unknown}",
		"empty list":                  "spots: []",
		"round bend in a square duct": "resistance: {geometry: [bend: {width: 60 mm, height: 60 mm, degrees: 90, radius: 60 mm}]}",
	} {
		data := pathFile(said)
		if strings.Contains(said, "fan:") {
			data = strings.Replace(data, "  fan: {airflow_m3h: 40, static_pressure_pa: 60}\n", "", 1)
		}
		parsed(t, name, data)
	}
}
