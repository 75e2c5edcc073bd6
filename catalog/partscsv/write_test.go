package partscsv

import (
	"bytes"
	"encoding/csv"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/gocarina/gocsv"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/catalog/tabular"
)

// The columns of the row struct are the fields, in their order.
func TestOwnColumns(t *testing.T) {
	var names []string
	row := reflect.TypeFor[ownRow]()
	for i := range row.NumField() {
		names = append(names, row.Field(i).Tag.Get("csv"))
	}
	if want := catalog.FieldNames(); !slices.Equal(names, want) {
		t.Errorf("columns = %q, want %q", names, want)
	}
	var o ownRow
	for i, cell := range o.cells() {
		if want := reflect.ValueOf(&o).Elem().Field(i).Addr().Interface(); any(cell) != want {
			t.Errorf("cell %d is not that of %s", i, names[i])
		}
	}
}

// fanDrawer draws fans as reading makes them: only stated values within their
// bounds, texts as cleanText leaves them.
func drawFan(t *rapid.T) *catalog.Fan {
	f := &catalog.Fan{}
	for i := range catalog.Fields {
		d := &catalog.Fields[i]
		if d.ID != catalog.FieldPart && rapid.IntRange(0, 2).Draw(t, "skip") == 0 {
			continue
		}
		if v, ok := drawValue(t, d); ok {
			d.Put(f, v, quantity.Cell)
		}
	}
	tidy(f)
	return f
}

func drawValue(t *rapid.T, d *catalog.Field) (catalog.Value, bool) {
	switch d.Form {
	case catalog.Text:
		text := cleanText(drawText(t, d.Name))
		if tables().isUnknown(normalise(text)) {
			return catalog.Value{}, false
		}
		return catalog.Value{Text: text}, true
	case catalog.Choice:
		return catalog.Value{Number: float64(rapid.IntRange(1, len(d.Choices)).Draw(t, d.Name))}, true
	case catalog.Points:
		return catalog.Value{Curve: drawCurve(t)}, true
	case catalog.Bands:
		return catalog.Value{Bands: drawBands(t)}, true
	case catalog.Count:
		return catalog.Value{Number: float64(rapid.IntRange(int(d.Low), int(min(d.High, 1e6))).Draw(t, d.Name))}, true
	}
	v := rapid.Float64Range(d.Low, d.High).Draw(t, d.Name)
	v = math.Round(v*1e4) / 1e4
	return catalog.Value{Number: d.SI(max(v, d.Low))}, true
}

// drawText draws texts that are hard on a CSV: formulas, quotes, delimiters.
func drawText(t *rapid.T, name string) string {
	return rapid.OneOf(
		rapid.StringMatching(`[A-Z]{1,3}-[0-9]{2,4}`),
		rapid.StringMatching(`'{0,3}[=+@-]?[A-Za-z0-9(,;"' .]{1,12}`),
		rapid.StringMatching(`x\PC{1,10}`),
	).Draw(t, name)
}

func drawCurve(t *rapid.T) []catalog.CurvePoint {
	var curve []catalog.CurvePoint
	q := 0.0
	for range rapid.IntRange(2, 5).Draw(t, "points") {
		p := float64(rapid.IntRange(0, 400).Draw(t, "pressure")) + 0.5
		curve = append(curve, catalog.CurvePoint{Flow: quantity.Flow(q) * quantity.CubicMetrePerHour, Pressure: quantity.Pressure(p)})
		q += float64(rapid.IntRange(1, 40).Draw(t, "flow")) / 2
	}
	return curve
}

// tidy makes a drawn fan one that reading would not add to or refuse.
func tidy(f *catalog.Fan) {
	if f.Part == "" {
		f.Part = "A1"
	}
	low, ok := f.VoltageMin.Get()
	if high, also := f.VoltageMax.Get(); ok && also && low > high {
		f.VoltageMin, f.VoltageMax = quantity.Stated(high), quantity.Stated(low)
	}
	if !f.Voltage.Known() {
		f.VoltageMin = quantity.Known[quantity.Voltage]{} // else a nominal voltage may be estimated
	}
	if f.Frequency.Known() && !f.Supply.Known() {
		f.Supply = quantity.Stated(catalog.AC)
	}
	if code, ok := currencyCode(f.Currency); ok {
		f.Currency = code
	}
	f.FillFromCurve()
	if len(f.NoiseBands) > 0 && !f.Noise.Known() {
		if sum := levelSum(f.NoiseBands, 1); sum >= catalog.Fields[catalog.FieldNoise].Low {
			f.Noise = quantity.Stated(quantity.Decibel(hundredth(sum)))
		}
	}
}

// Property: what is written is read back, through the tool's own CSV.
func TestWriteReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		fans := []*catalog.Fan{drawFan(t), drawFan(t)}
		fans[0].Width = quantity.Stated(quantity.Length(0.06))
		fans[1].Width = fans[0].Width
		var out bytes.Buffer
		if err := Write(&out, fans); err != nil {
			t.Fatal(err)
		}
		records, err := csv.NewReader(&out).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		p, err := NewPlan(Input{File: "own.csv", Header: records[0], Sample: records[1:], Marks: marksOf(tabular.Point, len(records[0]))})
		if err != nil {
			t.Fatal(err)
		}
		r := p.Reader()
		for i, want := range fans {
			got, _, err := r.Read(records[i+1])
			if err != nil {
				t.Fatalf("row %q = %v", records[i+1], err)
			}
			if diff := cmp.Diff(fields(want), fields(got)); diff != "" {
				t.Fatalf("row %q reads back otherwise (-want +got):\n%s", records[i+1], diff)
			}
		}
	})
}

// fields lists what a fan says, to the ten digits that are written.
func fields(f *catalog.Fan) map[string]string {
	list := map[string]string{}
	for i := range catalog.Fields {
		d := &catalog.Fields[i]
		if text := d.Format(f); text != "" {
			list[d.Name] = text
		}
	}
	return list
}

// gocsv reads what it wrote: the struct serves both ways.
func TestOwnRowsThroughGocsv(t *testing.T) {
	fan := &catalog.Fan{Part: "=A1", Maker: "-12", Voltage: quantity.Stated(quantity.Voltage(12)), Kind: quantity.Stated(catalog.Axial)}
	var out bytes.Buffer
	if err := Write(&out, []*catalog.Fan{fan}); err != nil {
		t.Fatal(err)
	}
	var rows []ownRow
	if err := gocsv.UnmarshalBytes(out.Bytes(), &rows); err != nil {
		t.Fatal(err)
	}
	want := ownRow{Part: "'=A1", Maker: "-12", Voltage: "12", Kind: "axial"}
	if len(rows) != 1 || rows[0] != want {
		t.Errorf("rows = %+v, want %+v", rows, want)
	}
}

// An estimate is not written: it would be read back as a fact.
func TestEstimatesAreNotWritten(t *testing.T) {
	fan := &catalog.Fan{Part: "A1", Voltage: quantity.From(quantity.Voltage(12), quantity.Estimate)}
	var out bytes.Buffer
	if err := Write(&out, []*catalog.Fan{fan}); err != nil {
		t.Fatal(err)
	}
	if got := strings.Split(out.String(), "\n")[1]; strings.Contains(got, "12") {
		t.Errorf("row = %s, want no estimated voltage", got)
	}
}

// drawBands draws octaves or third octaves of levels that make a spectrum.
func drawBands(t *rapid.T) []quantity.BandLevel {
	step, low, high := perOctave, rapid.SampledFrom([]int{15, 18, 21}).Draw(t, "lowest"), rapid.SampledFrom([]int{36, 39, 42}).Draw(t, "highest")
	if rapid.Bool().Draw(t, "thirds") {
		step, low, high = 1, rapid.IntRange(14, 20).Draw(t, "lowest"), rapid.IntRange(39, 43).Draw(t, "highest")
	}
	var bands []quantity.BandLevel
	for n := low; n <= high; n += step {
		level := float64(rapid.IntRange(0, 1000).Draw(t, "level")) / 10
		bands = append(bands, quantity.BandLevel{Frequency: nominalHz(n), Level: quantity.Decibel(level)})
	}
	return bands
}
