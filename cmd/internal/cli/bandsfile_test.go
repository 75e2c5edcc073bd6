package cli

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"lowsone/acoustics"
	"lowsone/catalog/quantity"
)

const octavesTable = "Hz,level\n125,46\n250,42\n500,39\n1000,37\n2000,33\n4000,27\n"

// A table is found from the folder of the device file, or by a path from the
// root; what the device file says of its weighting counts.
func TestTablesBesideADeviceFile(t *testing.T) {
	dir := t.TempDir()
	table := filepath.Join(dir, "tables", "levels.csv")
	if err := errors.Join(os.MkdirAll(filepath.Dir(table), 0o777), os.WriteFile(table, []byte(octavesTable), 0o666)); err != nil {
		t.Fatal(err)
	}
	var unsaid quantity.Known[acoustics.Weighting]
	weighted := quantity.Stated(acoustics.AWeighted)
	for _, r := range []struct {
		name, device, table string
		weighting           quantity.Known[acoustics.Weighting]
		at1k, at4k          float64 // dB; A-weighting is 0 and 1.0 dB there
	}{
		{"below it", filepath.Join(dir, "device.yaml"), "tables/levels.csv", unsaid, 37, 27},
		{"beside it", filepath.Join(dir, "tables", "device.yaml"), "levels.csv", unsaid, 37, 27},
		{"outside its folder", filepath.Join(dir, "devices", "device.yaml"), "../tables/levels.csv", unsaid, 37, 27},
		{"from the root", "device.yaml", table, unsaid, 37, 27},
		{"weighted", filepath.Join(dir, "device.yaml"), "tables/levels.csv", weighted, 37, 26},
	} {
		got, err := tablesBeside(context.Background(), r.device)(r.table, r.weighting)
		if err != nil {
			t.Errorf("%s: %v", r.name, err)
			continue
		}
		octaves := got.Thirds.Octaves()
		if off := max(octaves[5]-r.at1k, r.at1k-octaves[5], octaves[7]-r.at4k, r.at4k-octaves[7]); off > 0.3 {
			t.Errorf("%s: %.2f dB at 1 kHz and %.2f dB at 4 kHz, want %v and %v ± 0.3", r.name, octaves[5], octaves[7], r.at1k, r.at4k)
		}
		if w := r.weighting.Or(acoustics.Unweighted); got.Stated != r.weighting.Known() || got.Weighting != w {
			t.Errorf("%s: weighting %v, stated %v, want %v, %v", r.name, got.Weighting, got.Stated, w, r.weighting.Known())
		}
	}
}

// What cannot be a table is refused with its name and the mend, and reading ends
// with the context.
func TestTablesThatAreNone(t *testing.T) {
	dir := t.TempDir()
	device := filepath.Join(dir, "device.yaml")
	if err := os.WriteFile(filepath.Join(dir, "text.csv"), []byte("nothing,of\nthe,kind\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	var unsaid quantity.Known[acoustics.Weighting]
	for table, want := range map[string][2]string{
		"none.csv": {`there is no table "` + filepath.Join(dir, "none.csv") + `"`, "folder of the device file"},
		".":        {"is a folder", "name a file in it"},
		os.DevNull: {"is no file", ""},
		"text.csv": {"text.csv", "frequencies"},
	} {
		_, err := tablesBeside(context.Background(), device)(table, unsaid)
		if err == nil || !strings.Contains(err.Error(), want[0]) || !strings.Contains(hintOf(err), want[1]) {
			t.Errorf("%s: %v, hint %q, want %q", table, err, hintOf(err), want)
		}
	}
	if err := os.WriteFile(filepath.Join(dir, "levels.csv"), []byte(octavesTable), 0o666); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := tablesBeside(ctx, device)("levels.csv", unsaid); !errors.Is(err, context.Canceled) {
		t.Errorf("with a context at its end: %v", err)
	}
}
