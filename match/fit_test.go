package match

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/testdata/sources"
)

// verdictOf asks one check of one fan.
func verdictOf(t *testing.T, name CheckName, seat Seat, fitted, fan *catalog.Fan) (catalog.Verdict, string) {
	t.Helper()
	for _, c := range newFit(seat, fitted, 1).report(catalog.ColumnsOf(fan), 0) {
		if c.Name == name {
			return c.Verdict, c.Note
		}
	}
	t.Fatalf("no check %q", name)
	return 0, ""
}

func TestChecks(t *testing.T) {
	const base = "part=A airflow_m3h=40 static_pressure_pa=60 noise_dba=30 "
	rows := []struct {
		name   string
		check  CheckName
		fitted string
		seat   func(*Seat)
		fan    string
		want   catalog.Verdict
		note   string // part of it
	}{
		{"same pitch", CheckFrame, loud, nil, "width_mm=60 height_mm=60 hole_pitch_mm=50", catalog.Pass, ""},
		{"pitch within half a millimetre", CheckFrame, loud, nil, "width_mm=60 height_mm=60 hole_pitch_mm=50.5", catalog.Pass, ""},
		{"other pitch, same frame", CheckFrame, loud, nil, "width_mm=60 height_mm=60 hole_pitch_mm=48", catalog.Fail, "hole pitch 48 mm, the seat has 50 mm"},
		{"diagonal", CheckFrame, loud, nil, "width_mm=60 height_mm=60 hole_pitch_mm=70.7", catalog.Pass, "diagonal"},
		{"same pitch, wider frame", CheckFrame, loud, nil, "width_mm=63 height_mm=63 hole_pitch_mm=50", catalog.Warn, "check the space"},
		{"same pitch, wider frame, room for it", CheckFrame, loud, func(s *Seat) {
			s.SpaceWidth, s.SpaceHeight = quantity.Stated(64*quantity.Millimetre), quantity.Stated(64*quantity.Millimetre)
		}, "width_mm=63 height_mm=63 hole_pitch_mm=50", catalog.Pass, "in a space of 64 mm"},
		{"same pitch, wider frame, no room", CheckFrame, loud, func(s *Seat) {
			s.SpaceWidth, s.SpaceHeight = quantity.Stated(62*quantity.Millimetre), quantity.Stated(62*quantity.Millimetre)
		}, "width_mm=63 height_mm=63 hole_pitch_mm=50", catalog.Fail, "the space has 62 mm"},
		{"by frame", CheckFrame, loud, nil, "width_mm=60 height_mm=60", catalog.Pass, "common practice"},
		{"by frame, 70 mm", CheckFrame, "part=F width_mm=70 height_mm=70", nil, "width_mm=70 height_mm=70", catalog.Unclear, "ask"},
		{"by frame, unusual pitch", CheckFrame, "part=F width_mm=120 height_mm=120 hole_pitch_mm=110", nil, "width_mm=120 height_mm=120", catalog.Unclear, "usual"},
		{"119 is 120", CheckFrame, "part=F width_mm=120 height_mm=120", nil, "width_mm=119 height_mm=119", catalog.Pass, ""},
		{"other frame", CheckFrame, loud, nil, "width_mm=80 height_mm=80", catalog.Fail, "80 × 80 mm, the seat has 60 mm"},
		{"no frame", CheckFrame, loud, nil, "", catalog.Unclear, "not stated"},
		{"blower by frame", CheckFrame, "part=F kind=centrifugal width_mm=51 height_mm=51", nil, "kind=centrifugal width_mm=51 height_mm=51", catalog.Unclear, "compare the drawings"},
		{"deeper", CheckDepth, loud, nil, "depth_mm=38", catalog.Fail, "38 mm deep, 25 mm at most"},
		{"thinner", CheckDepth, loud, nil, "depth_mm=20", catalog.Pass, "5 mm thinner"},
		{"same depth in inches", CheckDepth, loud, nil, "depth_mm=25.4", catalog.Pass, ""},
		{"blower in an axial seat", CheckKind, loud, nil, "kind=centrifugal", catalog.Fail, "centrifugal in a seat for axial"},
		{"blower, kinds may change", CheckKind, loud, func(s *Seat) { s.AnyKind = true }, "kind=centrifugal", catalog.Warn, "outlet side"},
		{"AC on DC", CheckSupply, loud, nil, "supply=ac voltage_v=12", catalog.Fail, "AC fan on a DC supply"},
		{"24 V on 12 V", CheckVoltage, loud, nil, "voltage_v=24", catalog.Fail, "24 V fan on 12 V"},
		{"within 5 %", CheckVoltage, loud, func(s *Seat) { s.Voltage = quantity.Stated(12.5 * quantity.Volt) }, "voltage_v=12", catalog.Pass, ""},
		{"beyond 5 %", CheckVoltage, loud, func(s *Seat) { s.Voltage = quantity.Stated(13 * quantity.Volt) }, "voltage_v=12", catalog.Fail, ""},
		{"400 Hz on 50 Hz", CheckSupply, "part=F supply=ac frequency_hz=50", nil, "supply=ac frequency_hz=400", catalog.Fail, "made for 400 Hz, the device gives 50 Hz"},
		{"60 Hz on 50 Hz", CheckSupply, "part=F supply=ac frequency_hz=50", nil, "supply=ac frequency_hz=60", catalog.Pass, ""},
		{"400 Hz, mains not known", CheckSupply, "part=F supply=ac", nil, "supply=ac frequency_hz=400", catalog.Unclear, "made for 400 Hz"},
		{"no frequency on 400 Hz", CheckSupply, "part=F supply=ac frequency_hz=400", nil, "supply=ac", catalog.Unclear, "the device gives 400 Hz"},
		{"AC within 10 %", CheckVoltage, "part=F supply=ac voltage_v=230", func(s *Seat) { s.Voltage = quantity.Stated(240 * quantity.Volt) }, "supply=ac voltage_v=220", catalog.Pass, ""},
		{"within its range", CheckVoltage, loud, nil, "voltage_v=24 voltage_min_v=10 voltage_max_v=28", catalog.Pass, "another speed"},
		{"no voltage", CheckVoltage, loud, nil, "", catalog.Unclear, ""},
		{"too much current", CheckCurrent, loud, func(s *Seat) { s.CurrentMax = quantity.Stated(0.25 * quantity.Ampere) }, "current_a=0.3", catalog.Fail, "draws 0.3 A, the output gives 0.25 A"},
		{"current from power", CheckCurrent, loud, func(s *Seat) { s.CurrentMax = quantity.Stated(0.25 * quantity.Ampere) }, "power_w=2.4 voltage_v=12", catalog.Pass, ""},
		{"more than the fitted fan", CheckCurrent, loud, nil, "current_a=0.3", catalog.Warn, "the fitted fan 0.2 A"},
		{"watched tach, two leads", CheckTach, loud, func(s *Seat) { s.Watches = WatchTach }, "leads=2", catalog.Fail, ""},
		{"watched tach, no pulses stated", CheckTach, loud, func(s *Seat) { s.Watches = WatchTach }, "leads=3", catalog.Unclear, "alarm"},
		{"watched tach, too slow", CheckTach, loud, func(s *Seat) {
			s.Watches, s.AlarmSpeed = WatchTach, quantity.Stated(2700*quantity.RevolutionPerMinute)
		}, "leads=3 tach_per_rev=2 speed_rpm=2900", catalog.Fail, "3000 rpm needed"}, // 2700/0.9
		{"pulses counted double", CheckTach, loud, func(s *Seat) {
			s.Watches, s.AlarmSpeed, s.AlarmPulses = WatchTach, quantity.Stated(2700*quantity.RevolutionPerMinute), quantity.Stated(2.0)
		}, "leads=3 tach_per_rev=4 speed_rpm=1600", catalog.Pass, ""}, // reads as 3200 rpm
		{"alarm against pulses", CheckTach, loud, func(s *Seat) { s.Watches = WatchAlarm }, "leads=3 tach_per_rev=2", catalog.Fail, "locked-rotor"},
		{"alarm against alarm", CheckTach, loud, func(s *Seat) { s.Watches = WatchAlarm }, "leads=3 tach_per_rev=0", catalog.Unclear, "not stated"},
		{"alarm against two leads", CheckTach, loud, func(s *Seat) { s.Watches = WatchAlarm }, "leads=2", catalog.Fail, "two leads"},
		{"third lead without pulses", CheckTach, loud, nil, "leads=3 tach_per_rev=0", catalog.Warn, "no pulses"},
		{"third lead lost", CheckTach, loud, nil, "leads=2", catalog.Warn, "does the device watch it?"},
		{"other pulses", CheckTach, loud, nil, "leads=3 tach_per_rev=4", catalog.Warn, "wrong speed"},
		{"not watched", CheckTach, loud, func(s *Seat) { s.Watches = Unwatched }, "leads=2", catalog.Pass, ""},
		{"driven PWM, none there", CheckPWM, loud, func(s *Seat) { s.SlowBy = SlowPWM }, "leads=3", catalog.Fail, ""},
		{"driven PWM, not stated", CheckPWM, loud, func(s *Seat) { s.SlowBy = SlowPWM }, "leads=4", catalog.Unclear, ""},
		{"hot", CheckTemperature, loud, func(s *Seat) { s.AirTemp = quantity.Stated(quantity.Celsius(62)) }, "temp_max_c=60", catalog.Fail, ""},
		{"nearly hot", CheckTemperature, loud, func(s *Seat) { s.AirTemp = quantity.Stated(quantity.Celsius(56)) }, "temp_max_c=60", catalog.Warn, ""},
		{"fewer leads", CheckLeads, loud, nil, "leads=2", catalog.Warn, ""},
		{"same plug", CheckConnector, loud + " connector=XH-3", nil, "connector=xh-3", catalog.Pass, "pin order"},
		{"other plug", CheckConnector, loud + " connector=XH-3", nil, "connector=bare", catalog.Warn, "splice"},
	}
	for _, row := range rows {
		fitted := fanOf(t, row.fitted)
		seat := SeatOf(fitted)
		if row.seat != nil {
			row.seat(&seat)
		}
		got, note := verdictOf(t, row.check, seat, fitted, fanOf(t, base+row.fan))
		if got != row.want || !strings.Contains(note, row.note) {
			t.Errorf("%s: %s is %s (%s), want %s (…%s…)", row.name, row.check, got, note, row.want, row.note)
		}
	}
}

// Nothing known of seat or fan: every check is unclear, none passes by default.
func TestMissingDataNeverPasses(t *testing.T) {
	fan := &catalog.Fan{Part: "X"}
	for _, c := range newFit(Seat{}, &catalog.Fan{Part: "F"}, 1).report(catalog.ColumnsOf(fan), 0) {
		if c.Name == CheckPWM { // no PWM is known to be driven: nothing to ask for
			continue
		}
		if c.Verdict != catalog.Unclear {
			t.Errorf("%s is %s (%s), want unknown", c.Name, c.Verdict, c.Note)
		}
	}
}

// TestPitchOfFrame checks the hole pitches against open drawings of square
// axial fans (testdata/sources/fit_frames.csv, SEEN).
func TestPitchOfFrame(t *testing.T) {
	rows := sources.Rows(t, "fit_frames.csv")
	checked := 0
	for _, r := range rows[1:] {
		if r[0] != "axial_square" || r[1] == "140" { // 140 mm: two pitches, asked for
			continue
		}
		frame, _ := strconv.ParseFloat(r[1], 64)
		pitch, _ := strconv.ParseFloat(r[2], 64)
		got, ok := UsualPitch(frame / 1000)
		if !ok || math.Abs(got*1000-pitch) > 0.05 {
			t.Errorf("pitch of a %v mm frame = %v mm, want %v mm ± 0.05 (%s)", frame, got*1000, pitch, r[7])
		}
		checked++
	}
	if checked < 8 {
		t.Errorf("only %d frames checked", checked)
	}
	if _, ok := UsualPitch(0.140); ok {
		t.Error("a 140 mm frame has two usual pitches and must be asked for")
	}
}

func TestNotes(t *testing.T) {
	n := note{format: "# mm deep, # mm at most, ¤ on ¤, 80 %", a: 38.10004, b: 25, s: "AC", t: "DC"}
	if got, want := n.String(), "38.1 mm deep, 25 mm at most, AC on DC, 80 %"; got != want {
		t.Errorf("note = %q, want %q", got, want)
	}
}

// What is open because the device does not say it names what would settle it.
func TestChecksNameWhatSettlesThem(t *testing.T) {
	want := map[CheckName]Question{
		CheckFrame: AskFrame, CheckDepth: AskDepth, CheckKind: AskKind, CheckSupply: AskSupply, CheckVoltage: AskVoltage,
		CheckTemperature: AskAirTemp, CheckLeads: AskLeads, CheckConnector: AskConnector, CheckCurrent: AskCurrent, CheckTach: AskWatches,
	}
	full := fanOf(t, "part=F kind=axial width_mm=60 height_mm=60 depth_mm=25 hole_pitch_mm=50 voltage_v=12 supply=dc current_a=0.2 leads=3 tach_per_rev=2 temp_max_c=70 connector=plug")
	bare := newFit(Seat{}, fanOf(t, "part=G"), 1)
	for _, c := range bare.report(catalog.ColumnsOf(full), 0) {
		if asks := want[c.Name]; c.Asks != asks {
			t.Errorf("%s: %s %q asks %d, want %d", c.Name, c.Verdict, c.Note, c.Asks, asks)
		}
	}
	seat := SeatOf(full)
	seat.CurrentMax, seat.AirTemp = quantity.Stated[quantity.Current](1), quantity.Stated(quantity.Celsius(30))
	for _, c := range newFit(seat, full, 1).report(catalog.ColumnsOf(fanOf(t, "part=H")), 0) {
		if c.Asks != AskNothing && c.Name != CheckTach { // what the device watches is open there too
			t.Errorf("%s: %q is of the fan and asks %d of the device", c.Name, c.Note, c.Asks)
		}
	}
}

// A fan that does not state its pulses is held against the alarm at two a turn,
// which warns and never takes it out. Counted with two, 2500 rpm stays silent from
// 2500 rpm on, and surely so from 2500/0.9 = 2778 rpm (common practice: ±10 %).
func TestAlarmAtTheUsualPulses(t *testing.T) {
	seat := SeatOf(fanOf(t, loud))
	seat.Watches, seat.AlarmSpeed, seat.AlarmPulses = WatchTach, quantity.Stated(2500*quantity.RevolutionPerMinute), quantity.Stated(2.0)
	four := seat
	four.AlarmPulses = quantity.Stated(4.0)
	unwatched := seat
	unwatched.Watches = Unwatched
	nan := math.NaN()
	for _, r := range []struct {
		name                  string
		seat                  Seat
		planned, full, pulses float64 // rpm
		want                  catalog.Verdict
		note                  string
	}{
		{"trips", seat, 1981, 2600, nan, catalog.Warn, "alarm at 2500 rpm: its 1981 rpm would trip it at 2 pulses a turn (full speed may, too); tach_per_rev of its row settles it"},
		{"trips, fast enough at full speed", seat, 1981, 2800, nan, catalog.Warn, "its 1981 rpm would trip it at 2 pulses a turn; tach"},
		{"trips at full speed too", seat, 1981, 2400, nan, catalog.Warn, "(full speed would, too)"},
		{"within the tolerance", seat, 2600, 3000, nan, catalog.Warn, "its 2600 rpm may trip it"},
		{"above", seat, 2800, 3000, nan, catalog.Pass, ""},
		{"stated: planned above it already", seat, 1981, 2600, 2, catalog.Pass, ""},
		{"counted with four: reads as half", four, 4000, 6000, nan, catalog.Warn, "its 4000 rpm would trip it at 2 pulses"},
		{"not watched", unwatched, 1981, 2600, nan, catalog.Pass, ""},
		{"speed not known", seat, nan, nan, nan, catalog.Pass, ""},
	} {
		got, why := newFit(r.seat, fanOf(t, loud), 1).alarm(r.planned/60, r.full/60, r.pulses)
		if text := why.String(); got != r.want || !strings.Contains(text, r.note) || r.note == "" && text != "" {
			t.Errorf("%s: alarm is %s (%s), want %s (…%s…)", r.name, got, text, r.want, r.note)
		}
	}
}

// In a ranking such a fan stays, with the warning.
func TestUnstatedPulsesStayInTheRanking(t *testing.T) {
	req := tunnel(t)
	req.Path.Seat.Watches, req.Path.Seat.AlarmSpeed = WatchTach, quantity.Stated(5000*quantity.RevolutionPerMinute)
	fan := fanOf(t, "part=Q kind=axial width_mm=60 height_mm=60 depth_mm=25 hole_pitch_mm=50 voltage_v=12 supply=dc leads=3 current_a=0.2 "+
		"airflow_m3h=60 static_pressure_pa=180 noise_dba=40 speed_rpm=5200")
	for _, c := range candidateOf(t, rankOf(t, req, fan), 0).Checks {
		if c.Name == CheckTach && (c.Verdict != catalog.Warn || !strings.Contains(c.Note, "would trip it at 2 pulses a turn")) {
			t.Errorf("tach is %s (%s), want a warning", c.Verdict, c.Note)
		}
	}
}

// A device that does not say how many pulses it counts reads the fitted fan right:
// another number is counted with that fan's. 2700 rpm at two a turn are 1350 rpm
// of a fan that gives four; 1350/0.9 = 1500 rpm.
func TestAlarmCountsThePulsesOfTheFittedFan(t *testing.T) {
	fitted := fanOf(t, loud)
	seat := SeatOf(fitted)
	seat.Watches, seat.AlarmSpeed = WatchTach, quantity.Stated(2700*quantity.RevolutionPerMinute)
	if got := newFit(seat, fitted, 1).lowestTurns(4) * 60; !near(got, 1500, 1e-9) {
		t.Errorf("lowest speed of a fan of four pulses %v rpm, want 1500", got)
	}
}
