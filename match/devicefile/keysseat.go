package devicefile

import (
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match"
)

func spaceTable() table {
	size := func(name, about, example string, at func(*space) *placed[quantity.Length]) entry {
		return amountLeaf(name, about, example, "mm", 2, 2000, at)
	}
	kinds := append([]string{"any"}, catalog.Fields[catalog.FieldKind].Choices...)
	return table{name: "space", entries: []entry{
		size("width", "of the frame that fits", "60 mm", func(s *space) *placed[quantity.Length] { return &s.width }),
		size("height", "of the frame that fits", "60 mm", func(s *space) *placed[quantity.Length] { return &s.height }),
		size("depth", "the deepest fan there is room for", "38 mm", func(s *space) *placed[quantity.Length] { return &s.depth }),
		size("hole_pitch", "from one mounting hole to the next along a side", "50 mm", func(s *space) *placed[quantity.Length] { return &s.holePitch }),
		size("hole_diagonal", "from one mounting hole to the one opposite", "70.7 mm", func(s *space) *placed[quantity.Length] { return &s.holeDiagonal }).not("hole_pitch", "keep the one you measured"),
		choiceLeaf("kind", "of fan the seat takes; any lets axial fans and blowers be exchanged", kinds, anyKind, func(s *space) *placed[seatKind] { return &s.kind }),
		size("outlet_width", "of the opening a blower blows into", "22 mm", func(s *space) *placed[quantity.Length] { return &s.outletWidth }),
		size("outlet_height", "of that opening", "15 mm", func(s *space) *placed[quantity.Length] { return &s.outletHeight }),
	}}
}

func supplyTable() table {
	volts := func(name, about, example string, at func(*supply) *placed[quantity.Voltage]) entry {
		return amountLeaf(name, about, example, "V", 0.5, 1000, at)
	}
	return table{name: "supply", entries: []entry{
		choiceLeaf("kind", "direct or alternating current", catalog.Fields[catalog.FieldSupply].Choices, supplyKind(catalog.DC), func(s *supply) *placed[supplyKind] { return &s.kind }),
		volts("voltage", "with the fan running, where it is always the same", "12 V", func(s *supply) *placed[quantity.Voltage] { return &s.voltage }),
		volts("low", "the lowest, where it changes", "7 V", func(s *supply) *placed[quantity.Voltage] { return &s.low }).not("voltage", "voltage is for a supply that never changes, low and high for one that does"),
		volts("high", "the highest, where it changes", "12.2 V", func(s *supply) *placed[quantity.Voltage] { return &s.high }).not("voltage", "voltage is for a supply that never changes, low and high for one that does"),
		amountLeaf("current", "the most the output can give", "0.5 A", "A", 0.001, 100, func(s *supply) *placed[quantity.Current] { return &s.current }),
		amountLeaf("mains", "frequency, for AC fans", "50 Hz", "Hz", 15, 1000, func(s *supply) *placed[quantity.Frequency] { return &s.mains }),
		yesLeaf("pulsed", "the supply is chopped to slow the fan", "no", func(s *supply) *placed[bool] { return &s.pulsed }),
		textLeaf("output", "name of the device's output; fans of one name share it", "fan 1", func(s *supply) *placed[string] { return &s.output }),
	}}
}

func leadsTable() table {
	return table{name: "leads", entries: []entry{
		countLeaf("count", "of the plug", "3", 1, 12, func(l *leads) *placed[float64] { return &l.count }),
		textLeaf("connector", "the plug", "friction-lock header, 2.54 mm", func(l *leads) *placed[string] { return &l.connector }),
		pinsLeaf("pins", "what each pin does, from pin 1 on, measured: the same plug is not the same order", "minus, plus, tach"),
		choiceLeaf("watches", "what the device does with the third lead", match.Watches, match.Unwatched, func(l *leads) *placed[match.Watch] { return &l.watches }).as("tach"),
		speedLeaf("alarm_below", "the speed, or share of the fitted fan's, below which the device complains", "2500 rpm", func(l *leads) *placed[match.Speed] { return &l.alarmBelow }),
		countLeaf("alarm_pulses", "a turn that the device counts with", "2", 1, 24, func(l *leads) *placed[float64] { return &l.alarmPulses }),
		choiceLeaf("alarm_kind", "of an alarm lead, while the fan turns", match.AlarmKinds, match.AlarmLowRuns, func(l *leads) *placed[match.AlarmKind] { return &l.alarmKind }),
		choiceLeaf("pwm", "what the device does with a PWM lead", match.PWMLines, match.PWMDriven, func(l *leads) *placed[match.PWMLine] { return &l.pwm }).as("none"),
	}}
}

func nearTable() table {
	return table{name: "near", entries: []entry{
		clearanceLeaf("grille", "from the blades to the nearest grille or guard, or none", "12 mm", func(n *near) *placed[match.Clearance] { return &n.grille }),
		clearanceLeaf("filter", "to the filter, or none", "none", func(n *near) *placed[match.Clearance] { return &n.filter }),
		clearanceLeaf("inlet_obstacle", "to whatever stands before the inlet, or none", "40 mm", func(n *near) *placed[match.Clearance] { return &n.inletObstacle }),
		clearanceLeaf("outlet_obstacle", "to whatever stands behind the outlet, or none", "30 mm", func(n *near) *placed[match.Clearance] { return &n.outletObstacle }),
	}}
}

// pinsLeaf reads words between commas, or a list of words.
func pinsLeaf(name, about, example string) entry {
	return entry{name: name, about: about, example: example, form: form{kind: formWords, words: match.PinNames},
		read: func(r *reader, n *node, key Place, into any) {
			words := n.items
			if n.shape != listing {
				text, ok := r.word(name, n)
				if !ok {
					return
				}
				for part := range strings.SplitSeq(text, ",") {
					words = append(words, &node{at: n.at, shape: word, word: part})
				}
			}
			pins := placed[[]match.Pin]{given: len(words) > 0, at: n.at}
			for _, w := range words {
				pin, err := oneOf(strings.TrimSpace(w.word), match.PinNames)
				if err != nil {
					r.refuse(name, w.at, err)
					return
				}
				pins.v = append(pins.v, match.PinMinus+match.Pin(pin))
			}
			into.(*leads).pins = pins
		}}
}
