package gen

import (
	"math"
	"testing"
)

// many is a catalogue of three rounds, so that scattered families are tested too.
func many() []Spec { return Catalogue(DemoSeed, 3*DemoRows) }

// families groups fans that share a wheel.
func families(specs []Spec) map[string][]Spec {
	out := map[string][]Spec{}
	for _, s := range specs {
		out[s.Physics.Family] = append(out[s.Physics.Family], s)
	}
	return out
}

func within(got, want, share float64) bool { return math.Abs(got/want-1) <= share }

func plainDesign(frame, depth float64) design {
	phi, psi := coefficients(kindAxial, frame, depth)
	diameter, _ := wheel(kindAxial, frame, frame)
	return design{kind: kindAxial, supply: supplyDC, diameter: diameter, phi: phi, psi: psi,
		sound: soundConstant(kindAxial, supplyDC), motor: 1, shape: axialMid}
}

// The anchors are labels as the trade prints them: common practice, no published source.
func TestAnchors(t *testing.T) {
	for _, row := range []struct {
		name                        string
		frame, depth, rpm           float64
		flow, pressure, level       float64
		flowTol, pressureTol, dBTol float64
	}{
		{"60×25 slow", 60, 25, 3000, 25, 35, 25, 0.05, 0.06, 2},
		{"60×25 fast", 60, 25, 6000, 50, 130, 42, 0.05, 0.06, 2},
		{"120×25 slow", 120, 25, 1500, 85, 20, 25, 0.1, 0.15, 3},
		{"80×25", 80, 25, 2600, 52, 36, 30, 0.1, 0.15, 3},
		{"40×20", 40, 20, 6000, 13.5, 57, 27, 0.1, 0.15, 3},
	} {
		p := plainDesign(row.frame, row.depth).run(row.rpm, 1, 1, 0)
		if !within(p.FlowM3h, row.flow, row.flowTol) || !within(p.PressurePa, row.pressure, row.pressureTol) || math.Abs(p.LevelDBA-row.level) > row.dBTol {
			t.Errorf("%s at %v rpm = %.1f m³/h, %.1f Pa, %.1f dB(A), want %v ± %v %%, %v ± %v %%, %v ± %v (common practice)", row.name, row.rpm,
				p.FlowM3h, p.PressurePa, p.LevelDBA, row.flow, 100*row.flowTol, row.pressure, 100*row.pressureTol, row.level, row.dBTol)
		}
	}
}

// Source: testdata/sources/air_affinity.csv, row AF-70 (100 → 70 % speed: flow 0.7, pressure 0.49, power 0.343).
func TestDesignFollowsTheAffinityLaws(t *testing.T) {
	for _, row := range rows(t, "air_affinity.csv") {
		if row["id"] != "AF-70" {
			continue
		}
		full, slow := plainDesign(60, 25).run(100*float(t, row["n1"]), 1, 1, 0), plainDesign(60, 25).run(100*float(t, row["n2"]), 1, 1, 0)
		for _, c := range []struct {
			name      string
			got, want float64
		}{
			{"flow", slow.FlowM3h / full.FlowM3h, float(t, row["Q2"]) / float(t, row["Q1"])},
			{"pressure", slow.PressurePa / full.PressurePa, float(t, row["p2"]) / float(t, row["p1"])},
			{"air power", slow.AirPowerW / full.AirPowerW, float(t, row["P2"]) / float(t, row["P1"])},
		} {
			if math.Abs(c.got-c.want) > float(t, row["tolerance"]) {
				t.Errorf("%s ratio at 70 %% speed = %v, want %v ± %s (%s)", c.name, c.got, c.want, row["tolerance"], row["source"])
			}
		}
		return
	}
	t.Fatal("row AF-70 is gone from the source")
}

// Source: testdata/sources/sound_fan_laws.csv, row F01: 50 lg 0.8 = −4.85 dB (printed −5), tolerance there 0.2.
func TestLevelFollowsFiftyLog(t *testing.T) {
	loud := levelDBA(-18.5, 200, 400, 0)
	slow := levelDBA(-18.5, 200*0.8, 400*0.64, 0)
	if got := slow - loud; math.Abs(got+4.85) > 0.2 {
		t.Errorf("level change at 0.8 of the speed = %.3f, want -4.85 ± 0.2 (sound_fan_laws F01)", got)
	}
}

func TestFamiliesFollowTheLaws(t *testing.T) {
	for name, fans := range families(many()) {
		for _, b := range fans[1:] {
			p, q := fans[0].Physics, b.Physics
			r := q.SpeedRPM / p.SpeedRPM
			if !within(q.FlowM3h/p.FlowM3h, r, 0.045) {
				t.Errorf("%s: flow ratio %.3f at speed ratio %.3f, want Q ∝ N ± 4.5 %%", name, q.FlowM3h/p.FlowM3h, r)
			}
			if !within(q.PressurePa/p.PressurePa, r*r, 0.065) {
				t.Errorf("%s: pressure ratio %.3f at speed ratio %.3f, want p ∝ N² ± 6.5 %%", name, q.PressurePa/p.PressurePa, r)
			}
			if d := q.LevelDBA - p.LevelDBA; r > 1.05 && d <= 0 || r < 0.95 && d >= 0 {
				t.Errorf("%s: level %.1f dB(A) at %v rpm and %.1f at %v: not rising with speed", name, p.LevelDBA, p.SpeedRPM, q.LevelDBA, q.SpeedRPM)
			}
		}
	}
}

// The ranges are what the laws of the package doc give with their scatter: a pin on the generator, and plausible by common practice.
func TestCoefficientsStayInRange(t *testing.T) {
	ranges := map[string][4]float64{
		kindAxial: {0.15, 0.50, 0.28, 1.05}, kindRadial: {0.15, 0.36, 1.4, 2.1}, kindMixed: {0.2, 0.36, 0.7, 1.2}, kindCross: {0.7, 0.9, 1.6, 2.2},
	}
	for _, s := range many() {
		r, p := ranges[s.Kind], s.Physics
		tip := math.Pi * p.ImpellerMM / 1000 * p.SpeedRPM / 60
		area := math.Pi / 4 * math.Pow(p.ImpellerMM/1000, 2)
		if s.Kind == kindCross {
			area = p.ImpellerMM * p.SpanMM / 1e6
		}
		phi, psi := p.FlowM3h/3600/area/tip, p.PressurePa/(0.6*tip*tip)
		if phi < r[0] || phi > r[1] || psi < r[2] || psi > r[3] {
			t.Errorf("%s %s (%s): φ = %.3f, ψ = %.3f, want %v to %v, %v to %v", s.Maker, s.Part, s.Kind, phi, psi, r[0], r[1], r[2], r[3])
		}
		if p.ImpellerMM >= s.WidthMM.Value || p.ImpellerMM >= s.HeightMM.Value {
			t.Errorf("%s: a wheel of %v mm in a housing of %v×%v", s.Part, p.ImpellerMM, s.WidthMM.Value, s.HeightMM.Value)
		}
		if tip > 42 {
			t.Errorf("%s: tip speed %.0f m/s, want under 42", s.Part, tip)
		}
	}
}

// Static efficiency of whole fans, motor included: 5 to 45 %; shaded-pole AC fans reach less, 3 to 15 % (common practice).
func TestPowerCoversTheAirPower(t *testing.T) {
	for _, s := range many() {
		lo, hi := 0.05, 0.45
		if s.Supply == supplyAC {
			lo, hi = 0.03, 0.15
		}
		if e := s.Physics.AirPowerW / s.Physics.PowerW; e < lo-1e-9 || e > hi {
			t.Errorf("%s: efficiency %.3f, want %v to %v", s.Part, e, lo, hi)
		}
		amps := s.CurrentA.Value * s.VoltageV.Value
		if s.Supply == supplyDC && math.Abs(s.PowerW.Value-amps) > 0.0051 || s.PowerW.Value > amps+0.0051 {
			t.Errorf("%s: label %v W beside %v A · %v V", s.Part, s.PowerW.Value, s.CurrentA.Value, s.VoltageV.Value)
		}
		if s.PowerW.Value < s.Physics.AirPowerW {
			t.Errorf("%s: label %v W is less than the air's %v W", s.Part, s.PowerW.Value, s.Physics.AirPowerW)
		}
	}
}

// Life and temperatures as sheets print them (common practice); the halving is stated in the package doc.
func TestLifeIsSane(t *testing.T) {
	for _, s := range many() {
		if h := s.Physics.LifeHalveK; h < 10 || h > 15 {
			t.Errorf("%s: life halves per %.1f K, want 10 to 15", s.Part, h)
		}
		if s.LifeH.Known != s.LifeTempC.Known || s.LifeH.Known && (s.LifeH.Value < 10000 || s.LifeH.Value > 120000) {
			t.Errorf("%s: life %+v at %+v °C", s.Part, s.LifeH, s.LifeTempC)
		}
		if s.TempMaxC.Known && (s.TempMaxC.Value < 60 || s.TempMaxC.Value > 80) {
			t.Errorf("%s: hottest air %v °C, want 60 to 80", s.Part, s.TempMaxC.Value)
		}
	}
	d := design{lifeAt40: 60000, halve: 12}
	if got := d.life(64); math.Abs(got-15000) > 1e-6 {
		t.Errorf("life of 60000 h at 40 °C, 24 K hotter, halving per 12 K = %v, want 15000", got)
	}
}

// Every drawn axial shape lies within 0.05 of the band that the real axial curves span (testdata/sources/air_fan_curves.csv).
func TestShapesLieAmongRealCurves(t *testing.T) {
	var lo, hi shape
	first := true
	for _, curve := range axialCurves(t) {
		for k, p := range curve {
			if first {
				lo[k], hi[k] = p, p
			}
			lo[k], hi[k] = min(lo[k], p), max(hi[k], p)
		}
		first = false
	}
	for name, s := range map[string]shape{"sag": axialSag, "mid": axialMid, "dip": axialDip} {
		for k, p := range s {
			if p < lo[k]-0.05 || p > hi[k]+0.05 {
				t.Errorf("%s: p/p₀ = %.3f at q = %.1f, real curves lie between %.3f and %.3f (air_fan_curves)", name, p, float64(k)/(knots-1), lo[k], hi[k])
			}
		}
	}
}
