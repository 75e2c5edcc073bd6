package match

import (
	"context"
	"math"
	"strings"
	"testing"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match/resistance"
)

// on puts the request's device on a supply, its fitted fan found at label speed.
func on(req Request, low, high float64) Request {
	req.Path.SpeedNow.Ratio = quantity.Stated(1.0)
	req.Path.Seat.VoltageLow, req.Path.Seat.Voltage = quantity.Stated(quantity.Voltage(low)), quantity.Stated(quantity.Voltage(high))
	return req
}

const strong = "part=S" + frame60 + "voltage_min_v=4 voltage_max_v=15 airflow_m3h=70 static_pressure_pa=220 noise_dba=40 speed_rpm=6000 "

// Behind a linear regulator a fan gets at most (V − 2)/V_nominal of its
// voltage, V the supply at its lowest, or the bare supply: nothing in between
// (physics.md 5.6 and 7).
func TestNothingBetweenRegulatorAndSupply(t *testing.T) {
	rows := []struct {
		name      string
		low, high float64 // V
		share     float64 // of 30 m³/h
		more      string
		want      Limit
	}{
		{"held at its start, which is above the head-room", 9, 9, 0.4, "", LimitHeadRoom},
		{"held at its start, within the head-room", 12, 12, 0.4, "", LimitStart},
		{"held above the alarm, over the head-room", 12, 12, 0.4, "tach_per_rev=2", LimitHeadRoom},
		{"enough head-room at the highest supply only", 10.5, 13, 1.15, "", LimitHeadRoom},
		{"enough head-room at the lowest supply", 12.9, 13, 1.15, "", LimitNone},
	}
	for _, row := range rows {
		req := on(requestFor(fanOf(t, loud), NotInCatalogue, byFlow(30)), row.low, row.high)
		req.Need.Share, req.Path.Seat.SlowBy = row.share, SlowVoltage
		if strings.Contains(row.name, "alarm") {
			req.Path.Seat.Watches, req.Path.Seat.AlarmSpeed = WatchTach, quantity.Stated(4900*quantity.RevolutionPerMinute)
		}
		c := candidateOf(t, rankOf(t, req, fanOf(t, strong+row.more)), 0)
		if c.Limit != row.want || row.want == LimitHeadRoom && c.Planned.Ratio != c.Full.Ratio {
			t.Errorf("%s: planned at %.4f of %.4f, limit %q, want %q", row.name, c.Planned.Ratio, c.Full.Ratio, c.Limit, row.want)
		}
	}
}

// A fan that nothing slows runs as fast as its supply lets it, above its
// nominal voltage too.
func TestUnslowedRunsAtItsSupply(t *testing.T) {
	for _, row := range []struct {
		slow SlowBy
		more string
	}{{SlowNone, ""}, {SlowPWM, ""}} {
		for _, share := range []float64{0.3, 1.45} { // matched below and above nominal speed
			req := on(requestFor(fanOf(t, loud), NotInCatalogue, byFlow(30)), 14, 14)
			req.Need.Share, req.Path.Seat.SlowBy = share, row.slow
			fan := fanOf(t, strings.Replace(strong, "leads=3", "leads=4", 1)+row.more)
			c := candidateOf(t, rankOf(t, req, fan), 0)
			if want := 1 + 0.76*(14.0/12-1); !near(c.Planned.Ratio, want, 1e-12) {
				t.Errorf("%v, %v of the flow: planned at %v, want %v", row.slow, share, c.Planned.Ratio, want)
			}
		}
	}
}

// The fitted fan that nothing slows runs as it was found, faster than its
// supply would tell too.
func TestUnslowedFittedFanRunsAsFound(t *testing.T) {
	for _, found := range []float64{0.75, 1.05} {
		req := on(requestFor(fanOf(t, loud), NotInCatalogue, byFlow(30)), 10.5, 10.5)
		req.Path.SpeedNow.Ratio = quantity.Stated(found)
		req.Need.Share, req.Path.Seat.SlowBy = 0.8, SlowPWM
		if c := candidateOf(t, rankOf(t, req), NotInCatalogue); !near(c.Planned.Ratio, found, 1e-9) {
			t.Errorf("found at %v of its label: planned at %v", found, c.Planned.Ratio)
		}
	}
}

// On 9 V a fan of 12 V turns at 2310/2850 of its label
// (testdata/sources/drive_speed_voltage.csv): 6000 rpm become 4863, less 10 %
// 4377. An alarm above that is never quiet.
func TestAlarmOnALowSupply(t *testing.T) {
	for _, row := range []struct {
		alarm float64 // rpm
		left  int     // out for the tach
	}{{4300, 0}, {4450, 1}} {
		req := on(requestFor(fanOf(t, loud), NotInCatalogue, byFlow(20)), 9, 9)
		req.Path.Seat.Watches, req.Path.Seat.AlarmSpeed = WatchTach, quantity.Stated(quantity.Speed(row.alarm)*quantity.RevolutionPerMinute)
		cols := catalog.ColumnsOf(fanOf(t, strong))
		r, err := Rank(context.Background(), cols, req)
		if err != nil {
			t.Fatal(err)
		}
		if r.Rejected[CheckTach] != row.left {
			t.Errorf("alarm at %v rpm: %d left out for the tach, want %d", row.alarm, r.Rejected[CheckTach], row.left)
		}
		why, err := Explain(context.Background(), cols, req, 0)
		if err != nil {
			t.Fatal(err)
		}
		if got := strings.HasPrefix(why.Outcome, "left out: tach: 4863 rpm at full speed on this supply"); got != (row.left == 1) {
			t.Errorf("alarm at %v rpm: explained as %q", row.alarm, why.Outcome)
		}
	}
}

// The verdict over the three shares asks at each for the flow that the watched
// spots need there, not for the present one.
func TestThreeSharesWithSpots(t *testing.T) {
	req := tunnel(t)
	req.Path.Way = Way{Method: resistance.ByShare, Share: resistance.DefaultShare, Assumed: true}
	req.Around.AmbientWorst = quantity.Stated(quantity.Celsius(40))
	req.Path.Spots[0].Limit = quantity.Celsius(80) // 30 K are left of 34 K found
	p, err := prepare(context.Background(), catalog.ColumnsOf(), req)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range p.task.scenario {
		free := 48 * float64(quantity.CubicMetrePerHour)
		if ratio := s.need / (s.share * free); !(ratio > 1.1) || math.IsInf(ratio, 0) {
			t.Errorf("at a share of %v the spot needs %.3f of the flow then, want more than it: 30 K are allowed of 34 K", s.share, ratio)
		}
		if s.share == 0.55 && !near(s.need, p.task.need, 1e-12) {
			t.Errorf("at the assumed share the need is %v, the ranking's %v", s.need, p.task.need)
		}
	}
	if len(p.task.scenario) != 3 {
		t.Errorf("%d shares, want 3", len(p.task.scenario))
	}
}

// An AC fan holds its label's speed only within 10 % of its voltage and at its
// frequency, or at the other of 50 and 60 Hz.
func TestFittedFanOffItsMains(t *testing.T) {
	const label = "part=F kind=axial width_mm=120 height_mm=120 depth_mm=38 voltage_v=230 supply=ac frequency_hz=50 airflow_m3h=160 static_pressure_pa=75 noise_dba=46 speed_rpm=2700"
	for _, row := range []struct {
		volts, hz float64
		measured  bool
		want      string // part of the error, empty for none
	}{
		{230, 50, false, ""}, {250, 60, false, ""}, {230, 50, true, ""},
		{115, 50, false, "an AC fan of 230 V on 115 V"}, {115, 50, true, ""},
		{230, 400, false, "its label is for 50 Hz, the device gives 400 Hz"}, {230, 400, true, ""},
	} {
		req := requestFor(fanOf(t, label), NotInCatalogue, byFlow(60))
		req.Path.Seat.Voltage, req.Path.Seat.Mains = quantity.Stated(quantity.Voltage(row.volts)), quantity.Stated(quantity.Frequency(row.hz))
		if row.measured {
			req.Path.SpeedNow.Ratio = quantity.Stated(0.9)
		}
		_, err := Rank(context.Background(), catalog.ColumnsOf(), req)
		if got := err != nil; got != (row.want != "") || got && !strings.Contains(err.Error(), row.want) {
			t.Errorf("%+v: error %v", row, err)
		}
	}
}

// A fan that regulates itself was found on a cool bench: what it moves at full
// speed is the present flow, and a fan at that speed is what is needed.
func TestRegulatedFan(t *testing.T) {
	for _, row := range []struct {
		regulated bool
		want      float64 // of the flow at full speed
	}{{false, 0.7}, {true, 1}} {
		req := requestFor(fanOf(t, loud), NotInCatalogue, byFlow(20))
		req.Path.SpeedNow.Ratio, req.Path.Regulated = quantity.Stated(0.7), row.regulated
		c := candidateOf(t, rankOf(t, req), NotInCatalogue)
		// Q goes with N on a purely quadratic system: 20 m³/h at 70 % are 20/0.7 at full speed.
		if want := row.want * 20 / 0.7; !near(m3h(c.Planned.Q), want, 1e-9) {
			t.Errorf("regulated %v: %v m³/h planned, want %v", row.regulated, m3h(c.Planned.Q), want)
		}
	}
}
