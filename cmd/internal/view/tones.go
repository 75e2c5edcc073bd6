package view

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"lowsone/acoustics"
	"lowsone/catalog/quantity"
	"lowsone/match"
)

// Tones are the tones that fans make as they turn now.
type Tones struct {
	Turning *FansTurning
	Shown   []int // of its fans
	Beats   []Beat
	Hums    []Hum
}

// Hum is a fan on AC, whose motor hums.
type Hum struct {
	Fan   int
	Mains float64 // Hz; NaN not known
}

// Beat is two tones of two fans that are heard together.
type Beat struct {
	Low, High BeatTone
	Beat      float64 // Hz
	Heard     acoustics.Hearing
	Unsure    bool // a speed is not measured, so that they may beat
	OneSpeed  bool // both can be regulated to one speed, which makes one tone
	// Steady and Distinct are the speeds in 1/s of the fan with the lower tone at
	// or below which nothing fluctuates any more, and there are two tones; 0 where
	// it would have to stop, or meets a third fan at every speed: then Crowded.
	// Bounded: further down it meets a third fan again.
	Steady, Distinct float64
	Bounded, Crowded bool
}

// BeatTone is a multiple of a fan's blade tone.
type BeatTone struct {
	Fan   int
	Order int
	Hz    float64
	Turns float64 // of the fan, 1/s
}

// mostHarmonics is how many tones of a fan are listed: those above are weaker
// (common practice).
const mostHarmonics = 4

// harmonics gives the tones of fan i.
func (d *Tones) harmonics(i int) []acoustics.Harmonic {
	return acoustics.Harmonics(quantity.Frequency(d.Turning.Fans[i].Hz()), mostHarmonics)
}

// Any says whether a tone of a shown fan is known.
func (d *Tones) Any() bool {
	known := len(d.Hums) > 0
	for _, i := range d.Shown {
		known = known || len(d.harmonics(i)) > 0
	}
	return known
}

// Text writes the tones for people.
func (d *Tones) Text(w io.Writer, s Style) error {
	p := &printer{w: w, style: s.within(proseWidth)}
	var f facts
	if dev := d.Turning.Device; dev != nil && dev.Name != "" {
		f.add("device", dev.Name)
	}
	if len(f) > 0 {
		p.facts(f)
		p.line("")
	}
	p.noted(d.table())
	f = d.humFacts()
	f = append(f, beatFacts(d.Beats, d.Turning.Fans)...)
	if len(d.Beats) == 0 && d.pairs() {
		f.add("beats", "none: no blade tone lies so near another, or its double or triple, that they are heard together")
	}
	f = append(f, d.severalFacts()...)
	if f = append(f, d.Turning.open(nil, d.Shown)...); len(f) > 0 {
		p.line("")
	}
	p.facts(f)
	p.caution()
	return p.err
}

// pairs says whether there are two fans whose tones are known.
func (d *Tones) pairs() bool {
	known := 0
	for i := range d.Turning.Fans {
		if !math.IsNaN(d.Turning.Fans[i].Hz()) {
			known++
		}
	}
	return known > 1
}

func (d *Tones) table() *Table {
	t := &Table{Columns: []Column{
		{Title: "fan", Wrap: true},
		{Title: "speed", Unit: "rpm", Number: true},
		{Title: "blades", Number: true},
		{Title: "tone"},
		{Title: "frequency", Unit: "Hz", Number: true},
		{Title: "in third oct.", Unit: "Hz", Number: true},
	}}
	estimated := false
	for _, i := range d.Shown {
		fan := &d.Turning.Fans[i]
		speed := Fixed(60*fan.Turns, 0)
		if !fan.Measured && speed != Unknown {
			speed, estimated = Estimated(speed), true
		}
		tones := d.harmonics(i)
		if hz := fan.Hz(); len(tones) == 0 && hz > 0 {
			t.Add(fan.Name, speed, Fixed(fan.Blades, 0), orderText(1), frequency(quantity.Frequency(hz)), Unknown)
		} else if len(tones) == 0 {
			t.Add(fan.Name, speed, Fixed(fan.Blades, 0), Unknown, Unknown, Unknown)
		}
		for _, h := range tones {
			if h.Order == 1 {
				t.Add(fan.Name, speed, Fixed(fan.Blades, 0), orderText(1), frequency(h.Frequency), third(h.Third))
				continue
			}
			t.Add("", "", "", orderText(h.Order), frequency(h.Frequency), third(h.Third))
		}
	}
	if estimated {
		t.Notes = append(t.Notes, EstimateMark+" by label and supply, ±10 % and with it every tone: measure it")
	}
	return t
}

// orderText names a multiple of a blade tone.
func orderText(order int) string {
	if order == 1 {
		return "blade tone"
	}
	return "× " + strconv.Itoa(order)
}

func (d *Tones) humFacts() facts {
	var f facts
	for _, h := range d.Hums {
		name := d.Turning.Fans[h.Fan].Name
		if math.IsNaN(h.Mains) {
			f.add("hum", name+": its AC motor hums at 100 Hz on mains of 50 Hz, at 120 Hz on 60 Hz, and at multiples")
			continue
		}
		f.add("hum", fmt.Sprintf("%s: its AC motor hums at %s and multiples, on mains of %s", name, toneHz(2*h.Mains), toneHz(h.Mains)))
	}
	return f
}

// severalFacts tell of paths with several equal fans.
func (d *Tones) severalFacts() facts {
	var f facts
	if d.Turning.Device == nil {
		return f
	}
	for _, i := range d.Shown {
		fan := &d.Turning.Fans[i]
		n := d.Turning.Device.Paths[fan.Path].Fans
		if n < 2 || math.IsNaN(fan.Hz()) {
			continue
		}
		f.add("beats", fmt.Sprintf("%s: its %d fans differ in speed by a few per cent unless something regulates them to one (common practice): 1 %% is a beat of %s",
			fan.Name, n, toneHz(fan.Hz()/100)))
	}
	return f
}

// beatFacts tell which fans beat, and what mends it.
func beatFacts(beats []Beat, fans []match.Turning) facts {
	var f facts
	for i := range beats {
		f.add("beats", beatText(&beats[i], fans))
	}
	return f
}

func beatText(b *Beat, fans []match.Turning) string {
	low, high := fans[b.Low.Fan], fans[b.High.Fan]
	said := fmt.Sprintf("%s of %s at %s and %s of %s at %s", beatTone(b.Low), low.Name, toneHz(b.Low.Hz), beatTone(b.High), high.Name, toneHz(b.High.Hz))
	if b.Unsure {
		return said + " may beat; whether and how, only measured speeds tell"
	}
	if b.Heard == acoustics.AsOne {
		return said + " coincide now: one tone, louder. Fans on one supply differ by some per cent (common practice), " +
			"and then these two beat, 1 % by " + toneHz(b.High.Hz/100) + ", unless something regulates their speeds"
	}
	said += fmt.Sprintf(" lie %s apart, heard as %s", Trim(Digits(b.Beat, 2))+" Hz", b.Heard)
	mends := b.mends(low.Name)
	if len(mends) > 0 {
		said += ". To end that, " + strings.Join(mends, ", or ")
	}
	if b.Crowded && b.Beat <= roughest && b.Steady == 0 && b.Distinct == 0 {
		said += ". No slower speed of " + low.Name + " is free: at each it meets a third fan"
	}
	return said
}

// roughest is the beat in Hz that is heard the roughest; beyond, it takes no mend.
// Fastl, Zwicker, Psychoacoustics.
const roughest = 70

// mends lists what ends a beat; low names the fan with the lower tone.
func (b *Beat) mends(low string) []string {
	var speeds, ways []string
	if b.Beat > roughest {
		return nil
	}
	orLess := " or less"
	if b.Bounded {
		orLess = " or a little less"
	}
	if b.Heard != acoustics.Rough && b.Steady > 0 {
		speeds = append(speeds, rpm(b.Steady)+orLess+" (rough at most)")
	}
	if b.Distinct > 0 {
		speeds = append(speeds, rpm(b.Distinct)+orLess+" (two tones)")
	}
	if len(speeds) > 0 {
		ways = append(ways, fmt.Sprintf("slow %s from %s to %s, if its cooling allows", low, rpm(b.Low.Turns), strings.Join(speeds, " or ")))
	}
	if b.OneSpeed {
		ways = append(ways, "regulate both to one speed")
	}
	return ways
}

func beatTone(t BeatTone) string {
	if t.Order == 1 {
		return "the blade tone"
	}
	return strconv.Itoa(t.Order) + " times the blade tone"
}

// open says what to record so that tones can be told apart. told holds the speeds
// in 1/s that tones of a recording tell, by fan. Of fans not shown nothing is said;
// nil shows all.
func (t *FansTurning) open(told map[int]float64, shown []int) facts {
	var f facts
	if t.NotLooked != "" {
		f.add("not looked", "the fans were not looked up: "+t.NotLooked)
	}
	var blades, speeds, labels []string
	for i := range t.Fans {
		if shown != nil && !slices.Contains(shown, i) {
			continue
		}
		fan := &t.Fans[i]
		if math.IsNaN(fan.Blades) {
			blades = append(blades, fan.Name)
		}
		turns, heard := told[i]
		switch {
		case fan.Measured:
		case heard:
			f.add("record", fmt.Sprintf("speed: %s of %s, as its tone tells, once you trust it", rpm(turns), fan.Name))
		case math.IsNaN(fan.Turns):
			speeds = append(speeds, fan.Name)
		default:
			labels = append(labels, fan.Name)
		}
	}
	for _, open := range []struct {
		fans []string
		what string
	}{
		{blades, "the number of blades of %s: count them with the device unplugged, blades: under fan"},
		{speeds, "the speed of %s, by tach or strobe, speed: under the path"},
		{labels, "the measured speed of %s, which is known by label and supply only, speed: under the path"},
	} {
		if len(open.fans) > 0 {
			f.add("record", fmt.Sprintf(open.what, strings.Join(open.fans, ", ")))
		}
	}
	return f
}
