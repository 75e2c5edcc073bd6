package view

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"lowsone/acoustics"
	"lowsone/acoustics/recording"
	"lowsone/catalog/quantity"
	"lowsone/match"
)

// mostTones is how many tones people are shown.
const mostTones = 10

// tonesText tells the tones of a recording, and whose they are.
func (d *Listen) tonesText(p *printer, r *Recorded) {
	p.line("")
	tones := r.Analysis.Tones
	if len(tones) == 0 {
		var f facts
		f.add("tones", "none stands out of the noise from "+hertz(acoustics.LeastTone)+" to "+hertz(acoustics.MostTone))
		p.facts(append(f, d.afterTones(r)...))
		return
	}
	p.noted(r.toneTable())
	p.line("")
	p.facts(append(d.whose(r), d.afterTones(r)...))
}

// excess gives how far a tone lies above the nearer of its limits; NaN where
// neither is known.
func excess(t recording.Tone) float64 {
	byNoise := float64(t.TNR - acoustics.ToneToNoiseLimit(t.Frequency))
	byBands := float64(t.PR - acoustics.ProminenceLimit(t.Frequency))
	if math.IsNaN(byNoise) || byBands > byNoise {
		return byBands
	}
	return byNoise
}

// strongest lists the tones that stand out most, by frequency.
func strongest(tones []recording.Tone) []int {
	order := make([]int, len(tones))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(excess(tones[b]), excess(tones[a])) })
	order = order[:min(len(order), mostTones)]
	slices.Sort(order)
	return order
}

func (r *Recorded) toneTable() *Table {
	t := &Table{Columns: []Column{
		{Title: "tone", Unit: "Hz", Number: true},
		{Title: "level", Unit: "dB", Number: true},
		{Title: "over noise", Unit: "dB", Number: true},
		{Title: "over bands", Unit: "dB", Number: true},
		{Title: "prominent"},
		{Title: "series", Number: true},
	}}
	tones := r.Analysis.Tones
	series := r.seriesNumbers()
	for _, i := range strongest(tones) {
		tone := tones[i]
		prominent := ""
		if tone.Prominent {
			prominent = "yes"
		}
		t.Add(Fixed(float64(tone.Frequency), 1), Fixed(r.db(tone.Level), 1), Fixed(float64(tone.TNR), 1), Fixed(float64(tone.PR), 1), prominent, strconv.Itoa(series[i]))
	}
	if more := len(tones) - mostTones; more > 0 {
		t.Notes = append(t.Notes, fmt.Sprintf("%d weaker: --format json has all", more))
	}
	t.Notes = append(t.Notes, "over noise, over bands: tone-to-noise and prominence ratio (ECMA-418-1)")
	return t
}

// seriesNumbers gives the number of the series that each tone is in.
func (r *Recorded) seriesNumbers() []int {
	numbers := make([]int, len(r.Analysis.Tones))
	for n, s := range r.Series {
		for _, i := range s.Tones {
			numbers[i] = n + 1
		}
	}
	return numbers
}

// whose says of each series what makes it. Weak ones that nothing is known of are
// only counted.
func (d *Listen) whose(r *Recorded) facts {
	var f facts
	shown := strongest(r.Analysis.Tones)
	rest, strange := 0, []string(nil)
	for n, s := range r.Series {
		visible := slices.ContainsFunc(s.Tones, func(i int) bool { return slices.Contains(shown, i) })
		if s.Maker == match.MadeByUnknown && (!visible || !r.prominent(s)) {
			rest++
			continue
		}
		if s.Maker == match.MadeByUnknown && len(bladesFor(s.Hz)) == 0 {
			strange = append(strange, toneHz(s.Hz)+multiplesText(s.Orders))
			continue
		}
		f.add(strconv.Itoa(n+1), d.seriesText(r, s))
	}
	if len(strange) > 0 {
		f.add("no fan's", strings.Join(strange, ", ")+": outside the blade tones of usual fans; electronics that switch whine like that, bearings too")
	}
	switch {
	case rest > 0 && len(f) == 0:
		f.add("tones", "none is prominent, nor known to be a fan's")
	case rest > 0:
		f.add("others", fmt.Sprintf("%d more series, weaker, not known to be a fan's", rest))
	}
	return f
}

func (r *Recorded) prominent(s Series) bool {
	return slices.ContainsFunc(s.Tones, func(i int) bool { return r.Analysis.Tones[i].Prominent })
}

// seriesText says which tones a series has, and what makes it.
func (d *Listen) seriesText(r *Recorded, s Series) string {
	said := toneHz(s.Hz) + multiplesText(s.Orders)
	switch s.Maker {
	case match.MadeByFan:
		return said + ": " + d.fanText(s)
	case match.MadeByMains:
		return said + ": hum of the mains, from a transformer or a motor, not from blades"
	}
	if d.Device != nil {
		return said + ": not known whose, of no fan of the device file at its speed"
	}
	return said + ": not known whose; a fan makes it that has " + strings.Join(bladesFor(s.Hz), ", or ")
}

// multiplesText tells the multiples of a series beside its lowest tone.
func multiplesText(orders []int) string {
	rest := slices.DeleteFunc(slices.Clone(orders), func(n int) bool { return n == 1 })
	rest = slices.Compact(rest)
	switch {
	case len(rest) == 0:
		return ""
	case len(rest) == 1 && rest[0] == 2:
		return " and its double"
	case len(rest) == 1:
		return fmt.Sprintf(" and %d times that", rest[0])
	}
	texts := make([]string, len(rest))
	for i, n := range rest {
		texts[i] = strconv.Itoa(n)
	}
	return " and its multiples by " + strings.Join(texts, ", ")
}

// fanText says at what speed which fan makes a series.
func (d *Listen) fanText(s Series) string {
	fan := d.Device.Fans[s.Fan]
	blades := Fixed(s.Blades, 0)
	if s.Guessed {
		blades = Estimated(blades)
	}
	said := fmt.Sprintf("%s blades at %s: %s", blades, rpm(s.Turns), fanOfPath(fan.Name))
	if !math.IsNaN(s.Off) {
		speed := "the speed by its label and supply"
		if fan.Measured {
			speed = "its measured speed"
		}
		said += ", " + offText(s.Off) + " " + speed
	}
	for _, other := range s.Or {
		said += ", or " + fanOfPath(d.Device.Fans[other].Name)
	}
	if s.Guessed {
		said += " (~ its blades are not recorded: counted by tone and speed)"
	}
	return said
}

// offText says how far a speed lies from the one that is known.
func offText(off float64) string {
	percent := Fixed(100*math.Abs(off), 0) + " %"
	switch {
	case percent == "0 %":
		return "at"
	case off > 0:
		return percent + " above"
	}
	return percent + " below"
}

// Speeds in 1/s of the fans that bladesFor names: common practice.
const slowestFan, fastestFan = 500.0 / 60, 15000.0 / 60

// bladesFor names fans that would make a blade tone.
func bladesFor(hz float64) []string {
	var fans []string
	for _, blades := range [...]float64{3, 5, 7, 9, 11} {
		if turns := hz / blades; turns >= slowestFan && turns <= fastestFan {
			fans = append(fans, Fixed(blades, 0)+" blades at "+rpm(turns))
		}
	}
	return fans
}

func rpm(turns float64) string { return Fixed(60*turns, 0) + " rpm" }

// toneHz writes the frequency of a tone: 245.3 Hz, 1284 Hz.
func toneHz(hz float64) string {
	if hz >= 1000 {
		return Fixed(hz, 0) + " Hz"
	}
	return Trim(Fixed(hz, 1)) + " Hz"
}

// afterTones tells beats, and what to record so that tones can be told apart.
func (d *Listen) afterTones(r *Recorded) facts {
	var f facts
	if d.Device == nil {
		if len(r.Analysis.Tones) > 0 {
			f.add("whose", "a device file with blades and speeds of the fans tells which of them makes a tone: lowsone device new makes one")
		}
		return f
	}
	f = append(f, beatFacts(d.Beats, d.Device.Fans)...)
	f = append(f, d.Device.tooLow()...)
	return append(f, d.Device.open(r.told(d.Device.Fans), nil)...)
}

// tooLow tells of the fans whose blade tones are not sought.
func (t *FansTurning) tooLow() facts {
	var f facts
	for i := range t.Fans {
		if hz := t.Fans[i].Hz(); hz > 0 && hz < float64(acoustics.LeastTone) {
			f.add("too low", fmt.Sprintf("the blade tone of %s lies at %s; tones are sought from %s on, so only its multiples can be found: look at the third octave",
				t.Fans[i].Name, toneHz(hz), hertz(acoustics.LeastTone)))
		}
	}
	return f
}

// told gives the speeds that tones tell of fans whose speed was not measured.
func (r *Recorded) told(fans []match.Turning) map[int]float64 {
	told := map[int]float64{}
	for _, s := range r.Series {
		if s.Maker == match.MadeByFan && !s.Guessed && len(s.Or) == 0 && !fans[s.Fan].Measured {
			told[s.Fan] = s.Turns
		}
	}
	return told
}

// third names the third octave a frequency falls in.
func third(i int) string {
	if i < 0 {
		return Unknown
	}
	return Trim(Fixed(acoustics.ThirdNominal[i], 1))
}

// frequency is a frequency without its unit, for tables.
func frequency(f quantity.Frequency) string { return Fixed(float64(f), 1) }
