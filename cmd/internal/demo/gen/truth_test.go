package gen_test

import (
	"bytes"
	"context"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"lowsone/catalog"
	"lowsone/catalog/intake"
	"lowsone/catalog/quantity"
	"lowsone/catalog/store"
	"lowsone/cmd/internal/demo/gen"
)

// The untidy list must be read to the truth it was made from: the account to
// the row, and every known value to half a unit of the last digit printed.
func TestMessyListIsReadToItsTruth(t *testing.T) {
	const seed, n = 7, 2000
	specs := gen.Catalogue(seed, n)
	var list bytes.Buffer
	truth, err := gen.WriteMessy(&list, specs, seed)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	file := filepath.Join(dir, "list.csv")
	if err := os.WriteFile(file, list.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	ctx := context.Background()
	cat := filepath.Join(dir, "catalogue")
	a, err := intake.Run(ctx, intake.Options{File: file, Catalog: cat})
	if err != nil {
		t.Fatal(err)
	}
	if a.Rows != truth.Rows || a.Rejected != len(truth.Bad) || a.Repeated != truth.Repeated || a.Imported != len(specs) {
		t.Errorf("account = %d rows, %d imported, %d rejected, %d repeated, want %d, %d, %d, %d",
			a.Rows, a.Imported, a.Rejected, a.Repeated, truth.Rows, len(specs), len(truth.Bad), truth.Repeated)
	}
	for i, r := range a.Rejects {
		if i < len(truth.Bad) && r.At.Line != truth.Bad[i].Line {
			t.Errorf("reject %d stands on line %d, want %d (%s)", i, r.At.Line, truth.Bad[i].Line, truth.Bad[i].Reason)
			break
		}
	}
	c, err := store.Open(ctx, cat)
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	bad := 0
	for i := range specs {
		rows, err := c.Find(specs[i].Maker, specs[i].Part)
		if err != nil || len(rows) != 1 {
			t.Fatalf("Find(%q, %q) = %v, %v", specs[i].Maker, specs[i].Part, rows, err)
		}
		f, err := c.Fan(rows[0])
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range differences(&specs[i], f) {
			if bad++; bad < 40 {
				t.Errorf("%s: %s", specs[i].Part, p)
			}
		}
	}
}

func differences(s *gen.Spec, f *catalog.Fan) []string {
	var list []string
	text := func(name, want, got string) {
		if want != "" && catalog.FoldKey(want) != catalog.FoldKey(got) {
			list = append(list, name+" = "+got+", want "+want)
		}
	}
	number := func(id catalog.FieldID, want gen.Number, tol float64) {
		d := &catalog.Fields[id]
		v, o := d.Get(f)
		switch {
		case want.Known && (o != quantity.Cell || math.Abs(d.InUnit(v.Number)-want.Value) > tol*(1+1e-9)):
			list = append(list, d.Name+" = "+d.Format(f)+" "+o.String()+", want "+catalog.Number(want.Value))
		case !want.Known && o == quantity.Cell && id != catalog.FieldTachPerRev:
			list = append(list, d.Name+" = "+d.Format(f)+", want unknown")
		}
	}
	choice := func(id catalog.FieldID, want string) {
		if got := catalog.Fields[id].Format(f); want != "" && got != want {
			list = append(list, catalog.Fields[id].Name+" = "+got+", want "+want)
		}
	}
	text("maker", s.Maker, f.Maker)
	text("connector", s.Connector, f.Connector)
	text("bearing", s.Bearing, f.Bearing)
	text("currency", s.Currency, f.Currency)
	text("supplier", s.Supplier, f.Supplier)
	text("order_code", s.OrderCode, f.OrderCode)
	choice(catalog.FieldKind, s.Kind)
	choice(catalog.FieldSupply, s.Supply)
	choice(catalog.FieldPWM, s.PWM)
	if s.NoiseKind == "power" {
		choice(catalog.FieldNoiseKind, s.NoiseKind)
	}
	for _, r := range []struct {
		id   catalog.FieldID
		want gen.Number
		tol  float64
	}{
		{catalog.FieldWidth, s.WidthMM, 0.7}, {catalog.FieldHeight, s.HeightMM, 0.7}, {catalog.FieldDepth, s.DepthMM, 0.7},
		{catalog.FieldHolePitch, s.HolePitchMM, 1e-9},
		{catalog.FieldVoltage, s.VoltageV, 1e-9}, {catalog.FieldVoltageMin, s.VoltageMinV, 1e-9}, {catalog.FieldVoltageMax, s.VoltageMaxV, 1e-9},
		{catalog.FieldCurrent, s.CurrentA, 0.0005}, {catalog.FieldPower, s.PowerW, 1e-9}, {catalog.FieldLeads, s.Leads, 0},
		{catalog.FieldTachPerRev, s.TachPerRev, 0}, {catalog.FieldStartVoltage, s.StartVoltageV, 1e-9}, {catalog.FieldFrequency, s.FrequencyHz, 1e-9},
		{catalog.FieldAirflow, s.AirflowM3h, 0.19}, {catalog.FieldStaticPressure, s.StaticPressurePa, 0.13},
		{catalog.FieldSpeed, s.SpeedRPM, 1e-6}, {catalog.FieldNoise, s.NoiseDBA, 0.5},
		{catalog.FieldNoiseDistance, s.NoiseDistanceM, 1e-9}, {catalog.FieldBlades, s.Blades, 0},
		{catalog.FieldLife, s.LifeH, 1e-6}, {catalog.FieldLifeTemp, s.LifeTempC, 1e-9}, {catalog.FieldTempMax, s.TempMaxC, 1e-9},
		{catalog.FieldPrice, s.Price, 0.005}, {catalog.FieldStock, s.Stock, 0},
	} {
		number(r.id, r.want, r.tol)
	}
	if got, want := catalog.FormatBands(f.NoiseBands), octavesOf(s); got != want {
		list = append(list, "noise_bands = "+got+", want "+want)
	}
	if len(s.Curve) != len(f.Curve) {
		list = append(list, "curve differs")
	}
	return list
}

// octavesOf is the octaves of a label as the catalogue keeps them; one that is missing between others leaves none.
func octavesOf(s *gen.Spec) string {
	var pairs []string
	for i, l := range s.OctavesDB {
		switch hz := []string{"63", "125", "250", "500", "1000", "2000", "4000", "8000"}[i]; {
		case l.Known:
			pairs = append(pairs, hz+":"+catalog.Number(l.Value))
		case len(pairs) > 0:
			return ""
		}
	}
	return strings.Join(pairs, ";")
}
