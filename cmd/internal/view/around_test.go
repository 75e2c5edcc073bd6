package view

import (
	"math"
	"strings"
	"testing"

	"lowsone/match"
)

func twoPaths(fans int, heard ...match.Heard) *Around {
	return &Around{
		Device: &match.Device{Name: "amplifier", Paths: []match.Path{{Name: "tunnel", Fans: fans}, {Name: "supply"}}},
		Heard:  heard,
	}
}

func heardAt(name string, path int, level float64) match.Heard {
	return match.Heard{Noise: match.Noise{Name: name, Level: level}, Path: path}
}

// Two equal levels are 3.01 dB more than one; what is replaced does not count
// with its own level, and a candidate's level is that of all equal fans on its
// path already.
func TestTotalWithACandidate(t *testing.T) {
	for _, r := range []struct {
		name   string
		around *Around
		level  float64
		want   float64
	}{
		{"as loud as the rest", twoPaths(1, heardAt("tunnel", 0, 60), heardAt("supply", 1, 30)), 30, 30 + 10*math.Log10(2)},
		{"two fans, their level already together", twoPaths(2, heardAt("supply", 1, 30)), 30, 30 + 10*math.Log10(2)},
		{"far below the rest", twoPaths(1, heardAt("supply", 1, 30)), -60, 30},
		{"nothing else is heard", twoPaths(1, heardAt("tunnel", 0, 60)), 30, math.NaN()},
	} {
		if got := r.around.total(r.level); math.Abs(got-r.want) > 1e-6 || math.IsNaN(got) != math.IsNaN(r.want) {
			t.Errorf("%s: total %v dB(A), want %v", r.name, got, r.want)
		}
	}
}

func TestBudgetInWords(t *testing.T) {
	a := twoPaths(1, heardAt("tunnel", 0, 40), heardAt("supply", 1, 36), heardAt("hum", match.OtherSource, 20))
	a.Missing = []string{"how loud x is"}
	said := ""
	for _, f := range a.facts() {
		said += f.name + ": " + f.says + "\n"
	}
	// 40 and 36 and 20 dB(A): 41.5; without the first 36.1, so 5.4 dB at most. By hand.
	for _, want := range []string{
		"41.5 dB(A) in all", "replacing the fan of tunnel alone gains at most 5.4 dB, then supply dominates",
		"replacing the fan of supply alone gains at most 1.4 dB, then tunnel dominates", "how loud x is: the budget is without it",
	} {
		if !strings.Contains(said, want) {
			t.Errorf("budget says\n%swant …%s…", said, want)
		}
	}
	if strings.Contains(said, "replacing the fan of hum") {
		t.Errorf("a source is no fan:\n%s", said)
	}
	if j := a.budgetJSON(); len(j.Shares) != 3 || len(j.Missing) != 1 {
		t.Errorf("object %+v, want three shares and one not known", j)
	}
}

// One thing heard has nothing that dominates after it.
func TestBudgetOfOne(t *testing.T) {
	a := twoPaths(1, heardAt("tunnel", 0, 40))
	if facts := a.facts(); len(facts) != 1 || strings.Contains(facts[0].says, "in all") {
		t.Errorf("facts %+v, want the one level", facts)
	}
	if share := a.budgetJSON().Shares[0]; !share.Gain.IsZero() || !share.Without.IsZero() {
		t.Errorf("share %+v, want neither gain nor rest", share)
	}
}

// The spot nearest to its limit counts, not the warmest.
func TestHottest(t *testing.T) {
	spot := func(name string, high, limit float64) match.SpotTemperature {
		s := match.SpotTemperature{Name: name, Limit: limit, Margin: 10}
		s.Planned.High = high
		return s
	}
	hot, ok := hottest([]match.SpotTemperature{spot("warm", 80, 125), spot("near", 58, 70), spot("cool", 30, 70)})
	if !ok || hot.Name != "near" {
		t.Errorf("hottest = %q, %v, want the one nearest to its limit", hot.Name, ok)
	}
	if _, ok := hottest(nil); ok {
		t.Error("no spot is hottest")
	}
}

// The price in life is the least of all; unknown where no part has a rule.
func TestLife(t *testing.T) {
	nan := math.NaN()
	c := func(fan float64, spots ...float64) *match.Candidate {
		out := &match.Candidate{FanLife: fan}
		for _, v := range spots {
			out.Spots = append(out.Spots, match.SpotTemperature{Life: v})
		}
		return out
	}
	for _, r := range []struct {
		name string
		c    *match.Candidate
		warm bool
		want float64
	}{
		{"the shortest", c(0.9, 0.8, 0.7), true, 0.7}, {"bearings in warm air", c(0.6, 0.8, nan), true, 0.6},
		{"bearings in cool air", c(0.6, 0.8, nan), false, 0.8}, {"none has a rule", c(nan, nan), true, nan}, {"nothing watched", c(nan), false, nan},
	} {
		if got := life(r.c, r.warm); got != r.want && !(math.IsNaN(got) && math.IsNaN(r.want)) {
			t.Errorf("%s: life × %v, want %v", r.name, got, r.want)
		}
	}
}

func TestSpan(t *testing.T) {
	nan := math.NaN()
	for _, r := range []struct {
		low, high float64
		decimals  int
		want      string
	}{{9, 9, 1, "9"}, {8.96, 9.04, 1, "9"}, {8.8, 9.4, 1, "8.8–9.4"}, {-5.7, -3.5, 1, "-5.7 to -3.5"}, {-1, 2, 0, "-1 to 2"}, {nan, 76, 0, "?–76"}, {nan, -6, 1, "? to -6"}, {nan, nan, 0, Unknown}} {
		if got := span(r.low, r.high, r.decimals); got != r.want {
			t.Errorf("span(%v, %v, %d) = %q, want %q", r.low, r.high, r.decimals, got, r.want)
		}
	}
}
