package cli

import (
	"math"
	"strings"
	"testing"

	"lowsone/catalog/quantity"
	"lowsone/match"
)

// twoFans is a device of two seats on one output, the second with two fans.
const twoFans = `
device: test
room: {now: 24 °C, level: 30 dB(A)}
listener: 2 m
paths:
  - name: front
    fan: {part: OMB-625B56B3}
    listener: 1 m
    supply: {kind: dc, voltage: 12 V, current: 1.5 A, output: main}
    resistance: {flow: 30 m³/h}
  - name: back
    fan: {part: OMB-625B47B3}
    fans: 2
    supply: {kind: dc, voltage: 12 V, current: 1.5 A, output: main}
    resistance: {flow: 20 m³/h}
`

func numbers(t *testing.T, object any, keys ...string) float64 {
	t.Helper()
	for _, key := range keys {
		object = object.(map[string]any)[key]
	}
	v, ok := object.(float64)
	if !ok {
		t.Fatalf("%v: no number in %v", keys, object)
	}
	return v
}

// What is heard of the path shown is brought to the listener that was given.
func TestListenerOverrulesThePathsOwn(t *testing.T) {
	vars, name := withParts(t), writeDevice(t, twoFans)
	own := jsonOf(t, vars, "rank", name, "--path", "front")
	far := jsonOf(t, vars, "rank", name, "--path", "front", "--listener", "10m")
	level := func(object map[string]any) float64 {
		for _, s := range object["noise_budget"].(map[string]any)["shares"].([]any) {
			if share := s.(map[string]any); share["name"] == "front" {
				return share["level_dba"].(float64)
			}
		}
		t.Fatalf("front is not heard: %v", object["noise_budget"])
		return 0
	}
	if got := level(own) - level(far); math.Abs(got-20) > 1e-6 { // 20·lg(10 m/1 m)
		t.Errorf("front is %v dB quieter at 10 m than at 1 m, want 20", got)
	}
	if b, l := numbers(t, far, "baseline", "level_dba"), level(far); math.Abs(b-l) > 1e-9 {
		t.Errorf("the fitted fan is %v dB(A), the budget says %v", b, l)
	}
}

// The room's level counts unless a flag gives another.
func TestRoomOfTheRequest(t *testing.T) {
	dev := described{file: &match.Device{Room: quantity.Stated(quantity.PressureLevel(30)), Paths: []match.Path{{}}}}
	var none, given choiceFlags
	given.room = quantity.Stated(quantity.PressureLevel(20))
	for _, r := range []struct {
		c    *choiceFlags
		want float64
	}{{&none, 30}, {&given, 20}} {
		if got := dev.request(match.Path{}, 0, r.c).Room.Or(quantity.PressureLevel(0)).DB(); got != r.want {
			t.Errorf("room of %v dB(A), want %v", got, r.want)
		}
	}
}

// Fans that share an output are added up, each as often as it is there; a need
// given by a flag is that of the path asked about alone.
func TestBothOnOneOutput(t *testing.T) {
	vars, name := withParts(t), writeDevice(t, twoFans)
	object := jsonOf(t, vars, "rank", name, "--path", "front", "--both", "--need", "21m3/h")
	paths := object["paths"].([]any)
	if front, back := numbers(t, paths[0], "need", "flow_m3h"), numbers(t, paths[1], "need", "flow_m3h"); math.Abs(front-21) > 1e-9 || math.Abs(back-20) > 1e-9 {
		t.Errorf("needs %v and %v m³/h, want 21 as given and 20 as now", front, back)
	}
	if object["shared_output"] != "main" {
		t.Errorf("shared output %v, want main", object["shared_output"])
	}
	current := map[string]float64{"LOW-63": 0.58, "LOW-55": 0.4, "OMB-625B56B3": 0.42, "OMB-625B47B3": 0.26, "HALF-60": 0.1, "TRAP-60": 0.1, "TWIN": 0.3}
	checked := 0
	for _, p := range object["pairs"].([]any) {
		pair := p.(map[string]any)
		fans := pair["fans"].([]any)
		a, knownA := current[fans[0].(map[string]any)["part"].(string)]
		b, knownB := current[fans[1].(map[string]any)["part"].(string)]
		if !knownA || !knownB {
			continue
		}
		checked++
		if got, want := numbers(t, pair, "current_a"), a+2*b; math.Abs(got-want) > 1e-9 {
			t.Errorf("pair %v draws %v A, want %v", pair["rank"], got, want)
		}
		if want := map[bool]string{true: "fails"}[a+2*b > 1.5]; want != "" && pair["supply_check"] != want {
			t.Errorf("pair %v of %v A is judged %v on 1.5 A", pair["rank"], a+2*b, pair["supply_check"])
		}
	}
	if checked == 0 {
		t.Error("no pair checked")
	}
}

// What the file says of supply and fan keeps parts from being offered.
func TestSlowRefusesWhatTheFileForbids(t *testing.T) {
	vars := withParts(t)
	for _, r := range []struct{ name, from, to, want string }{
		{"a thermistor in the fan", "    listener: 1 m\n", "    regulated: fan\n", "regulates its own speed"},
		{"a pulsed supply", "current: 1.5 A, output: main}\n    resistance: {flow: 30", "pulsed: yes}\n    resistance: {flow: 30", "pulses this supply"},
	} {
		name := writeDevice(t, strings.Replace(twoFans, r.from, r.to, 1))
		stdout, _, code := run(t, strings.NewReader(""), vars, "slow", name, "--path", "front", "--to", "9V")
		if code != exitNothing || !strings.Contains(strings.Join(strings.Fields(stdout), " "), r.want) {
			t.Errorf("%s: exit %d, want %d and …%s…:\n%s", r.name, code, exitNothing, r.want, stdout)
		}
	}
	// Another fan in its place does not regulate itself.
	name := writeDevice(t, strings.Replace(twoFans, "    listener: 1 m\n", "    regulated: fan\n", 1))
	if _, stderr, code := run(t, strings.NewReader(""), vars, "slow", "LOW-63", name, "--path", "front", "--to", "9V"); code != exitDone {
		t.Errorf("another fan: exit %d: %s", code, stderr)
	}
}

// The change of level counts from the bare supply, here 15 % above nominal: by
// the laws 50·lg of the speeds, 0.811 at 9/12 V and 1 + 0.76·0.15 at 13.8 V.
func TestChangeCountsFromTheSupply(t *testing.T) {
	object := jsonOf(t, withParts(t), "slow", "LOW-63", "--supply", "13.8V", "--to", "9V")
	for _, m := range object["means"].([]any) {
		if one := m.(map[string]any); one["means"] == "buck converter" {
			plan := one["plans"].([]any)[0]
			got := numbers(t, plan, "level_change_high_db")
			if want := 50 * math.Log10(numbers(t, plan, "speed_high_ratio")/(1+0.76*0.15)); math.Abs(got-want) > 1e-6 {
				t.Errorf("change %v dB, want %v", got, want)
			}
			return
		}
	}
	t.Error("no buck converter")
}
