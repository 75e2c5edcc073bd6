package cli

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"lowsone/acoustics"
	"lowsone/catalog/quantity"
	"lowsone/cmd/internal/view"
	"lowsone/match"
)

func turning(blades, rpm float64, measured bool) match.Turning {
	return match.Turning{Blades: blades, Turns: rpm / 60, Measured: measured}
}

func TestBeats(t *testing.T) {
	unknown := math.NaN()
	for _, r := range []struct {
		name           string
		a, b           match.Turning
		heard          acoustics.Hearing
		orderA, orderB int // 0: no beat
		unsure         bool
	}{
		{"slow", turning(7, 2100, true), turning(7, 2080, true), acoustics.Swelling, 1, 1, false},
		{"fluctuation", turning(7, 2100, true), turning(7, 2000, true), acoustics.Flutter, 1, 1, false},
		{"equal", turning(7, 2100, true), turning(7, 2100, true), acoustics.AsOne, 1, 1, false},
		{"equal tones", turning(7, 2100, true), turning(5, 2940, true), acoustics.AsOne, 1, 1, false},
		{"equal to a double", turning(7, 2100, true), turning(7, 4200, true), acoustics.AsOne, 2, 1, false},
		{"far apart", turning(7, 2100, true), turning(5, 4500, true), 0, 0, 0, false},
		{"multiples", turning(5, 4000, true), turning(7, 1410, true), acoustics.Flutter, 1, 2, false},
		{"by label, near", turning(7, 2100, false), turning(7, 2000, true), acoustics.Flutter, 1, 1, true},
		{"by label, equal", turning(7, 2100, false), turning(7, 2100, false), acoustics.AsOne, 1, 1, true},
		{"by label, far", turning(7, 2100, false), turning(7, 1800, true), 0, 0, 0, false},
		{"blades not known", turning(unknown, 2100, true), turning(7, 2080, true), 0, 0, 0, false},
		{"speed not known", turning(7, unknown, false), turning(7, 2080, true), 0, 0, 0, false},
	} {
		beats := beatsOf([]match.Turning{r.a, r.b})
		if len(beats) == 0 {
			if r.orderA != 0 {
				t.Errorf("%s: no beat", r.name)
			}
			continue
		}
		got := beats[0]
		a, b := got.Low, got.High
		if a.Fan == 1 {
			a, b = b, a
		}
		if a.Order != r.orderA || b.Order != r.orderB || got.Heard != r.heard || got.Unsure != r.unsure || got.Low.Hz > got.High.Hz {
			t.Errorf("%s: %+v, want multiples %d and %d heard as %v, unsure %v", r.name, got, r.orderA, r.orderB, r.heard, r.unsure)
		}
	}
}

// The speeds that are told end the beat: from one on nothing swells or
// fluctuates, from the other on there are two tones.
func TestSpeedsEndTheBeat(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := turning(float64(rapid.IntRange(3, 13).Draw(t, "blades")), rapid.Float64Range(600, 12000).Draw(t, "rpm"), true)
		b := turning(float64(rapid.IntRange(3, 13).Draw(t, "blades of the other")), rapid.Float64Range(600, 12000).Draw(t, "rpm of the other"), true)
		if rapid.Bool().Draw(t, "near") {
			b.Turns = a.Hz() / b.Blades * rapid.Float64Range(0.95, 1.05).Draw(t, "off")
		}
		beat := newBeat([]match.Turning{a, b}, 0, 1, 1, 1)
		low, high := []match.Turning{a, b}[beat.Low.Fan], quantity.Frequency(beat.High.Hz)
		for _, r := range []struct {
			turns float64
			ends  func(acoustics.Hearing) bool
		}{
			{beat.Steady, func(h acoustics.Hearing) bool { return h == acoustics.Rough || h == acoustics.Apart }},
			{beat.Distinct, func(h acoustics.Hearing) bool { return h == acoustics.Apart }},
		} {
			if r.turns == 0 {
				continue // it would have to stop
			}
			for _, below := range []float64{1 - 1e-6, 0.9} {
				if heard := acoustics.HowHeard(quantity.Frequency(low.Blades*r.turns*below), high); !r.ends(heard) {
					t.Fatalf("%v blades at %v 1/s beside %v Hz: heard as %v", low.Blades, r.turns*below, high, heard)
				}
			}
			if heard := acoustics.HowHeard(quantity.Frequency(low.Blades*r.turns*(1+1e-4)), high); r.ends(heard) {
				t.Fatalf("%v blades at %v 1/s beside %v Hz: heard as %v already", low.Blades, r.turns*(1+1e-4), high, heard)
			}
		}
	})
}

// No speed that is told puts a fan beside a third one; none is told where that
// cannot be.
func TestSpeedsKeepClearOfOthers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var fans []match.Turning
		for range rapid.IntRange(3, 6).Draw(t, "fans") {
			fans = append(fans, turning(7, rapid.Float64Range(900, 3000).Draw(t, "rpm"), rapid.Bool().Draw(t, "measured")))
		}
		for _, beat := range beatsOf(fans) {
			for _, turns := range []float64{beat.Steady, beat.Distinct} {
				if turns == 0 || beat.Unsure {
					continue
				}
				slowed := append([]match.Turning(nil), fans...)
				slowed[beat.Low.Fan].Turns = turns * (1 - 1e-6)
				for _, after := range beatsOf(slowed) {
					if after.Low.Fan == beat.High.Fan || after.High.Fan == beat.High.Fan {
						continue // the other of the pair: by the test above
					}
					if (after.Low.Fan == beat.Low.Fan || after.High.Fan == beat.Low.Fan) && (after.Unsure || after.Heard != acoustics.Rough || turns == beat.Distinct) {
						t.Fatalf("%+v: slowed to %v 1/s it beats again: %+v", beat, turns, after)
					}
				}
			}
		}
	})
	beats := beatsOf([]match.Turning{turning(7, 2100, true), turning(7, 2060, true), turning(7, 1920, true)})
	if got := 60 * beats[0].Steady; got <= 0 || got > 1920-60*20/7.0+1 {
		t.Errorf("beside a third fan at 1920 rpm: %v rpm told, want it below that by 20 Hz", got)
	}
	var many []match.Turning
	for rpm := 2100.0; rpm > 300; rpm -= 60 {
		many = append(many, turning(7, rpm, true))
	}
	if beat := beatsOf(many)[0]; beat.Steady != 0 || beat.Distinct != 0 || !beat.Crowded {
		t.Errorf("fans at every 60 rpm: %+v, want no speed told", beat)
	}
}

// What is left of a sound without its background gives the sound again together
// with it, where the background is taken off.
func TestWithoutBackground(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var total, background acoustics.Thirds
		for i := range total {
			total[i] = rapid.Float64Range(0, 90).Draw(t, "level")
			background[i] = total[i] - rapid.Float64Range(-5, 20).Draw(t, "above")
		}
		background[0], total[1] = math.Inf(-1), math.Inf(-1)
		alone, atMost, drowned := without(&total, &background)
		sum := acoustics.SumThirds(&alone, &background)
		for i := range total {
			above := total[i] - background[i]
			switch {
			case i < 2:
				if alone[i] != total[i] {
					t.Fatalf("band %d: %v alone, want %v", i, alone[i], total[i])
				}
			case above >= 3 && above <= 10 && math.Abs(sum[i]-total[i]) > 1e-9:
				t.Fatalf("band %d, %v dB above: %v alone and %v are %v, want %v", i, above, alone[i], background[i], sum[i], total[i])
			case above > 10 && alone[i] != total[i]:
				t.Fatalf("band %d, %v dB above: %v alone, want %v", i, above, alone[i], total[i])
			case (above > 0 && above < 3) != contains(atMost, i), (above <= 0) != contains(drowned, i):
				t.Fatalf("band %d, %v dB above: upper bounds %v, drowned %v", i, above, atMost, drowned)
			}
		}
	})
}

func contains(list []int, i int) bool {
	for _, v := range list {
		if v == i {
			return true
		}
	}
	return false
}

func TestReadShown(t *testing.T) {
	for _, r := range []struct {
		text string
		want view.Shown
	}{
		{"52dBA", view.Shown{DB: 52}}, {"52", view.Shown{DB: 52}}, {"52.5 dB(A)", view.Shown{DB: 52.5}}, {"52dB", view.Shown{DB: 52}},
		{"60dBC", view.Shown{DB: 60, Weight: view.WeightC}}, {"60 dB(C)", view.Shown{DB: 60, Weight: view.WeightC}},
		{"61 dBz", view.Shown{DB: 61, Weight: view.WeightZ}},
	} {
		if got, err := readShown(r.text); err != nil || got.Or(view.Shown{}) != r.want {
			t.Errorf("readShown(%q) = %+v, %v, want %+v", r.text, got, err, r.want)
		}
	}
	for _, text := range []string{"", "dBA", "-3dBA", "131dBC", "NaN dBA", "52dBX", "52V", "Inf"} {
		if got, err := readShown(text); err == nil {
			t.Errorf("readShown(%q) = %+v, want an error", text, got)
		}
	}
}
