package cli

import (
	"math"
	"testing"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/cmd/internal/view"
	"lowsone/match"
	"lowsone/match/drive"
	"lowsone/match/thermal"
)

// A device that alarms below 2500 rpm, held against a fan of 2600 rpm rated at 70
// to 80 % of that: by hand 1820 to 2080 rpm, under it with ±10 % too.
func TestWatchJudges(t *testing.T) {
	nan := math.NaN()
	for _, r := range []struct {
		name           string
		turns, counted float64 // rpm, pulses
		pulses         float64 // of the fan
		leads          int
		want           drive.Verdict
		assumed        bool
		tach           float64 // Hz at the fast end, 80 % and 10 % more
	}{
		{"all known", 2500, 2, 2, 3, drive.Fails, false, 2 * 2600.0 / 60 * 0.8 * 1.1},
		{"pulses of the fan not known", 2500, 2, nan, 3, drive.Fails, true, 2 * 2600.0 / 60 * 0.8 * 1.1},
		{"counted pulses not known", 2500, nan, 2, 3, drive.Fails, true, 2 * 2600.0 / 60 * 0.8 * 1.1},
		{"silent", 1500, 2, nan, 3, drive.Passes, true, 2 * 2600.0 / 60 * 0.8 * 1.1},
		{"two leads", 1500, 2, nan, 2, drive.Fails, false, 0},
		{"no pulses", 1500, 2, 0, 3, drive.Fails, false, 0},
		{"no alarm known", nan, 2, nan, 3, drive.Unknown, false, 0},
	} {
		l := drive.Load{Fan: drive.Fan{RatedSpeed: 2600.0 / 60}, PulsesPerTurn: r.pulses, Leads: r.leads}
		e := watch{turns: r.turns / 60, counted: r.counted}.of(l).judge(l, drive.Range{Low: 0.7, High: 0.8})
		if e.Alarm != r.want || e.AlarmAssumed != r.assumed || math.Abs(e.Tach.High-r.tach) > 1e-9 {
			t.Errorf("%s: %v, assumed %v, tach up to %v Hz; want %v, %v, %v", r.name, e.Alarm, e.AlarmAssumed, e.Tach.High, r.want, r.assumed, r.tach)
		}
	}
}

// Flags alone: what is not said is counted as the fan gives it.
func TestWatchedByFlags(t *testing.T) {
	f := seatFlags{alarmSpeed: quantity.Stated(3000 * quantity.RevolutionPerMinute)}
	if w := f.watched(&catalog.Fan{TachPerRev: quantity.Stated(4.0)}); math.Abs(w.turns-50) > 1e-9 || w.counted != 4 {
		t.Errorf("watch %+v, want 50 1/s counted with 4", w)
	}
	if w := (&seatFlags{}).watched(&catalog.Fan{}); !math.IsNaN(w.turns) {
		t.Errorf("watch %+v, want none", w)
	}
}

// The resistor to try first starts the fan and keeps the margin where one does,
// even if another comes nearer to the target.
func TestBestNearest(t *testing.T) {
	hot := func(c float64) view.SlowEnd {
		return view.SlowEnd{At: &match.AtSpeed{Spots: []match.SpotTemperature{{Planned: thermal.Band{High: c}, Limit: 85, Margin: 10}}}}
	}
	one := func(volts float64, start drive.Verdict, alarm drive.Verdict, slow float64) (drive.Plan, view.SlowEffect) {
		return drive.Plan{Volts: drive.Range{Low: volts, High: volts}, Start: start}, view.SlowEffect{Alarm: alarm, Low: hot(slow), High: hot(60)}
	}
	for _, r := range []struct {
		name string
		make func(add func(drive.Plan, view.SlowEffect))
		want int
	}{
		{"the nearest of equal ones", func(add func(drive.Plan, view.SlowEffect)) {
			add(one(9.5, drive.Unknown, drive.Passes, 70))
			add(one(9, drive.Unknown, drive.Passes, 72))
			add(one(8, drive.Unknown, drive.Passes, 74))
		}, 1},
		{"one that keeps the margin", func(add func(drive.Plan, view.SlowEffect)) {
			add(one(9.5, drive.Unknown, drive.Passes, 70))
			add(one(9, drive.Unknown, drive.Passes, 80))
		}, 0},
		{"none keeps it", func(add func(drive.Plan, view.SlowEffect)) {
			add(one(9.5, drive.Unknown, drive.Passes, 77))
			add(one(9, drive.Unknown, drive.Passes, 80))
		}, 1},
		{"one that starts, though it eats the margin", func(add func(drive.Plan, view.SlowEffect)) {
			add(one(9.5, drive.Fails, drive.Passes, 70))
			add(one(10, drive.Passes, drive.Passes, 78))
		}, 1},
		{"one whose slowest speed is known", func(add func(drive.Plan, view.SlowEffect)) {
			p, e := one(9, drive.Unknown, drive.Passes, 70)
			p.Speed.Low, e.Low = math.NaN(), view.SlowEnd{}
			add(p, e)
			add(one(10, drive.Unknown, drive.Passes, 80))
		}, 1},
		{"one that does not alarm", func(add func(drive.Plan, view.SlowEffect)) {
			add(one(9, drive.Passes, drive.Fails, 70))
			add(one(10, drive.Passes, drive.Doubtful, 70))
		}, 1},
	} {
		m := view.SlowMeans{}
		r.make(func(p drive.Plan, e view.SlowEffect) {
			m.Plans, m.Effects = append(m.Plans, p), append(m.Effects, e)
		})
		if got := bestNearest(&m, 9); got != r.want {
			t.Errorf("%s: number %d, want %d", r.name, got, r.want)
		}
	}
}
