package cli

import (
	"encoding/json"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"lowsone/match"
)

// writeDevice writes a device file and gives its name.
func writeDevice(t *testing.T, text string) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "device.yaml")
	if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	return name
}

// jsonOf runs a command for its object.
func jsonOf(t *testing.T, vars map[string]string, args ...string) map[string]any {
	t.Helper()
	stdout, stderr, code := run(t, strings.NewReader(""), vars, append(args, "--format", "json")...)
	if code != exitDone {
		t.Fatalf("%q: exit %d: %s", args, code, stderr)
	}
	var object map[string]any
	if err := json.Unmarshal([]byte(stdout), &object); err != nil {
		t.Fatal(err)
	}
	return object
}

const oneFan = `
device: test
room: {now: 24 °C}
listener: 1.5 m
paths:
  - fan: {part: OMB-625B56B3}
    speed: 5400 rpm
    slow_by: voltage
    leads: {watches: tach}
    heat: {now: 90 W}
    air: {inlet: 24 °C, outlet: 33 °C}
`

// The same device ranks alike whether a file or the flags describe it.
func TestFileAndFlagsAgree(t *testing.T) {
	vars := withParts(t)
	byFile := jsonOf(t, vars, "rank", writeDevice(t, oneFan))
	byFlags := jsonOf(t, vars, "rank", "--replace", "OMB-625B56B3", "--replace-speed", "5400rpm", "--heat", "90W", "--air-rise", "9K", "--inlet", "24C",
		"--watches", "tach", "--slow-by", "voltage", "--listener", "1.5m")
	for _, key := range []string{"baseline", "need", "rejected", "too_weak", "level_distance_m"} {
		if !reflect.DeepEqual(byFile[key], byFlags[key]) {
			t.Errorf("%s: %v by the file, %v by flags", key, byFile[key], byFlags[key])
		}
	}
	if files, flags := len(byFile["candidates"].([]any)), len(byFlags["candidates"].([]any)); files != flags || files < 2 {
		t.Errorf("%d candidates by the file, %d by flags", files, flags)
	}
	for i, c := range byFile["candidates"].([]any) {
		file, flag := c.(map[string]any), byFlags["candidates"].([]any)[i].(map[string]any)
		for _, key := range []string{"part", "full", "matched", "planned"} {
			if !reflect.DeepEqual(file[key], flag[key]) {
				t.Errorf("candidate %d, %s: %v by the file, %v by flags", i+1, key, file[key], flag[key])
			}
		}
	}
}

// Each flag overrules what the file says.
func TestFlagsOverruleTheFile(t *testing.T) {
	vars := withParts(t)
	name := writeDevice(t, oneFan)
	get := func(object map[string]any, path string) any {
		var at any = object
		for _, key := range strings.Split(path, ".") {
			at = at.(map[string]any)[key]
		}
		return at
	}
	for _, r := range []struct {
		flags []string
		path  string
		want  any
	}{
		{[]string{"--listener", "3m"}, "level_distance_m", 3.0},
		{[]string{"--flow", "25m3/h"}, "system.method", "flow"},
		{[]string{"--flow", "25m3/h"}, "baseline.flow_m3h", 25.0},
		{[]string{"--replace-speed", "100%"}, "system.speed_ratio", 1.0},
		{[]string{"--replace", "OMB-625B47B3", "--delivers", "60%"}, "baseline.part", "OMB-625B47B3"},
		{[]string{"--fitted", "airflow_m3h=60", "--delivers", "50%"}, "baseline.flow_m3h", 60 * 5400.0 / 5600 / 2},
		{[]string{"--need", "20m3/h"}, "need.flow_m3h", 20.0},
	} {
		got := get(jsonOf(t, vars, append([]string{"rank", name}, r.flags...)...), r.path)
		if w, ok := r.want.(float64); ok {
			if g, ok := got.(float64); !ok || g < w*(1-1e-6) || g > w*(1+1e-6) {
				t.Errorf("%q: %s = %v, want %v", r.flags, r.path, got, r.want)
			}
			continue
		}
		if got != r.want {
			t.Errorf("%q: %s = %v, want %v", r.flags, r.path, got, r.want)
		}
	}
	// What the seat says of a leads watch: without the tach a two-lead fan fits.
	watched := jsonOf(t, vars, "rank", name)["rejected"].(map[string]any)["tach"].(float64)
	free := jsonOf(t, vars, "rank", name, "--watches", "nothing")["rejected"].(map[string]any)["tach"].(float64)
	if !(free < watched) {
		t.Errorf("%v fans lack a tach where it is watched, %v where nothing is", watched, free)
	}
}

func TestLoudestPath(t *testing.T) {
	heard := func(path int, level float64) match.Heard {
		return match.Heard{Path: path, Noise: match.Noise{Level: level}}
	}
	for _, r := range []struct {
		name  string
		heard []match.Heard
		path  int
		ok    bool
	}{
		{"nothing heard", nil, 0, false},
		{"a source is no path", []match.Heard{heard(match.OtherSource, 60), heard(1, 20)}, 1, true},
		{"the louder", []match.Heard{heard(0, 20), heard(1, 30), heard(2, 25)}, 1, true},
		{"below 0 dB(A) too", []match.Heard{heard(0, -5), heard(1, -9)}, 0, true},
		{"the first of equal ones", []match.Heard{heard(2, 30), heard(1, 30)}, 2, true},
	} {
		if path, ok := loudest(r.heard); path != r.path || ok != r.ok {
			t.Errorf("%s: loudest = %d, %v, want %d, %v", r.name, path, ok, r.path, r.ok)
		}
	}
}
