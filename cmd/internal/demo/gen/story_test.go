package gen

import (
	"math"
	"slices"
	"testing"
)

// The demo's device (its story is told in the package that runs it): 90 W into air that enters at 24 °C and leaves at 33 °C.
const (
	heatW, riseK = 90, 9
	heatCapacity = 1005 // J/(kg·K)
)

// device is the oracle of these tests: a search by halving on straight-line curves, independent of the program's own solver.
type device struct {
	mean shape // of two-ended axial fans
	need float64
	b    float64 // Pa/(m³/h)²
}

func newDevice(t *testing.T, fitted Spec) device {
	d := device{need: heatW / (rho * heatCapacity * riseK) * perHour}
	curves := axialCurves(t)
	for _, curve := range curves {
		for k, p := range curve {
			d.mean[k] += p / float64(len(curves))
		}
	}
	d.b = interpolate(d.curve(fitted), d.need) / d.need / d.need
	return d
}

// curve is the fan's own curve, or the mean shape between its label's ends.
func (d device) curve(s Spec) []Point {
	if len(s.Curve) > 0 {
		return s.Curve
	}
	points := make([]Point, knots)
	for k, p := range d.mean {
		points[k] = Point{float64(k) / (knots - 1) * s.AirflowM3h.Value, p * s.StaticPressurePa.Value}
	}
	return points
}

// at is the share of full speed at which the fan moves the needed flow, and its level there at 1 m; share of free air q.
func (d device) at(s Spec) (ratio, level, q float64) {
	curve := d.curve(s)
	lo, hi := 0.0, curve[len(curve)-1].FlowM3h
	for range 60 {
		x := (lo + hi) / 2
		if interpolate(curve, x) > d.b*x*x {
			lo = x
		} else {
			hi = x
		}
	}
	ratio, q = d.need/lo, lo/curve[len(curve)-1].FlowM3h
	level = s.NoiseDBA.Value + 50*math.Log10(ratio)
	if s.NoiseKind == "power" {
		level -= 11
	} else if s.NoiseDistanceM.Known {
		level += 20 * math.Log10(s.NoiseDistanceM.Value)
	}
	return ratio, level, q
}

func find(t *testing.T, specs []Spec, maker, part string) Spec {
	t.Helper()
	i := slices.IndexFunc(specs, func(s Spec) bool { return s.Maker == maker && s.Part == part })
	if i < 0 {
		t.Fatalf("%s %s is not in the catalogue", maker, part)
	}
	return specs[i]
}

// seat are the fans of the fitted fan's frame that are no deeper, axial.
func seat(specs []Spec, frame, depth float64) []Spec {
	var out []Spec
	for _, s := range specs {
		if s.Kind == kindAxial && s.WidthMM.Value == frame && s.HeightMM.Value == frame && s.DepthMM.Value <= depth {
			out = append(out, s)
		}
	}
	return out
}

// tally sorts the 12 V candidates of the fitted fan's seat as a person would.
type tally struct {
	candidates, twoLeads, tooWeak, delivers, quieter, unknown int
	best                                                      float64 // dB below the fitted fan
}

func (d device) tally(specs []Spec, fitted Spec) tally {
	var n tally
	_, loud, _ := d.at(fitted)
	for _, s := range specs {
		if s.VoltageV.Value != 12 {
			continue
		}
		ratio, level, _ := d.at(s)
		switch n.candidates++; {
		case s.Leads.Value < 3:
			n.twoLeads++
		case !s.AirflowM3h.Known || !s.StaticPressurePa.Known || !s.NoiseDBA.Known:
			n.unknown++
		case ratio > 1.005:
			n.tooWeak++
		default:
			n.delivers++
			if loud-level >= 5 && loud-level <= 12 {
				n.quieter++
			}
			n.best = max(n.best, loud-level)
		}
	}
	return n
}

func TestFittedFanIsTheStorys(t *testing.T) {
	s := find(t, Catalogue(DemoSeed, DemoRows), FittedMaker, FittedPart)
	for _, row := range []struct {
		name      string
		got       Number
		want, tol float64
	}{
		{"width", s.WidthMM, 60, 0}, {"depth", s.DepthMM, 25, 0}, {"pitch", s.HolePitchMM, 50, 0}, {"voltage", s.VoltageV, 12, 0},
		{"leads", s.Leads, 3, 0}, {"tach", s.TachPerRev, 2, 0}, {"speed", s.SpeedRPM, 5700, 300},
		{"airflow", s.AirflowM3h, 48, 1}, {"pressure", s.StaticPressurePa, 120, 3}, {"level", s.NoiseDBA, 43, 1},
	} {
		if !row.got.Known || math.Abs(row.got.Value-row.want) > row.tol {
			t.Errorf("fitted fan's %s = %+v, want %v ± %v (the demo's story)", row.name, row.got, row.want, row.tol)
		}
	}
}

func TestFittedFanHasAGoodStory(t *testing.T) {
	specs := Catalogue(DemoSeed, DemoRows)
	fitted := find(t, specs, FittedMaker, FittedPart)
	d := newDevice(t, fitted)
	if _, _, q := d.at(fitted); math.Abs(d.need-30) > 0.5 || q < 0.5 || q > 0.8 {
		t.Errorf("the device asks for %.1f m³/h, %.2f of the fitted fan's free air, want about 30 and 0.5 to 0.8", d.need, q)
	}
	n := d.tally(seat(specs, 60, 25), fitted)
	for _, row := range []struct {
		name        string
		got, lo, hi int
	}{
		{"candidates with a tach", n.candidates - n.twoLeads, 25, 60}, {"with two leads", n.twoLeads, 8, 30},
		{"too weak", n.tooWeak, 10, 35}, {"deliver the flow", n.delivers, 10, 20},
		{"5 to 12 dB quieter", n.quieter, 4, 10}, {"lack a value", n.unknown, 2, 8},
	} {
		if row.got < row.lo || row.got > row.hi {
			t.Errorf("%s: %d, want %d to %d", row.name, row.got, row.lo, row.hi)
		}
	}
	if n.best < 6 || n.best > 12 {
		t.Errorf("the quietest is %.1f dB below the fitted fan, want 6 to 12", n.best)
	}
}

func TestTrapLooksGoodAndIsTooWeak(t *testing.T) {
	specs := Catalogue(DemoSeed, DemoRows)
	fitted, trap := find(t, specs, FittedMaker, FittedPart), find(t, specs, "Quelmar", "QX60P25-40-12.3")
	if trap.NoiseDBA.Value > fitted.NoiseDBA.Value-12 || trap.AirflowM3h.Value < fitted.AirflowM3h.Value {
		t.Errorf("trap's label %v dB(A), %v m³/h does not tempt beside %v and %v", trap.NoiseDBA.Value, trap.AirflowM3h.Value,
			fitted.NoiseDBA.Value, fitted.AirflowM3h.Value)
	}
	if ratio, _, q := newDevice(t, fitted).at(trap); ratio < 1.2 || q > 0.48 {
		t.Errorf("trap needs %.2f of its speed at q = %.2f, want over 1.2 and left of 0.48", ratio, q)
	}
}

func TestSecondFanHasAlternatives(t *testing.T) {
	specs := Catalogue(DemoSeed, DemoRows)
	second := find(t, specs, SecondMaker, SecondPart)
	if second.WidthMM.Value != 40 || second.DepthMM.Value != 20 || second.VoltageV.Value != 12 || second.Leads.Value != 3 {
		t.Errorf("second fan is %vx%v, %v V, %v leads, want 40x20, 12 V, 3", second.WidthMM.Value, second.DepthMM.Value,
			second.VoltageV.Value, second.Leads.Value)
	}
	others := 0
	for _, s := range seat(specs, 40, 20) {
		if s.VoltageV.Value == 12 && s.Leads.Value >= 3 && s.DepthMM.Value == 20 {
			others++
		}
	}
	if others < 10 {
		t.Errorf("%d fans of 40x40x20, 12 V, with a tach, want at least 10", others)
	}
}

func TestOtherVoltagesInTheSeat(t *testing.T) {
	volts := map[float64]int{}
	for _, s := range seat(Catalogue(DemoSeed, DemoRows), 60, 25) {
		volts[s.VoltageV.Value]++
	}
	for v, want := range map[float64]int{5: 3, 24: 10, 48: 1} {
		if volts[v] < want {
			t.Errorf("%d fans of %v V in the 60 mm seat, want at least %d", volts[v], v, want)
		}
	}
}
