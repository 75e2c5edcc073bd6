package devicefile

import (
	"errors"
	"strings"
	"testing"
)

// The template is a device file: what is blank is not known.
func TestTemplateParsesAsItIs(t *testing.T) {
	var b strings.Builder
	if err := Template(&b); err != nil {
		t.Fatal(err)
	}
	if found := problemsOf(t, b.String()); len(found) != 1 || found[0].Reason != "nothing is filled in" {
		t.Errorf("problems of the blank template: %q", reasons(found))
	}
	least := template(func(of table, e entry) string {
		if of.name == "device" && e.name == "device" || of.name == "fan" && e.name == "part" {
			return e.example
		}
		return ""
	})
	f := parsed(t, "template", least)
	if f.Fans[0].Part != "Ombrasco/OMB-625B56B3" || len(f.Device.Paths) != 1 || len(f.Device.Paths[0].Spots) != 0 {
		t.Errorf("device of the template with a fan: %+v", f.Device)
	}
}

// Filled in, every key of the template is read, once as a device of one kind
// and once of another.
func TestTemplateFilled(t *testing.T) {
	// Of the bands' keys bands_file excludes bands, and the sum of its table is
	// that of a reading alone.
	other := map[string]string{
		"kind": "ac", "mains": "50 Hz", "slow_by": "none", "low": "220 V", "high": "235 V", "watches": "alarm", "alarm_kind": "high_when_turning",
		"count": "3", "pins": "live, neutral, alarm", "pwm": "none", "hole_diagonal": "70.7 mm",
	}
	one := template(example)
	two := template(func(of table, e entry) string {
		switch {
		case e.name == "bands", e.name == "level" && of.name != "reading":
			return ""
		case of.name == "fan" && e.name != "part":
			return e.example
		case of.name == "supply" && (e.name == "voltage" || e.name == "pulsed"), of.name == "leads" && strings.HasPrefix(e.name, "alarm_") && e.name != "alarm_kind",
			of.name == "fan" && (e.name == "part" || e.name == "supply"), e.name == "hole_pitch", of.name == "point", e.name == "outlet_width", e.name == "outlet_height":
			return ""
		case of.name == "supply" || of.name == "leads" || e.name == "slow_by" || e.name == "hole_diagonal":
			if v, ok := other[e.name]; ok {
				return v
			}
		}
		return e.example
	})
	two = strings.Replace(two, "supply: dc", "supply: ac", 1)
	filled := map[string]bool{}
	for name, data := range map[string]string{"one": one, "two": two} {
		parsed(t, name, data)
		eachLeaf(deviceTable(), func(of table, e entry) {
			if strings.Contains(data, e.name+": ") {
				filled[of.name+": "+e.name] = true
			}
		})
	}
	eachLeaf(deviceTable(), func(of table, e entry) {
		if of.name != "point" && !e.hidden && !filled[of.name+": "+e.name] {
			t.Errorf("%s: %s is in neither", of.name, e.name)
		}
	})
}

// The pieces of geometry stand in the template as comments that can be taken
// as they are.
func TestTemplatePieces(t *testing.T) {
	var pieces []string
	for line := range strings.Lines(template(func(table, entry) string { return "" })) {
		if _, piece, ok := strings.Cut(line, "# - "); ok {
			pieces = append(pieces, "        - "+piece)
		}
	}
	if want := len(pieceTable().entries) - 1; len(pieces) != want { // all but branches
		t.Fatalf("%d pieces in the template, want %d: %q", len(pieces), want, pieces)
	}
	f := parsed(t, "pieces", "device: x\npaths:\n  - fan: {part: y}\n    resistance:\n      geometry:\n"+strings.Join(pieces, ""))
	if got := len(f.Device.Paths[0].Way.Geometry); got != len(pieces) {
		t.Errorf("%d pieces read, want %d", got, len(pieces))
	}
}

// No line of the template is longer than a screen is wide, but for the pieces.
func TestTemplateWidth(t *testing.T) {
	for line := range strings.Lines(template(example)) {
		if n := columns(strings.TrimRight(line, "\n")); n > 110 && !strings.Contains(line, "# - ") {
			t.Errorf("a line of %d columns: %s", n, line)
		}
	}
}

type fullDisk struct{}

func (fullDisk) Write([]byte) (int, error) { return 0, errFull }

var errFull = errors.New("no space left")

func TestTemplateTellsOfAFailedWrite(t *testing.T) {
	if err := Template(fullDisk{}); !errors.Is(err, errFull) {
		t.Errorf("Template = %v, want %v", err, errFull)
	}
}
