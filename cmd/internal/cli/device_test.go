package cli

import (
	"errors"
	"math"
	"reflect"
	"testing"

	"github.com/spf13/pflag"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match"
	"lowsone/match/resistance"
)

// deviceOf reads device flags as the commands do.
func deviceOf(t *testing.T, args ...string) *deviceFlags {
	t.Helper()
	var d deviceFlags
	flags := pflag.NewFlagSet("test", pflag.ContinueOnError)
	d.register(flags)
	if err := flags.Parse(args); err != nil {
		t.Fatal(err)
	}
	return &d
}

func fanWith(t *testing.T, values ...string) *catalog.Fan {
	t.Helper()
	var f fittedFlags
	for _, v := range values {
		if err := f.readField(v); err != nil {
			t.Fatal(err)
		}
	}
	return f.overrule(&catalog.Fan{Part: "A"})
}

// Each way of the command line becomes the same way of the match, in SI.
func TestWay(t *testing.T) {
	for _, r := range []struct {
		name string
		args []string
		want match.Way
	}{
		{"none", nil, match.Way{Method: resistance.ByShare, Share: resistance.DefaultShare, Assumed: true}},
		{"share", []string{"--delivers", "60%"}, match.Way{Method: resistance.ByShare, Share: 0.6}},
		{"bare share is percent", []string{"--delivers", "60"}, match.Way{Method: resistance.ByShare, Share: 0.6}},
		{"flow", []string{"--flow", "36m3/h"}, match.Way{Method: resistance.ByFlow, Flow: 0.01}},
		{"bare flow is m³/h", []string{"--flow", "36"}, match.Way{Method: resistance.ByFlow, Flow: 0.01}},
		{"pressure", []string{"--pressure", "2mmH2O"}, match.Way{Method: resistance.ByPressure, Pressure: 19.6133}},
		{"heat", []string{"--heat", "90W", "--air-rise", "9K", "--inlet", "75.2F", "--fan-at", "outlet"},
			match.Way{Method: resistance.ByHeat, Heat: match.Heat{Power: 90, AirRise: 9, Inlet: quantity.Stated(quantity.Celsius(24)), Outlet: true}}},
		{"heat at the inlet", []string{"--heat", "90", "--air-rise", "9"}, match.Way{Method: resistance.ByHeat, Heat: match.Heat{Power: 90, AirRise: 9}}},
		{"points", []string{"--point", "36:9", "--point", "10l/s:9Pa"}, match.Way{Method: resistance.ByPoints}},
	} {
		got := deviceOf(t, r.args...).way.way()
		near := func(a, b float64) bool { return math.Abs(a-b) < 1e-9 }
		inlet, want := got.Heat.Inlet.Or(quantity.Celsius(-99)).Celsius(), r.want.Heat.Inlet.Or(quantity.Celsius(-99)).Celsius()
		if got.Method != r.want.Method || got.Assumed != r.want.Assumed || !near(got.Share, r.want.Share) || !near(float64(got.Flow), float64(r.want.Flow)) ||
			!near(float64(got.Pressure), float64(r.want.Pressure)) || got.Heat.Power != r.want.Heat.Power || got.Heat.AirRise != r.want.Heat.AirRise ||
			got.Heat.Outlet != r.want.Heat.Outlet || !near(inlet, want) {
			t.Errorf("%s: way(%q) = %+v, want %+v", r.name, r.args, got, r.want)
		}
	}
	points := deviceOf(t, "--point", "36:9", "--point", "10l/s:9Pa").way.way().Points
	for i, p := range points {
		if math.Abs(float64(p.Flow)-0.01) > 1e-12 || p.Pressure != 9 {
			t.Errorf("point %d = %+v, want 0.01 m³/s and 9 Pa", i+1, p)
		}
	}
}

// The seat is the fitted fan's but for what the flags say.
func TestSeat(t *testing.T) {
	fan := fanWith(t, "width_mm=60", "height_mm=60", "depth_mm=25", "hole_pitch_mm=50", "kind=axial", "supply=dc", "voltage_v=12", "leads=3", "connector=keyed")
	same := match.SeatOf(fan)
	if got := deviceOf(t).seat.seat(fan); !reflect.DeepEqual(got, same) {
		t.Errorf("seat without flags = %+v, want %+v", got, same)
	}
	for _, r := range []struct {
		name   string
		args   []string
		change func(*match.Seat)
	}{
		{"frame again", []string{"--frame", "60x60"}, func(*match.Seat) {}},
		{"another frame forgets the pitch", []string{"--frame", "80"}, func(s *match.Seat) {
			s.Width, s.Height, s.HolePitch = quantity.Stated(80*quantity.Millimetre), quantity.Stated(80*quantity.Millimetre), quantity.Known[quantity.Length]{}
		}},
		{"another frame with its pitch", []string{"--frame", "80", "--hole-pitch", "71.5"}, func(s *match.Seat) {
			s.Width, s.Height, s.HolePitch = quantity.Stated(80*quantity.Millimetre), quantity.Stated(80*quantity.Millimetre), quantity.Stated(71.5*quantity.Millimetre)
		}},
		{"depth", []string{"--depth-max", "2cm"}, func(s *match.Seat) { s.DepthMax = quantity.Stated(2 * quantity.Centimetre) }},
		{"any kind", []string{"--kind", "any"}, func(s *match.Seat) { s.AnyKind = true }},
		{"kind", []string{"--kind", "Centrifugal"}, func(s *match.Seat) { s.Kind = quantity.Stated(catalog.Centrifugal) }},
		{"supply", []string{"--supply", "ac", "--mains", "60", "--voltage", "115V"}, func(s *match.Seat) {
			s.Supply, s.Mains, s.Voltage = quantity.Stated(catalog.AC), quantity.Stated(60*quantity.Hertz), quantity.Stated(115*quantity.Volt)
		}},
		{"current", []string{"--current-max", "250mA"}, func(s *match.Seat) { s.CurrentMax = quantity.Stated(250 * quantity.Milliampere) }},
		{"leads and plug", []string{"--leads", "2", "--connector", "bare"}, func(s *match.Seat) { s.Leads, s.Connector = quantity.Stated(2.0), "bare" }},
		{"alarm speed means a tach", []string{"--alarm-speed", "1800", "--alarm-pulses", "2"}, func(s *match.Seat) {
			s.Watches, s.AlarmSpeed, s.AlarmPulses = match.WatchTach, quantity.Stated(1800*quantity.RevolutionPerMinute), quantity.Stated(2.0)
		}},
		{"alarm", []string{"--watches", "alarm"}, func(s *match.Seat) { s.Watches = match.WatchAlarm }},
		{"nothing watched", []string{"--watches", "nothing"}, func(s *match.Seat) { s.Watches = match.Unwatched }},
		{"slowed by voltage", []string{"--slow-by", "voltage"}, func(s *match.Seat) { s.SlowBy = match.SlowVoltage }},
		{"air", []string{"--air-temp", "30C"}, func(s *match.Seat) { s.AirTemp = quantity.Stated(quantity.Celsius(30)) }},
	} {
		want := same
		r.change(&want)
		if got := deviceOf(t, r.args...).seat.seat(fan); !reflect.DeepEqual(got, want) {
			t.Errorf("%s: seat = %+v, want %+v", r.name, got, want)
		}
	}
}

// Values that were given overrule the catalogue; ends that were given overrule
// its curve, and a curve that was given its ends.
func TestOverrule(t *testing.T) {
	curve := "curve=0:60;20:30;40:0"
	for _, r := range []struct {
		name           string
		base, given    []string
		flow, pressure float64 // m³/h, Pa
		points         int
	}{
		{"nothing given", []string{curve}, nil, 40, 60, 3},
		{"another value", []string{curve}, []string{"voltage_v=24"}, 40, 60, 3},
		{"an end", []string{curve}, []string{"airflow_m3h=30"}, 30, 60, 0},
		{"a curve", []string{curve}, []string{"curve=0:50;30:0"}, 40, 60, 2},
		{"a curve and its end", []string{"airflow_m3h=30"}, []string{"curve=0:50;28:0", "airflow_m3h=28"}, 28, 50, 2},
	} {
		var f fittedFlags
		for _, v := range r.given {
			if err := f.readField(v); err != nil {
				t.Fatal(err)
			}
		}
		base := fanWith(t, r.base...)
		got := f.overrule(base)
		flow, pressure := float64(got.Airflow.Or(0)/quantity.CubicMetrePerHour), float64(got.StaticPressure.Or(0))
		if math.Abs(flow-r.flow) > 1e-9 || math.Abs(pressure-r.pressure) > 1e-9 || len(got.Curve) != r.points {
			t.Errorf("%s: %v m³/h, %v Pa, %d points, want %v, %v, %d", r.name, flow, pressure, len(got.Curve), r.flow, r.pressure, r.points)
		}
		if got == base {
			t.Errorf("%s: the fan of the catalogue itself was changed", r.name)
		}
	}
}

func TestSpeedIsRatioOrTurns(t *testing.T) {
	for _, r := range []struct {
		text  string
		ratio float64
		turns float64 // 1/s
	}{{"75%", 0.75, 0}, {"3000rpm", 0, 50}, {"3000", 0, 50}, {"50 1/s", 0, 50}} {
		got := deviceOf(t, "--replace-speed", r.text).fitted.speed
		if math.Abs(got.Ratio.Or(0)-r.ratio) > 1e-12 || math.Abs(float64(got.Turns.Or(0))-r.turns) > 1e-9 {
			t.Errorf("--replace-speed %s = %+v, want ratio %v or %v turns", r.text, got, r.ratio, r.turns)
		}
	}
}

// TestBareSpeedIsAskedBack: a number that may be a percentage is not taken as turns.
func TestBareSpeedIsAskedBack(t *testing.T) {
	for text, want := range map[string]string{
		"60":   "write 60% for a share, or 60rpm",
		"0.7":  "write 70% for a share, or 0.7rpm",
		"900":  "write 900% for a share, or 900rpm",
		"1001": "", "60rpm": "", "60%": "", "15 1/s": "",
	} {
		var to target
		err := to.readSpeed(text)
		if hint := hintOf(err); hint != want || (err == nil) != (want == "") {
			t.Errorf("readSpeed(%q): %v, hint %q, want %q", text, err, hint, want)
		}
	}
}

// Every refusal of the command line is a usage error: nothing was done.
func TestNeed(t *testing.T) {
	for _, r := range []struct {
		text  string
		share float64
		flow  float64 // m³/s
		code  int
	}{
		{"80%", 0.8, 0, exitDone}, {"120 %", 1.2, 0, exitDone}, {"36m3/h", 0, 0.01, exitDone}, {"10l/s", 0, 0.01, exitDone},
		{"80", 0, 0, exitUsage}, {"0%", 0, 0, exitUsage}, {"-3m3/h", 0, 0, exitUsage}, {"0.8", 0, 0, exitUsage},
	} {
		var c choiceFlags
		err := c.readNeed(r.text)
		if code := codeOf(err); code != r.code {
			t.Errorf("readNeed(%q): exit %d (%v), want %d", r.text, code, err, r.code)
		}
		if err == nil && (math.Abs(c.need.Share-r.share) > 1e-12 || math.Abs(float64(c.need.Flow)-r.flow) > 1e-12) {
			t.Errorf("readNeed(%q) = %+v, want share %v, flow %v", r.text, c.need, r.share, r.flow)
		}
	}
}

func TestDeviceNamesWhatIsMissing(t *testing.T) {
	var f *failure
	if err := deviceOf(t, "--flow", "30").check(); !errors.As(err, &f) || f.code != exitUsage {
		t.Errorf("check without a fitted fan = %v, want a usage error", err)
	}
	if err := deviceOf(t, "--flow", "30", "--replace", "A").check(); err != nil {
		t.Errorf("check = %v", err)
	}
}
