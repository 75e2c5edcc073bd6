package view

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lowsone/catalog"
)

func TestDigits(t *testing.T) {
	rows := []struct {
		v    float64
		n    int
		want string
	}{
		{20, 3, "20.0"}, {27.184, 3, "27.2"}, {9.996, 3, "10.0"}, {99.96, 3, "100"}, {1234.4, 3, "1234"},
		{0.12345, 3, "0.123"}, {0.0001, 3, "0.000100"}, {0, 3, "0"}, {-0.0049, 2, "-0.0049"},
		{math.NaN(), 3, Unknown}, {math.Inf(1), 3, Unknown},
	}
	for _, r := range rows {
		if got := Digits(r.v, r.n); got != r.want {
			t.Errorf("Digits(%v, %d) = %q, want %q", r.v, r.n, got, r.want)
		}
	}
}

// Property: what people read is within half a unit of the third digit of what
// was computed.
func TestDigitsAreRight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(1e-6, 1e6).Draw(t, "v")
		back, err := strconv.ParseFloat(Digits(v, 3), 64)
		if err != nil || math.Abs(back-v) > 0.5001*math.Pow(10, math.Floor(math.Log10(v))-2)+1e-12 && math.Abs(back-v) > 0.5001 {
			t.Fatalf("Digits(%v, 3) = %q, error %v", v, Digits(v, 3), err)
		}
	})
}

func TestFixedHasNoMinusZero(t *testing.T) {
	if got := Fixed(-0.04, 1); got != "0.0" {
		t.Errorf("Fixed(-0.04, 1) = %q, want 0.0", got)
	}
}

func TestValue(t *testing.T) {
	rows := []struct {
		field catalog.FieldID
		si    float64
		want  string
	}{
		{catalog.FieldAirflow, 20.0 / 3600, "20"},
		{catalog.FieldAirflow, 16 * 0.3048 * 0.3048 * 0.3048 / 60, "27.2"},
		{catalog.FieldStaticPressure, 3 * 9.80665, "29.4"},
		{catalog.FieldDepth, 0.0254, "25.4"},
		{catalog.FieldDepth, 0.025, "25"},
		{catalog.FieldWidth, 3.125 * 0.0254, "79.4"},
		{catalog.FieldNoiseDistance, 0.25, "0.25"},
		{catalog.FieldVoltage, 13.8, "13.8"},
		{catalog.FieldNoise, 28.5, "28.5"},
		{catalog.FieldSpeed, 2800.0 / 60, "2800"},
		{catalog.FieldPrice, 4.2, "4.20"},
		{catalog.FieldStock, 120, "120"},
		{catalog.FieldTempMax, 70, "70"},
		{catalog.FieldLife, 70000 * 3600, "70000"},
		{catalog.FieldCurrent, 0.08, "0.08"},
		{catalog.FieldAirflow, math.NaN(), Unknown},
	}
	for _, r := range rows {
		if got := Value(&catalog.Fields[r.field], r.si); got != r.want {
			t.Errorf("Value(%s, %v) = %q, want %q", catalog.Fields[r.field].Name, r.si, got, r.want)
		}
	}
}

func TestEstimatesAreMarked(t *testing.T) {
	if got := Estimated("12"); got != "~12" || !strings.HasPrefix(EstimateNote, EstimateMark) {
		t.Errorf("Estimated(12) = %q with note %q", got, EstimateNote)
	}
	if got := Estimated(Unknown); got != Unknown {
		t.Errorf("Estimated(Unknown) = %q, want it unmarked", got)
	}
}
