package devicefile

import (
	"strings"
	"testing"

	"lowsone/catalog/quantity"
	"lowsone/match"
)

const octaves = "{125: 46, 250: 42, 500: 39, 1000: 37, 2000: 33, 4000: 27}" // 41.7 dB(A)

// of lists what the report of a file says of a key, as items does of a device.
func (f *File) of(key string) (found []Item) {
	key, device := strings.CutPrefix(key, "/")
	for _, i := range f.Report().Items {
		if i.Key == key && device == (i.Path == WholeDevice) {
			found = append(found, i)
		}
	}
	return found
}

// What is known by bands is told with where it is from; what is not is asked for
// of a path's fan alone.
func TestReportOfBands(t *testing.T) {
	const told, level = "octaves, 41.7 dB(A) together, the thirds within them estimated; taken as silent, since not given: 31.5 to 63 Hz, 8000 Hz", "41.7 dB(A) together"
	const table, doubted = "octaves of levels.csv, 41.7 dB(A) together, the thirds within them estimated; 12 rows averaged", "octaves of levels.csv, 41.7 dB(A) together, the thirds within them estimated"
	reading := "{distance: 1 m, bands: " + octaves + "}"
	for _, c := range []struct {
		name, key, file, value, of string
		state                      State
	}{
		{"room", "/room: bands", pathFile("/room: {bands: " + octaves + "}"), told, level, Known},
		{"room, not measured", "/room: bands", pathFile("/room: {level: 30 dB(A)}"), "", "", Missing},
		{"noise", "/noise: n: bands", pathFile("/noise: [{name: n, distance: 1 m, bands: " + octaves + "}]"), told, level, Known},
		{"device", "/measured: bands", pathFile("/measured: [" + reading + "]"), told, level, Known},
		{"device, the second", "/measured: 2: bands", pathFile("/measured: [{distance: 1 m, level: 30 dB(A)}, " + reading + "]"), told, level, Known},
		{"path", "measured: bands", pathFile("measured: " + reading), told, level, Known},
		{"path, not measured", "measured: bands", pathFile(), "a typical spectrum of its kind", "a typical spectrum of its kind", Assumed},
		{"path, its label tells", "measured: bands", pathFile("fan: {name: y, noise_bands: " + octaves + "}"), "", "", Missing},
		{"table, its weighting not said", "/room: bands", pathFile("/room: {bands_file: levels.csv}"), doubted, level, Doubtful},
		{"table, its weighting said", "/room: bands", pathFile("/room: {bands_file: levels.csv, bands_weighting: none}"), table, level, Known},
		{"table, held against the level", "/room: bands", pathFile("/room: {bands_file: levels.csv, level: 42 dB(A)}"), table, level, Known},
		{"bands left out", "/room: bands", pathFile("/room: {bands: {8: 20, 16: 20, 31.5: 20, 63: 20, 125: 46, 250: 42, 500: 39, 1000: 37, 2000: 33, 4000: 27, 8000: 20, 16k: 20}}"),
			"octaves, 41.8 dB(A) together, the thirds within them estimated; left out: 8 Hz, 16 Hz, 16000 Hz", "41.8 dB(A) together", Known},
	} {
		f := parsed(t, c.name, c.file)
		found, device := f.of(c.key), items(&f.Device, c.key)
		if c.value == "" {
			if len(found) > 0 {
				t.Errorf("%s: %+v, want nothing asked", c.name, found)
			}
			continue
		}
		if len(found) != 1 || found[0].State != c.state || found[0].Value != c.value || c.state != Known && found[0].Why == "" {
			t.Errorf("%s: %+v, want %v, %q", c.name, found, c.state, c.value)
		}
		if len(device) != 1 || device[0].Value != c.of {
			t.Errorf("%s: of the device alone %+v, want %q", c.name, device, c.of)
		}
	}
}

// The spectrum of a fan is asked for last of all.
func TestBandsAreAskedForLast(t *testing.T) {
	f := parsed(t, "x", "device: x\npaths:\n- {name: a, fan: {airflow_m3h: 40}}\n- {name: b, fan: {airflow_m3h: 40}}\n")
	open := f.Report().Open()
	for i, path := range []int{0, 1} {
		if item := open[len(open)-2+i]; item.Key != "measured: bands" || item.Path != path || item.Weight != Rounds {
			t.Errorf("item %+v, want that of path %d by bands", item, path)
		}
	}
}

// What a label says by bands is held against its level.
func TestReportOfLabelBands(t *testing.T) {
	for _, c := range []struct {
		said  string
		state State
		why   string
	}{
		{"noise_bands: " + octaves, Known, ""},
		{"noise_dba: 43.2, noise_bands: " + octaves, Known, ""},
		{"noise_dba: 43.3, noise_bands: " + octaves, Doubtful, "its noise_dba is 43.3 dB(A)"},
		{"noise_dba: 40.1, noise_bands: " + octaves, Doubtful, "its noise_dba is 40.1 dB(A)"},
	} {
		found := items(&parsed(t, c.said, pathFile("fan: {name: y, "+c.said+"}")).Device, "fan: noise_bands")
		if len(found) != 1 || found[0].State != c.state || !strings.Contains(found[0].Why, c.why) || found[0].Value == "" {
			t.Errorf("%s: %+v, want %v, %q", c.said, found, c.state, c.why)
		}
	}
	fan := fanOf("part=X noise_bands=125:40;250:38") // as a catalogue may hold it
	found := items(&match.Device{Paths: []match.Path{{Fitted: fan}}}, "fan: noise_bands")
	if len(found) != 1 || found[0].State != Doubtful || found[0].Value != "2 levels" || !strings.Contains(found[0].Why, "too few octaves") {
		t.Errorf("bands that are no spectrum: %+v", found)
	}
}

// A meter is asked for where a level was measured, and doubted where nothing is
// known of it at that level.
func TestReportOfMeters(t *testing.T) {
	const at = "measured: {distance: 1 m, "
	for _, c := range []struct {
		said, value string
		state       State
	}{
		{"level: 42 dB(A)}", "", Missing},
		{"level: 42 dB(A), meter: class_1}", "class 1 meter", Known},
		{"level: 42 dB(A), meter: class_2}", "class 2 meter", Known},
		{"bands: " + octaves + ", meter: class_2}", "class 2 meter, off by 2 dB at most", Known},
		{"level: 42 dB(A), meter: phone}", "phone, not calibrated", Doubtful},
		{"bands: " + octaves + ", meter: phone}", "phone, not calibrated", Doubtful},
		{"level: 70 dB(A), meter: phone}", "phone, not calibrated, off by some 5 dB", Known},
	} {
		found := parsed(t, c.said, pathFile(at+c.said)).of("measured: meter")
		if len(found) != 1 || found[0].State != c.state || found[0].Value != c.value || found[0].Why == "" {
			t.Errorf("%s: %+v, want %v, %q", c.said, found, c.state, c.value)
		}
	}
	if found := parsed(t, "no reading", pathFile()).of("measured: meter"); len(found) != 0 {
		t.Errorf("without a reading: %+v", found)
	}
	// Of the whole device it is told, not asked for.
	for said, want := range map[string]string{"": "", ", meter: class_1": "class 1 meter"} {
		found := parsed(t, said, pathFile("/measured: [{distance: 1 m, level: 42 dB(A)"+said+"}]")).of("/measured: meter")
		if len(found) > 1 || (len(found) == 1) != (want != "") || len(found) == 1 && found[0].Value != want {
			t.Errorf("of the whole device%s: %+v, want %q", said, found, want)
		}
	}
}

// Report is ReportOf with more words of where bands are from.
func TestReportAndReportOf(t *testing.T) {
	for _, name := range devices {
		f := resolved(t, name)
		told, of := f.Report().Items, ReportOf(&f.Device).Items
		if len(told) != len(of) {
			t.Fatalf("%s: %d items, of the device alone %d", name, len(told), len(of))
		}
		for i := range told {
			if told[i].Key != of[i].Key || told[i].Path != of[i].Path || told[i] != of[i] && !strings.HasSuffix(told[i].Key, bandsKey) {
				t.Errorf("%s: %+v, of the device alone %+v", name, told[i], of[i])
			}
		}
	}
}

func TestSpanOf(t *testing.T) {
	for _, c := range []struct {
		low, high quantity.Frequency
		want      string
	}{{25, 80, "25 to 80 Hz"}, {31.5, 31.5, "31.5 Hz"}, {10000, 12500, "10000 to 12500 Hz"}} {
		if got := spanOf(c.low, c.high); got != c.want {
			t.Errorf("spanOf(%v, %v) = %q, want %q", c.low, c.high, got, c.want)
		}
	}
}
