package view

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"lowsone/catalog"
	"lowsone/match"
	"lowsone/match/drive"
)

// Slow is what each means of running one fan slower comes to.
type Slow struct {
	Fan    *catalog.Fan
	Load   drive.Load
	Rail   drive.Rail
	Target SlowTarget
	Means  []SlowMeans
	Never  []*drive.Refusal // what is known in the trade and not offered
	Device *SlowDevice      // nil: the fan alone
	Alarm  SlowAlarm
	Notes  []string
	Mend   string // where no means is offered, what can be done; for the last hint
}

// SlowTarget is what the fan is slowed to. What does not follow is NaN.
type SlowTarget struct {
	Volts float64
	Share float64 // of the speed at nominal voltage
	Flow  float64 // m³/s
	Ask   SlowAsk
}

// SlowAsk is what a target was asked for by.
type SlowAsk uint8

// The ways to ask.
const (
	AskVoltage SlowAsk = iota
	AskSpeed
	AskFlow
	AskNeed // of the device
)

// SlowAsks lists the names of the ways to ask, by SlowAsk.
var SlowAsks = []string{"voltage", "speed", "flow", "need"}

// SlowMeans is one means with what its plans come to.
type SlowMeans struct {
	drive.Offer
	// Nearest is the plan that comes nearest to the target; Ohmic and Constant are
	// the two bounds in ohms. Of resistors only.
	Nearest         int
	Ohmic, Constant float64
	Effects         []SlowEffect // by plan
}

// SlowEffect is what a plan does to the fan, at the slow and at the fast end of
// what is not known of it.
type SlowEffect struct {
	Tach         drive.Range // Hz; zero where not known
	Alarm        drive.Verdict
	AlarmAssumed bool // pulses were not known: Tach and Alarm are those at the usual ones
	Low, High    SlowEnd
}

// SlowEnd is one end: the change of level against the bare supply in dB, and
// where a device is given, the working point in it.
type SlowEnd struct {
	Change float64
	At     *match.AtSpeed
}

// SlowDevice is the device the fan is slowed in.
type SlowDevice struct {
	Full      *match.AtSpeed // on the bare supply
	Need      float64        // m³/s, NaN where no flow is enough
	NeedFrom  string
	Listener  float64 // m
	Assumed   []string
	HasLevels bool
}

// Refused says whether no means is offered at all.
func (d *Slow) Refused() bool {
	return !slices.ContainsFunc(d.Means, func(m SlowMeans) bool { return m.Refused == nil })
}

// StartWanted says whether a means is refused because the starting voltage of the
// fan is not known.
func (d *Slow) StartWanted() bool {
	return slices.ContainsFunc(d.Means, func(m SlowMeans) bool {
		return m.Refused != nil && m.Refused.Reason == drive.StartUnknown
	})
}

// Text writes the means for people.
func (d *Slow) Text(w io.Writer, s Style) error {
	p := &printer{w: w, style: s.within(proseWidth)}
	p.facts(d.facts())
	p.line("")
	p.means(d)
	p.caution()
	return p.err
}

// means writes what every means comes to, and what is refused.
func (p *printer) means(d *Slow) {
	if !d.Refused() {
		p.table(d.table())
		p.facts(d.legend())
		p.line("")
	}
	p.facts(d.refusals())
}

// facts say what is slowed, and to what.
func (d *Slow) facts() facts {
	var f facts
	f.add("fan", d.Fan.Name()+d.loadWords())
	f.add("supply", railWords(d.Rail))
	f.add("target", d.targetWords())
	if said := d.Alarm.words(); said != "" {
		f.add("alarm", said)
	}
	if v := d.Device; v != nil {
		if v.Full != nil {
			said := d.pointWords(v.Full)
			if len(v.Full.Spots) > 0 {
				said += " (at the worst; lowsone system tells the device as it was found)"
			}
			f.add("full speed", said)
		}
		switch {
		case math.IsNaN(v.Need):
			f.add("needed", v.NeedFrom)
		default:
			f.add("needed", flowText(v.Need)+" ("+v.NeedFrom+")")
		}
	}
	return f
}

func (d *Slow) loadWords() string {
	var said []string
	add := func(v float64, format string) {
		if v > 0 {
			said = append(said, fmt.Sprintf(format, Trim(Digits(v, 3))))
		}
	}
	add(d.Load.NominalVoltage, "%s V")
	add(d.Load.RatedCurrent, "%s A")
	add(d.Load.RatedSpeed*60, "%s rpm")
	add(d.Load.StartVoltage, "starts at %s V")
	if len(said) == 0 {
		return ""
	}
	return ": " + strings.Join(said, ", ")
}

func railWords(r drive.Rail) string {
	said := "not known"
	switch {
	case r.Low == r.High && r.Low > 0:
		said = Trim(Digits(r.Low, 3)) + " V"
	case r.Low > 0 && r.High > 0:
		said = Trim(Digits(r.Low, 3)) + " to " + Trim(Digits(r.High, 3)) + " V"
	}
	if r.Pulsed {
		said += ", pulsed"
	}
	return said
}

// targetWords says what was asked for, and what follows.
func (d *Slow) targetWords() string {
	t := d.Target
	volts, share, flow := "", "", ""
	if !math.IsNaN(t.Volts) {
		volts = Trim(Digits(t.Volts, 3)) + " V at the fan"
	}
	if !math.IsNaN(t.Share) {
		share = Fixed(100*t.Share, 0) + " % of its speed at nominal voltage"
	}
	if !math.IsNaN(t.Flow) {
		flow = flowText(t.Flow)
	}
	said := []string{volts, share}
	switch t.Ask {
	case AskSpeed:
		said = []string{share, volts}
	case AskFlow:
		said = []string{flow, share, volts}
	case AskNeed:
		said = []string{flow + ", what the device needs", share, volts}
	}
	said = slices.DeleteFunc(said, func(part string) bool { return part == "" })
	return strings.Join(said, ": ")
}

// pointWords tells a working point.
func (d *Slow) pointWords(a *match.AtSpeed) string {
	said := flowText(a.Q) + " against " + pressureText(a.P)
	if d.Device.HasLevels {
		said += ", " + levelText(a.Level) + " at " + Trim(Fixed(d.Device.Listener, 2)) + " m"
	}
	for _, spot := range a.Spots {
		said += ", " + spot.Name + " " + atMost(spot.Planned) + " °C"
	}
	return said
}
