package devicefile

import (
	"strings"
	"testing"

	"lowsone/match/thermal"
)

// What a described fan lacks is asked for with what it decides.
func TestDescribedFanIsAskedFor(t *testing.T) {
	for key, line := range map[string]string{
		"fan: supply": "supply: dc", "fan: kind": "kind: axial", "fan: current_a": "current_a: 0.2", "fan: voltage_v": "voltage_v: 12", "fan: noise_dba": "noise_dba: 30",
	} {
		least := pathFile("fan: {name: y, airflow_m3h: 40, static_pressure_pa: 60}")
		before := items(&parsed(t, key, least).Device, key)
		if len(before) != 1 || before[0].State == Known || before[0].Why == "" {
			t.Errorf("%s: before the answer %+v, want one open item", key, before)
		}
		after := items(&parsed(t, key, strings.Replace(least, "{name: y", "{name: y, "+line, 1)).Device, key)
		if len(after) != 1 || after[0].State != Known {
			t.Errorf("%s: after the answer %+v, want it known", key, after)
		}
	}
}

// What contradicts the labels of the fans is doubted.
func TestDoubtsOfLabels(t *testing.T) {
	const fan = "fan: {name: y, airflow_m3h: 40, static_pressure_pa: 60, current_a: 0.2, speed_rpm: 3000}"
	shared := "device: x\npaths:\n" +
		"- {name: p, fan: {name: y, current_a: 0.2}, supply: {current: 0.3 A, output: one}}\n" +
		"- {name: q, fan: {name: z, current_a: 0.2}, supply: {output: one}}\n"
	for _, c := range []struct {
		name, key, file string
		doubted         bool
	}{
		{"output bears its fan", "supply: current", pathFile(fan, "supply: {current: 0.2 A}"), false},
		{"output below its fan", "supply: current", pathFile(fan, "supply: {current: 0.19 A}"), true},
		{"output below its fan, of which the power is known", "supply: current", pathFile("fan: {name: y, voltage_v: 12, power_w: 2.4}", "supply: {current: 0.19 A}"), true},
		{"output below its two fans", "supply: current", pathFile(fan, "fans: 2", "supply: {current: 0.3 A}"), true},
		{"output below the fans of two paths", "supply: current", shared, true},
		{"as fast as the label allows", "speed", pathFile(fan, "speed: 3300 rpm"), false},
		{"faster than the label", "speed", pathFile(fan, "speed: 3310 rpm"), true},
		{"a speed without one on the label", "speed", pathFile("speed: 3000 rpm"), true},
		{"a share without a speed on the label", "speed", pathFile("speed: 90 %"), false},
		{"faster than the label, as a share", "speed", pathFile(fan, "speed: 115 %"), true},
	} {
		found := items(&parsed(t, c.name, c.file).Device, c.key)
		if len(found) == 0 || (found[0].State == Doubtful) != c.doubted || c.doubted && (found[0].Value == "" || found[0].Why == "") {
			t.Errorf("%s: %+v, want doubted: %v", c.name, found, c.doubted)
		}
	}
}

// No lead for PWM, and no use of one: nothing to ask.
func TestPWMIsNotAskedInVain(t *testing.T) {
	for _, c := range []struct {
		name  string
		said  []string
		asked bool
	}{
		{"four leads", []string{"leads: {count: 4}"}, true},
		{"three leads", []string{"leads: {count: 3}"}, false},
		{"slowed by voltage", []string{"slow_by: voltage"}, false},
		{"not slowed", []string{"slow_by: none"}, false},
		{"slowed somehow", []string{"slow_by: any"}, true},
		{"said", []string{"leads: {count: 3, pwm: none}"}, true},
	} {
		if found := items(&parsed(t, c.name, pathFile(c.said...)).Device, "leads: pwm"); (len(found) == 1) != c.asked {
			t.Errorf("%s: items %+v, want asked: %v", c.name, found, c.asked)
		}
	}
}

// Where it is not recorded which air a spot meets, match reckons with all from
// the mean to that at the outlet (match: airShare).
func TestUnknownAirOfASpot(t *testing.T) {
	found := items(&parsed(t, "air", pathFile("spots: [{name: s, found: 50 °C, limit: 70 °C}]")).Device, "spots: s: air")
	if len(found) != 1 || found[0].State != Assumed || !strings.Contains(found[0].Value, "mean") || !strings.Contains(found[0].Value, "outlet") {
		t.Errorf("items %+v, want a span from the mean to the outlet", found)
	}
}

// The question of the settling rule stays short and says where all rules are.
func TestSettlingRuleIsAskedShortly(t *testing.T) {
	found := items(&parsed(t, "rules", pathFile("spots: [{name: s, found: 50 °C, limit: 70 °C}]")).Device, "spots: s: settled")
	if len(found) != 1 || len(found[0].Why) > 400 || !strings.Contains(found[0].Why, "lowsone heat") {
		t.Errorf("items %+v, want one short question that names lowsone heat", found)
	}
	all := thermal.Rules()
	if last := all[len(all)-1].Name; strings.Contains(found[0].Why, last) {
		t.Errorf("%q names %s too", found[0].Why, last)
	}
}
