package drive

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestLowestSpeed(t *testing.T) {
	nan := math.NaN()
	dc := func(start float64) Fan {
		return Fan{Supply: DC, StartVoltage: start, NominalVoltage: 12, RatedSpeed: 50}
	}
	pwm := func(f Fan) Fan { f.PWM = true; return f }
	rows := []struct {
		name  string
		fan   Fan
		way   Way
		alarm float64
		want  float64
		limit Limit
	}{
		{"starts at 7 V", dc(7), Any, nan, 0.66, Start},
		{"starts at 7 V, by voltage", dc(7), ByVoltage, nan, 0.66, Start},
		{"starts at nominal", dc(12), Any, nan, 1, Start},
		{"start unknown", dc(nan), Any, nan, 0.68, StartAssumed},
		{"start left out", dc(0), Any, nan, 0.68, StartAssumed},
		{"nominal voltage unknown", Fan{Supply: DC, StartVoltage: 7, NominalVoltage: nan}, Any, nan, 0.68, StartAssumed},
		{"starts lower than measured", dc(4), Any, nan, 1330.0 / 2850, Unmeasured},
		{"by its PWM input", pwm(dc(nan)), ByPWM, nan, 0.30, Control},
		{"any way with PWM input", pwm(dc(nan)), Any, nan, 0.30, Control},
		{"any way, PWM is the lower", pwm(dc(4)), Any, nan, 0.30, Control},
		{"PWM input, but by voltage", pwm(dc(nan)), ByVoltage, nan, 0.68, StartAssumed},
		{"by PWM without an input", dc(7), ByPWM, nan, 1, Control},
		{"no way", pwm(dc(7)), NoWay, nan, 1, Control},
		{"AC", Fan{Supply: AC, RatedSpeed: 50}, Any, nan, 1, Mains},
		{"AC with an input", pwm(Fan{Supply: AC, RatedSpeed: 50}), ByPWM, nan, 1, Mains},
		{"supply unknown", Fan{StartVoltage: 7, NominalVoltage: 12, RatedSpeed: 50}, Any, nan, 1, SupplyUnknown},
		{"alarm above start", dc(7), Any, 36, 0.8, Tach},
		{"alarm below start", dc(7), Any, 27, 0.66, Start},
		{"alarm above PWM", pwm(dc(7)), ByPWM, 27, 0.6, Tach},
		{"alarm above full speed", dc(7), NoWay, 49.5, 1.1, Tach},
		{"alarm below full speed of AC", Fan{Supply: AC, RatedSpeed: 50}, Any, 36, 1, Mains},
		{"alarm, rated speed unknown", Fan{Supply: DC, StartVoltage: 7, NominalVoltage: 12, RatedSpeed: nan}, Any, 36, 0.66, Start},
		{"alarm, rated speed left out", Fan{Supply: DC, StartVoltage: 7, NominalVoltage: 12}, Any, 36, 0.66, Start},
	}
	for _, r := range rows {
		got, limit := LowestSpeed(r.fan, r.way, r.alarm)
		if math.Abs(got-r.want) > 1e-12 || limit != r.limit {
			t.Errorf("%s: LowestSpeed(%+v, %v, %v) = %v (%v), want %v (%v)", r.name, r.fan, r.way, r.alarm, got, limit, r.want, r.limit)
		}
	}
}

// More knowledge of the device's alarm never lowers the speed, and a limit is
// always named.
func TestAlarmOnlyRaises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := func(name string, most float64) float64 {
			if rapid.Bool().Draw(t, name+" unknown") {
				return math.NaN()
			}
			return rapid.Float64Range(0, most).Draw(t, name)
		}
		fan := Fan{
			Supply: Supply(rapid.IntRange(0, 2).Draw(t, "supply")), PWM: rapid.Bool().Draw(t, "PWM"),
			StartVoltage: number("start", 12), NominalVoltage: number("nominal", 24), RatedSpeed: number("rated", 200),
		}
		way := Way(rapid.IntRange(0, 3).Draw(t, "way"))
		free, limit := LowestSpeed(fan, way, math.NaN())
		if !(free >= 0.3) || limit == NoLimit || limit == Tach {
			t.Fatalf("LowestSpeed(%+v, %v) = %v (%v)", fan, way, free, limit)
		}
		alarm := number("alarm", 200)
		held, by := LowestSpeed(fan, way, alarm)
		if held < free || (by == Tach) != (held > free) {
			t.Fatalf("LowestSpeed(%+v, %v, %v) = %v (%v), without alarm %v (%v)", fan, way, alarm, held, by, free, limit)
		}
	})
}

func TestLimitNames(t *testing.T) {
	seen := map[string]bool{}
	for l := NoLimit; l <= SupplyUnknown; l++ {
		if name := l.String(); name == "" || seen[name] {
			t.Errorf("Limit(%d) = %q, want a name of its own", l, name)
		} else {
			seen[name] = true
		}
	}
	if got := Limit(200).String(); got != "none" {
		t.Errorf("Limit(200) = %q, want none", got)
	}
}

func TestNoAllocation(t *testing.T) {
	fan := Fan{Supply: DC, StartVoltage: 7, NominalVoltage: 12, RatedSpeed: 50}
	var sink float64
	allocs := testing.AllocsPerRun(100, func() {
		r, _ := LowestSpeed(fan, Any, 20)
		s, _ := SpeedAtVoltage(HeadRoom(12, 12))
		sink += r + s
	})
	if allocs != 0 {
		t.Errorf("%v allocations a run, want none (result %v)", allocs, sink)
	}
}
