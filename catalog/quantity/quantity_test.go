package quantity

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// TestUnitFactors checks conversion factors against NIST SP 811 (2008),
// appendix B.8, to half a unit of the last digit printed there.
func TestUnitFactors(t *testing.T) {
	rows := []struct {
		name, source string
		got, want    float64
		tol          float64
	}{
		{"cubic foot per minute", "NIST SP 811 B.8: 4.719 474 E-04 m³/s (from memory)", float64(CFM), 4.719474e-4, 0.5e-10},
		{"inch of water, conventional", "NIST SP 811 B.8: 2.490 889 E+02 Pa (from memory)", float64(InchWater), 2.490889e2, 0.5e-4},
		{"millimetre of water, conventional", "NIST SP 811 B.8: 9.806 65 E+00 Pa (from memory)", float64(MillimetreWater), 9.80665, 0.5e-5},
		{"inch", "NIST SP 811 B.8: 2.54 E-02 m, exact", float64(Inch), 0.0254, 0},
		{"foot", "NIST SP 811 B.8: 3.048 E-01 m, exact (from memory)", float64(Foot), 0.3048, 0},
		{"psi", "NIST SP 811 B.8: 6.894 757 E+03 Pa (from memory)", float64(PoundPerSquare), 6.894757e3, 0.5e-3},
		{"revolution per minute", "NIST SP 811 B.8: 1.047 198 E-01 rad/s (from memory)", 2 * math.Pi * float64(RevolutionPerMinute), 1.047198e-1, 0.5e-7},
	}
	for _, r := range rows {
		if math.Abs(r.got-r.want) > r.tol {
			t.Errorf("%s = %v, want %v ± %v (%s)", r.name, r.got, r.want, r.tol, r.source)
		}
	}
}

func TestParse(t *testing.T) {
	flow, length, pressure := PreferredUnit(DimFlow), PreferredUnit(DimLength), PreferredUnit(DimPressure)
	rows := []struct {
		text string
		bare Unit
		want float64
	}{
		{"20m3/h", flow, 20.0 / 3600},
		{"20", flow, 20.0 / 3600},
		{" 20 m³/h ", flow, 20.0 / 3600},
		{"12CFM", flow, 12 * float64(CFM)},
		{"5.5 l/s", flow, 5.5e-3},
		{"1e2 l/min", flow, 0.1 / 60},
		{`2.36"`, length, 2.36 * 0.0254},
		{"60 mm", length, 0.060},
		{"3 ft", length, 0.9144},
		{"3feet", length, 0.9144},
		{"1 foot", length, 0.3048},
		{"0.5 inH₂O", pressure, 0.5 * float64(InchWater)},
		{"3 mmAq", pressure, 3 * float64(MillimetreWater)},
		{"68°F", PreferredUnit(DimTemperature), 20},
		{"-40 C", PreferredUnit(DimTemperature), -40},
		{"70 ºC", PreferredUnit(DimTemperature), 70},
		{"4.2 B", PreferredUnit(DimLevel), 42},
		{"3000 min⁻¹", PreferredUnit(DimSpeed), 50},
		{"3000 U/min", PreferredUnit(DimSpeed), 50},
		{"12 V DC", PreferredUnit(DimVoltage), 12},
	}
	for _, r := range rows {
		got, err := Parse(r.text, r.bare)
		if err != nil || math.Abs(got-r.want) > 1e-12*math.Max(1, math.Abs(r.want)) {
			t.Errorf("Parse(%q, %s) = %v, %v, want %v", r.text, r.bare.Symbol, got, err, r.want)
		}
	}
}

func TestParseRefuses(t *testing.T) {
	flow := PreferredUnit(DimFlow)
	rows := []struct{ text, want string }{
		{"", `flow "": no number in it`},
		{"fast", `flow "fast": no number in it`},
		{"NaN", `flow "NaN": no number in it`},
		{"1e999", `flow "1e999": not a number`},
		{"1,5 m3/h", `flow "1,5 m3/h": a comma in a number`},
		{"20 m3/g", `flow "20 m3/g": unit "m3/g" is not one of m³/h, m³/min, m³/s, l/s, l/min, CFM`},
		{"20 Pa", `flow "20 Pa": unit "Pa" is not one of m³/h, m³/min, m³/s, l/s, l/min, CFM`},
		{"--3", `flow "--3": not a number`},
	}
	for _, r := range rows {
		_, err := Parse(r.text, flow)
		if err == nil || err.Error() != r.want {
			t.Errorf("Parse(%q) error = %v, want %s", r.text, err, r.want)
		}
	}
}

// Property: a value survives the way into any unit and back.
func TestUnitRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u := rapid.SampledFrom(units).Draw(t, "unit")
		v := rapid.Float64Range(-1e6, 1e6).Draw(t, "value")
		if back := u.FromSI(u.ToSI(v)); math.Abs(back-v) > 1e-9*math.Max(1, math.Abs(v)) {
			t.Fatalf("%s: %v came back as %v", u.Symbol, v, back)
		}
	})
}

// No spelling may name two units of one dimension.
func TestSpellingsAreUnique(t *testing.T) {
	for _, u := range units {
		for _, v := range units {
			if u.Symbol != v.Symbol && u.Dimension == v.Dimension && v.spelled(Fold(u.Symbol)) {
				t.Errorf("%s also spells %s", u.Symbol, v.Symbol)
			}
		}
	}
}

func TestKnownZeroIsUnknown(t *testing.T) {
	var k Known[Flow]
	if _, ok := k.Get(); ok || k.Origin() != Unknown {
		t.Fatalf("zero Known = %v, want unknown", k)
	}
	if From(Flow(1), Unknown) != k {
		t.Fatal("From with Unknown must give the zero Known")
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"20m3/h", "1,5", "2.36\"", "−3 °C", "1e5", "e", "+.", "１２ V"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		for d := DimLength; d <= DimLevel; d++ {
			if v, err := Parse(s, PreferredUnit(d)); err == nil && (math.IsNaN(v) || math.IsInf(v, 0)) {
				t.Fatalf("Parse(%q) let %v through", s, v)
			}
		}
	})
}
