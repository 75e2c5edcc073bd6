package gen

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// read is this test's own reading of a cell: its numbers with the text behind each.
var read = regexp.MustCompile(`(\d+(?:[.,]\d+)?)([^\d]*)`)

func numbersIn(cell string) (values []float64, units []string) {
	for _, m := range read.FindAllStringSubmatch(cell, -1) {
		v, _ := strconv.ParseFloat(strings.Replace(m[1], ",", ".", 1), 64)
		values, units = append(values, v), append(units, m[2])
	}
	return values, units
}

// The factors are exact: 1 ft = 0.3048 m, 1 mmH₂O = 9.80665 Pa, 1 inH₂O = 249.08891 Pa.
func toFlow(v float64, unit string) (m3h, half float64) {
	switch {
	case strings.Contains(unit, "CFM"):
		return v * 0.3048 * 0.3048 * 0.3048 * 60, 0.05 * 1.7
	case strings.Contains(unit, "m³/min"):
		return v * 60, 0.0005 * 60
	case strings.Contains(unit, "l/s"):
		return v * 3.6, 0.05 * 3.6
	}
	return v, 1e-9
}

func toPressure(v float64, unit string) (pa, half float64) {
	switch {
	case strings.Contains(unit, "mmH"):
		return v * 9.80665, 0.005 * 9.81
	case strings.Contains(unit, "inH2O"):
		return v * 249.08891, 0.0005 * 250
	}
	return v, 1e-9
}

// Every cell keeps its value to half a unit of the last digit it prints.
func TestCellsKeepTheTruth(t *testing.T) {
	specs := many()
	list, account := messyBytes(t, specs)
	bad := map[int]bool{}
	for _, b := range account.Bad {
		bad[b.Line] = true
	}
	last := map[string]record{}
	for _, r := range records(t, list)[3:] {
		if !bad[r.line] {
			last[fold(r.cell("Hersteller"))+fold(r.cell("Typ / type"))] = r
		}
	}
	for _, s := range specs {
		r := last[fold(s.Maker)+fold(s.Part)]
		checkAir(t, s, r)
		checkNoise(t, s, r)
		checkPlainCells(t, s, r)
		checkFrame(t, s, r)
	}
}

func checkAir(t *testing.T, s Spec, r record) {
	t.Helper()
	for _, c := range []struct {
		header string
		truth  Number
		to     func(float64, string) (float64, float64)
	}{{"Luftmenge\nm³/h", s.AirflowM3h, toFlow}, {"stat. Druck Pa", s.StaticPressurePa, toPressure}} {
		cell := strings.ReplaceAll(r.cell(c.header), "H₂O", "H2O")
		values, units := numbersIn(strings.ReplaceAll(cell, "H2O", "HO"))
		if c.truth.Known != (len(values) > 0) {
			t.Errorf("%s: %q = %q, want %+v", s.Part, c.header, cell, c.truth)
			continue
		}
		for i, v := range values {
			if strings.Contains(cell, "–") && i > 0 {
				continue // the high end of a range
			}
			unit := strings.Replace(units[i], "HO", "H2O", 1)
			if got, half := c.to(v, unit); math.Abs(got-c.truth.Value) > half {
				t.Errorf("%s: %q = %q reads %v, want %v ± %v", s.Part, c.header, cell, got, c.truth.Value, half)
			}
		}
	}
}

func checkNoise(t *testing.T, s Spec, r record) {
	t.Helper()
	cell := r.cell("Geräusch dB(A)")
	values, units := numbersIn(cell)
	if s.NoiseDBA.Known != (len(values) > 0) {
		t.Errorf("%s: level %q, want %+v", s.Part, cell, s.NoiseDBA)
		return
	}
	if len(values) == 0 {
		return
	}
	got, unit := values[len(values)-1], units[len(units)-1]
	bels := strings.HasPrefix(strings.TrimSpace(unit), "B") || strings.Contains(unit, "bel")
	if bels {
		got *= 10
	}
	if power := bels || strings.Contains(cell, "LwA"); math.Abs(got-s.NoiseDBA.Value) > 0.01 || power != (s.NoiseKind == "power") {
		t.Errorf("%s: level %q, want %v, kind %s", s.Part, cell, s.NoiseDBA.Value, s.NoiseKind)
	}
}

// checkPlainCells reads the columns that are one number; a point in these is one between thousands.
func checkPlainCells(t *testing.T, s Spec, r record) {
	t.Helper()
	for header, want := range map[string]Number{"Lochabstand mm": s.HolePitchMM, "Leistung (W)": s.PowerW, "Drehzahl 1/min": s.SpeedRPM,
		"Messabstand [m]": s.NoiseDistanceM, "Adern / leads": s.Leads, "Tacho Imp./U": s.TachPerRev, "Anlaufspannung V": s.StartVoltageV,
		"Flügel": s.Blades, "Lebensdauer [h]": s.LifeH, "Lebensdauer bei °C": s.LifeTempC, "Lagerbestand": s.Stock, "Preis netto": s.Price,
		"Frequenz Hz": s.FrequencyHz, "Nennspannung": s.VoltageV} {
		values, _ := numbersIn(strings.ReplaceAll(r.cell(header), ".", ""))
		if want.Known != (len(values) > 0) || want.Known && math.Abs(values[0]-want.Value) > 1e-9 {
			t.Errorf("%s: %q = %q, want %+v", s.Part, header, r.cell(header), want)
		}
	}
	for i, want := range s.OctavesDB {
		header := "Oktavpegel " + octaves[i] + " [dB]"
		if values, _ := numbersIn(r.cell(header)); want.Known != (len(values) > 0) || want.Known && values[0] != want.Value {
			t.Errorf("%s: %q = %q, want %+v", s.Part, header, r.cell(header), want)
		}
	}
	current, err := strconv.ParseFloat(strings.TrimSuffix(r.cell("Strom [A]"), " mA"), 64)
	if strings.HasSuffix(r.cell("Strom [A]"), " mA") {
		current /= 1000
	}
	if err != nil || math.Abs(current-s.CurrentA.Value) > 1e-9 {
		t.Errorf("%s: current %q, want %v", s.Part, r.cell("Strom [A]"), s.CurrentA.Value)
	}
	limits, _ := numbersIn(r.cell("Nennspannung"))
	if len(limits) == 1 {
		lo, _ := numbersIn(r.cell("Umin [V]"))
		hi, _ := numbersIn(r.cell("Umax [V]"))
		limits = append(append(limits, lo...), hi...)
	}
	if s.VoltageMinV.Known != (len(limits) == 3) || s.VoltageMinV.Known && (limits[1] != s.VoltageMinV.Value || limits[2] != s.VoltageMaxV.Value) {
		t.Errorf("%s: voltages %v, want %+v to %+v", s.Part, limits, s.VoltageMinV, s.VoltageMaxV)
	}
	if curve := r.cell("Kennlinie (m³/h:Pa)"); len(s.Curve) > 0 && strings.Count(curve, ":") != knots || (curve == "") != (len(s.Curve) == 0) {
		t.Errorf("%s: curve %q of %d points", s.Part, curve, len(s.Curve))
	}
}

func checkFrame(t *testing.T, s Spec, r record) {
	t.Helper()
	cell := r.cell("Abmessungen [mm]")
	var sizes []float64
	for _, part := range regexp.MustCompile(`[x×X*]`).Split(cell, -1) {
		if values, _ := numbersIn(part); strings.Contains(part, `"`) {
			inch := values[0]
			if len(values) == 3 {
				inch += values[1] / values[2]
			}
			sizes = append(sizes, inch*25.4)
		} else {
			sizes = append(sizes, values[0])
		}
	}
	if strings.HasPrefix(cell, "□") {
		sizes = append(sizes[:1], sizes...)
	}
	want := []float64{s.WidthMM.Value, s.HeightMM.Value, s.DepthMM.Value}
	for i, w := range want {
		if len(sizes) != 3 || math.Abs(sizes[i]-w) > 0.7 {
			t.Errorf("%s: frame %q reads %v, want %v ± 0.7", s.Part, cell, sizes, want)
			return
		}
	}
}
