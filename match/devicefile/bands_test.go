package devicefile

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lowsone/acoustics"
	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match"
)

// sevenOctaves are the levels that the tests write in several ways.
var sevenOctaves = []quantity.BandLevel{{Frequency: 63, Level: 41}, {Frequency: 125, Level: 38.5}, {Frequency: 250, Level: 36},
	{Frequency: 500, Level: 34}, {Frequency: 1000, Level: 30}, {Frequency: 2000, Level: 25}, {Frequency: 4000, Level: -1}}

// readAs gives what acoustics makes of levels.
func readAs(t testing.TB, levels []quantity.BandLevel, w acoustics.Weighting) acoustics.Thirds {
	t.Helper()
	r, err := acoustics.ReadBands(levels, w)
	if err != nil {
		t.Fatal(err)
	}
	return r.Thirds
}

// spectraOf lists the spectra of a device by where they stand.
func spectraOf(d *match.Device) map[string]*acoustics.Thirds {
	return map[string]*acoustics.Thirds{
		"room": d.RoomBands, "noise": d.Sources[0].Bands, "path": d.Paths[0].Reading.Bands, "device": d.Readings[0].Bands,
	}
}

// everywhere is a device with the same keys at each place that takes bands.
func everywhere(keys string) string {
	return "device: x\nroom: {" + keys + "}\npaths:\n- fan: {airflow_m3h: 40}\n  measured: {distance: 1 m, " + keys + "}\n" +
		"noise: [{name: n, distance: 1 m, " + keys + "}]\nmeasured: [{distance: 1 m, " + keys + "}]\n"
}

// However bands are written, and wherever they stand, the same spectrum comes of
// them, and without a level theirs is the level.
func TestBandsAreWritten(t *testing.T) {
	plain, weighted := readAs(t, sevenOctaves, acoustics.Unweighted), readAs(t, sevenOctaves, acoustics.AWeighted)
	table, err := tables("levels.csv", quantity.Known[acoustics.Weighting]{})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name, keys string
		want       acoustics.Thirds
	}{
		{"keys with values", "bands: {63: 41, 125: 38.5, 250: 36, 500: 34, 1000: 30, 2000: 25, 4000: -1}", plain},
		{"units", "bands: {63 Hz: 41 dB, 125 hz: 38.5dB, 250: 36 DB, 500: 34, 1k: 30, 2 kHz: 25, 4.0k: -1}", plain},
		{"any order, quotes", `bands: {"4000": "-1", '63': '41', 2000: 25, 250: 36, 1000: 30, 500: 34, 125: 38.5}`, plain},
		{"as a parts list has it", "bands: 63:41;125:38.5;250:36;500:34;1000:30;2000:25;4000:-1", plain},
		{"as a text with units", "bands: '63 Hz: 41; 125: 38.5 dB ; 250:36;500:34;1k:30;2 kHz:25;4000: -1;'", plain},
		{"one that is not known", "bands: {31.5: unknown, 63: 41, 125: 38.5, 250: 36, 500: 34, 1000: 30, 2000: 25, 4000: -1}", plain},
		{"said to be unweighted", "bands: 63:41;125:38.5;250:36;500:34;1000:30;2000:25;4000:-1, bands_weighting: none", plain},
		{"A-weighted", "bands_weighting: A, bands: 63:41;125:38.5;250:36;500:34;1000:30;2000:25;4000:-1", weighted},
		{"of a table", "bands_file: levels.csv", table.Thirds},
	} {
		d := parsed(t, c.name, everywhere(c.keys)).Device
		for where, got := range spectraOf(&d) {
			if got == nil || *got != c.want {
				t.Errorf("%s, %s: bands %v, want %v", c.name, where, got, c.want)
			}
		}
		want := c.want.A()
		for where, got := range map[string]quantity.SoundPressureLevel{
			"room": d.Room.Or(quantity.PressureLevel(-1)), "noise": d.Sources[0].Level, "path": d.Paths[0].Reading.Level, "device": d.Readings[0].Level,
		} {
			if got != want {
				t.Errorf("%s, %s: level %v, want the sum of the bands, %v", c.name, where, got, want)
			}
		}
	}
	for where, got := range spectraOf(new(parsed(t, "none", everywhere("level: 30 dB(A), bands: , bands_file: unknown")).Device)) {
		if got != nil {
			t.Errorf("%s: bands %v of nothing", where, got)
		}
	}
}

// A level that is stated stays the level; it is refused where the bands do not
// make it.
func TestLevelBesideBands(t *testing.T) {
	const bands = "bands: {63: 41, 125: 38.5, 250: 36, 500: 34, 1000: 30, 2000: 25, 4000: -1}"
	thirds := readAs(t, sevenOctaves, acoustics.Unweighted)
	sum := thirds.A().DB()
	rapid.Check(t, func(rt *rapid.T) {
		off := rapid.Float64Range(-8, 8).Draw(rt, "off")
		if math.Abs(math.Abs(off)-apart) < 1e-6 {
			rt.Skip()
		}
		stated := fmt.Sprintf("%.9f", sum+off)
		f, err := Parse("x", []byte(everywhere("level: "+stated+" dB(A), "+bands)), nil)
		if math.Abs(off) > apart {
			var e *Error
			if !errors.As(err, &e) || len(e.Problems) != 4 {
				rt.Fatalf("%+.2f dB apart: %v, want four problems", off, err)
			}
			for _, p := range e.Problems {
				if want := number(math.Round(10*sum)/10) + " dB(A) together, the level is "; !strings.Contains(p.Reason, want) || p.Hint == "" || !strings.HasPrefix(string([]rune(p.Line)[len(p.Caret)-1:]), "{63") {
					rt.Fatalf("%+.2f dB apart: problem %+v", off, p)
				}
			}
			return
		}
		if err != nil {
			rt.Fatalf("%+.2f dB apart: %v", off, err)
		}
		if d := f.Device; d.Readings[0].Level.DB() != sum && fmt.Sprintf("%.9f", d.Readings[0].Level.DB()) != stated || *d.Readings[0].Bands != thirds {
			rt.Fatalf("%+.2f dB apart: reading %+v", off, d.Readings[0])
		}
	})
}

// Bands that are not weighted as is said are found by the level beside them.
func TestWeightingMixedUp(t *testing.T) {
	const bands = "bands: {125: 36, 250: 36, 500: 35, 1000: 34, 2000: 31, 4000: 26}"
	for _, c := range []struct{ name, keys, hint string }{
		{"A-weighted and not said", "level: 42 dB(A), " + bands, "taken as A-weighted they make 41.8 dB(A) and agree: write bands_weighting: A"},
		{"unweighted and said to be A-weighted", "level: 38 dB(A), bands_weighting: A, " + bands, "taken as unweighted they make 38.3 dB(A) and agree: leave bands_weighting out, or write none"},
		{"neither", "level: 50 dB(A), " + bands, "check that both are of the same place"},
		{"a table", "level: 48.5 dB(A), bands_file: levels.csv", "write bands_weighting: A"},
		{"a table the other way", "level: 42 dB(A), bands_weighting: A, bands_file: levels.csv", "write none"},
	} {
		for _, p := range problemsOf(t, everywhere(c.keys)) {
			if !strings.Contains(p.Hint, c.hint) {
				t.Errorf("%s: problem %q, hint %q, want %q", c.name, p.Reason, p.Hint, c.hint)
			}
		}
		if n := len(problemsOf(t, everywhere(c.keys))); n != 4 {
			t.Errorf("%s: %d problems, want one at each place", c.name, n)
		}
	}
}

// A level that carries its weighting is told from one that cannot be read.
func TestLevelsOfBands(t *testing.T) {
	for text, want := range map[string]string{
		"41": "", "41.5 dB": "", "-3db": "", "1e1 dB": "",
		"41 dBA": "weighted", "41 dB(A)": "weighted", "41 db (a)": "weighted", "41,5 dB": "no level", "dB": "no level", "41 B": "no level", "41 sone": "no level", "": "no level",
	} {
		_, err := parseBandLevel(text)
		if (err == nil) != (want == "") || err != nil && !strings.Contains(err.Error(), want) {
			t.Errorf("parseBandLevel(%q): %v, want %q", text, err, want)
		}
	}
	for text, want := range map[string]quantity.Frequency{"63": 63, "31.5 Hz": 31.5, "1k": 1000, "1.25 kHz": 1250, "12.5 KHZ": 12500, "1 m": 0, "k": 0, "1 kk": 0, "A": 0} {
		if got, err := parseBand(text); (err == nil) != (want != 0) || math.Abs(float64(got-want)) > 1e-9 {
			t.Errorf("parseBand(%q) = %v, %v, want %v", text, got, err, want)
		}
	}
}

// Any spectrum, written in any way, is the one that acoustics reads, and valid
// by the schema.
func TestBandsAreWhatAcousticsReads(t *testing.T) {
	s := compiled(t)
	rapid.Check(t, func(rt *rapid.T) {
		levels := drawnBands(rt)
		w := acoustics.Weighting(rapid.IntRange(0, 1).Draw(rt, "weighting"))
		asText := rapid.Bool().Draw(rt, "text")
		var pairs []string
		for _, l := range levels {
			hz, db := catalog.Number(float64(l.Frequency)), catalog.Number(float64(l.Level))
			if asText {
				pairs = append(pairs, hz+":"+db)
				continue
			}
			pairs = append(pairs, hz+": "+db)
		}
		keys := "bands: {" + strings.Join(pairs, ", ") + "}"
		if asText {
			keys = "bands: " + strings.Join(pairs, ";")
		}
		data := everywhere(keys + ", bands_weighting: " + weightings[w])
		f, err := Parse("drawn.yaml", []byte(data), nil)
		want, refused := acoustics.ReadBands(levels, w)
		if sum := want.Thirds.A().DB(); refused != nil || !(sum >= 0 && sum <= loudestLevel) {
			if err == nil {
				rt.Fatalf("taken, though acoustics says %v, %v dB(A)\n%s", refused, sum, data)
			}
			return
		}
		if err != nil {
			rt.Fatalf("refused: %v\n%s", err, data)
		}
		for where, got := range spectraOf(&f.Device) {
			if *got != want.Thirds {
				rt.Fatalf("%s: bands %v, want %v", where, *got, want.Thirds)
			}
		}
		if v, ok := value(t, data); !ok || s.Validate(v) != nil {
			rt.Fatalf("taken, and not valid by the schema: %v\n%s", s.Validate(v), data)
		}
	})
}

// drawnBands gives octaves or thirds in any order, now and then with one missing
// or one too many.
func drawnBands(t *rapid.T) (levels []quantity.BandLevel) {
	nominal := acoustics.ThirdNominal[:]
	if rapid.Bool().Draw(t, "octaves") {
		nominal = acoustics.OctaveNominal[:]
	}
	low, high := rapid.IntRange(0, 3).Draw(t, "low"), rapid.IntRange(0, 2).Draw(t, "high")
	gap := rapid.IntRange(0, 10*len(nominal)).Draw(t, "gap")
	for i := low; i < len(nominal)-high; i++ {
		if i != gap {
			level := rapid.Float64Range(-10, 90).Draw(t, "level")
			levels = append(levels, quantity.BandLevel{Frequency: quantity.Frequency(nominal[i]), Level: quantity.Decibel(math.Round(10*level) / 10)})
		}
	}
	if rapid.IntRange(0, 20).Draw(t, "odd") == 0 {
		levels = append(levels, quantity.BandLevel{Frequency: quantity.Frequency(rapid.SampledFrom([]float64{20, 16000, 440, 315, 63}).Draw(t, "hz")), Level: 30})
	}
	return rapid.Permutation(levels).Draw(t, "order")
}

// A fan that is described takes band levels as its noise_bands, in both ways; so
// does one of the catalogue that the file overrules.
func TestNoiseBandsOfAFan(t *testing.T) {
	want := catalog.FormatBands(sevenOctaves)
	for name, said := range map[string]string{
		"text":             "name: y, noise_bands: 4000:-1;125:38.5;250:36;500:34;1000:30;2000:25;63:41",
		"keys with values": "name: y, noise_bands: {4k: -1, 125: 38.5, 250: 36, 500: 34, 1000: 30, 2000: 25, 63: 41}",
		"overruled":        "part: OMB-625B56B3, noise_bands: {4k: -1, 125: 38.5, 250: 36, 500: 34, 1000: 30, 2000: 25, 63: 41}",
	} {
		f := parsed(t, name, "device: x\npaths: [{fan: {"+said+"}}]\n")
		if err := f.Resolve(look); err != nil {
			t.Fatal(err)
		}
		if got := catalog.FormatBands(f.Device.Paths[0].Fitted.NoiseBands); got != want {
			t.Errorf("%s: noise_bands %s, want %s", name, got, want)
		}
		if !slices.IsSortedFunc(f.Device.Paths[0].Fitted.NoiseBands, func(a, b quantity.BandLevel) int { return int(a.Frequency - b.Frequency) }) {
			t.Errorf("%s: noise_bands do not rise", name)
		}
	}
}
