package devicefile

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"lowsone/acoustics"
	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// devices are the two complete device files.
var devices = []string{"amplifier.yaml", "cabinet.yaml"}

func readDevice(t testing.TB, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "devices", name))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func parsed(t testing.TB, name, data string) *File {
	t.Helper()
	f, err := Parse(name, []byte(data), tables)
	if err != nil {
		t.Fatalf("Parse(%s):\n%v", name, err)
	}
	return f
}

// resolved reads one of the two device files with its fans looked up.
func resolved(t testing.TB, name string) *File {
	t.Helper()
	f := parsed(t, name, string(readDevice(t, name)))
	if err := f.Resolve(look); err != nil {
		t.Fatalf("Resolve(%s):\n%v", name, err)
	}
	return f
}

var errNoPart = errors.New("no such fan in the catalogue")

// shelf holds the two fans of the amplifier as the demo's catalogue has them.
var shelf = []string{
	"part=OMB-625B56B3 maker=Ombrasco kind=axial width_mm=60 height_mm=60 depth_mm=25 hole_pitch_mm=50 voltage_v=12 supply=dc " +
		"current_a=0.42 leads=3 tach_per_rev=2 airflow_m3h=47.5 static_pressure_pa=120 speed_rpm=5600 noise_dba=43 temp_max_c=70",
	"part=OMB-420B70B3 maker=Ombrasco kind=axial width_mm=40 height_mm=40 depth_mm=20 hole_pitch_mm=32 voltage_v=12 supply=dc " +
		"current_a=0.11 leads=3 tach_per_rev=2 airflow_m3h=16.7 static_pressure_pa=83 speed_rpm=7000 noise_dba=34 temp_max_c=70",
}

// look finds a fan on the shelf.
func look(part string) (int, *catalog.Fan, error) {
	for row, described := range shelf {
		f := fanOf(described)
		if part == f.Part || part == f.Maker+"/"+f.Part {
			return row, f, nil
		}
	}
	return 0, nil, errNoPart
}

// tables reads the one table there is: levels.csv, of 42 dB(A), whose weighting
// it does not say.
func tables(name string, w quantity.Known[acoustics.Weighting]) (Table, error) {
	if name != "levels.csv" {
		return Table{}, hinted{fmt.Errorf("%s: there is no such table", name)}
	}
	levels := []quantity.BandLevel{{Frequency: 125, Level: 46}, {Frequency: 250, Level: 42}, {Frequency: 500, Level: 39},
		{Frequency: 1000, Level: 37}, {Frequency: 2000, Level: 33}, {Frequency: 4000, Level: 27}}
	reading, err := acoustics.ReadBands(levels, w.Or(acoustics.Unweighted))
	return Table{BandReading: reading, Weighting: w.Or(acoustics.Unweighted), Stated: w.Known(), Notes: []string{"12 rows averaged"}}, err
}

func fanOf(described string) *catalog.Fan {
	f := &catalog.Fan{}
	for _, pair := range strings.Fields(described) {
		name, value, _ := strings.Cut(pair, "=")
		d, _ := catalog.FieldNamed(name)
		v, err := d.Parse(value)
		if err != nil {
			panic(fmt.Sprintf("%s: %v", pair, err))
		}
		d.Put(f, v, quantity.Cell)
	}
	return f
}

// problemsOf gives what is wrong with a file; none where nothing is.
func problemsOf(t testing.TB, data string) []Problem {
	t.Helper()
	_, err := Parse("device.yaml", []byte(data), tables)
	if err == nil {
		return nil
	}
	var e *Error
	if !errors.As(err, &e) {
		t.Fatalf("Parse gave %T, want *Error: %v", err, err)
	}
	return e.Problems
}

// reasons lists problems as line:column: reason.
func reasons(problems []Problem) []string {
	var list []string
	for _, p := range problems {
		list = append(list, fmt.Sprintf("%d:%d: %s", p.At.Line, p.At.Column, p.Reason))
	}
	return list
}
