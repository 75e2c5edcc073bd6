package devicefile

import (
	"lowsone/acoustics"
	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match"
)

// Bounds in the tables are what no room, device or measurement of this trade
// passes (common practice); they catch swapped units.

// The warmest and coldest rooms, and parts, in °C.
const (
	coldestRoom, hottestRoom = -40, 80
	coldestSpot, hottestSpot = -40, 400
)

// The nearest and farthest place from which people hear a device, in m.
const nearest, farthest = 0.01, 100

func deviceTable() table {
	return table{name: "device", entries: []entry{
		textLeaf("device", "what it is, in your own words", "rack amplifier", func(d *document) *placed[string] { return &d.device }).needed(),
		choiceLeaf("purpose", "what it is for: medical and safety devices and sealed mains modules are left to licensed people",
			match.Purposes, match.PurposeOrdinary, func(d *document) *placed[match.Purpose] { return &d.purpose }),
		part("room", "the room the device stands in", roomTable, func(d *document) *room { return &d.room }),
		amountLeaf("listener", "from the device to where people sit", "1.5 m", "m", nearest, farthest,
			func(d *document) *placed[quantity.Length] { return &d.listener }),
		list("paths", "each way the air takes through the device, with its fan or fans", pathTable, func(d *document) *[]path { return &d.paths }).needed(),
		list("noise", "other things in the device or the room that make noise", noiseTable, func(d *document) *[]noise { return &d.noise }),
		list("measured", "levels of the whole device, measured", readingTable, func(d *document) *[]reading { return &d.measured }),
	}}
}

func roomTable() table {
	return table{name: "room", entries: append([]entry{
		heatLeaf("now", "its temperature while you measured", "24 °C", coldestRoom, hottestRoom, func(r *room) *placed[quantity.Temperature] { return &r.now }),
		heatLeaf("worst", "the hottest it will be", "30 °C", coldestRoom, hottestRoom, func(r *room) *placed[quantity.Temperature] { return &r.worst }),
		amountLeaf("altitude", "above sea level, of the highest place the device will stand in", "300 m", "m", -500, 9000,
			func(r *room) *placed[quantity.Length] { return &r.altitude }),
		levelLeaf("level", "where people sit, with everything off", "24 dB(A)", func(r *room) *placed[quantity.SoundPressureLevel] { return &r.level }),
	}, bandKeys("{125: 30, 250: 25, 500: 21, 1000: 18, 2000: 15, 4000: 12}", func(r *room) *heard { return &r.heard })...)}
}

func noiseTable() table {
	return table{name: "noise", entries: append([]entry{
		textLeaf("name", "what makes the noise", "transformer", func(n *noise) *placed[string] { return &n.name }).needed(),
		levelLeaf("level", "its level at the distance", "28 dB(A)", func(n *noise) *placed[quantity.SoundPressureLevel] { return &n.level }).needed().unless(bandsKey, bandsFileKey),
		amountLeaf("distance", "from it to the meter", "1 m", "m", nearest, farthest, func(n *noise) *placed[quantity.Length] { return &n.distance }).needed(),
		amountLeaf("listener", "from it to where people sit, if that is not the device's", "2 m", "m", nearest, farthest,
			func(n *noise) *placed[quantity.Length] { return &n.listener }),
	}, bandKeys("{125: 40, 250: 30, 500: 25, 1000: 20, 2000: 15, 4000: 10}", func(n *noise) *heard { return &n.heard })...)}
}

func readingTable() table {
	return table{name: "reading", entries: append([]entry{
		levelLeaf("level", "with the fan running", "42 dB(A)", func(r *reading) *placed[quantity.SoundPressureLevel] { return &r.level }).needed().unless(bandsKey, bandsFileKey),
		amountLeaf("distance", "from the fan, or the device, to the meter", "1 m", "m", nearest, farthest,
			func(r *reading) *placed[quantity.Length] { return &r.distance }).needed(),
		levelLeaf("background", "the same place with everything off", "26 dB(A)", func(r *reading) *placed[quantity.SoundPressureLevel] { return &r.background }),
		choiceLeaf("when", "before a change, as found, or after it", moments, asFound, func(r *reading) *placed[moment] { return &r.when }),
		choiceLeaf("meter", "a sound level meter by its class, or an app on a phone", meters, acoustics.Class1, func(r *reading) *placed[acoustics.Meter] { return &r.meter }),
	}, bandKeys("{125: 46, 250: 42, 500: 39, 1000: 37, 2000: 33, 4000: 27}", func(r *reading) *heard { return &r.heard })...)}
}

// fanTable has the fields of the tool's own CSV; its part is looked up.
func fanTable() table {
	t := table{name: "fan", entries: []entry{
		textLeaf("part", "PART or MAKER/PART of the catalogue", "Ombrasco/OMB-625B56B3", func(f *fan) *placed[string] { return &f.part }),
		textLeaf("name", "what stands on its label, where it is not in the catalogue", "no-name 60 mm", func(f *fan) *placed[string] { return &f.name }).not("part", "part names a fan of the catalogue, name one that is not there"),
	}}
	for i := range catalog.Fields {
		if catalog.FieldID(i) != catalog.FieldPart {
			t.entries = append(t.entries, fieldEntry(&catalog.Fields[i]))
		}
	}
	return t
}

// fieldEntry reads a field of a fan into its values.
func fieldEntry(d *catalog.Field) entry {
	if d.Form == catalog.Bands {
		return noiseBandsEntry(d)
	}
	e := entry{name: d.Name, about: "its " + d.Title, example: fieldExamples[d.ID], form: formOfField(d), hidden: fieldExamples[d.ID] == "",
		read: func(r *reader, n *node, key Place, into any) {
			text, ok := r.word(d.Name, n)
			if !ok {
				return
			}
			v, err := d.Parse(spelled(d, text))
			if err != nil {
				r.refuse(d.Name, n.at, err)
				return
			}
			f := into.(*fan)
			f.values = append(f.values, fanValue{Value{d, v}, n.at})
		}}
	return e
}

// spelled writes YAML's own true and false as the tool's own CSV does.
func spelled(d *catalog.Field, text string) string {
	if d.ID != catalog.FieldPWM {
		return text
	}
	switch text {
	case "true":
		return "yes"
	case "false":
		return "no"
	}
	return text
}

func formOfField(d *catalog.Field) form {
	switch d.Form {
	case catalog.Choice:
		if d.ID == catalog.FieldPWM {
			return form{kind: formYesNo}
		}
		return form{kind: formChoice, words: d.Choices}
	case catalog.Text:
		return form{kind: formText}
	}
	return form{kind: formField, symbol: d.Unit.Symbol, low: d.Low, high: d.High}
}

// fieldExamples gives the fields of a label that the template asks for.
var fieldExamples = map[catalog.FieldID]string{
	catalog.FieldKind: "axial", catalog.FieldWidth: "60", catalog.FieldHeight: "60", catalog.FieldDepth: "25",
	catalog.FieldVoltage: "12", catalog.FieldSupply: "dc", catalog.FieldCurrent: "0.42", catalog.FieldSpeed: "5600",
	catalog.FieldAirflow: "47.5", catalog.FieldStaticPressure: "120", catalog.FieldNoise: "43", catalog.FieldTachPerRev: "2",
	catalog.FieldTempMax: "70",
}
