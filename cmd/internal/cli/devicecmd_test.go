package cli

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// device check says whether the file is enough for a ranking, by what a ranking
// begins with, and what is lacking.
func TestDeviceCheckTellsWhatItIsEnoughFor(t *testing.T) {
	vars := withParts(t)
	const rest = "paths:\n  - fan: {name: label, kind: axial, width_mm: 60, height_mm: 60, voltage_v: 12, supply: dc, airflow_m3h: 48, static_pressure_pa: 120}\n" +
		"    heat: {now: 90 W}\n    air: {inlet: 24 °C, outlet: 33 °C}\n    spots: [{name: sink, found: 58 °C, limit: 80 °C}]\n"
	for _, r := range []struct {
		name, file string
		enough     bool
		lacks      string
	}{
		{"enough", "device: d\nroom: {now: 24 °C}\n" + rest, true, ""},
		{"no room", "device: d\n" + rest, false, "the room's temperature"},
		{"no air of the fan", "device: d\npaths:\n  - fan: {name: label, width_mm: 60}\n", false, "the fitted fan"},
		{"no flow is enough", "device: d\nroom: {now: 24 °C, worst: 72 °C}\n" + rest, false, "no flow is enough"},
	} {
		t.Chdir(t.TempDir()) // the width of the output hangs on the name
		const file = "d.yaml"
		if err := os.WriteFile(file, []byte(r.file), 0o666); err != nil {
			t.Fatal(err)
		}
		all := jsonOf(t, vars, "device", "check", file)["rank"].([]any)
		if len(all) != 1 {
			t.Fatalf("%s: %d paths, want 1", r.name, len(all))
		}
		one := all[0].(map[string]any)
		if lacks, _ := one["lacks"].(string); one["enough"] != r.enough || !strings.Contains(lacks, r.lacks) {
			t.Errorf("%s: %v, want enough %v, lacking …%s…", r.name, one, r.enough, r.lacks)
		}
		stdout, _, _ := run(t, strings.NewReader(""), vars, "device", "check", file)
		want := map[bool]string{true: "enough for  lowsone rank ", false: "too little  for lowsone rank "}[r.enough]
		if !strings.Contains(stdout, want) {
			t.Errorf("%s: %q does not say %q", r.name, stdout, want)
		}
	}
	// Without a catalogue it is not tried.
	file := filepath.Join(t.TempDir(), "d.yaml")
	if err := os.WriteFile(file, []byte("device: d\n"+rest), 0o666); err != nil {
		t.Fatal(err)
	}
	none := map[string]string{"LOWSONE_CATALOG": filepath.Join(t.TempDir(), "none")}
	one := jsonOf(t, none, "device", "check", file)["rank"].([]any)[0].(map[string]any)
	if one["enough"] != nil {
		t.Errorf("without a catalogue: %v, want nothing said of enough", one)
	}
}
