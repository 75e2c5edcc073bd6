package trial

import (
	"context"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lowsone/catalog/tabular"
	"lowsone/match/thermal"
)

func read(t testing.TB, text string, opts Options) *Log {
	t.Helper()
	l, err := ReadLog(context.Background(), "log.csv", strings.NewReader(text), int64(len(text)), opts)
	if err != nil {
		t.Fatalf("%q: %v", text, err)
	}
	return l
}

func times(p Probe) []float64 {
	var out []float64
	for _, r := range p.Readings {
		out = append(out, r.Time-p.Readings[0].Time)
	}
	return out
}

// A log says the same however it is written.
func TestWaysToWriteALog(t *testing.T) {
	for _, r := range []struct {
		name, text string
		opts       Options
	}{
		{"minutes in the header", "time_min,heat_sink_c,room_c\n0,24,24\n1,30.5,24.1\n2.5,35,24.2\n", Options{}},
		{"seconds, brackets", "Time [s],heat sink [°C],room [°C]\n0,24,24\n60,30.5,24.1\n150,35,24.2\n", Options{}},
		{"units in the cells", "time,heat sink,room\n0 min,24 °C,24 °C\n1 min,30.5 °C,24.1 °C\n2.5 min,35 °C,24.2 °C\n", Options{}},
		{"decimal comma", "Zeit [min];heat sink [°C];room [°C]\n0;24;24\n1;30,5;24,1\n2,5;35;24,2\n", Options{}},
		{"clock", "time,heat sink C,room C\n10:30:00,24,24\n10:31:00,30.5,24.1\n10:32:30,35,24.2\n", Options{}},
		{"clock over midnight", "time,heat sink C,room C\n23:59:00,24,24\n00:00:00,30.5,24.1\n00:01:30,35,24.2\n", Options{}},
		{"clock with am and pm", "time,heat sink C,room C\n11:59:00 AM,24,24\n12:00:00 PM,30.5,24.1\n12:01:30 pm,35,24.2\n", Options{}},
		{"minutes and seconds", "time mm:ss,heat sink C,room C\n00:00,24,24\n01:00,30.5,24.1\n02:30,35,24.2\n", Options{}},
		{"minutes and seconds, as told", "time,heat sink C,room C\n00:00,24,24\n01:00,30.5,24.1\n02:30,35,24.2\n", Options{Unit: FormMinutesSeconds}},
		{"date", "timestamp,heat sink C,room C\n2030-04-05 23:59:30,24,24\n2030-04-06 00:00:30,30.5,24.1\n2030-04-06 00:02:00,35,24.2\n", Options{}},
		{"German date", "Zeitstempel;heat sink °C;room °C\n05.04.2030 10:30:00;24;24\n05.04.2030 10:31:00;30,5;24,1\n05.04.2030 10:32:30;35;24,2\n", Options{}},
		{"date apart", "Date,Time,heat sink C,room C\n04/05/2030,10:30:00,24,24\n04/05/2030,10:31:00,30.5,24.1\n04/05/2030,10:32:30,35,24.2\n", Options{}},
		{"newest first", "time_min,heat_sink_c,room_c\n2.5,35,24.2\n1,30.5,24.1\n0,24,24\n", Options{}},
		{"Fahrenheit", "time_min,heat sink °F,room °F\n0,75.2,75.2\n1,86.9,75.38\n2.5,95,75.56\n", Options{}},
		{"kelvin", "time_min,heat sink K,room K\n0,297.15,297.15\n1,303.65,297.25\n2.5,308.15,297.35\n", Options{}},
		{"other columns", "No.,time_min,heat sink C,humidity %,supply V,room C,remark\n1,0,24,40,12.1,24,on\n2,1,30.5,40,12.0,24.1,\n3,2.5,35,40,12.1,24.2,off\n", Options{}},
		{"titles above", "logger 7,,\nstarted by hand,,\ntime_min,heat_sink_c,room_c\n0,24,24\n1,30.5,24.1\n2.5,35,24.2\n", Options{}},
		{"named without its unit", "when_min,heat sink [°C],room\n0,24,24\n1,30.5,24.1\n2.5,35,24.2\n", Options{Time: "when_min", Probes: []string{"heat sink", "room"}}},
		{"named", "when_min,heat sink,room\n0,24,24\n1,30.5,24.1\n2.5,35,24.2\n", Options{Time: "when_min", Probes: []string{"heat sink", "room"}}},
	} {
		l := read(t, r.text, r.opts)
		if len(l.Probes) != 2 || l.Probes[0].Name != "heat sink" || l.Probes[1].Name != "room" {
			t.Errorf("%s: probes %+v, skipped %v, want heat sink and room", r.name, l.Probes, l.Skipped)
			continue
		}
		if got, want := times(l.Probes[0]), []float64{0, 60, 150}; !near(got, want) {
			t.Errorf("%s: times %v s, want %v", r.name, got, want)
		}
		for i, want := range [][]float64{{24, 30.5, 35}, {24, 24.1, 24.2}} {
			var got []float64
			for _, reading := range l.Probes[i].Readings {
				got = append(got, reading.Celsius)
			}
			if !near(got, want) {
				t.Errorf("%s: %s at %v °C, want %v", r.name, l.Probes[i].Name, got, want)
			}
		}
	}
}

func near(got, want []float64) bool {
	return slices.EqualFunc(got, want, func(a, b float64) bool { return math.Abs(a-b) < 1e-6 })
}

// What a log does not say is asked for, what is no log is refused, with the line.
func TestLogRefuses(t *testing.T) {
	for _, r := range []struct{ name, text, want string }{
		{"no time", "a,b\n1,2\n2,3\n", "no column is called time"},
		{"no unit", "time,heat sink\n0,24\n1,30\n", `the unit of the times in "time" is not stated`},
		{"two ways", "time,heat sink\n0:00,24\n0:30,30\n", "may be hours and minutes, or minutes and seconds"},
		{"no order", "time_s,heat sink\n0,24\n60,30\n30,28\n", `log.csv:4: "30" is earlier than "60" in the row before`},
		{"a row without a time", "time_s,heat sink\n0,24\n,30\n", "log.csv:3: time \"\""},
		{"a row too short", "time_s,heat sink,room\n0,24,24\n60,30\n", "log.csv:3: 2 cells where the header has 3"},
		{"no probes", "time_s,humidity %\n0,40\n60,41\n", "no column of temperatures"},
		{"two dates in one", "time,heat sink\n04/05/2030 10:30:00,24\n04/05/2030 10:31:00,25\n", "reads one way only"},
		{"no time, the mend", "a,b\n1,2\n2,3\n", "--time=a or"},
		{"two ways, the mend", "time,heat sink\n0:00,24\n0:30,30\n", "--time-form hh:mm or --time-form mm:ss"},
		{"no unit, the mend", "time,heat sink\n0,24\n1,30\n", "--time-form min"},
		{"no rows", "time_s,heat sink\n", "no row below it"},
	} {
		_, err := ReadLog(context.Background(), "log.csv", strings.NewReader(r.text), int64(len(r.text)), Options{})
		var told *Error
		hint := ""
		if errors.As(err, &told) {
			hint = told.Hint
		}
		if err == nil || !strings.Contains(err.Error()+hint, r.want) {
			t.Errorf("%s: %v, want …%s…", r.name, err, r.want)
		}
	}
}

// A cell without a number is no reading, never 0.
func TestMissingReadings(t *testing.T) {
	l := read(t, "time_s,heat sink C\n0,24\n60,\n120,---\n180,OL\n240,31\n300,33\n360,34\n", Options{})
	if p := l.Probes[0]; p.Missing != 3 || len(p.Readings) != 4 || p.Readings[1] != (thermal.Reading{Time: 240, Celsius: 31}) {
		t.Errorf("probe %+v, want 4 readings, 3 missing", p)
	}
	l = read(t, "time_s,heat sink,room\n0,24,\n60,25,\n", Options{})
	if len(l.Probes) != 1 || len(l.Skipped) != 1 || len(l.Notes) != 1 {
		t.Errorf("probes %+v, skipped %v, notes %q: want one probe in °C by default, room skipped", l.Probes, l.Skipped, l.Notes)
	}
}

// Property: what is written is read again, whatever the spacing of its times.
func TestLogRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var text strings.Builder
		text.WriteString("time_s,probe_c\n")
		at, want := 0, []thermal.Reading(nil)
		for range rapid.IntRange(1, 50).Draw(t, "rows") {
			at += rapid.IntRange(0, 3600).Draw(t, "step")
			tenths := rapid.IntRange(-500, 2000).Draw(t, "tenths")
			text.WriteString(strings.Join([]string{itoa(at), tenth(tenths)}, ",") + "\n")
			want = append(want, thermal.Reading{Time: float64(at), Celsius: float64(tenths) / 10})
		}
		l, err := ReadLog(context.Background(), "log.csv", strings.NewReader(text.String()), int64(text.Len()), Options{Tabular: tabular.Options{Decimal: tabular.Point}})
		if err != nil {
			t.Fatal(err)
		}
		if len(l.Probes) != 1 || !slices.Equal(l.Probes[0].Readings, want) {
			t.Fatalf("read %+v, want %+v", l.Probes, want)
		}
	})
}

// FuzzReadLog reads anything: it never panics, and what it reads is in order.
func FuzzReadLog(f *testing.F) {
	f.Add("time_min,heat_sink_c,room_c\n0,24,24\n1,30.5,24.1\n2.5,35,24.2\n")
	f.Add("Zeit;T °C\n10:30:00;24,5\n23:59:59;25\n00:00:10;26\n")
	f.Add("timestamp,a\n2030-04-05T10:30:00Z,1\n")
	f.Add("time mm:ss,a\n99:59,1\n:,2\n12:00 PM,3\n")
	f.Fuzz(func(t *testing.T, text string) {
		l, err := ReadLog(context.Background(), "log.csv", strings.NewReader(text), int64(len(text)), Options{})
		var own *Error
		var other *tabular.Error
		if err != nil {
			if !errors.As(err, &own) && !errors.As(err, &other) {
				t.Fatalf("an error of no known kind: %v", err)
			}
			return
		}
		for _, p := range l.Probes {
			if len(p.Readings)+p.Missing != l.Rows {
				t.Fatalf("%d readings and %d missing of %d rows", len(p.Readings), p.Missing, l.Rows)
			}
			if !slices.IsSortedFunc(p.Readings, func(a, b thermal.Reading) int { return cmpFloat(a.Time, b.Time) }) {
				t.Fatalf("readings in no order: %v", p.Readings)
			}
		}
	})
}
