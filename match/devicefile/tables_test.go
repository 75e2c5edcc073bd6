package devicefile

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"lowsone/acoustics"
	"lowsone/catalog/quantity"
)

// asked records what tables were read for.
type asked []tableKey

func (a *asked) read(name string, w quantity.Known[acoustics.Weighting]) (Table, error) {
	*a = append(*a, tableKey{name, w})
	return tables("levels.csv", w)
}

// tableOf reads any table as the same level in all bands.
func tableOf(level float64) ReadTable {
	return func(string, quantity.Known[acoustics.Weighting]) (t Table, _ error) {
		for i := range t.Thirds {
			t.Thirds[i] = level
		}
		return t, nil
	}
}

func noises(keys ...string) string {
	said := "device: x\npaths: [{fan: {airflow_m3h: 40}}]\nnoise:\n"
	for i, k := range keys {
		said += fmt.Sprintf("- {name: n%d, distance: 1 m, %s}\n", i, k)
	}
	return said
}

// A table is asked for by the name that stands in the file, whatever folder it
// is in, with the weighting that the file says, and once.
func TestTableIsReadOnce(t *testing.T) {
	var a asked
	if _, err := Parse("x", []byte(noises("bands_file: ../other/levels.csv", "bands_file: ../other/levels.csv", "bands_file: /levels.csv",
		"bands_file: ../other/levels.csv, bands_weighting: A")), a.read); err != nil {
		t.Fatal(err)
	}
	want := []tableKey{{name: "../other/levels.csv"}, {name: "/levels.csv"}, {"../other/levels.csv", quantity.Stated(acoustics.AWeighted)}}
	if fmt.Sprint(a) != fmt.Sprint(asked(want)) {
		t.Errorf("read %v, want %v", a, want)
	}
}

func TestTooManyTables(t *testing.T) {
	var a asked
	var keys []string
	for i := range mostTables + 1 {
		keys = append(keys, fmt.Sprintf("bands_file: levels%d.csv", i))
	}
	_, err := Parse("x", []byte(noises(keys...)), a.read)
	if len(a) != mostTables || err == nil || !strings.Contains(err.Error(), "x:104:43: bands_file: more than 100 tables") {
		t.Errorf("%d tables read, error %v", len(a), err)
	}
}

// What is wrong with a table is told at the key that names it, and can be found
// behind the error.
func TestTableThatCannotBeRead(t *testing.T) {
	err := errors.New("levels.csv:3: no table of band levels")
	for _, c := range []struct {
		name string
		read ReadTable
		want string
	}{
		{"no reader", nil, "x:4:41: bands_file: tables of levels cannot be read here\n  4 | - {name: n0, distance: 1 m, bands_file: levels.csv}\n    |                                         ^\n  write the levels into this file: bands: {125: 38, …}"},
		{"no table", func(string, quantity.Known[acoustics.Weighting]) (Table, error) { return Table{}, hinted{err} },
			"x:4:41: bands_file: levels.csv:3: no table of band levels\n  4 | - {name: n0, distance: 1 m, bands_file: levels.csv}\n    |                                         ^\n  near it is OMB-2"},
		{"nothing in it", func(string, quantity.Known[acoustics.Weighting]) (Table, error) {
			return Table{BandReading: acoustics.BandReading{Thirds: acoustics.SumThirds()}}, nil
		}, "x:4:41: the bands make -Inf dB(A) together, outside the possible 0 to 140 dB(A)"},
		{"not known", tableOf(math.NaN()), "x:4:41: the bands make NaN dB(A) together, outside"},
		{"louder than anything", tableOf(131), "x:4:41: the bands make 142.8 dB(A) together, outside"},
	} {
		_, got := Parse("x", []byte(noises("bands_file: levels.csv")), c.read)
		if got == nil || !strings.HasPrefix(got.Error(), c.want) {
			t.Errorf("%s: %v, want %s", c.name, got, c.want)
		}
	}
	_, got := Parse("x", []byte(noises("bands_file: levels.csv")), func(string, quantity.Known[acoustics.Weighting]) (Table, error) { return Table{}, err })
	if !errors.Is(got, err) {
		t.Errorf("%v does not wrap %v", got, err)
	}
}
