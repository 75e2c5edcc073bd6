package thermal

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
)

// publishedRules pairs the rows of heat_steady_state with the rules.
var publishedRules = map[string]string{
	"IEC 62368-1 B.1.6": "IEC 62368-1 B.1.6",
	"IEC 62368-1 B.1.6 if reading is >= 10 % below limit": "IEC 62368-1 B.1.6, 10 % below the limit",
	"IEC 61010-1 test-lab decision 23":                    "IEC 61010-1, decision 23 of test laboratories",
	"IEC 60034-1 / 62135-1":                               "IEC 60034-1",
	"IEC 60598":                                           "IEC 60598",
	"BS 1363-1":                                           "BS 1363-1",
	"IEC 60335-2-6 as used by a lab":                      "IEC 60335-2-6, as one laboratory uses it",
	"IEC 61810-7":                                         "IEC 61810-7",
	"IEC 62282-2":                                         "IEC 62282-2",
	"UL 1029":                                             "UL 1029",
	"UL 1278":                                             "UL 1278",
}

// firstOrder returns an exact log from 20 °C with a reading every 10 s, counted
// back from the cut in s.
func firstOrder(rise, tau, cut float64) []Reading {
	var log []Reading
	for t := math.Mod(cut, 10); t <= cut+1e-6; t += 10 {
		log = append(log, Reading{t, 20 - rise*math.Expm1(-t/tau)})
	}
	return log
}

// settlesAt returns the cut in s from which on the rule takes an exact log of
// 60 K for settled, to 1 ms, and what is still to come then, in K.
func settlesAt(t *testing.T, r Rule, tau float64) (cut, left float64) {
	t.Helper()
	low, high := 30.0, 30*tau
	for high-low > 1e-3 {
		mid := (low + high) / 2
		ok, _, err := r.Settled(firstOrder(60, tau, mid))
		if err != nil {
			t.Fatal(err)
		}
		if ok {
			high = mid
		} else {
			low = mid
		}
	}
	return high, 60 * math.Exp(-high/tau)
}

// Source: heat_steady_state, the columns hidden_rise, derived. The rule itself
// says when an exact log is settled; what it still rises is the published value.
func TestPublishedHiddenRise(t *testing.T) {
	rows := records(t, "heat_steady_state.csv")
	seen := 0
	for row, name := range publishedRules {
		rule, ok := RuleNamed(name)
		if _, known := rows[row]; !ok || !known {
			t.Fatalf("no rule %q for the row %q (row known: %t)", name, row, known)
		}
		for _, tau := range []float64{15, 30, 60} {
			text := rows[row][fmt.Sprintf("hidden_rise_tau%g", tau)]
			if text == "" {
				continue
			}
			seen++
			want, half := printed(t, text)
			cut, left := settlesAt(t, rule, tau*minutes)
			call := fmt.Sprintf("what %s hides with %g min", name, tau)
			check(t, call+", as found at a cut of "+inMinutes(cut), left, want, half+1e-4, rows[row]["source"])
			hides, ok := rule.Hides(tau * minutes)
			if check(t, call+", by Hides", hides, want, half, rows[row]["source"]); !ok {
				t.Errorf("%s: Hides is unknown", call)
			}
		}
	}
	if seen != 21 || len(Rules()) != len(publishedRules) {
		t.Errorf("saw %d published values of %d rules, want 21 of %d", seen, len(Rules()), len(publishedRules))
	}
}

// The two rules without a published hidden rise that allow a change.
func TestHidesIsWhatASettledLogHides(t *testing.T) {
	for _, name := range []string{"IEC 61810-7", "IEC 62282-2"} {
		rule, _ := RuleNamed(name)
		for _, tau := range []float64{15, 30} {
			_, left := settlesAt(t, rule, tau*minutes)
			want, _ := rule.Hides(tau * minutes)
			if name == "IEC 62282-2" { // 1 % of the absolute temperature is a little more than 3 K here
				want *= 0.01 * (80 - left + freezing) / 3
			}
			check(t, fmt.Sprintf("what %s hides with %g min", name, tau), left, want, 1e-3*want, "Hides")
		}
	}
	for _, name := range []string{"UL 1029", "UL 1278"} {
		rule, _ := RuleNamed(name)
		if got, ok := rule.Hides(1800); ok {
			t.Errorf("%s: Hides = %g, but it hangs on the resolution", name, got)
		}
	}
}

// steady returns readings every five minutes.
func everyFive(celsius ...float64) (log []Reading) {
	for i, c := range celsius {
		log = append(log, Reading{float64(i) * 5 * minutes, c})
	}
	return log
}

func TestSettled(t *testing.T) {
	for _, row := range []struct {
		name, rule string
		log        []Reading
		want       bool
		detail     string
	}{
		{"at the edge", "IEC 62368-1 B.1.6", everyFive(40, 45, 46, 46.5, 47, 47.5, 43), true, "changed by 3 K in 30 min, of 3 K"},
		{"over the edge", "IEC 62368-1 B.1.6", everyFive(39.9, 45, 46, 46.5, 47, 47.5, 43), false, "changed by 3.1 K"},
		{"too short", "IEC 62368-1 B.1.6", everyFive(40, 41, 42, 42, 42, 42), false, "the log is 25 min long, the rule looks at the last 30 min"},
		{"cooling is not settled", "IEC 62368-1 B.1.6", everyFive(60, 55, 50, 47, 45, 44, 43), false, "changed by 17 K"},
		{"limit", "IEC 62368-1 B.1.6, 10 % below the limit", everyFive(44, 45), true, "only for a limit of 50 °C or more"},
		{"under 1 K, not 1 K", "IEC 61810-7", everyFive(44, 44.5, 45), false, "changed by 1 K in 10 min, of 1 K"},
		{"under 1 K", "IEC 61810-7", everyFive(44.1, 44.5, 45), true, "changed by 0.9 K"},
		{"any two of three", "IEC 61810-7", everyFive(44, 45.2, 44), false, "changed by 1.2 K"},
		{"absolute", "IEC 62282-2", everyFive(100, 101, 102, 103.7), true, "changed by 3.7 K in 15 min, of 3.77 K"},
		{"not above absolute", "IEC 62282-2", everyFive(0, 1, 2, 3.1), false, "of 3 K"},
		{"no rise", "UL 1029", everyFive(44, 50, 50, 43, 50, 50, 42), true, "no reading rose within 30 min"},
		{"a rise", "UL 1029", everyFive(44, 50, 50, 43, 50, 50, 43.5), false, "a reading rose by 0.5 K"},
		{"no change", "UL 1278", everyFive(20, 30, 43, 43, 43), true, "the readings changed by 0 K within 10 min"},
		{"a fall", "UL 1278", everyFive(20, 30, 43, 43, 42.5), false, "the readings changed by 0.5 K"},
		{"no readings there", "IEC 61810-7", []Reading{{0, 40}, {1500, 40}, {1560, 40}}, false, "no readings about 5 min before its end"},
		{"one reading", "IEC 60598", everyFive(40), false, "the log is 0 min long"},
	} {
		rule, ok := RuleNamed(row.rule)
		if !ok {
			t.Fatalf("no rule %q", row.rule)
		}
		got, detail, err := rule.Settled(row.log)
		if err != nil || got != row.want || !strings.Contains(detail, row.detail) {
			t.Errorf("%s: %s.Settled(%v) = %t, %q, %v, want %t, %q", row.name, row.rule, row.log, got, detail, err, row.want, row.detail)
		}
	}
}

// UL 1278 looks back by a tenth of the time gone by once that is above five
// minutes: of two hours, by 12 minutes each.
func TestIntervalGrowsWithTheTest(t *testing.T) {
	rule, _ := RuleNamed("UL 1278")
	log := []Reading{{0, 20}}
	for m := 60.0; m <= 120; m++ {
		log = append(log, Reading{m * minutes, 43})
	}
	for i := range log {
		if log[i].Time < 97*minutes {
			log[i].Celsius = 42
		}
	}
	if ok, detail, _ := rule.Settled(log); ok {
		t.Errorf("settled: %s, but 24 min ago the reading was another", detail)
	}
	for i := range log {
		if log[i].Time >= 96*minutes {
			log[i].Celsius = 43
		}
	}
	if ok, detail, _ := rule.Settled(log); !ok {
		t.Errorf("not settled: %s, but the last 24 min show no change", detail)
	}
}

// A log exactly as long as the rule asks, but for the rounding of its times.
func TestSettledAtTheFirstReading(t *testing.T) {
	rule, _ := RuleNamed("IEC 62368-1 B.1.6, 10 % below the limit")
	for i := range 1000 {
		start := float64(i) * 0.1
		log := []Reading{{start, 40}, {start + 150, 40}, {start + 300, 40}}
		if ok, detail, err := rule.Settled(log); !ok || err != nil {
			t.Errorf("from %g s: not settled: %s, %v", start, detail, err)
		}
	}
}

func TestSettledErrors(t *testing.T) {
	rule := Rules()[0]
	var few *FewReadingsError
	if _, _, err := rule.Settled(nil); !errors.As(err, &few) || few.Least != 1 {
		t.Errorf("no readings: %v", err)
	}
	var order *OrderError
	if _, _, err := rule.Settled([]Reading{{0, 20}, {60, 21}, {30, 22}}); !errors.As(err, &order) || order.Index != 2 {
		t.Errorf("unsorted: %v", err)
	}
	var reading *ReadingError
	if _, _, err := rule.Settled([]Reading{{0, 20}, {60, math.NaN()}}); !errors.As(err, &reading) || reading.Index != 1 {
		t.Errorf("no number: %v", err)
	}
	if _, ok := RuleNamed("no such rule"); ok {
		t.Error("a rule that does not exist was found")
	}
	seen := map[string]bool{}
	for _, r := range Rules() {
		if r.Name == "" || r.Asks == "" || r.Source == "" || seen[r.Name] {
			t.Errorf("rule %+v: name, what it asks and source, each name once", r)
		}
		seen[r.Name] = true
	}
}
