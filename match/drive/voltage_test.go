package drive

import (
	"errors"
	"math"
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"lowsone/testdata/sources"
)

func check(t *testing.T, call string, got, want, tol float64, source string) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %v, want %v ± %v (%s)", call, got, want, tol, source)
	}
}

// speed and voltage are the two laws where they must not fail.
func speed(t *testing.T, share float64) float64 {
	t.Helper()
	r, err := SpeedAtVoltage(share)
	if err != nil {
		t.Fatalf("SpeedAtVoltage(%v): %v", share, err)
	}
	return r
}

func voltage(t *testing.T, r float64) float64 {
	t.Helper()
	share, err := VoltageForSpeed(r)
	if err != nil {
		t.Fatalf("VoltageForSpeed(%v): %v", r, err)
	}
	return share
}

// Source: speed of one fan at 12, 9 and 5 V; the shares are printed to four
// digits.
func TestMeasuredSpeeds(t *testing.T) {
	rows := sources.Rows(t, "drive_speed_voltage.csv")
	column := map[string]int{}
	for i, name := range rows[0] {
		column[name] = i
	}
	const digit = 0.5e-4
	for _, row := range rows[1:] {
		number := func(name string) float64 {
			v, err := strconv.ParseFloat(row[column[name]], 64)
			if err != nil {
				t.Fatal(err)
			}
			return v
		}
		share := number("volts") / number("rated_volts")
		call := "at " + row[column["volts"]] + " V"
		check(t, "share of voltage "+call, share, number("volt_share"), digit, row[column["status"]])
		check(t, "SpeedAtVoltage "+call, speed(t, share), number("rpm_share"), digit, row[column["status"]])
		check(t, "VoltageForSpeed "+call, voltage(t, number("rpm")/2850), number("volt_share"), digit, row[column["status"]])
	}
}

// Shares of the same measurement as handed down to two digits.
func TestMeasuredSpeedsRounded(t *testing.T) {
	for _, r := range []struct{ share, want float64 }{
		{1, 1}, {9.0 / 12, 0.81}, {7.0 / 12, 0.66}, {5.0 / 12, 0.47},
	} {
		check(t, "SpeedAtVoltage", speed(t, r.share), r.want, 0.005, "[SPCR], two digits")
	}
	// At 60 % of nominal lies the default for fans of unknown starting voltage.
	check(t, "SpeedAtVoltage(0.6)", speed(t, 0.6), DefaultByVoltage, 0.006, "0.68 at 60 %, common practice")
	check(t, "SpeedAtVoltage(1.1)", speed(t, 1.1), 1.076, 1e-12, "slope 0.76 above nominal")
	check(t, "slope below nominal", (1-speed(t, 0.75))/0.25, aboveNominal, 0.005, "0.76 is the slope of the last measured piece")
}

// Speed rises with voltage, never falls as fast as it, and VoltageForSpeed leads
// back.
func TestSpeedShape(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(LowestVoltage, 1.5).Draw(t, "a")
		b := rapid.Float64Range(LowestVoltage, 1.5).Draw(t, "b")
		ra, errA := SpeedAtVoltage(a)
		rb, errB := SpeedAtVoltage(b)
		if errA != nil || errB != nil {
			t.Fatalf("SpeedAtVoltage(%v), (%v): %v, %v", a, b, errA, errB)
		}
		if a < b && ra > rb {
			t.Fatalf("SpeedAtVoltage(%v) = %v above SpeedAtVoltage(%v) = %v", a, ra, b, rb)
		}
		if a < 1 && ra < a || a > 1 && ra > a {
			t.Fatalf("SpeedAtVoltage(%v) = %v, want nearer to 1 than the voltage", a, ra)
		}
		back, err := VoltageForSpeed(ra)
		if err != nil || math.Abs(back-a) > 1e-12 {
			t.Fatalf("VoltageForSpeed(SpeedAtVoltage(%v)) = %v, %v", a, back, err)
		}
	})
}

func TestBelowMeasured(t *testing.T) {
	rows := []struct {
		call string
		err  func() error
		want string
	}{
		{"SpeedAtVoltage(0.4)", func() error { _, err := SpeedAtVoltage(0.4); return err },
			`voltage share "0.4": nothing was measured below 0.417 of nominal`},
		{"SpeedAtVoltage(NaN)", func() error { _, err := SpeedAtVoltage(math.NaN()); return err },
			`voltage share "NaN": nothing was measured below 0.417 of nominal`},
		{"VoltageForSpeed(0.46)", func() error { _, err := VoltageForSpeed(0.46); return err },
			`speed share "0.46": nothing was measured below 0.467 of nominal`},
	}
	for _, r := range rows {
		var outside *RangeError
		if err := r.err(); !errors.As(err, &outside) || err.Error() != r.want {
			t.Errorf("%s error = %v, want %s", r.call, err, r.want)
		}
	}
	// The ends themselves are measured.
	check(t, "SpeedAtVoltage(LowestVoltage)", speed(t, LowestVoltage), LowestMeasured, 0, "[SPCR]")
	check(t, "VoltageForSpeed(LowestMeasured)", voltage(t, LowestMeasured), LowestVoltage, 0, "[SPCR]")
}

func TestHeadRoom(t *testing.T) {
	rows := []struct {
		name            string
		supply, nominal float64
		want            float64
	}{
		{"same supply", 12, 12, 10.0 / 12},
		{"higher supply", 13, 12, 11.0 / 12},
		{"enough for nominal", 14, 12, 1},
		{"more than enough", 24, 12, 1},
		{"regulator cannot work", 2, 12, 0},
		{"unknown supply", math.NaN(), 12, 0},
		{"unknown nominal voltage", 12, math.NaN(), 0},
		{"no nominal voltage", 12, 0, 0},
	}
	for _, r := range rows {
		if got := HeadRoom(r.supply, r.nominal); math.Abs(got-r.want) > 1e-15 {
			t.Errorf("%s: HeadRoom(%v, %v) = %v, want %v ((V − 2)/V_nominal, at most 1)", r.name, r.supply, r.nominal, got, r.want)
		}
	}
}
