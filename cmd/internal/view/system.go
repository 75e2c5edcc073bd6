package view

import (
	"fmt"
	"io"
	"math"
	"strings"

	"lowsone/match"
	"lowsone/match/resistance"
	"lowsone/match/sample"
)

// System is the resistance of a device and the fan that is fitted in it.
type System struct {
	System   match.System
	Baseline match.Baseline
	Assumed  bool           // no way was given: the share is a guess
	Distance float64        // m from the fan, of its level
	Sure     *sample.System // nil: not drawn
	Unsure   string         // why not, where it contradicts itself

	// With a device file only.
	Around      *Around
	Others      []OtherSystem // its other paths
	Seat        match.Installation
	Heat        *match.HeatNeed // nil: no spot is watched
	Need        float64         // m³/s, NaN where no flow is enough
	NeedFrom    string
	NeedUnknown string // why the need is not known
}

// OtherSystem is another path of the device.
type OtherSystem struct {
	Path    string
	System  *System // nil where it cannot be estimated: Unknown says why
	Unknown string
}

// Described is the part name of a fitted fan that is only described.
const Described = "fitted fan"

// systemJSON is what is known of a device's resistance.
type systemJSON struct {
	Method         string          `json:"method"`
	Assumed        bool            `json:"assumed,omitempty"`
	A              Number          `json:"a_pa_per_m3h"`
	B              Number          `json:"b_pa_per_m3h2"`
	OperatingPoint *pointJSON      `json:"operating_point,omitempty"`
	Band           *bandJSON       `json:"band,omitempty"`
	SpeedRatio     Number          `json:"speed_ratio"`
	SpeedGiven     bool            `json:"speed_given"` // measured, or by the supply; else the label's
	Density        Number          `json:"density_kg_m3"`
	Points         List[pointJSON] `json:"points"`
	Estimated      List[string]    `json:"estimated"`
	Defaults       List[string]    `json:"defaults"`
	Warnings       List[string]    `json:"warnings"`
	Others         []wayJSON       `json:"other_ways,omitempty"`
}

// bandJSON is the span of the flow, about 10 to 90 %.
type bandJSON struct {
	Low      Number `json:"flow_low_m3h"`
	High     Number `json:"flow_high_m3h"`
	OneSided bool   `json:"one_sided"`
}

// baselineJSON is the fitted fan as it runs now.
type baselineJSON struct {
	Part  string `json:"part"`
	Maker string `json:"maker,omitempty"`
	pointJSON
	Estimated List[string] `json:"estimated"`
}

// JSON gives the object of the system command.
func (d *System) JSON() any {
	j := struct {
		Schema
		Device *deviceJSON `json:"device,omitempty"`
		pathJSON
		Others  []otherJSON `json:"other_paths,omitempty"`
		Budget  *budgetJSON `json:"noise_budget,omitempty"`
		Caution string      `json:"caution"`
	}{Device: d.Around.deviceJSON(), pathJSON: d.path(), Budget: d.Around.budgetJSON(), Caution: Caution}
	for _, o := range d.Others {
		other := otherJSON{Path: o.Path, Unknown: o.Unknown}
		if o.System != nil {
			path := o.System.path()
			other.pathJSON = &path
		}
		j.Others = append(j.Others, other)
	}
	return j
}

// pathJSON is one path: its resistance, its fan now, what it needs.
type pathJSON struct {
	systemJSON
	Baseline baselineJSON    `json:"baseline"`
	Distance Number          `json:"level_distance_m"`
	Need     *needJSON       `json:"need,omitempty"`
	Heat     *heatJSON       `json:"heat,omitempty"`
	Unknown  string          `json:"need_not_known,omitempty"`
	Seat     *seatJSON       `json:"installation,omitempty"`
	Sure     *systemSureJSON `json:"sure,omitempty"`
}

type otherJSON struct {
	Path    string `json:"path"`
	Unknown string `json:"not_known,omitempty"`
	*pathJSON
}

func (d *System) path() pathJSON {
	j := pathJSON{
		systemJSON: d.json(), Baseline: d.baseline(), Distance: Number(d.Distance),
		Heat: heatOf(d.Heat), Unknown: d.NeedUnknown, Seat: seatOf(d.Seat), Sure: systemSure(d.Sure),
	}
	if d.NeedFrom != "" {
		j.Need = &needJSON{Number(d.Need * perHour), d.NeedFrom}
	}
	return j
}

func (d *System) json() systemJSON {
	s := d.System
	j := systemJSON{
		Method: s.Method.String(), Assumed: d.Assumed,
		A: Number(s.Estimate.System.A / perHour), B: Number(s.Estimate.System.B / perHour / perHour),
		SpeedRatio: Number(s.Ratio), SpeedGiven: s.Given, Density: Number(s.Density),
		Estimated: fieldNames(s.Estimated), Defaults: s.Assumed, Warnings: s.Warnings, Others: waysJSON(s.Others),
	}
	if s.Located {
		at := bare(s.Q, s.P)
		j.OperatingPoint = &at
		j.Band = &bandJSON{Number(s.LowQ * perHour), Number(s.HighQ * perHour), s.OneSided}
	}
	for _, p := range s.Points {
		j.Points = append(j.Points, bare(p.Q, p.P))
	}
	return j
}

func (d *System) baseline() baselineJSON {
	b := d.Baseline
	j := baselineJSON{Part: b.Fan.Part, Maker: b.Fan.Maker, pointJSON: unknownPoint(), Estimated: fieldNames(b.Estimated)}
	if d.System.Located {
		j.pointJSON = bare(b.Q, b.P)
	}
	if b.HasLevel {
		j.levelJSON, j.loudnessJSON = levelOf(b.Level), loudnessOf(&b.Loud)
	}
	j.Tone = Number(b.Tone.Hz)
	j.SpeedRatio = Number(b.Ratio)
	return j
}

// Text writes the system for people.
func (d *System) Text(w io.Writer, s Style) error {
	p := &printer{w: w, style: s.within(proseWidth)}
	var f facts
	if d.Around != nil {
		f.add("path", d.Around.path())
	}
	p.facts(append(f, d.all()...))
	for _, o := range d.Others {
		p.line("")
		f := facts{{"path", o.Path}}
		if o.System == nil {
			f.add("not known", o.Unknown)
		} else {
			f = append(f, o.System.all()...)
		}
		p.facts(f)
	}
	if d.Around != nil {
		p.line("")
		p.facts(d.Around.facts())
	}
	p.caution()
	return p.err
}

// all says everything of one path.
func (d *System) all() facts {
	f := d.facts()
	switch {
	case d.NeedUnknown != "":
		f.add("needed", "not known: "+d.NeedUnknown)
	case d.NeedFrom != "" && math.IsNaN(d.Need):
		f.add("needed", d.NeedFrom)
	case d.NeedFrom != "":
		f.add("needed", flowText(d.Need)+" ("+d.NeedFrom+")")
	}
	f = append(f, d.sureFacts()...)
	f.add("default", d.defaults())
	for _, warning := range d.System.Warnings {
		f.add("note", warning)
	}
	if note := d.Seat.Note(); note != "" {
		f.add("note", note)
	}
	if d.Heat != nil {
		for _, text := range d.Heat.Assumed {
			f.add("note", "assumed: "+text)
		}
	}
	return f
}

// facts say how the fitted fan runs and what the device does to the air.
func (d *System) facts() facts {
	var f facts
	fan := speedWords(d.Baseline.Ratio)
	if name := d.Baseline.Fan.Name(); name != Described {
		fan = name + " " + fan
	}
	if d.System.Located {
		fan += ": " + flowText(d.Baseline.Q) + " against " + pressureText(d.Baseline.P)
	}
	if d.Baseline.HasLevel {
		fan += ", " + levelText(d.Baseline.Level) + " at " + Trim(Fixed(d.Distance, 2)) + " m"
		if said := soneText(&d.Baseline.Loud); said != "" {
			fan += ": " + said
		}
	}
	f.add("fitted fan", fan+d.estimates())
	f.add("device", d.law()+", "+d.method())
	if said := ways(&d.System); said != "" {
		f.add("ways", said)
	}
	if d.System.Located {
		f.add("band", d.band())
	}
	return f
}

// estimates names the values of the fitted fan that no sheet gave.
func (d *System) estimates() string {
	if len(d.System.Estimated) == 0 {
		return ""
	}
	return " (" + EstimateMark + "estimated: " + strings.Join(titles(d.System.Estimated), ", ") + ")"
}

// law writes the resistance with its numbers in m³/h.
func (d *System) law() string {
	a, b := d.System.Estimate.System.A/perHour, d.System.Estimate.System.B/perHour/perHour
	var terms []string
	if a > 0 {
		terms = append(terms, Digits(a, 3)+"·Q")
	}
	if b > 0 || a == 0 {
		terms = append(terms, Digits(b, 3)+"·Q²")
	}
	return "Δp = " + strings.Join(terms, " + ") + " (Pa, Q in m³/h)"
}

func (d *System) method() string {
	if d.Assumed {
		return fmt.Sprintf("%sassuming that its fan moves %.0f %% of its free delivery", EstimateMark, 100*resistance.DefaultShare)
	}
	switch d.System.Method {
	case resistance.ByShare:
		return "from the share of its free delivery that the fan moves"
	case resistance.ByFlow:
		return "from the measured flow"
	case resistance.ByPressure:
		return "from the measured pressure"
	case resistance.ByGeometry:
		return "from the geometry of its air path"
	case resistance.ByHeat:
		return "from heat and air rise, air of " + Digits(d.System.Density, 3) + " kg/m³ at the fan"
	}
	return fmt.Sprintf("from %d measured points", len(d.System.Points))
}

func (d *System) band() string {
	if d.System.OneSided {
		return "at least " + flowText(d.System.LowQ) + " flow now: near free delivery the resistance may as well be smaller"
	}
	return "the flow now is " + flowNumber(d.System.LowQ) + " to " + flowText(d.System.HighQ) + " in about 8 of 10 devices measured like this, in 1 less, in 1 more"
}

// defaults says which silent conventions were used.
func (d *System) defaults() string {
	said := append([]string{}, d.System.Assumed...)
	return strings.Join(append(said, "label values for 1.2 kg/m³ and 1 m from the inlet in free air where a sheet is silent"), "; ")
}
