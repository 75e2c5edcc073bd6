package store

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"

	"pgregory.net/rapid"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// anyFan draws a fan with any fields known, of any origin and value that a
// record can hold.
func anyFan() *rapid.Generator[*catalog.Fan] {
	return rapid.Custom(func(t *rapid.T) *catalog.Fan {
		f := &catalog.Fan{}
		for i := range catalog.Fields {
			d := &catalog.Fields[i]
			if d.ID == catalog.FieldPart || rapid.IntRange(0, 2).Draw(t, "known") > 0 {
				d.Put(f, anyValue(t, d), anyOrigin(t, d))
			}
		}
		for range rapid.IntRange(0, 2).Draw(t, "extras") {
			f.Extra = append(f.Extra, catalog.Extra{Header: rapid.String().Draw(t, "header"), Text: rapid.String().Draw(t, "text")})
		}
		for range rapid.IntRange(0, 2).Draw(t, "remarks") {
			f.Remarks = append(f.Remarks, rapid.String().Draw(t, "remark"))
		}
		f.Source.Line = rapid.IntRange(0, 1<<20).Draw(t, "line")
		return f
	})
}

func anyOrigin(t *rapid.T, d *catalog.Field) quantity.Origin {
	if d.Form == catalog.Text || d.Form == catalog.Points || d.Form == catalog.Bands {
		return quantity.Cell // the record keeps no other for these
	}
	return rapid.SampledFrom([]quantity.Origin{quantity.Cell, quantity.Estimate, quantity.Default}).Draw(t, "origin")
}

func anyValue(t *rapid.T, d *catalog.Field) (v catalog.Value) {
	number := rapid.Float64Range(-math.MaxFloat64, math.MaxFloat64)
	switch d.Form {
	case catalog.Text:
		v.Text = rapid.StringN(0, 20, -1).Draw(t, "text") + "x"
	case catalog.Choice:
		v.Number = float64(rapid.IntRange(1, len(d.Choices)).Draw(t, "choice"))
	case catalog.Points:
		for range rapid.IntRange(1, 4).Draw(t, "points") {
			v.Curve = append(v.Curve, catalog.CurvePoint{Flow: quantity.Flow(number.Draw(t, "flow")), Pressure: quantity.Pressure(number.Draw(t, "pressure"))})
		}
	case catalog.Bands:
		for range rapid.IntRange(1, 28).Draw(t, "bands") {
			v.Bands = append(v.Bands, quantity.BandLevel{Frequency: quantity.Frequency(number.Draw(t, "frequency")), Level: quantity.Decibel(number.Draw(t, "level"))})
		}
	default:
		v.Number = number.Draw(t, "number")
	}
	return v
}

// inventedFans are n fans of invented makers, the same at every run, as full
// as a distributor's list.
func inventedFans(n int) []*catalog.Fan {
	r := rand.New(rand.NewPCG(1, 2))
	makers := []string{"Nordwind", "Halvorsen", "Brümmer", "Cécile", "Tarsus", "Odalys"}
	fans := make([]*catalog.Fan, n)
	for i := range fans {
		size, depth, volts := 40+10*r.IntN(9), 10+5*r.IntN(5), 12*(1+r.IntN(4))
		flow, pressure := 5+r.Float64()*200, 10+r.Float64()*100
		f := &catalog.Fan{
			Part: fmt.Sprintf("%c%c-%04d/%d", 'A'+r.IntN(26), 'A'+r.IntN(26), r.IntN(10000), i), Maker: makers[r.IntN(len(makers))],
			Connector: "3-pin housing", Bearing: []string{"ball", "sleeve"}[r.IntN(2)], Currency: "EUR", Supplier: "Kontor Süd",
			OrderCode: fmt.Sprintf("%03d-%06d", r.IntN(1000), i), Description: "axial fan with tach output, plastic housing, lead wires 300 mm",
			Extra:  []catalog.Extra{{Header: "Verpackung", Text: fmt.Sprintf("Karton zu %d", 10*(1+r.IntN(5)))}},
			Source: catalog.Source{Line: i + 2},
		}
		put := func(id catalog.FieldID, v float64) {
			catalog.Fields[id].Put(f, catalog.Value{Number: v}, quantity.Cell)
		}
		in := func(id catalog.FieldID, v float64) { put(id, catalog.Fields[id].SI(round(v, 3))) }
		put(catalog.FieldKind, float64(catalog.Axial))
		put(catalog.FieldSupply, float64(catalog.DC))
		in(catalog.FieldWidth, float64(size))
		in(catalog.FieldHeight, float64(size))
		in(catalog.FieldDepth, float64(depth))
		in(catalog.FieldVoltage, float64(volts))
		in(catalog.FieldPower, 0.5+10*r.Float64())
		in(catalog.FieldLeads, float64(2+r.IntN(3)))
		in(catalog.FieldAirflow, flow)
		in(catalog.FieldStaticPressure, pressure)
		in(catalog.FieldSpeed, 1000+4000*r.Float64())
		in(catalog.FieldNoise, 15+30*r.Float64())
		in(catalog.FieldPrice, 2+40*r.Float64())
		in(catalog.FieldStock, float64(r.IntN(500)))
		if i%5 == 0 {
			for j := range 6 {
				x := float64(j) / 5
				f.Curve = append(f.Curve, catalog.CurvePoint{Flow: quantity.Flow(x*flow) * quantity.CubicMetrePerHour, Pressure: quantity.Pressure(pressure * (1 - x*x))})
			}
		}
		if i%50 == 3 {
			for j := range 9 {
				f.NoiseBands = append(f.NoiseBands, quantity.BandLevel{Frequency: quantity.Frequency(31.25 * math.Pow(2, float64(j))), Level: quantity.Decibel(10 + 30*r.Float64())})
			}
		}
		fans[i] = f
	}
	return fans
}

// round gives v with n decimals.
func round(v float64, n int) float64 {
	scale := math.Pow10(n)
	return math.Round(v*scale) / scale
}

func bitsOf(v float64) uint64 { return math.Float64bits(v) }

func known[T any](v T) quantity.Known[T] { return quantity.Stated(v) }

// exported lets cmp look into Known and Temperature.
func exported(reflect.Type) bool { return true }

// anyFans draws fans of any kind, each key once.
func anyFans(seed int) []*catalog.Fan {
	return rapid.SliceOfNDistinct(anyFan(), 1, 60, (*catalog.Fan).Key).Example(seed)
}
