package cli

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"lowsone/match/drive"
)

func TestReadRail(t *testing.T) {
	for _, r := range []struct {
		text      string
		low, high float64
		code      int
	}{
		{"12", 12, 12, exitDone}, {"12V", 12, 12, exitDone}, {"11.6-12.4V", 11.6, 12.4, exitDone}, {"11.6V-12.4V", 11.6, 12.4, exitDone},
		{"11.6..12.4", 11.6, 12.4, exitDone}, {"11.6 to 12.4 V", 11.6, 12.4, exitDone}, {"11.6 – 12.4 V", 11.6, 12.4, exitDone},
		{"12.4-11.6", 0, 0, exitUsage}, {"0", 0, 0, exitUsage}, {"-12", 0, 0, exitUsage},
	} {
		var o slowOptions
		err := o.readRail(r.text)
		if code := codeOf(err); code != r.code {
			t.Errorf("readRail(%q): exit %d (%v), want %d", r.text, code, err, r.code)
		}
		if rail := o.rail.Or(drive.Rail{}); math.Abs(rail.Low-r.low) > 1e-9 || math.Abs(rail.High-r.high) > 1e-9 {
			t.Errorf("readRail(%q) = %v to %v V, want %v to %v", r.text, rail.Low, rail.High, r.low, r.high)
		}
	}
}

// Every means is told of, with plans or with the reason why not; every plan with
// what it does.
func TestSlowTellsOfEveryMeans(t *testing.T) {
	vars := withParts(t)
	for _, args := range [][]string{
		{"LOW-63", "--supply", "12V", "--to", "9V"}, {"LOW-63", "--supply", "11-13V", "--speed", "70%"},
		{"POWER-60", "--supply", "12V", "--to", "8V", "--with", "current_a=0.3"}, {"OMB-625B47B3", "--supply", "24V", "--to", "9V"},
	} {
		object := jsonOf(t, vars, append([]string{"slow"}, args...)...)
		means := object["means"].([]any)
		if len(means) != 6 {
			t.Errorf("%q: %d means, want 6", args, len(means))
		}
		for _, m := range means {
			one := m.(map[string]any)
			plans := one["plans"].([]any)
			if refused, ok := one["refused"].(string); ok == (len(plans) > 0) || ok && strings.TrimSpace(refused) == "" {
				t.Errorf("%q: %v has %d plans and is refused with %q", args, one["means"], len(plans), refused)
			}
			for _, p := range plans {
				plan := p.(map[string]any)
				low, high := plan["level_change_low_db"], plan["level_change_high_db"]
				if high == nil || low != nil && low.(float64) > high.(float64) {
					t.Errorf("%q: %v changes the level by %v to %v dB", args, one["means"], low, high)
				}
			}
		}
	}
}

// TestLowestOfferedIsOffered follows the last hint: what it names is offered, and one
// percent less is not.
func TestLowestOfferedIsOffered(t *testing.T) {
	vars := withParts(t)
	for _, r := range []struct {
		ask    string
		lowest int // 0: none is named
		start  bool
	}{
		{"LOW-63 --supply 12V --to 6V", 68, true},
		{"LOW-63 --supply 12V --speed 50%", 68, true},
		{"LOW-63 --supply 12V --speed 50% --with start_voltage_v=8.2", 76, false},
		{"POWER-60 --supply 12V --speed 20%", 30, false},
		{"POWER-60 --supply 9V --speed 60% --with current_a=0.3", 68, true},
		{"LOW-63 --supply 12V --to 6V --regulated", 0, false},
		{"MAINS-80 --supply 230V --to 180V", 0, false},
		{"LOW-63 --supply 6V --to 5.9V", 0, true},
	} {
		_, errs, code := run(t, strings.NewReader(""), vars, strings.Fields("slow "+r.ask)...)
		if code != exitNothing || strings.Contains(errs, "--with start_voltage_v=…") != r.start {
			t.Errorf("slow %s: exit %d: %s", r.ask, code, errs)
		}
		if r.lowest == 0 {
			if strings.Contains(errs, "--speed") {
				t.Errorf("slow %s: %s", r.ask, errs)
			}
			continue
		}
		if want := fmt.Sprintf("--speed %d%% is the lowest speed offered", r.lowest); !strings.Contains(errs, want) {
			t.Errorf("slow %s: %s, want %q", r.ask, errs, want)
		}
		words := strings.Fields("slow " + r.ask)
		for i, word := range words {
			if word == "--to" || word == "--speed" {
				words[i] = "--speed"
				words[i+1] = fmt.Sprintf("%d%%", r.lowest)
				if _, errs, code := run(t, strings.NewReader(""), vars, words...); code != exitDone {
					t.Errorf("lowsone %s: exit %d: %s", strings.Join(words, " "), code, errs)
				}
				words[i+1] = fmt.Sprintf("%d%%", r.lowest-1)
				if _, _, code := run(t, strings.NewReader(""), vars, words...); code != exitNothing {
					t.Errorf("lowsone %s: exit %d: a lower speed is offered", strings.Join(words, " "), code)
				}
			}
		}
	}
}

// Parts are reckoned for one fan; where a path has several, that is said.
func TestSlowSaysForHowManyFans(t *testing.T) {
	vars := withParts(t)
	file := filepath.Join(t.TempDir(), "two.yaml")
	for fans, want := range map[int]int{1: 0, 2: 1} {
		text := fmt.Sprintf("device: x\npaths:\n  - fan: {part: LOW-63}\n    fans: %d\n    arrangement: parallel\n    supply: {voltage: 12 V}\n    resistance: {share: 55 %%}\n", fans)
		if fans == 1 {
			text = strings.Replace(text, "    arrangement: parallel\n", "", 1)
		}
		if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		object := jsonOf(t, vars, "slow", file, "--to", "9V")
		if got := strings.Count(fmt.Sprint(object["notes"]), "one of the 2 fans"); got != want {
			t.Errorf("%d fans: notes %v", fans, object["notes"])
		}
	}
}

// A fan slowed in a device is as loud as the ranking says at the same flow.
func TestSlowAgreesWithTheRanking(t *testing.T) {
	vars := withParts(t)
	device := []string{"--replace", "OMB-625B56B3", "--heat", "90W", "--air-rise", "9K", "--inlet", "24C"}
	ranked := jsonOf(t, vars, append([]string{"rank"}, device...)...)["candidates"].([]any)[0].(map[string]any)
	slowed := jsonOf(t, vars, append([]string{"slow", ranked["part"].(string), "--supply", "12V"}, device...)...)
	want := ranked["matched"].(map[string]any)["speed_ratio"].(float64)
	if got := slowed["target"].(map[string]any)["speed_ratio"].(float64); math.Abs(got-want) > 1e-9 {
		t.Errorf("slowed to %v of its speed, the ranking says %v", got, want)
	}
	full := slowed["device"].(map[string]any)["full"].(map[string]any)
	for _, key := range []string{"flow_m3h", "pressure_pa", "level_dba"} {
		if got, want := full[key], ranked["full"].(map[string]any)[key]; got != want {
			t.Errorf("full speed, %s: %v, the ranking says %v", key, got, want)
		}
	}
}
