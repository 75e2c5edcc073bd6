package sample

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"lowsone/catalog/quantity"
	"lowsone/match"
	"lowsone/match/drive"
)

// The fitted fan's full speed and that it was found at are one where only its
// supply is known, or nothing.
func TestSpeedOfTheFittedFan(t *testing.T) {
	for _, r := range []struct {
		name   string
		set    func(*match.Path)
		full   func(x *match.Draw) float64 // what SpeedNow must be
		lowest float64                     // 10 % of it
	}{
		{"not known", func(p *match.Path) { p.SpeedNow = match.Speed{} }, func(x *match.Draw) float64 { return x.Fitted.Speed }, 0.865},
		{"by supply", func(p *match.Path) {
			p.SpeedNow, p.Seat.Voltage = match.Speed{}, quantity.Stated(9*quantity.Volt)
		}, func(x *match.Draw) float64 { return x.Fitted.Speed * x.Fitted.Slowed }, 0.906},
		{"measured", func(*match.Path) {}, func(x *match.Draw) float64 { return x.SpeedNow }, 0.99},
	} {
		req := requestFor(t, byFlow(20))
		r.set(&req.Path)
		_, d := studyOf(t, req)
		cube := hypercube(defaultDraws, len(d.inputs), 0, "device")
		var now []float64
		for k := range defaultDraws {
			x := d.drawOf(cube, k, 0)
			now = append(now, x.SpeedNow)
			check(t, r.name+": speed now", x.SpeedNow, r.full(&x), 1e-12, "its full speed")
		}
		check(t, r.name+": speed now, 10 %", bandOf(now).Low, r.lowest, 0.01, "85 to 100 %; ±10 % even with ±5 %; ±1 %")
	}
}

// What is picked where ways are weighed lies evenly on the axis of the way again.
func TestPlacesOfWeighedDraws(t *testing.T) {
	req := requestFor(t, heatOf(28))
	req.Path.Ways = []match.Way{heatOf(28), byFlow(30)}
	_, d := studyOf(t, req)
	var places, flows []float64
	for k := range d.drawn {
		places = append(places, d.at[k][0])
		_, now := d.drawn[k].Need()
		flows = append(flows, now)
	}
	slices.Sort(places)
	for k, v := range places {
		check(t, fmt.Sprintf("place %d", k), v, (float64(k)+0.5)/float64(len(places)), 1e-12, "even")
	}
	slices.Sort(flows)
	if n := len(slices.Compact(flows)); n < len(d.drawn)*2/3 {
		t.Errorf("%d different draws of %d: most are picked more than once", n, len(d.drawn))
	}
}

// On a device of Δp = b·Q² the flow goes with the speed: a fan that is slowed to a
// share runs at that share of its own full speed, off by the voltage law; one at
// full speed has nothing to do with that.
func TestSpeedAsPlanned(t *testing.T) {
	req := requestFor(t, byFlow(28))
	study, _ := studyOf(t, req, fanOf(t, strong))
	full := req
	full.Path.Seat.SlowBy = match.SlowNone
	held, _ := studyOf(t, full, fanOf(t, strong))
	for _, r := range []struct {
		name                string
		study               *match.Study
		speed, slowed, want float64
	}{
		{"slowed", study, 1, 1.1, 1.1},
		{"slowed, a fast one", study, 1.05, 1.1, 1.155},
		{"at full speed", held, 1, 1.1, 1},
		{"at full speed, a fast one", held, 1.05, 1.1, 1.05},
	} {
		one, err := r.study.Draw(match.Nominal(0))
		if err != nil {
			t.Fatal(err)
		}
		for i, c := range r.study.Contenders() {
			if c.Fitted {
				continue
			}
			x := match.NominalFan()
			nominal, _ := one.Planned(i, &x)
			x.Speed, x.Slowed = r.speed, r.slowed
			drawn, ok := one.Planned(i, &x)
			if !ok {
				t.Fatal(r.name, "has no working point")
			}
			check(t, r.name+": flow over that of the plan", drawn.Flow/nominal.Flow, r.want, 1e-9, "affinity laws")
		}
	}
}

// Behind a linear regulator a fan is slower than what that leaves, or at its full
// speed, whatever either is of this fan.
func TestHeadRoom(t *testing.T) {
	req := requestFor(t, byFlow(28))
	req.Path.Seat.SlowBy = match.SlowVoltage
	study, d := studyOf(t, req, fanOf(t, strong), fanOf(t, calm))
	share, err := drive.SpeedAtVoltage(drive.HeadRoom(12, 12))
	if err != nil {
		t.Fatal(err)
	}
	regulated, whole := 0, 0
	at := placesOf(len(d.drawn), 0, "fan")
	for i, c := range study.Contenders() {
		if c.Fitted {
			continue
		}
		f := askFan(d, c, i, at)
		for k, o := range f.outcomes {
			x := &f.draws[k]
			switch most := share * x.Speed * x.Slowed; {
			case o.Ratio == x.Speed:
				whole++
			case o.Ratio <= most*(1+1e-12):
				regulated++
			default:
				t.Errorf("%s runs at %v of its label, between %v behind the regulator and %v without", c.Part, o.Ratio, most, x.Speed)
			}
		}
	}
	if regulated == 0 || whole == 0 {
		t.Errorf("%d draws behind the regulator, %d without: both are to be seen", regulated, whole)
	}
}

// The share of draws in which a limit is kept is that in which no spot is above it.
func TestShareOfKeptLimits(t *testing.T) {
	req := withSpot(t, 76)
	req.Path.Spots[0].Margin = quantity.Stated(quantity.TemperatureRise(2))
	r := rankOf(t, req, Options{}, fanOf(t, strong))
	_, s := r.of(t, 0)
	study, d := studyOf(t, req, fanOf(t, strong))
	for i, c := range study.Contenders() {
		if c.Fitted {
			continue
		}
		draws, kept := placesOf(len(d.drawn), 0, "fan").draws(c.FanUnknowns), 0.0
		for k, one := range d.drawn {
			if p, ok := one.Planned(i, &draws[k]); ok && p.Spots[0] <= 76 {
				kept++
			}
		}
		check(t, "share of kept limits", s.Limit, kept/float64(len(d.drawn)), 1e-12, "counted")
		if s.Limit == 0 || s.Limit == 1 || math.IsNaN(s.Limit) {
			t.Errorf("the limit is kept in %v of the draws: choose another limit for this test", s.Limit)
		}
	}
}
