package thermal

import (
	"fmt"
	"math"
	"slices"
)

// Rule is a settling rule of a standard: when a temperature may be called
// steady. A rule is an agreement, no proof: Hides tells what it lets pass.
type Rule struct {
	Name   string
	Asks   string
	Source string // where it was read [Rules]

	readings   int     // compared, the last of the log and those before it
	apart      float64 // s between them
	ofElapsed  float64 // or, if that is more, this share of the time since the log began
	most       float64 // K between any two of them
	orAbsolute float64 // or, if that is more, this share of the absolute temperature
	under      bool    // the change must stay under most, not just reach it
	belowLimit float64 // the rule holds only for readings this share below their limit
	compare    comparison
}

type comparison uint8

const (
	spread   comparison = iota // between straight lines through the readings
	noRise                     // reading by reading, none above the one before
	noChange                   // reading by reading, all the same
)

const (
	minutes = 60.0
	hours   = 60 * minutes

	mailingList = "mail-archive.com, emc-pstc"
	boardCopy   = "bbs.angui.org"
)

// Rules lists the settling rules, in a fixed order.
func Rules() []Rule {
	return []Rule{
		{Name: "IEC 62368-1 B.1.6", Asks: "rise of at most 3 K in 30 min", Source: mailingList + " msg72964",
			readings: 2, apart: 30 * minutes, most: 3},
		{Name: "IEC 62368-1 B.1.6, 10 % below the limit", Asks: "rise of at most 1 K in 5 min, where the reading is 10 % or more below its limit", Source: mailingList + " msg72964",
			readings: 2, apart: 5 * minutes, most: 1, belowLimit: 0.10},
		{Name: "IEC 61010-1, decision 23 of test laboratories", Asks: "rise of at most 2 K in 1 h", Source: boardCopy + " tid 105076",
			readings: 2, apart: hours, most: 2},
		{Name: "IEC 60034-1", Asks: "at most 2 K in 1 h", Source: mailingList + " msg62539",
			readings: 2, apart: hours, most: 2},
		{Name: "IEC 60598", Asks: "under 1 K in 1 h", Source: mailingList + " msg62539; " + boardCopy + " thread 8740",
			readings: 2, apart: hours, most: 1, under: true},
		{Name: "BS 1363-1", Asks: "under 1 K in 1 h", Source: mailingList + " msg62539",
			readings: 2, apart: hours, most: 1, under: true},
		{Name: "IEC 60335-2-6, as one laboratory uses it", Asks: "under 1 K in 15 min", Source: mailingList + " msg62539",
			readings: 2, apart: 15 * minutes, most: 1, under: true},
		{Name: "IEC 61810-7", Asks: "under 1 K between any two of three readings 5 min apart", Source: mailingList + " msg62539",
			readings: 3, apart: 5 * minutes, most: 1, under: true},
		{Name: "IEC 62282-2", Asks: "at most 3 K or 1 % of the absolute temperature between readings 15 min apart", Source: mailingList + " msg62539",
			readings: 2, apart: 15 * minutes, most: 3, orAbsolute: 0.01},
		{Name: "UL 1029", Asks: "three readings 15 min or more apart, none above the one before", Source: boardCopy + " thread 8740",
			readings: 3, apart: 15 * minutes, compare: noRise},
		{Name: "UL 1278", Asks: "three readings apart by 10 % of the time gone by, 5 min or more, no change", Source: boardCopy + " thread 8740",
			readings: 3, apart: 5 * minutes, ofElapsed: 0.10, compare: noChange},
	}
}

// RuleNamed returns the rule with the name.
func RuleNamed(name string) (Rule, bool) {
	all := Rules()
	i := slices.IndexFunc(all, func(r Rule) bool { return r.Name == name })
	if i < 0 {
		return Rule{}, false
	}
	return all[i], true
}

// Hides returns how much a first-order response with the time constant in s may
// still rise, in K, when it just keeps the rule:
//
//	X / (exp(W/τ) − 1)
//
// with X the change the rule allows over the time W. False for a rule that
// allows no change at all, where it hangs on the resolution of the readings; a
// time constant that is not above 0 gives 0.
func (r Rule) Hides(tau float64) (kelvin float64, ok bool) {
	if r.compare != spread {
		return 0, false
	}
	if !(tau > 0) {
		return 0, true
	}
	return r.most / math.Expm1(float64(r.readings-1)*r.apart/tau), true
}

// Settled tells whether the log keeps the rule at its end, and what was found.
// Change counts in both directions, also where a rule speaks of a rise: a device
// that cools is not settled either. Between readings the temperature is taken
// from a straight line, for the two rules that ask for no change at all from the
// last reading at that time or before. A log too short, or with a gap where the
// rule looks, is not settled. The error is a *FewReadingsError (no reading at
// all), *OrderError or *ReadingError.
func (r Rule) Settled(log []Reading) (settled bool, detail string, err error) {
	if err := checkLog(log); err != nil {
		return false, "", err
	}
	if len(log) == 0 {
		return false, "", &FewReadingsError{Got: 0, Least: 1}
	}
	apart := max(r.apart, r.ofElapsed*span(log))
	needs := float64(r.readings-1) * apart
	if span(log) < needs*(1-rounding) {
		return false, fmt.Sprintf("the log is %s long, the rule looks at the last %s", inMinutes(span(log)), inMinutes(needs)), nil
	}
	looked, missing := r.look(log, apart)
	if missing > 0 {
		return false, fmt.Sprintf("the log has no readings about %s before its end, where the rule looks", inMinutes(missing)), nil
	}
	settled, detail = r.judge(looked, needs)
	return settled, detail + r.condition(looked[len(looked)-1]), nil
}

// look returns the temperatures the rule compares, by time, in °C; or how long
// before the end one of them is missing, in s. Each is looked for so long before
// the one after it.
func (r Rule) look(log []Reading, apart float64) (looked []float64, missing float64) {
	end := log[len(log)-1]
	looked = []float64{end.Celsius}
	at := end.Time
	for range r.readings - 1 {
		at -= apart
		if early := log[0].Time - at; early > 0 && early < apart*rounding {
			at = log[0].Time // as long as the rule asks, but for rounding
		}
		found, ok := r.reading(log, at, apart)
		if !ok {
			return nil, end.Time - at
		}
		looked = append(looked, found.Celsius)
		at = found.Time
	}
	slices.Reverse(looked)
	return looked, 0
}

// reading returns what the log holds for a time; false before its first reading
// and where the readings about that time are further apart than those that are
// compared.
func (r Rule) reading(log []Reading, at, apart float64) (Reading, bool) {
	after := slices.IndexFunc(log, func(l Reading) bool { return l.Time > at })
	if after < 1 {
		return Reading{}, false
	}
	a, b := log[after-1], log[after]
	switch {
	case a.Time == at:
		return a, true
	case b.Time-a.Time > apart:
		return Reading{}, false
	case r.compare != spread:
		return a, true
	}
	return Reading{at, a.Celsius + (b.Celsius-a.Celsius)*(at-a.Time)/(b.Time-a.Time)}, true
}

func (r Rule) judge(looked []float64, over float64) (bool, string) {
	change := slices.Max(looked) - slices.Min(looked)
	switch r.compare {
	case noRise:
		for i := 1; i < len(looked); i++ {
			if looked[i] > looked[i-1] {
				return false, fmt.Sprintf("a reading rose by %.3g K within %s", looked[i]-looked[i-1], inMinutes(over))
			}
		}
		return true, fmt.Sprintf("no reading rose within %s", inMinutes(over))
	case noChange:
		return change == 0, fmt.Sprintf("the readings changed by %.3g K within %s", change, inMinutes(over))
	}
	most := max(r.most, r.orAbsolute*(looked[len(looked)-1]+freezing))
	found := fmt.Sprintf("changed by %.3g K in %s, of %.3g K", change, inMinutes(over), most)
	if r.under {
		return change < most, found
	}
	return change <= most, found
}

const freezing = 273.15 // 0 °C in K

// condition names the limit from which on the rule holds, if it asks for one.
func (r Rule) condition(celsius float64) string {
	if r.belowLimit == 0 {
		return ""
	}
	return fmt.Sprintf("; the rule holds only for a limit of %.4g °C or more", celsius/(1-r.belowLimit))
}

func inMinutes(s float64) string { return fmt.Sprintf("%.3g min", s/minutes) }
