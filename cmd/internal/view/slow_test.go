package view

import (
	"math"
	"strings"
	"testing"

	"lowsone/match"
	"lowsone/match/drive"
	"lowsone/match/sample"
	"lowsone/match/thermal"
)

// effectAt is a plan whose only spot, of 85 °C less 10 K, comes to so many °C at the
// slow and at the fast end.
func effectAt(slow, fast float64) SlowEffect {
	at := func(c float64) SlowEnd {
		return SlowEnd{At: &match.AtSpeed{Spots: []match.SpotTemperature{{Name: "sink", Planned: thermal.Band{Low: c, Middle: c, High: c}, Limit: 85, Margin: 10}}}}
	}
	return SlowEffect{Low: at(slow), High: at(fast)}
}

func TestSlowMarksOfTemperaturesAndAlarm(t *testing.T) {
	alarm := func(v drive.Verdict, assumed bool) SlowEffect { return SlowEffect{Alarm: v, AlarmAssumed: assumed} }
	for _, r := range []struct {
		name string
		e    SlowEffect
		want string
	}{
		{"kept", effectAt(75, 70), ""},
		{"in the margin at the slow end", effectAt(77, 73), "m"},
		{"in the margin at both", effectAt(80, 76), "T"},
		{"above the limit at the slow end", effectAt(86, 73), "X"},
		{"alarms", alarm(drive.Fails, false), "A"},
		{"may alarm", alarm(drive.Doubtful, false), "a"},
		{"alarms at the pulses taken", alarm(drive.Fails, true), "A?"},
		{"may alarm at the pulses taken", alarm(drive.Doubtful, true), "a?"},
		{"silent at the pulses taken", alarm(drive.Passes, true), ""},
	} {
		m := SlowMeans{Offer: drive.Offer{Plans: make([]drive.Plan, 1)}, Effects: []SlowEffect{r.e}}
		if got := (&Slow{}).marks(&m, 0); got != r.want {
			t.Errorf("%s: marks %q, want %q", r.name, got, r.want)
		}
	}
}

// The legend says what a spot may have, and what is taken of the pulses.
func TestSlowLegendSaysWhatIsAllowed(t *testing.T) {
	e := effectAt(77, 73)
	e.Alarm, e.AlarmAssumed = drive.Fails, true
	d := &Slow{Alarm: SlowAlarm{Usual: 2}, Device: &SlowDevice{}, Means: []SlowMeans{{Offer: drive.Offer{Plans: make([]drive.Plan, 1)}, Effects: []SlowEffect{e}}}}
	var said []string
	for _, f := range d.legend() {
		said = append(said, f.name+" "+f.says)
	}
	text := strings.Join(said, "\n")
	for _, want := range []string{"sink, which may have 75 °C (85 less 10)", "~ at 2 pulses a turn", "A? ", "m "} {
		if !strings.Contains(text, want) {
			t.Errorf("legend %q does not hold %q", text, want)
		}
	}
}

func TestSlowAlarmWords(t *testing.T) {
	nan := math.NaN()
	for _, r := range []struct {
		name  string
		alarm SlowAlarm
		want  []string
	}{
		{"none", SlowAlarm{Turns: nan, Counted: 2, Fan: nan, Usual: 2}, nil},
		{"all known", SlowAlarm{Turns: 2500.0 / 60, Counted: 2, Fan: 2, Usual: 2}, []string{"below 2500 rpm at 2 pulses a turn, a tach of 83.3 Hz"}},
		{"pulses of the fan", SlowAlarm{Turns: 2500.0 / 60, Counted: 2, Fan: nan, Usual: 2}, []string{"83.3 Hz", "--with tach_per_rev=…"}},
		{"pulses counted", SlowAlarm{Turns: 2500.0 / 60, Counted: nan, Fan: 2, Usual: 2}, []string{"below 2500 rpm", "--alarm-pulses settles it"}},
		{"no pulses", SlowAlarm{Turns: 2500.0 / 60, Counted: 2, Fan: 0, Usual: 2}, []string{"it alarms at any speed"}},
	} {
		got := r.alarm.words()
		if len(r.want) == 0 && got != "" {
			t.Errorf("%s: %q, want nothing", r.name, got)
		}
		for _, want := range r.want {
			if !strings.Contains(got, want) {
				t.Errorf("%s: %q does not hold %q", r.name, got, want)
			}
		}
	}
}

// Where a starting voltage is to be measured, the flag that takes it is named.
func TestRefusalNamesTheFlag(t *testing.T) {
	if got := refusalWords(&drive.Refusal{Reason: drive.StartUnknown, Text: "measure it"}); got != "measure it, then --with start_voltage_v=…" {
		t.Errorf("refusal %q", got)
	}
	if got := refusalWords(&drive.Refusal{Reason: drive.BelowStart, Text: "too low"}); got != "too low" {
		t.Errorf("refusal %q", got)
	}
}

func TestAgainstLimit(t *testing.T) {
	for _, r := range []struct {
		low, high float64
		want      string
	}{
		{-7.8, -5.2, "5.2 to 7.8 K below its limit"},
		{1, 2.5, "1.0 to 2.5 K above its limit"},
		{-1, 2, "1.0 K below to 2.0 K above its limit"},
	} {
		if got := againstLimit(sample.Band{Low: r.low, High: r.high}); got != r.want {
			t.Errorf("againstLimit(%v, %v) = %q, want %q", r.low, r.high, got, r.want)
		}
	}
}
