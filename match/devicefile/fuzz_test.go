package devicefile

import (
	"errors"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/rogpeppe/go-internal/txtar"

	"lowsone/acoustics"
	"lowsone/catalog/quantity"
	"lowsone/match"
)

// FuzzParse holds any file against what Parse promises: no panic, a file or an
// *Error whose places lie in the file, and a device that can be reported on and
// resolved.
func FuzzParse(f *testing.F) {
	for _, name := range devices {
		f.Add(readDevice(f, name))
	}
	f.Add([]byte(template(example)))
	f.Add([]byte(everywhere("bands: 63 Hz:41;125:38.5;250:36;500:34;1k:30;2000:25;4000:-1, bands_weighting: A")))
	f.Add([]byte(everywhere("bands_file: levels.csv, meter: phone")))
	f.Add([]byte("device: x\npaths: [{fan: {noise_bands: {125: 46, 250: 42, 500: 39, 1000: 37, 2000: 33, 4000: 27}}}]\n"))
	archives, _ := filepath.Glob("testdata/refused/*.txtar")
	for _, file := range archives {
		data, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(txtar.Parse(data).Files[0].Data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		file, err := Parse("device.yaml", data, tables)
		if err != nil {
			checkProblems(t, data, err)
			return
		}
		for i, p := range file.Device.Paths {
			if p.Fitted == nil || len(file.Fans) <= i {
				t.Fatalf("path %d has no fan", i)
			}
		}
		checkLevels(t, &file.Device)
		if err := file.Resolve(look); err != nil {
			checkProblems(t, data, err)
		}
		for _, item := range file.Report().Items {
			if item.Key == "" || item.State == Known && item.Value == "" {
				t.Errorf("item %+v", item)
			}
		}
	})
}

// checkLevels holds levels by band against the levels beside them.
func checkLevels(t *testing.T, d *match.Device) {
	t.Helper()
	check := func(bands *acoustics.Thirds, l quantity.SoundPressureLevel) {
		if bands != nil && !agree(bands.A().DB(), l.DB()) {
			t.Errorf("bands of %v beside a level of %v", bands.A(), l)
		}
	}
	check(d.RoomBands, d.Room.Or(quantity.PressureLevel(math.NaN())))
	for _, s := range d.Sources {
		check(s.Bands, s.Level)
	}
	for _, r := range d.Readings {
		check(r.Bands, r.Level)
	}
	for _, p := range d.Paths {
		if p.Reading != nil {
			check(p.Reading.Bands, p.Reading.Level)
		}
	}
}

func checkProblems(t *testing.T, data []byte, err error) {
	t.Helper()
	var e *Error
	if !errors.As(err, &e) || len(e.Problems) == 0 {
		t.Fatalf("error %T without problems: %v", err, err)
	}
	lines := 1 + strings.Count(strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(string(data)), "\n")
	for _, p := range e.Problems {
		if p.At.Line < 0 || p.At.Line > lines || p.Reason == "" {
			t.Errorf("problem %+v of a file of %d lines", p, lines)
		}
		if p.At.Line > 0 && p.At.Column < 1 {
			t.Errorf("problem %+v without a column", p)
		}
	}
	message := err.Error()
	for _, r := range message {
		if r != '\n' && (r < ' ' || r == 0x7f) {
			t.Errorf("control character %U in %q", r, message)
		}
	}
	if !utf8.ValidString(message) {
		t.Errorf("message is not UTF-8: %q", message)
	}
}
