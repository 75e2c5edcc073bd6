package view

import (
	"fmt"
	"io"
	"strings"

	"lowsone/match"
	"lowsone/match/devicefile"
)

// DeviceNew says that an empty device file was written.
type DeviceNew struct{ File string }

// JSON gives the object of device new.
func (d *DeviceNew) JSON() any {
	return struct {
		Schema
		File    string `json:"file"`
		Caution string `json:"caution"`
	}{File: d.File, Caution: Caution}
}

// Text writes it for people.
func (d *DeviceNew) Text(w io.Writer, s Style) error {
	p := &printer{w: w, style: s.within(proseWidth)}
	p.wrapped("", Clean(fmt.Sprintf("%s is written: fill in what you know, then: lowsone device check %s", d.File, d.File)))
	p.caution()
	return p.err
}

// DeviceCheck says what a device file knows, assumes and lacks.
type DeviceCheck struct {
	File      string
	Device    *match.Device
	Report    devicefile.Report
	All       bool   // what is known is shown too
	NotLooked string // why the fans were not looked up; empty where they were
	Paths     []DeviceReady
}

// DeviceReady says whether what is known of a path is enough to rank fans for it.
type DeviceReady struct {
	Path    int    // index into the device's paths
	Lacks   string // why it is not; empty where it is
	Hint    string // how that is mended
	Unknown bool   // it was not tried: there is no catalogue
}

// weightTitles heads what is open, by devicefile.Weight.
var weightTitles = [...]string{"decides", "sharpens", "rounds off"}

// weightMeans says what hangs on it, by devicefile.Weight.
var weightMeans = [...]string{
	"a wrong fan, or a stopped device, may come of what is open here",
	"each answer narrows a band, or settles a check",
	"good to have",
}

// Text writes the report for people.
func (d *DeviceCheck) Text(w io.Writer, s Style) error {
	p := &printer{w: w, style: s.within(proseWidth)}
	p.facts(d.head())
	open := d.Report.Open()
	told := map[string]bool{} // what an assumption is good for is told once
	for weight, title := range weightTitles {
		var f facts
		for _, item := range open {
			if int(item.Weight) == weight {
				if again := told[item.Why]; item.State == devicefile.Assumed {
					told[item.Why] = true
					if again {
						item.Why = ""
					}
				}
				f.add(d.place(item), openWords(item))
			}
		}
		d.section(p, title+": "+weightMeans[weight], f)
	}
	if d.All {
		var f facts
		for _, item := range d.Report.Items {
			if item.State == devicefile.Known {
				f.add(d.place(item), item.Value)
			}
		}
		d.section(p, "known", f)
	}
	if next := d.next(); len(next) > 0 {
		p.line("")
		p.facts(next)
	}
	p.caution()
	return p.err
}

// next says what the file is enough for.
func (d *DeviceCheck) next() facts {
	var f facts
	for _, ready := range d.Paths {
		command := "lowsone rank " + d.File
		if len(d.Device.Paths) > 1 {
			command += fmt.Sprintf(" --path %q", d.Device.PathName(ready.Path))
		}
		switch {
		case ready.Unknown:
			f.add("next", "lowsone import PARTS.csv, then: "+command)
		case ready.Lacks == "":
			f.add("enough for", command)
		case ready.Hint == "":
			f.add("too little", "for "+command+": "+ready.Lacks)
		default:
			f.add("too little", "for "+command+": "+ready.Lacks+": "+ready.Hint)
		}
	}
	return f
}

func (d *DeviceCheck) section(p *printer, title string, f facts) {
	if len(f) == 0 {
		return
	}
	p.line("")
	p.line("%s", p.style.Bold(title))
	for _, one := range f {
		p.hung("  ", "    ", Clean(one.name+": "+one.says))
	}
}

// head says what the file is of, and counts.
func (d *DeviceCheck) head() facts {
	var f facts
	f.add("device", d.Device.Name)
	var names []string
	for i := range d.Device.Paths {
		names = append(names, d.Device.PathName(i))
	}
	f.add("paths", strings.Join(names, ", "))
	n := d.counts()
	said := fmt.Sprintf("known: %d, assumed: %d, missing: %d, doubtful: %d",
		n[devicefile.Known], n[devicefile.Assumed], n[devicefile.Missing], n[devicefile.Doubtful])
	if !d.All && n[devicefile.Known] > 0 {
		said += "; --all shows what is known"
	}
	f.add("items", said)
	if d.NotLooked != "" {
		f.add("note", "the fans were not looked up: "+d.NotLooked)
	}
	return f
}

func (d *DeviceCheck) counts() (n [4]int) {
	for _, item := range d.Report.Items {
		n[item.State]++
	}
	return n
}

// place names an item, with its path where there are several. What may be measured
// of the whole device and of a path alike is told apart always.
func (d *DeviceCheck) place(item devicefile.Item) string {
	if item.Path == devicefile.WholeDevice && strings.HasPrefix(item.Key, "measured") {
		return "whole device: " + item.Key
	}
	if item.Path == devicefile.WholeDevice || len(d.Device.Paths) == 1 {
		return item.Key
	}
	return d.Device.PathName(item.Path) + ": " + item.Key
}

func openWords(item devicefile.Item) string {
	said := item.State.String()
	switch {
	case item.State == devicefile.Doubtful:
		said = item.Value + ", doubtful"
	case item.Value != "":
		said += ", " + item.Value
	}
	if item.Why == "" {
		return said
	}
	return said + " – " + item.Why
}

type deviceCheckJSON struct {
	Schema
	File      string         `json:"file"`
	Device    string         `json:"device,omitempty"`
	Paths     List[string]   `json:"paths"`
	Known     int            `json:"known"`
	Assumed   int            `json:"assumed"`
	Missing   int            `json:"missing"`
	Doubtful  int            `json:"doubtful"`
	Items     List[itemJSON] `json:"items"`
	NotLooked string         `json:"not_looked_up,omitempty"`

	Ready   List[readyJSON] `json:"rank"`
	Caution string          `json:"caution"`
}

type readyJSON struct {
	Path   string `json:"path"`
	Enough *bool  `json:"enough,omitempty"` // absent: not tried
	Lacks  string `json:"lacks,omitempty"`
	Hint   string `json:"hint,omitempty"`
}

type itemJSON struct {
	Path    string `json:"path,omitempty"`
	Key     string `json:"key"`
	State   string `json:"state"`
	Value   string `json:"value,omitempty"`
	Why     string `json:"why,omitempty"`
	Weight  string `json:"weight"`
	Pitfall int    `json:"pitfall,omitempty"`
}

// JSON gives the object of device check.
func (d *DeviceCheck) JSON() any {
	n := d.counts()
	j := deviceCheckJSON{
		File: d.File, Device: d.Device.Name, NotLooked: d.NotLooked, Caution: Caution,
		Known: n[devicefile.Known], Assumed: n[devicefile.Assumed], Missing: n[devicefile.Missing], Doubtful: n[devicefile.Doubtful],
	}
	for i := range d.Device.Paths {
		j.Paths = append(j.Paths, d.Device.PathName(i))
	}
	for _, item := range d.Report.Items {
		one := itemJSON{Key: item.Key, State: item.State.String(), Value: item.Value, Why: item.Why, Weight: weightTitles[item.Weight], Pitfall: item.Pitfall}
		if item.Path != devicefile.WholeDevice {
			one.Path = d.Device.PathName(item.Path)
		}
		j.Items = append(j.Items, one)
	}
	for _, r := range d.Paths {
		one := readyJSON{Path: d.Device.PathName(r.Path), Lacks: r.Lacks, Hint: r.Hint}
		if enough := r.Lacks == ""; !r.Unknown {
			one.Enough = &enough
		}
		j.Ready = append(j.Ready, one)
	}
	return j
}

// DeviceProblems is what is wrong with a device file, for programs; people read
// it as the error it is.
type DeviceProblems struct {
	File  string
	Error *devicefile.Error
}

type problemJSON struct {
	Line   int    `json:"line,omitempty"`
	Column int    `json:"column,omitempty"`
	Reason string `json:"reason"`
	Hint   string `json:"hint,omitempty"`
	Source string `json:"source,omitempty"`
}

// JSON gives the object of device check for a file that is wrong.
func (d *DeviceProblems) JSON() any {
	j := struct {
		Schema
		File     string            `json:"file"`
		Problems List[problemJSON] `json:"problems"`
		More     int               `json:"more"`
	}{File: d.File, More: d.Error.More}
	for _, p := range d.Error.Problems {
		j.Problems = append(j.Problems, problemJSON{p.At.Line, p.At.Column, p.Reason, p.Hint, p.Line})
	}
	return j
}

// Text writes nothing: the error says it.
func (d *DeviceProblems) Text(io.Writer, Style) error { return nil }
