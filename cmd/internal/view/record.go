package view

import (
	"bytes"
	"encoding/json"

	"lowsone/acoustics"
	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// entry is one member of an object whose keys are not known before.
type entry struct {
	key   string
	value any
}

// object is a JSON object that keeps the order of its members.
type object []entry

// MarshalJSON writes the object.
func (o object) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, e := range o {
		if i > 0 {
			b.WriteByte(',')
		}
		key, err := json.Marshal(e.key)
		if err != nil {
			return nil, err
		}
		b.Write(key)
		b.WriteByte(':')
		if err := encoder(&b).Encode(e.value); err != nil {
			return nil, err
		}
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// recordJSON gives the known fields of a fan under the names and in the units
// of the tool's own CSV. Texts, choices and curves stand as they do there.
func recordJSON(f *catalog.Fan) object {
	fields := object{}
	for id := range catalog.Fields {
		d := &catalog.Fields[id]
		v, origin := d.Get(f)
		switch {
		case origin == quantity.Unknown:
		case d.Numeric():
			fields = append(fields, entry{d.Name, Number(d.InUnit(v.Number))})
		default:
			fields = append(fields, entry{d.Name, d.Format(f)})
		}
	}
	return fields
}

// originsJSON says where each known field comes from.
func originsJSON(f *catalog.Fan) object {
	origins := object{}
	for id := range catalog.Fields {
		d := &catalog.Fields[id]
		if _, origin := d.Get(f); origin != quantity.Unknown {
			origins = append(origins, entry{d.Name, origin.String()})
		}
	}
	return origins
}

// withDefaults gives a copy of a fan in which the trade's silent conventions
// stand as defaults: a level is a sound pressure level, 1 m from the fan.
func withDefaults(f *catalog.Fan) *catalog.Fan {
	full := *f
	if !full.Noise.Known() {
		return &full
	}
	if !full.NoiseKind.Known() {
		full.NoiseKind = quantity.From(catalog.NoisePressure, quantity.Default)
	}
	if full.NoiseKind.Or(0) == catalog.NoisePressure && !full.NoiseDistance.Known() {
		full.NoiseDistance = quantity.From(acoustics.LabelDistance, quantity.Default)
	}
	return &full
}
