package devicefile

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"lowsone/match"
)

// pathFile is a device of one path, with what is said of it in one line each.
func pathFile(said ...string) string {
	device := []string{"device: x"}
	path := []string{"paths:", "- name: p"}
	fan := "  fan: {airflow_m3h: 40, static_pressure_pa: 60}"
	for _, line := range said {
		switch {
		case strings.HasPrefix(line, "/"): // of the device
			device = append(device, line[1:])
		case strings.HasPrefix(line, "fan:"):
			fan = "  " + line
		default:
			path = append(path, "  "+line)
		}
	}
	return strings.Join(slices.Concat(device, path, []string{fan}), "\n") + "\n"
}

// items lists what a report says of a key, of a path or, with a / before it, of
// the device.
func items(d *match.Device, key string) (found []Item) {
	key, device := strings.CutPrefix(key, "/")
	for _, i := range ReportOf(d).Items {
		if i.Key == key && device == (i.Path == WholeDevice) {
			found = append(found, i)
		}
	}
	return found
}

// Every pitfall that an answer in the file keeps people from is asked for by its
// number until it is answered.
func TestEveryPitfallQuestion(t *testing.T) {
	for _, c := range []struct {
		pitfall int // its number in the list of pitfalls
		what    string
		key     string
		given   string // what makes the question one; empty: it always is
		answer  string
	}{
		{1, "the device watches the fan", "leads: watches", "", "leads: {watches: tach}"},
		{1, "is there a third lead", "leads: count", "", "leads: {count: 3}"},
		{3, "free-air flow is not what moves", "resistance", "", "resistance: {flow: 20 m³/h}"},
		{3, "a curve to cross", "fan: curve", "fan: {name: y, speed_rpm: 3000}", "fan: {name: y, curve: 0:60;20:40;40:0}"},
		{3, "heat and air give the flow", "air: outlet", "", "air: {outlet: 33 °C}"},
		{4, "same plug, other pins", "leads: pins", "", "leads: {pins: [minus, plus, tach]}"},
		{5, "temperatures are never measured", "spots", "", "spots: [{name: s, found: 50 °C, limit: 70 °C}, {name: r, found: 50 °C, limit: 70 °C}]"},
		{5, "the room then", "/room: now", "", "/room: {now: 24 °C}"},
		{5, "light load", "spots: s: load", "spots: [{name: s, found: 50 °C, limit: 70 °C}]", "spots: [{name: s, found: 50 °C, limit: 70 °C, load: full}]"},
		{5, "soak too short", "spots: s: soak", "spots: [{name: s, found: 50 °C, limit: 70 °C, soak: 20 min}]", "spots: [{name: s, found: 50 °C, limit: 70 °C, soak: 2 h}]"},
		{5, "settling rule", "spots: s: settled", "spots: [{name: s, found: 50 °C, limit: 70 °C, soak: 2 h}]", "spots: [{name: s, found: 50 °C, limit: 70 °C, settled: IEC 60598}]"},
		{6, "levels at other distances", "/listener", "", "/listener: 2 m"},
		{6, "background", "measured: background", "measured: {level: 40 dB(A), distance: 1 m}", "measured: {level: 40 dB(A), distance: 1 m, background: 25 dB(A)}"},
		{6, "what it was measured with", "measured: meter", "measured: {level: 40 dB(A), distance: 1 m}", "measured: {level: 40 dB(A), distance: 1 m, meter: class_2}"},
		{7, "not 12 V at all", "supply: voltage", "", "supply: {low: 7 V, high: 12 V}"},
		{8, "resonance", "mount", "", "mount: soft"},
		{10, "alarm lead, not pulses", "leads: alarm_kind", "leads: {watches: alarm}", "leads: {watches: alarm, alarm_kind: high_when_turning}"},
		{11, "another source dominates", "/noise", "", "/noise: [{name: n, level: 20 dB(A), distance: 1 m}]"},
		{11, "the sum of all sources", "/measured", "", "/measured: [{level: 40 dB(A), distance: 1 m}]"},
		{12, "pulsed supply", "supply: pulsed", "", "supply: {pulsed: no}"},
		{12, "PWM lead", "leads: pwm", "", "leads: {pwm: open}"},
		{13, "direction", "direction", "", "direction: out"},
		{14, "depth", "space: depth", "", "space: {depth: 38 mm}"},
		{14, "holes", "space: hole_pitch", "", "space: {hole_diagonal: 71 mm}"},
		{14, "outlet of a blower", "space: outlet_width", "space: {kind: centrifugal}", "space: {kind: centrifugal, outlet_width: 20 mm, outlet_height: 15 mm}"},
		{16, "guard", "near: grille", "near: {grille: 5 mm}", "near: {grille: 12 mm}"},
		{16, "what the seat adds", "measured", "", "measured: {level: 40 dB(A), distance: 1 m}"},
		{17, "obstacle before the inlet", "near: inlet_obstacle", "near: {inlet_obstacle: 10 mm}", "near: {inlet_obstacle: none}"},
		{17, "obstacle behind the outlet", "near: outlet_obstacle", "", "near: {outlet_obstacle: 60 mm}"},
		{18, "dust", "clean", "clean: no", "clean: yes"},
		{18, "filter", "near: filter", "", "near: {filter: none}"},
		{19, "AC or DC", "supply: kind", "", "supply: {kind: dc}"},
		{19, "mains", "supply: mains", "supply: {kind: ac}", "supply: {kind: ac, mains: 50 Hz}"},
		{20, "pulses a turn", "leads: alarm_pulses", "leads: {watches: tach}", "leads: {watches: tach, alarm_pulses: 2}"},
		{22, "alarm by a hair", "leads: alarm_below", "leads: {watches: tach}", "leads: {alarm_below: 1800 rpm}"},
		{22, "speed now", "speed", "", "speed: 95 %"},
		{24, "current of the output", "supply: current", "", "supply: {current: 0.5 A}"},
		{24, "fans on one output", "supply: output", "fans: 2", "supply: {output: fan 1}\n  fans: 2"},
		{25, "thermistor in the fan", "regulated", "regulated: fan", "regulated: no"},
		{27, "sealed, medical", "/purpose", "", "/purpose: ordinary"},
		{33, "bearing and shaft", "shaft", "", "shaft: face_up"},
		{36, "hot summer", "/room: worst", "", "/room: {worst: 35 °C}"},
		{36, "altitude", "/room: altitude", "", "/room: {altitude: 800 m}"},
		{37, "the hot spot moves", "spots", "spots: [{name: s, found: 50 °C, limit: 70 °C}]", "spots: [{name: s, found: 50 °C, limit: 70 °C}, {name: r, found: 50 °C, limit: 70 °C}]"},
	} {
		name := fmt.Sprintf("pitfall %d, %s", c.pitfall, c.what)
		var given []string
		if c.given != "" {
			given = []string{c.given}
		}
		before := items(&parsed(t, name, pathFile(given...)).Device, c.key)
		if len(before) != 1 || before[0].State == Known || before[0].Pitfall != c.pitfall || before[0].Why == "" {
			t.Errorf("%s: before the answer %+v, want one open item of that pitfall", name, before)
		}
		after := items(&parsed(t, name, pathFile(c.answer)).Device, c.key)
		if len(after) != 1 || after[0].State != Known || after[0].Value == "" {
			t.Errorf("%s: after the answer %+v, want it known", name, after)
		}
	}
}

// What is recorded and cannot be believed as it is, is doubted with the reason.
func TestDoubts(t *testing.T) {
	for _, c := range []struct{ name, key, file, why string }{
		{"warm air drawn in again", "air: inlet", pathFile("/room: {now: 21 °C}", "air: {inlet: 28 °C}"), "draws its own warm air in again"},
		{"inlet cooler than the room", "air: inlet", pathFile("/room: {now: 24 °C}", "air: {inlet: 20 °C}"), "hold both probes"},
		{"pulsed", "supply: pulsed", pathFile("supply: {pulsed: yes}"), "the tach lies"},
		{"background nearly as loud", "measured: background", pathFile("measured: {level: 36 dB(A), distance: 1 m, background: 34 dB(A)}"), "only 2 dB below"},
		{"dirty", "clean", pathFile("clean: no"), "clean, then measure again"},
	} {
		found := items(&parsed(t, c.name, c.file).Device, c.key)
		if len(found) != 1 || found[0].State != Doubtful || found[0].Value == "" || !strings.Contains(found[0].Why, c.why) {
			t.Errorf("%s: %+v, want it doubtful: %q", c.name, found, c.why)
		}
	}
}

// A complete device has nothing missing; what is open comes heaviest first.
func TestReportOfCompleteDevices(t *testing.T) {
	for _, name := range devices {
		f := resolved(t, name)
		open := ReportOf(&f.Device).Open()
		for i, item := range open {
			if item.Weight == Decides {
				t.Errorf("%s: %s of path %d is %s", name, item.Key, item.Path, item.State)
			}
			if i > 0 && open[i-1].Weight > item.Weight {
				t.Errorf("%s: %s before %s", name, open[i-1].Key, item.Key)
			}
		}
	}
}

// Every item says something: what is known, or what the answer is good for.
func TestReportIsNeverSilent(t *testing.T) {
	least := &match.Device{Paths: []match.Path{{Fitted: fanOf("part=" + "x")}}}
	reports := []Report{ReportOf(least), ReportOf(&match.Device{})}
	for _, name := range devices {
		reports = append(reports, ReportOf(&resolved(t, name).Device))
	}
	for _, r := range reports {
		for _, i := range r.Items {
			if (i.Value == "") != (i.State == Missing) || i.State != Known && i.Why == "" || i.Key == "" {
				t.Errorf("item %+v", i)
			}
		}
	}
	if len(reports[0].Items) < 40 {
		t.Errorf("%d items of a device of which nothing is known, want every question", len(reports[0].Items))
	}
}

// A described fan is marked as one; the name alone stands for one of the
// catalogue.
func TestReportNamesTheFan(t *testing.T) {
	for name, want := range map[string]string{"amplifier.yaml": "Ombrasco OMB-625B56B3", "cabinet.yaml": "Lenzkamp HA-12038-230, described"} {
		if found := items(&resolved(t, name).Device, "fan"); len(found) != 2 || found[0].Value != want {
			t.Errorf("%s: fan %+v, want %q first", name, found, want)
		}
	}
}
