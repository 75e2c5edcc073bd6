package sample

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match"
	"lowsone/match/curve"
	"lowsone/match/resistance"
)

// The fitted fan as a candidate, where all of its present flow is needed, is what
// it is now in every draw: at the speed it was found at, and as loud.
func TestFittedFanIsWhatItIsNow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		req := requestFor(t, rapid.SampledFrom([]match.Way{byHeat(), byFlow(25), {Method: resistance.ByShare, Share: 0.6}, {Method: resistance.ByPressure, Pressure: 60}}).Draw(t, "way"))
		req.Path.Seat.SlowBy = match.SlowBy(rapid.IntRange(0, 3).Draw(t, "slow"))
		switch rapid.IntRange(0, 2).Draw(t, "speed") {
		case 0:
			req.Path.SpeedNow = match.Speed{}
		case 1:
			req.Path.SpeedNow.Ratio = quantity.Stated(rapid.Float64Range(0.7, 1.1).Draw(t, "ratio"))
		default:
			req.Path.SpeedNow = match.Speed{}
			req.Path.Seat.Voltage = quantity.Stated(9 * quantity.Volt)
		}
		if rapid.Bool().Draw(t, "measured") {
			req.Path.Reading = &match.Reading{Level: quantity.PressureLevel(44), Distance: quantity.Metre}
		}
		r := answerOf(t, req, []*catalog.Fan{fanOf(t, strong)})
		for i, c := range r.Candidates {
			s := r.Sure[i]
			if !c.Fitted {
				continue
			}
			if s.Kept != 1 || math.Abs(s.Quieter-0.5) > 1e-12 {
				t.Fatalf("it moves what it moves in %v of the draws and is quieter than itself in %v", s.Kept, s.Quieter)
			}
			if d := deviation(s.Planned.Flow, r.Now); d > 1e-9 {
				t.Fatalf("it moves %+v as planned, %+v now", s.Planned.Flow, r.Now)
			}
			if d := deviation(s.Planned.Level, s.Needed.Level); d > 1e-9 {
				t.Fatalf("%+v dB(A) as planned, %+v as needed", s.Planned.Level, s.Needed.Level)
			}
			return
		}
		t.Fatalf("the fitted fan is left out: %v", r.Rejected)
	})
}

// deviation gives how far two ranges lie apart, as a share.
func deviation(a, b Band) float64 {
	return max(math.Abs(a.Low/b.Low-1), math.Abs(a.Middle/b.Middle-1), math.Abs(a.High/b.High-1))
}

// A fan that is enough as its label has it may be too weak in a share of draws. It
// then keeps no level with more confidence than that, and stands behind all that
// do.
func TestTooWeakInSomeDraws(t *testing.T) {
	req := requestFor(t, byFlow(28))
	fans := []*catalog.Fan{fanOf(t, calm), fanOf(t, strong)}
	r := rankOf(t, req, Options{Confidence: 0.95}, fans...)
	at, weak := r.of(t, 0)
	before, sure := r.of(t, 1)
	if !(weak.Kept > 0.5 && weak.Kept < 0.95) || !math.IsInf(weak.Level, 1) || at < before {
		t.Errorf("kept in %v of the draws at %v dB(A), place %d behind %d; want it behind", weak.Kept, weak.Level, at, before)
	}
	if sure.Kept < 0.95 || math.IsInf(sure.Level, 1) {
		t.Errorf("the strong fan keeps the flow in %v of the draws at %v dB(A)", sure.Kept, sure.Level)
	}
	if _, weak = rankOf(t, req, Options{Confidence: 0.5}, fans...).of(t, 0); math.IsInf(weak.Level, 1) {
		t.Errorf("with 50 %% it keeps no level, though the flow in %v of the draws", weak.Kept)
	}
	if ratio := weak.Needed.Ratio; ratio.High > 1+curve.SpeedTolerance {
		t.Errorf("speed as needed up to %v, above its full speed", ratio.High)
	}
}

// withSpot adds a watched spot to a device by heat balance.
func withSpot(t testing.TB, limit float64) match.Request {
	req := requestFor(t, byHeat())
	req.Path.Way.Heat.Inlet = quantity.Stated(quantity.Celsius(24))
	req.Path.Spots = []match.Spot{{Name: "sink", Found: quantity.Celsius(58), Limit: quantity.Celsius(limit)}}
	req.Around = match.Surroundings{Ambient: quantity.Stated(quantity.Celsius(24)), AmbientWorst: quantity.Stated(quantity.Celsius(30))}
	return req
}

func TestWatchedSpot(t *testing.T) {
	r := rankOf(t, withSpot(t, 76), Options{}, fanOf(t, strong))
	i, s := r.of(t, 0)
	c := &r.Candidates[i]
	if len(s.Planned.Spots) != 1 || s.Planned.Spots[0].Low >= s.Planned.Spots[0].High {
		t.Fatalf("temperatures %+v", s.Planned.Spots)
	}
	hot := s.Planned.Spots[0]
	if !(hot.Low <= c.Spots[0].Planned.High && c.Spots[0].Planned.Low <= hot.High) {
		t.Errorf("drawn %+v °C, spanned %+v", hot, c.Spots[0].Planned)
	}
	for what, pair := range map[string][2]float64{"10 %": {s.Planned.Over.Low, hot.Low}, "middle": {s.Planned.Over.Middle, hot.Middle}, "90 %": {s.Planned.Over.High, hot.High}} {
		check(t, "over the limit, "+what, pair[0], pair[1]-76, 1e-9, "one spot: its own distance to 76 °C")
	}
	if !(s.Limit > 0.5 && s.Limit <= 1) {
		t.Errorf("the limit is kept in %v of the draws, planned with 10 K to spare", s.Limit)
	}
	if len(r.Causes) == 0 || ByHeat(r.Causes)[0].Heat <= 0 {
		t.Errorf("nothing causes the temperature: %+v", r.Causes)
	}
	tight := withSpot(t, 76)
	tight.Path.Spots[0].Margin = quantity.Stated(quantity.TemperatureRise(0))
	rt := rankOf(t, tight, Options{}, fanOf(t, strong))
	if _, st := rt.of(t, 0); !(st.Limit < s.Limit) {
		t.Errorf("without a margin the limit is kept in %v of the draws, with 10 K in %v", st.Limit, s.Limit)
	}
}

// Where what no flow takes away may be all that is allowed, no fan is enough in
// some draws; these draws are no contradiction and count against all fans.
func TestNoFlowIsEnoughInSomeDraws(t *testing.T) {
	req := withSpot(t, 41.5) // 1.5 K over an inlet of 30 °C with the margin of 10 K
	spot := &req.Path.Spots[0]
	spot.Found, spot.Seen = quantity.Celsius(29), quantity.Stated(match.AirMean)
	spot.Solid, spot.Film = quantity.Stated(0.05), quantity.Stated(0.8)
	req.Path.Way.Heat.Power, req.Path.Way.Heat.AirRise = 10, 1
	study, err := match.NewStudy(t.Context(), catalog.ColumnsOf(), req)
	if err != nil {
		t.Fatal(err)
	}
	x := match.Nominal(1)
	x.Spots[0].Found = 40 // rises by 45 K, 2.25 of them solid
	one, err := study.Draw(x)
	if err != nil {
		t.Fatalf("such a draw is refused: %v", err)
	}
	if need, _ := one.Need(); !math.IsInf(need, 1) {
		t.Errorf("needed flow %v m³/s, want none to be enough", need)
	}
	if err := study.Look(t.Context(), 100, 0, 0); err != nil {
		t.Fatal(err)
	}
	fan := match.NominalFan()
	for i := range study.Contenders() {
		if out, ok := one.Fan(i, &fan); ok && out.Enough {
			t.Errorf("contender %d is enough: %+v", i, out)
		}
	}
}

// Equal fans side by side move together what one does in its share of the device,
// and no less surely: their errors are drawn as one, since they are of one part.
func TestSeveralFans(t *testing.T) {
	one := rankOf(t, requestFor(t, byFlow(28)), Options{}, fanOf(t, strong))
	side := requestFor(t, byFlow(56))
	side.Path.Fans = 2
	two := rankOf(t, side, Options{}, fanOf(t, strong))
	_, a := one.of(t, 0)
	_, b := two.of(t, 0)
	if d := deviation(a.Needed.Ratio, b.Needed.Ratio); d > 1e-9 {
		t.Errorf("speed as needed %+v alone, %+v in a pair", a.Needed.Ratio, b.Needed.Ratio)
	}
	check(t, "level of the pair over that of one", b.Needed.Level.Middle-a.Needed.Level.Middle, 10*math.Log10(2), 1e-6, "two equal sources")
	check(t, "flow of the pair over that of one", b.Planned.Flow.High/a.Planned.Flow.High, 2, 1e-9, "side by side")
}

// An AC fan runs at its full speed, whatever that is, and needs no speed to be
// set.
func TestACFans(t *testing.T) {
	const frame = " kind=axial width_mm=120 height_mm=120 voltage_v=230 supply=ac frequency_hz=50 "
	old := fanOf(t, "part=OLD airflow_m3h=160 static_pressure_pa=80 noise_dba=46 speed_rpm=2600"+frame)
	req := match.Request{Path: match.Path{Fitted: old, Row: match.NotInCatalogue, Seat: match.SeatOf(old), Way: byFlow(90)}, Need: match.Need{Share: 0.9}}
	r := rankOf(t, req, Options{}, fanOf(t, "part=NEW airflow_m3h=170 static_pressure_pa=90 noise_dba=38 speed_rpm=2700"+frame))
	_, s := r.of(t, 0)
	// Even over 0.9 to 1.1: 0.92, 1, 1.08.
	for what, pair := range map[string][2]float64{"10 %": {s.Needed.Ratio.Low, 0.92}, "middle": {s.Needed.Ratio.Middle, 1}, "90 %": {s.Needed.Ratio.High, 1.08}} {
		check(t, "speed as needed, "+what, pair[0], pair[1], 0.005, "full speed within ±10 %")
	}
	if d := deviation(s.Needed.Level, s.Planned.Level); d > 0.02 {
		t.Errorf("%+v dB(A) as needed, %+v as planned: both are its full speed", s.Needed.Level, s.Planned.Level)
	}
}

// Of an unknown kind more is not known: the range is wider than that of either.
func TestUnknownKind(t *testing.T) {
	req := requestFor(t, byFlow(28))
	req.Path.Seat.AnyKind = true
	req.Path.Seat.Kind = quantity.Known[catalog.Kind]{}
	widths := map[string]float64{}
	for _, kind := range []string{"axial", "mixed", "centrifugal", ""} {
		words := strings.Replace(strong, "kind=axial", "kind="+kind, 1)
		if kind == "" {
			words = strings.Replace(strong, "kind=axial", "", 1)
		}
		r := rankOf(t, req, Options{}, fanOf(t, words))
		i, s := r.of(t, 0)
		widths[kind] = s.Planned.Flow.High/s.Planned.Flow.Low - 1
		if estimated := len(r.Candidates[i].Estimated) > 0; estimated != (kind == "") {
			t.Errorf("kind %q: estimated %v", kind, r.Candidates[i].Estimated)
		}
	}
	if !(widths[""] > widths["axial"] && widths["axial"] > widths["centrifugal"]) {
		t.Errorf("widths of the flow as planned: %v, want the unknown kind's widest and the centrifugal one's least", widths)
	}
}

// similarTo gives complete fans of one kind, so that what another does not state
// can be estimated: their levels scatter by ±spread dB.
func similarTo(t testing.TB, spread float64) []*catalog.Fan {
	var fans []*catalog.Fan
	for i := range 11 {
		off := spread * (float64(i)/5 - 1) / 0.8 // 10–90 % of an even row
		fans = append(fans, fanOf(t, fmt.Sprintf("part=S%d airflow_m3h=50 static_pressure_pa=120 noise_dba=%.2f speed_rpm=5000", i, 38+off)+frame60))
	}
	return fans
}

// An estimated level has the spread of the fans it was estimated from, beside what
// any label is off by.
func TestEstimatedLevel(t *testing.T) {
	width := func(spread float64, stated bool) float64 {
		words := "part=NEW airflow_m3h=50 static_pressure_pa=120 speed_rpm=5000" + frame60
		if stated {
			words += " noise_dba=38"
		}
		fans := append(similarTo(t, spread), fanOf(t, words))
		study, d := studyOf(t, requestFor(t, byFlow(28)), fans...)
		for _, c := range study.Contenders() {
			if c.Part == "NEW" {
				var off []float64
				for _, x := range placesOf(len(d.drawn), 0, "fan").draws(c.FanUnknowns) {
					off = append(off, x.Level)
				}
				return half(off)
			}
		}
		t.Fatal("no contender NEW")
		return 0
	}
	check(t, "half the range of a stated level", width(6, true), 2, 0.05, "±2 dB")
	check(t, "of an estimated one", width(6, false), math.Hypot(2, 6), 0.2, "±2 dB and ±6 dB of its kind")
}

// An end that was estimated is spread as its kind is, and a level estimated from it
// goes with it: 20·lg of the pressure, 10·lg of the flow.
func TestEstimatedEnd(t *testing.T) {
	u := match.FanUnknowns{TwoEnded: true, Pressure: 0.3, Level: 3}
	stated := match.FanUnknowns{TwoEnded: true, Pressure: 0.3}
	at := placesOf(defaultDraws, 0, "fan")
	var ends, levels []float64
	for k, x := range at.draws(u) {
		plain := placesOf(defaultDraws, 0, "fan").draws(match.FanUnknowns{TwoEnded: true, Level: 3})[k]
		ends = append(ends, x.Pressure/plain.Pressure)
		levels = append(levels, x.Level-plain.Level-20*math.Log10(x.Pressure/plain.Pressure))
	}
	b := bandOf(ends)
	check(t, "pressure, 90 %", b.High, 1.3, 0.02, "±30 %")
	check(t, "pressure, 10 %", b.Low, 1/1.3, 0.02, "±30 %")
	if l := bandOf(levels); math.Abs(l.Low)+math.Abs(l.High) > 1e-9 {
		t.Errorf("level less 20·lg of the pressure: %+v dB, want 0", l)
	}
	for k, x := range at.draws(stated) {
		if plain := placesOf(defaultDraws, 0, "fan").draws(match.FanUnknowns{TwoEnded: true})[k]; x.Level != plain.Level {
			t.Fatalf("a stated level is moved by an estimated end: %v, %v", x.Level, plain.Level)
		}
	}
}

// A curve is off by ±10 % in flow along any system: its pressure goes with the
// square.
func TestCurveTolerance(t *testing.T) {
	var flows []float64
	for _, x := range placesOf(defaultDraws, 0, "fan").draws(match.FanUnknowns{}) {
		flows = append(flows, x.Flow)
		check(t, "pressure", x.Pressure, x.Flow*x.Flow, 1e-12, "along any system")
	}
	b := bandOf(flows)
	check(t, "flow, 90 %", b.High, 1.1, 0.005, "curve.FlowTolerance")
	check(t, "flow, 10 %", b.Low, 1/1.1, 0.005, "curve.FlowTolerance")
}

// A fan of the alarm's own full speed is planned within the tolerance; that it may
// turn slower than its label does not trip the alarm twice over.
func TestAlarm(t *testing.T) {
	req := requestFor(t, byFlow(20))
	req.Path.Seat.Watches = match.WatchTach
	req.Path.Seat.AlarmSpeed = quantity.Stated(5600 * 0.8 * quantity.RevolutionPerMinute)
	r := rankOf(t, req, Options{}, fanOf(t, strings.Replace(strong, "7500", "5000", 1)+" tach_per_rev=2 leads=3"))
	_, s := r.of(t, 0)
	// It trips at 4480 of 5000 rpm: a fan that turns up to 10 % slower than its label
	// does not reach that in a draw below 0.896 at full speed, which there is none.
	if s.Kept < 0.99 {
		t.Errorf("it is enough in %v of the draws, want all", s.Kept)
	}
	if low := s.Needed.Ratio.Low; low < 0.9-1e-9 {
		t.Errorf("runs down to %v of its label, below what the alarm leaves", low)
	}
}
