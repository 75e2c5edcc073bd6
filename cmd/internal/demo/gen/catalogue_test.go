package gen

import (
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"
)

func TestDemoIsTheWholePlanOnce(t *testing.T) {
	count := 0
	for _, f := range plan() {
		for _, r := range f.runs {
			for grade := range strings.FieldsSeq(r.grades) {
				count += len(builds(f, r.volts, grade))
			}
		}
	}
	if count != DemoRows || count < 420 {
		t.Errorf("the plan holds %d fans, DemoRows is %d, want them equal and at least 420", count, DemoRows)
	}
}

func TestSameSeedSameFans(t *testing.T) {
	a, b := Catalogue(7, 1000), Catalogue(7, 1000)
	if !reflect.DeepEqual(a, b) {
		t.Error("two catalogues of one seed differ")
	}
	for _, n := range []int{0, 1, 100, 433, 434} {
		if short := Catalogue(7, n); len(short) != n || !reflect.DeepEqual(short, a[:n:n]) && n > 0 {
			t.Errorf("Catalogue(7, %d) holds %d fans or is not the beginning of a longer one", n, len(short))
		}
	}
	if reflect.DeepEqual(Catalogue(8, 100), a[:100]) {
		t.Error("another seed gives the same fans")
	}
}

// Floating point may differ in the last bit between processors; that must not reach the committed file.
func TestNoValueLiesOnARoundingBorder(t *testing.T) {
	d := newDrawer(DemoSeed)
	d.catalogue(DemoRows)
	if d.nearest < 1e-9 {
		t.Errorf("a value lies %.1e steps from a rounding border, want at least 1e-9", d.nearest)
	}
}

func fold(text string) string { return strings.ToLower(strings.Join(strings.Fields(text), " ")) }

func TestKeysAreUnique(t *testing.T) {
	seen, codes := map[string]bool{}, map[string]bool{}
	for _, s := range Catalogue(DemoSeed, 10*DemoRows) {
		key := fold(s.Maker) + "|" + fold(s.Part)
		if seen[key] || codes[s.OrderCode] {
			t.Errorf("%s %s, order code %s: not unique", s.Maker, s.Part, s.OrderCode)
		}
		seen[key], codes[s.OrderCode] = true, true
	}
}

// Source: testdata/sources/fit_frames.csv; AC frames of 119 mm with pitch 104.8 are from MEMORY there.
func TestFramesAreTheTrades(t *testing.T) {
	frames := map[string]map[string]string{}
	for _, row := range rows(t, "fit_frames.csv") {
		if row["kind"] == "axial_square" {
			frames[row["frame_mm"]] = row
		}
	}
	for _, s := range many() {
		if s.Kind != kindAxial || s.WidthMM != s.HeightMM {
			continue
		}
		size := s.WidthMM.Value
		if size == 119 {
			size = 120
		}
		row, ok := frames[comma(size, -1)]
		pitches := append(strings.Split(row["pitch_other_seen_mm"], ";"), row["pitch_mm"])
		if pitch := strconvPoint(s.HolePitchMM.Value); !ok || s.HolePitchMM.Known && !slices.Contains(pitches, pitch) {
			t.Errorf("%s: frame %v with pitch %s, want one of %v (fit_frames)", s.Part, size, pitch, pitches)
		}
		if depths := strings.Split(row["usual_depths_mm"], ";"); !slices.Contains(depths, strconvPoint(s.DepthMM.Value)) {
			t.Errorf("%s: frame %v is %v deep, want one of %v (fit_frames)", s.Part, size, s.DepthMM.Value, depths)
		}
	}
}

func strconvPoint(v float64) string { return strings.Replace(comma(v, -1), ",", ".", 1) }

// Source: testdata/sources/fit_connectors.csv.
func TestConnectorsAreTheTrades(t *testing.T) {
	var families []string
	for _, row := range rows(t, "fit_connectors.csv") {
		families = append(families, row["family"])
	}
	for _, s := range many() {
		if s.Connector != "" && !slices.ContainsFunc(families, func(f string) bool { return strings.HasPrefix(f, s.Connector) }) {
			t.Errorf("%s: connector %q is none of fit_connectors", s.Part, s.Connector)
		}
	}
}

func TestLabelsAreWhole(t *testing.T) {
	for _, s := range many() {
		if s.NoiseDBA.Known && s.NoiseKind == "" || s.NoiseKind == "power" && s.NoiseDistanceM.Known {
			t.Errorf("%s: level %+v of kind %q at %+v", s.Part, s.NoiseDBA, s.NoiseKind, s.NoiseDistanceM)
		}
		if s.NoiseDBA.Known && s.NoiseDBA.Value < 10 {
			t.Errorf("%s: level %v dB(A) would be taken for bels", s.Part, s.NoiseDBA.Value)
		}
		if s.Supply == supplyAC != s.FrequencyHz.Known || s.Price.Known != (s.Currency != "") {
			t.Errorf("%s: supply %s with %+v Hz, price %+v %s", s.Part, s.Supply, s.FrequencyHz, s.Price, s.Currency)
		}
		if (s.Leads.Value == 2 || s.alarm) == s.TachPerRev.Known || s.Leads.Value == 4 != (s.PWM == "yes") {
			t.Errorf("%s: %v leads, tach %+v, PWM %q", s.Part, s.Leads.Value, s.TachPerRev, s.PWM)
		}
		if s.StartVoltageV.Known && s.VoltageMinV.Known && s.StartVoltageV.Value > s.VoltageMinV.Value {
			t.Errorf("%s: starts at %v V, runs from %v V", s.Part, s.StartVoltageV.Value, s.VoltageMinV.Value)
		}
		labelled(t, s)
	}
}

// labelled checks the label against what the fan does: rounded, or better by what its maker promises.
func labelled(t *testing.T, s Spec) {
	t.Helper()
	if s.AirflowM3h.Known && !within(s.AirflowM3h.Value, s.Physics.FlowM3h*(1+s.maker.flow), 0.02) {
		t.Errorf("%s: label %v m³/h, fan %.2f", s.Part, s.AirflowM3h.Value, s.Physics.FlowM3h)
	}
	if s.StaticPressurePa.Known && !within(s.StaticPressurePa.Value, s.Physics.PressurePa*(1+s.maker.pressure), 0.03) {
		t.Errorf("%s: label %v Pa, fan %.2f", s.Part, s.StaticPressurePa.Value, s.Physics.PressurePa)
	}
	level := s.NoiseDBA.Value
	if s.NoiseKind == "power" {
		level -= 11
	} else if s.NoiseDistanceM.Known {
		level += 20 * math.Log10(s.NoiseDistanceM.Value)
	}
	if s.NoiseDBA.Known && math.Abs(level-(s.Physics.LevelDBA-s.maker.hush)) > 0.51 {
		t.Errorf("%s: label comes to %.1f dB(A) at 1 m, fan %.2f", s.Part, level, s.Physics.LevelDBA)
	}
}

func TestCurvesAreCurves(t *testing.T) {
	curves, dips, stale := 0, 0, 0
	for _, s := range many() {
		if len(s.Curve) == 0 {
			continue
		}
		curves++
		dip := false
		for i := 1; i < len(s.Curve); i++ {
			if s.Curve[i].FlowM3h <= s.Curve[i-1].FlowM3h {
				t.Errorf("%s: curve's flow does not rise at point %d: %v", s.Part, i, s.Curve)
			}
			dip = dip || s.Curve[i].PressurePa > s.Curve[i-1].PressurePa
		}
		if dip && s.Kind == kindAxial {
			dips++
		}
		end := s.Curve[len(s.Curve)-1]
		if s.Curve[0] != (Point{0, s.StaticPressurePa.Value}) || end.PressurePa != 0 {
			t.Errorf("%s: curve runs from %v to %v, label %v Pa", s.Part, s.Curve[0], end, s.StaticPressurePa.Value)
		}
		if end.FlowM3h < 0.97*s.AirflowM3h.Value {
			stale++
		} else if end.FlowM3h != s.AirflowM3h.Value {
			t.Errorf("%s: curve ends at %v m³/h, label %v", s.Part, end.FlowM3h, s.AirflowM3h.Value)
		}
	}
	if curves < 300 || dips < 30 || stale < 5 || stale > 30 {
		t.Errorf("%d curves, %d axial ones with a dip, %d that disagree with the label, want ≥ 300, ≥ 30, 5 to 30", curves, dips, stale)
	}
}

func TestCatalogueHasEverything(t *testing.T) {
	specs := Catalogue(DemoSeed, DemoRows)
	for _, row := range []struct {
		name string
		want int
		is   func(s Spec) bool
	}{
		{"60 mm axial", 80, func(s Spec) bool { return s.WidthMM.Value == 60 && s.Kind == kindAxial }},
		{"40×40×20", 20, func(s Spec) bool { return s.WidthMM.Value == 40 && s.DepthMM.Value == 20 }},
		{"80 mm", 30, func(s Spec) bool { return s.WidthMM.Value == 80 }},
		{"92 mm", 25, func(s Spec) bool { return s.WidthMM.Value == 92 }},
		{"120 mm", 70, func(s Spec) bool { return s.WidthMM.Value == 120 || s.WidthMM.Value == 119 }},
		{"AC 50 Hz", 15, func(s Spec) bool { return s.FrequencyHz.Value == 50 }},
		{"AC 60 Hz", 15, func(s Spec) bool { return s.FrequencyHz.Value == 60 }},
		{"115 V", 10, func(s Spec) bool { return s.VoltageV.Value == 115 }},
		{"5 V", 10, func(s Spec) bool { return s.VoltageV.Value == 5 }},
		{"48 V", 10, func(s Spec) bool { return s.VoltageV.Value == 48 }},
		{"centrifugal", 40, func(s Spec) bool { return s.Kind == kindRadial }},
		{"crossflow", 4, func(s Spec) bool { return s.Kind == kindCross }},
		{"mixed", 8, func(s Spec) bool { return s.Kind == kindMixed }},
		{"PWM", 40, func(s Spec) bool { return s.PWM == "yes" }},
		{"locked-rotor alarm", 6, func(s Spec) bool { return s.alarm }},
		{"no pressure", 15, func(s Spec) bool { return !s.StaticPressurePa.Known }},
		{"no level", 8, func(s Spec) bool { return !s.NoiseDBA.Known }},
		{"no speed", 8, func(s Spec) bool { return !s.SpeedRPM.Known }},
		{"no airflow", 1, func(s Spec) bool { return !s.AirflowM3h.Known }},
		{"price in USD", 100, func(s Spec) bool { return s.Currency == "USD" }},
		{"full curve", 120, func(s Spec) bool { return len(s.Curve) > 0 }},
		{"sound power", 40, func(s Spec) bool { return s.NoiseKind == "power" }},
		{"description over two lines", 10, func(s Spec) bool { return strings.Contains(s.Description, "\n") }},
	} {
		got := 0
		for _, s := range specs {
			if row.is(s) {
				got++
			}
		}
		if got < row.want {
			t.Errorf("%s: %d fans, want at least %d", row.name, got, row.want)
		}
	}
}
